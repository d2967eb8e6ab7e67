"""An event at the water's edge: its people, and rows of tanks, releases and pens written through the pages' own forms."""

import re
from html import unescape
from typing import Any

from django.test import Client
from django.urls import reverse

from weighin.audit.models import HistoryEntry
from weighin.events.models import Event


def text(answer: Any) -> str:
    """The page's words, without tags; no-break spaces as spaces."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).replace("\xa0", " ").split())


def faults(answer: Any) -> dict[str, str]:
    """The faults of the page's form by field; the answer must not have gone through."""
    assert answer.status_code == 200, answer.status_code
    return {name: " ".join(said) for name, said in answer.context["form"].errors.items()}


def send(client: Client, event: Event, name: str, *args: Any, **data: str) -> Any:
    """Post a form of an event's page."""
    return client.post(reverse(name, args=[event.slug, *args]), data)


def page(client: Client, event: Event, name: str, *args: Any, **asked: str) -> Any:
    return client.get(reverse(name, args=[event.slug, *args]), asked)


def acts(event: Event) -> list[str]:
    """What the history says was done, oldest first."""
    return list(HistoryEntry.objects.filter(event_id=event.pk).order_by("id").values_list("act", flat=True))


def again(answer: Any, **changed: str) -> dict[str, str]:
    """What a form that was opened sends, with some fields written anew."""
    form = answer.context["form"]
    return {**{name: str(form[name].value() or "") for name in form.fields}, **changed}

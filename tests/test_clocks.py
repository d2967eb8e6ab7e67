"""Every page shows moments by one clock, that of the event's water, and says so: never the server's, never UTC."""

import re
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import world
from django.test import Client
from django.urls import URLResolver, get_resolver, reverse
from django.utils import timezone

from weighin.audit.models import HistoryEntry
from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.standings.models import OfficialResult
from weighin.standings.queries.document import event_part, result_part
from weighin.standings.queries.standings import standings_of
from weighin.stations.models import Station

pytestmark = pytest.mark.django_db
EVENING = datetime(2026, 4, 2, 1, 40, tzinfo=UTC)  # 8:40 in the evening of the 1st in Chicago


def evening() -> Event:
    """An event whose result was official, and of which something was done, in the evening: another day already in UTC."""
    event = world.plain()
    document = {"event": event_part(event, True), **result_part(standings_of(event))}
    OfficialResult.objects.create(
        event=event, version=1, document=document, ledger_length=1, ledger_head="0" * 64, published_by="anna",
        published_at=EVENING,
    )  # fmt: skip
    Station.objects.create(
        event=event, name="Table", token_digest="0" * 64, can="weigh", made_at=EVENING, made_by="anna"
    )
    Event.objects.filter(pk=event.pk).update(is_public=True, closed_at=EVENING)
    with writing():
        log_history("anna", "test", "Something was done", club_id=event.club.pk, event_id=event.pk)
    return event


def pages(event: Event, client: Client) -> dict[str, str]:
    """Every page of the event and its club, by address, that needs no more than their names."""
    known = {"event_slug": event.slug, "club_slug": event.club.slug, "season_slug": event.season.slug, "version": 1}
    found = {}
    for route in sorted(_routes(get_resolver().url_patterns)):
        address = "/" + re.sub(r"<(?:\w+:)?(\w+)>", lambda part: str(known.get(part[1], part[0])), route)
        if "<" in address or "/api/" in address:
            continue
        answer = client.get(address)
        html = "" if answer.streaming else answer.content.decode(errors="ignore")
        if answer.status_code == 200 and html.lstrip().startswith("<!doctype html>"):
            found[address] = html
    return found


def _routes(patterns: Iterable[Any], before: str = "") -> Iterator[str]:
    for pattern in patterns:
        route = before + str(pattern.pattern)
        yield from _routes(pattern.url_patterns, route) if isinstance(pattern, URLResolver) else [route]


def test_no_page_hangs_on_the_server_s_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    event, now = evening(), timezone.now()
    monkeypatch.setattr(timezone, "now", lambda: now)
    client = world.member(event.club)
    pages(event, client)  # what is worked out once, with a line in the history, is worked out now
    seen = {}
    for zone in ("UTC", "Asia/Tokyo", "America/Los_Angeles"):
        with timezone.override(zone):
            seen[zone] = pages(event, client)
    assert len(seen["UTC"]) > 30
    for address, html in seen["UTC"].items():
        for zone in ("Asia/Tokyo", "America/Los_Angeles"):
            assert _shown(seen[zone][address]) == _shown(html), (address, zone)


def _shown(html: str) -> list[str]:
    """What a page shows of times and dates: the text outside marks."""
    text = re.sub(r"<(script|style|svg).*?</\1>", " ", html, flags=re.DOTALL)
    return re.findall(
        r"\b[0-9]{1,2}:[0-9]{2}\b|\b(?:March|Mar|April|Apr|November|Nov) [0-9]{1,2}\b", re.sub(r"<[^>]+>", " ", text)
    )


def test_every_page_of_an_event_says_whose_clock_it_is_and_none_says_utc() -> None:
    event = evening()
    for address, html in pages(event, world.member(event.club)).items():
        text = re.sub(r"(?s)<script\b.*?</script>|<[^>]+>", " ", html)  # a script is not read by people
        assert "UTC" not in text, address
        of_it = event.slug in address or event.club.slug in address
        if of_it and "/screen/" not in address and re.search(r"\b[0-9]{1,2}:[0-9]{2}\b", text):
            assert "America/Chicago" in text or re.search(r"\bC[SD]T\b", text), address


def test_official_results_bear_the_local_date() -> None:
    event = evening()
    public = Client()
    for address in (reverse("public:event", args=[event.slug]), reverse("public:standings", args=[event.slug])):
        html = public.get(address).content.decode()
        assert "April 2" not in html and "Apr 2" not in html, address
    assert "Apr 1, 8:40 PM" in public.get(reverse("public:result", args=[event.slug, 1])).content.decode()


def test_the_history_is_in_the_event_s_time_and_labelled() -> None:
    event = evening()
    at = HistoryEntry.objects.filter(event_id=event.pk).latest("at").at
    local = at.astimezone(ZoneInfo("America/Chicago"))
    client = world.member(event.club)
    for address in (
        reverse("operations:history", args=[event.slug]), reverse("operations:club_history", args=[event.club.slug]),
    ):  # fmt: skip
        assert f"{local:%-I:%M %p}\u00a0{local:%Z}" in client.get(address).content.decode(), address

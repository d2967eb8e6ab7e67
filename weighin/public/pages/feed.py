"""A club's results as JSON Feed 1.1 (https://www.jsonfeed.org/version/1.1/)."""

import uuid
from collections.abc import Callable
from datetime import datetime
from typing import Any

from django.urls import reverse

from weighin.clubs.models import Club
from weighin.public.pages.press import finding, press_text, state_of
from weighin.public.queries.club_site import Published, moment_of

VERSION = "https://jsonfeed.org/version/1.1"


def club_feed(club: Club, results: list[Published], whole: Callable[[str], str]) -> dict[str, Any]:
    """The feed; ``whole`` makes the absolute address of a path."""
    return {
        "version": VERSION,
        "title": club.name,
        "home_page_url": whole(reverse("public:club", args=[club.slug])),
        "feed_url": whole(reverse("public:feed", args=[club.slug])),
        "items": [_item(one, whole) for one in results],
    }


def _item(one: Published, whole: Callable[[str], str]) -> dict[str, Any]:
    """One event: its item stays the same from the posting on, and changes with every version."""
    event = one.event
    return {
        "id": f"urn:uuid:{uuid.uuid5(uuid.NAMESPACE_URL, f'results/{event.slug}/')}",
        "url": whole(reverse("public:event", args=[event.slug])),
        "title": f"{event.name}: {state_of(one.latest)}",
        "summary": finding(event, one.latest),
        "content_text": press_text(event, one.latest),
        "date_published": _moment(moment_of(one.first)),
        "date_modified": _moment(moment_of(one.latest)),
        "tags": ["provisional" if one.version is None else "official"],
    }


def _moment(moment: datetime) -> str:
    """By RFC 3339, as the format asks."""
    return moment.isoformat()

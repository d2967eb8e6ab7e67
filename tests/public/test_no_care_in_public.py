"""No public page or file tells how a named boat kept its fish: only members read care notes."""

import io
import re
from collections.abc import Iterator
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import URLResolver, get_resolver
from pypdf import PdfReader
from second_reading.plain_event import plain_event

from weighin.events.models import Event
from weighin.standings.models import OfficialResult
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db
# Figures that nothing else of the event holds, and the names by which care stands in files
CARE = {
    "livewell_gal": "24.37", "ice_lb": "13.41", "livewell_temp": "58.23 F", "livewell_do": "7.19", "most_on_board": "613",
    "deep_hooked": "517", "barotrauma": "419", "reflexes_absent": "311", "reflexes_checked": "727", "note": "Pump was off at noon",
}  # fmt: skip
NAMES = (
    "fish_care",
    "checks_failed",
    "checks_passed",
    "minutes_held",
    "minutes_in_bag",
    "pump_ok",
    "aeration",
    "livewell_do",
)


def cared_for() -> Event:
    sheets = plain_event()
    sheets["Fish care"] = [
        {"day": "1", "boat": "1", "pump_ok": "no", "aeration": "pumped", "launched": "06:10", **CARE}
    ]
    event = world.event_of(sheets)
    publish_result(event, "test")
    event.refresh_from_db()
    return event


def public_answers(event: Event) -> Iterator[tuple[str, str]]:
    """Every address that somebody without a log-in gets an answer from, with the answer."""
    known = {
        "event_slug": event.slug,
        "club_slug": event.club.slug,
        "season_slug": event.season.slug,
        "version": 1,
        "boat": 1,
    }
    known |= {"day": 1, "number": 1, "form": "csv"}
    for route in sorted(set(_routes(get_resolver().url_patterns))):
        address = "/" + re.sub(r"<(?:\w+:)?(\w+)>", lambda part: str(known.get(part[1], part[0])), route)
        if "<" not in address and "openapi" not in address:
            for query in ("", "?why=1", f"?event={event.slug}"):
                answer = Client().get(address + query)
                if answer.status_code == 200 and not answer.streaming:
                    yield address + query, _text(answer.content)


def _text(content: bytes) -> str:
    """What can be read of an answer; of a PDF the words on its pages, not its packed bytes."""
    if content.startswith(b"%PDF"):
        return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)
    return content.decode(errors="ignore")


def _routes(patterns: list[Any], before: str = "") -> Iterator[str]:
    for pattern in patterns:
        route = before + str(pattern.pattern)
        yield from _routes(pattern.url_patterns, route) if isinstance(pattern, URLResolver) else [route]


def _holds(text: str, word: str) -> bool:
    """Whether the word stands in the text by itself: tokens and digests are drawn anew each time, figures among letters."""
    return re.search(rf"(?<![\w.]){re.escape(word)}(?![\w.])", text) is not None


def test_no_public_answer_holds_a_care_note_s_figures() -> None:
    event = cared_for()
    found = dict(public_answers(event))
    assert {f"/results/{event.slug}/", f"/api/events/{event.slug}", f"/results/{event.slug}/standings/?why=1"} <= set(
        found
    )
    for address, answer in found.items():
        text = re.sub(r"<svg.*?</svg>", "", answer, flags=re.DOTALL)  # a drawing's coordinates are any figures
        for word in (*CARE.values(), "58.23") if event.slug in address else ():
            assert not _holds(text, word), (address, word)
        if address.startswith(("/results/", "/api/")):
            for name in NAMES:
                assert name not in text, (address, name)


def test_the_frozen_result_holds_none_either() -> None:
    event = cared_for()
    text = str(OfficialResult.objects.get(event=event).document)
    assert not [word for word in CARE.values() if _holds(text, word)] and not [name for name in NAMES if name in text]

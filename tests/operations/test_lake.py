"""What the day's page asks for while the boats come in."""

import uuid
from datetime import timedelta

import pytest
from checkin.clock import Clock, clock
from django.urls import reverse
from django.utils import timezone
from slips.table import record
from stations.speaking import Speaker, message, new_id
from world import member

from weighin.accounts.domain.roles import Can
from weighin.checkin.models import CheckIn
from weighin.events.models import Event
from weighin.line.queries import day_of, line_of
from weighin.line.services.words import say
from weighin.operations.queries.day_tasks import day_tasks
from weighin.scales.services.scales import write_check, write_scale
from weighin.slips.services.pads import hand_out

__all__ = ["clock"]

pytestmark = pytest.mark.django_db


def said(event: Event, *cans: Can) -> list[str]:
    return [sentence for sentence, _ in day_tasks(event, set(cans or Can), line_of(event))]


def test_a_quiet_event_wants_nothing(event: Event) -> None:
    record(event)
    assert said(event) == []


def test_boats_that_are_out_are_named_and_then_counted(event: Event) -> None:
    table = Speaker(event)
    line = {
        "day": 1,
        "boat": 1,
        "whereabouts": "launched",
        "told_at": "2026-06-20T06:10:00-05:00",
        "official": "R. Quill",
    }
    assert table.one({"id": new_id(), **line}, what="checkins")["state"] == "kept"
    (first,) = said(event)
    out = event.entries.filter(status="entered").count()
    assert first.startswith("Boats still out:") and CheckIn.objects.count() == 1
    for boat in event.entries.values_list("boat", flat=True):
        assert table.one(message(boat=boat))["state"] == "kept"
    assert said(event) == [f"Boats still out: 1 to {out}. Who has seen them?"], "a slip proves nothing"
    for boat in event.entries.exclude(boat=1).values_list("boat", flat=True):
        seen = {"id": new_id(), "day": 1, "boat": boat, "whereabouts": "in_by_road"}
        assert table.one(seen, what="checkins")["state"] == "kept"
    assert said(event) == ["Boat still out: 1. Who has seen it?"]
    assert said(event, Can.VIEW_EVENT) == []


def test_a_held_line_and_its_resumption(event: Event) -> None:
    day = day_of(event)
    say(event, day, "hold", "quill", word_id=uuid.uuid4(), oxygen_minutes=10)
    assert said(event) == ["The line is on hold: a named person lets it go on."]
    say(event, day, "resume", "quill", word_id=uuid.uuid4(), person="R. Quill")
    assert said(event) == []


def test_scales_that_wait_for_a_test_and_one_that_failed(event: Event, clock: Clock) -> None:
    clock("2026-06-20T13:00:00-05:00")
    scale = write_scale(event, {"name": "A", "division": "0.01"}, "quill")
    assert said(event) == ["Scale A has no test today: put a test weight on it."]
    test = {"moment": "before", "test_weight": "5.00", "tested_by": "R. Quill"}
    write_check(scale, {**test, "shown": "5.00"}, "quill")
    assert said(event) == []
    clock("2026-06-20T15:00:00-05:00")
    record(event, weighed="14:30")
    write_check(scale, {**test, "moment": "during", "shown": "5.30"}, "quill")
    assert said(event) == ["1 slip is in doubt: a scale failed its test."]
    assert said(event, Can.RECORD_SLIP) == []


def test_missing_paper_is_the_directors(event: Event) -> None:
    hand_out(event, "green", "101", "103", "R. Quill", "quill")
    assert said(event) == ["Paper slips missing: 101 to 103."]
    assert said(event, Can.RECORD_SLIP) == []


def test_a_closed_event_wants_nothing(event: Event) -> None:
    hand_out(event, "green", "101", "103", "R. Quill", "quill")
    event.closed_at = timezone.now() - timedelta(minutes=1)
    assert said(event) == []


def test_the_days_page_shows_them_and_leads_to_the_lake(event: Event) -> None:
    hand_out(event, "green", "101", "103", "R. Quill", "quill")
    html = member(event.club).get(reverse("operations:day", args=[event.slug])).content.decode()
    assert "Paper slips missing: 101 to 103." in html
    for name in (
        "checkin:roll",
        "line:line",
        "slips:scales",
        "stations:stations",
        "slips:pads",
        "care:ramp",
        "tanks:account",
    ):
        assert f'href="{reverse(name, args=[event.slug])}"' in html

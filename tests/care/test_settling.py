"""Two care notes that contradict each other: shown beside each other, settled by an official, kept in the history."""

from typing import Any

import pytest
import world
from stations.speaking import Speaker, new_id
from tanks.shore import acts, page, send, text

from weighin.accounts.domain.roles import Role
from weighin.care.models import CareNote
from weighin.care.queries.care import waiting_notes
from weighin.events.models import Event
from weighin.standings.services import set_closed


@pytest.fixture
def event(db: None) -> Event:
    found = world.event()
    phone = Speaker(found, "Ramp", can=("care",))
    first = {"pump_ok": True, "ice_lb": "20", "launched": "2026-06-20T06:10:00-05:00"}
    other = {"pump_ok": False, "first_fish": "2026-06-20T07:10:00-05:00", "official": "A. Sedge"}
    for said in (first, other):
        phone.one({"id": new_id(), "day": 1, "boat": 1, **said}, "care")
    return found


@pytest.fixture
def official(event: Event) -> Any:
    return world.member(event.club, Role.FISH_CARE_OFFICIAL)


def test_both_are_shown_and_linked(event: Event, official: Any) -> None:
    for answer in (page(official, event, "care:notes"), page(official, event, "care:note", 1, 1)):
        assert "See both and settle it" in text(answer)
        assert f"/events/{event.slug}/care/settle/2/" in answer.content.decode()
    said = text(page(official, event, "care:note_settle", 2))
    assert "Pump runs yes" in said and "Pump runs no" in said and "20 lb" in said
    assert "tablet Ramp, seen by A. Sedge" in said and "station Ramp" not in said
    reader = world.member(event.club, Role.CLUB_REVIEWER)
    assert "contradict each other" in text(page(reader, event, "care:notes")) and "See both" not in text(
        page(reader, event, "care:notes")
    )


def test_what_it_says_is_put_over_what_stands(event: Event, official: Any) -> None:
    revision = Event.objects.get(pk=event.pk).revision
    assert send(official, event, "care:note_settle", 2, holds="sent", reason="seen twice").status_code == 302
    note = CareNote.objects.get()
    assert (note.pump_ok, note.ice_lb) == (False, "20") and note.launched is not None and note.first_fish is not None
    assert not waiting_notes(event.pk).exists()
    assert acts(event)[-2:] == ["care.changed", "care.settled"]
    assert Event.objects.get(pk=event.pk).revision > revision


def test_what_stands_may_hold(event: Event, official: Any) -> None:
    assert send(official, event, "care:note_settle", 2, holds="kept", reason="wrong boat").status_code == 302
    note = CareNote.objects.get()
    assert note.pump_ok is True and note.first_fish is None
    assert not waiting_notes(event.pk).exists() and acts(event)[-1] == "care.settled"
    assert send(official, event, "care:note_settle", 2, holds="kept", reason="again").status_code == 404


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"holds": "sent", "reason": " "}, "Add the reason"),
        ({"holds": "sent", "reason": "x" * 301}, "300 characters or fewer"),
        ({"reason": "seen twice"}, "Choose which of the two is right"),
    ],
)
def test_what_is_missing_is_said_and_changes_nothing(
    event: Event, official: Any, data: dict[str, str], words: str
) -> None:
    answer = send(official, event, "care:note_settle", 2, **data)
    assert answer.status_code == 200 and words in text(answer)
    assert data["reason"].strip() in answer.content.decode()
    assert waiting_notes(event.pk).count() == 1 and CareNote.objects.get().pump_ok is True


def test_a_closed_event_stays_as_it_is(event: Event, official: Any) -> None:
    set_closed(event, True, "quill")
    answer = send(official, event, "care:note_settle", 2, holds="sent", reason="late")
    assert "is closed" in text(answer) and waiting_notes(event.pk).count() == 1

"""Check-ins over the wire: the roll of boats, by the same rules as slips."""

from typing import Any

import pytest
import world
from django.db import DatabaseError, connection, transaction
from stations.speaking import Speaker, fields, new_id

from weighin.audit.models import HistoryEntry
from weighin.checkin.models import CheckIn
from weighin.events.models import Event
from weighin.workbooks.services import may_replace


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event, can=("checkin",))


def checkin(**values: Any) -> dict[str, Any]:
    return {
        "id": new_id(),
        "day": 1,
        "boat": 1,
        "checked_in": "2026-06-20T14:58:10-05:00",
        "official": "A. Sedge",
        **values,
    }


def test_check_ins_go_by_the_same_rules(event: Event, table: Speaker) -> None:
    sent = checkin()
    first = table.one(sent, "checkins")
    assert (first["state"], first["slip"], first["url"]) == ("kept", 1, None)
    assert table.one(sent, "checkins") == {**first, "state": "already"}
    assert table.one({**sent, "excused_minutes": 0, "note": None}, "checkins")["state"] == "already"
    assert table.one({**sent, "note": "late"}, "checkins")["state"] == "differs"
    assert table.one(checkin(checked_in="2026-06-20T15:01:00-05:00"), "checkins")["state"] == "second"
    fix = checkin(replaces=2, reason="wrong minute", checked_in="2026-06-20T15:00:00-05:00")
    assert table.one(fix, "checkins")["state"] == "second"
    out = {"id": new_id(), "day": 1, "boat": 1, "void": True, "replaces": sent["id"], "reason": "twice"}
    assert table.one(out, "checkins")["state"] == "kept"
    assert "3" in table.one(checkin(replaces=2, reason="again"), "checkins")["faults"][0]["message"]
    rows = table.ask().json()["checkins"]
    assert [(row["slip"], row["checked_in"], row["replaces"]) for row in rows] == [(3, "2026-06-20T15:00:00-05:00", 2)]


def test_words_of_a_boat_add_up(event: Event, table: Speaker) -> None:
    for where in ("launched", "phoned", "in_by_road", "unaccounted", "in_by_water"):
        said = {
            "id": new_id(),
            "day": 1,
            "boat": 2,
            "whereabouts": where,
            "word": "from the ramp",
            "told_at": "2026-06-20T15:20:00Z",
        }
        assert table.one(said, "checkins")["state"] == "kept"
    assert table.one(checkin(boat=2), "checkins")["state"] == "kept"
    assert event.checkins.count() == 6


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"boat": 99}, "boat"),
        ({"day": 5}, "day"),
        ({"boat": None}, "boat"),
        ({"checked_in": None}, "checked_in"),
        ({"checked_in": "14:58"}, "checked_in"),
        ({"checked_in": "2026-06-24T14:58:10-05:00"}, "checked_in"),
        ({"minutes_late": 2}, "minutes_late"),
        ({"minutes_late": "2"}, "minutes_late"),
        ({"excused_minutes": -1}, "excused_minutes"),
        ({"whereabouts": "at the bar"}, "whereabouts"),
        ({"word": "a\u0007"}, "word"),
        ({"official": " "}, "official"),
        ({"gross": "9.47"}, "gross"),
        ({"void": True, "reason": "twice"}, "replaces"),
        ({"replaces": 9, "reason": "twice"}, "replaces"),
        ({"id": "9"}, "id"),
    ],
)
def test_faults_of_a_check_in(event: Event, table: Speaker, values: dict[str, Any], field: str) -> None:
    assert field in fields(table.one(checkin(**values), "checkins"))
    assert not event.checkins.exists()


def test_a_check_in_is_never_changed(event: Event, table: Speaker) -> None:
    table.one(checkin(), "checkins")
    for statement in ("UPDATE checkin_checkin SET day = 2", "DELETE FROM checkin_checkin"):
        with pytest.raises(DatabaseError, match="only ever added"), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(statement)


def test_a_check_in_is_kept_with_who_said_so_and_by_which_clock(event: Event, table: Speaker) -> None:
    answer = table.post("checkins", {"checkins": [checkin(excused_minutes=2.5)], "sent": "2026-06-20T14:58:12-05:00"})
    assert answer.json()["checkins"][0]["state"] == "kept" and "clock" in answer.json()
    row = CheckIn.objects.get()
    assert (row.entry.boat, row.excused_minutes, row.official, row.recorded_by) == (
        1,
        "2.5",
        "A. Sedge",
        "station Table 1",
    )
    assert row.sent_at is not None and row.clock_off is not None
    entry = HistoryEntry.objects.get(act="checkin.recorded")
    assert (entry.actor, entry.sentence) == ("station Table 1", "Checked in: boat 1, day 1")
    assert answer.json()["revision"] == Event.objects.get(pk=event.pk).revision


def test_an_id_of_another_event_differs(table: Speaker) -> None:
    sent = checkin()
    Speaker(world.event("Elsewhere"), "Table 9").one(sent, "checkins")
    answer = table.one(sent, "checkins")
    assert (answer["state"], answer["slip"]) == ("differs", None)


def test_an_event_with_check_ins_is_not_brought_in_again(event: Event, table: Speaker) -> None:
    """A workbook may replace an event only while nobody has worked on it."""
    assert may_replace(event)
    table.one(checkin(), "checkins")
    assert not may_replace(event)

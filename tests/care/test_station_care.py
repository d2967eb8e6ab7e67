"""Care notes over the wire: the same rules as slips, and what becomes of two notes for one boat and day."""

from typing import Any

import pytest
import world
from stations.speaking import Speaker, fields, message, new_id

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.care.domain.fields import NOTED
from weighin.care.models import CareNote, SentNote
from weighin.care.queries.care import care_rows, waiting_notes
from weighin.care.services.notes import SENT_NOTE, write_care_note
from weighin.events.models import Event
from weighin.public.pages.schemas import properties

FULL = {
    "pump_ok": True, "aeration": "oxygen", "livewell_gal": 28, "ice_lb": "7.5", "thermometer_ok": False,
    "launched": "2026-06-20T06:10:00-05:00", "first_fish": "2026-06-20T07:25:00-05:00", "livewell_temp": "76.5 F",
    "livewell_do": 6.1, "most_on_board": 9, "culled": 3, "catch_depth_ft": 27.5, "deep_hooked": 1, "barotrauma": 0, "reflexes_absent": 2, "reflexes_checked": 5,
    "note": "Ice at noon", "official": "A. Sedge",
}  # fmt: skip


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event, can=("care", "weigh"))


def care(**values: Any) -> dict[str, Any]:
    return {"id": new_id(), "day": 1, "boat": 1, **values}


def one(table: Speaker, **values: Any) -> dict[str, Any]:
    return table.one(care(**values), "care")


def test_the_fields_are_those_of_the_workbook_and_about_the_note() -> None:
    assert set(properties(SENT_NOTE)) == {"id", "day", "boat", *NOTED, "official", "replaces", "reason", "void"}


def test_a_note_is_kept_with_every_field(event: Event, table: Speaker) -> None:
    sent = care(**FULL)
    before = Event.objects.get(pk=event.pk).revision
    answer = table.post("care", {"notes": [sent], "sent": "2026-06-20T15:00:00Z"}).json()
    assert answer["notes"] == [{"id": sent["id"], "state": "kept", "slip": 1, "url": None, "faults": []}]
    assert answer["revision"] == before + 1 == Event.objects.get(pk=event.pk).revision
    note = CareNote.objects.get()
    assert (note.pump_ok, note.aeration, note.livewell_gal, note.ice_lb) == (True, "oxygen", "28", "7.5")
    assert (note.livewell_temp, note.livewell_do, note.most_on_board, note.barotrauma) == ("76.5 F", "6.1", 9, 0)
    assert note.first_fish is not None and note.first_fish.isoformat() == "2026-06-20T12:25:00+00:00"
    row = SentNote.objects.get(pk=sent["id"])
    assert row.stands and (row.official, row.recorded_by) == ("A. Sedge", "station Table 1") and row.sent_at is not None
    assert HistoryEntry.objects.get(act="care.written").actor == "station Table 1"


def test_sent_again_it_is_already_kept_and_other_content_differs(table: Speaker) -> None:
    sent = care(**FULL)
    first = table.one(sent, "care")
    assert table.one(sent, "care") == {**first, "state": "already"}
    for same in ({"livewell_gal": "28.0"}, {"launched": "2026-06-20T11:10:00Z"}, {"void": False, "reason": ""}):
        assert table.one({**sent, **same}, "care")["state"] == "already"
    for other in ({"ice_lb": "8"}, {"note": None}, {"boat": 2}, {"day": 2}, {"official": None}, {"barotrauma": None}):
        assert table.one({**sent, **other}, "care")["state"] == "differs", other
    assert SentNote.objects.count() == CareNote.objects.count() == 1


def test_the_replay_is_held_against_what_was_sent_not_against_the_page(event: Event, table: Speaker) -> None:
    sent = care(ice_lb=10)
    table.one(sent, "care")
    write_care_note(event, {"boat": "1", "day": "1", "ice_lb": "12"}, "quill")
    assert table.one(sent, "care")["state"] == "already"
    assert CareNote.objects.get().ice_lb == "12"


def test_a_later_note_fills_in_what_the_first_left_blank(table: Speaker) -> None:
    assert one(table, pump_ok=True, ice_lb=20)["state"] == "kept"
    answer = one(table, livewell_temp="78 F", deep_hooked=2, ice_lb="20.0")
    assert (answer["state"], answer["slip"]) == ("second", 2)
    note = CareNote.objects.get()
    assert (note.pump_ok, note.ice_lb, note.livewell_temp, note.deep_hooked) == (True, "20.0", "78 F", 2)
    assert not SentNote.objects.filter(stands=False).exists()


def test_a_contradiction_overwrites_nothing_and_waits(event: Event, table: Speaker) -> None:
    one(table, pump_ok=True, ice_lb=20)
    sent = care(pump_ok=False, livewell_temp="78 F")
    assert table.one(sent, "care")["state"] == "second"
    note = CareNote.objects.get()
    assert (note.pump_ok, note.livewell_temp) == (True, "")
    (waits,) = waiting_notes(event.pk)
    assert str(waits.pk) == sent["id"] and waits.said == {"pump_ok": False, "livewell_temp": "78 F"}
    assert "contradicts" in HistoryEntry.objects.get(act="care.waits").sentence
    assert table.one(sent, "care")["state"] == "already"
    assert [row.note for row in care_rows(event)] == [note]


@pytest.mark.django_db(transaction=True)
def test_notes_that_stand_go_on_counting_after_one_that_waits() -> None:
    table = Speaker(world.event(days=2), can=("care",))
    one(table, pump_ok=True)
    assert one(table, pump_ok=False)["state"] == "second"
    assert [one(table, boat=boat, pump_ok=True)["slip"] for boat in (2, 3, 4)] == [3, 4, 5]
    assert one(table, boat=4, pump_ok=False)["state"] == "second"
    assert [one(table, boat=boat, ice_lb=20)["slip"] for boat in (2, 3)] == [7, 8]


def test_times_that_fit_by_themselves_but_not_together_wait(event: Event, table: Speaker) -> None:
    one(table, launched="2026-06-20T07:00:00-05:00")
    assert one(table, first_fish="2026-06-20T06:30:00-05:00")["state"] == "second"
    assert waiting_notes(event.pk).count() == 1 and CareNote.objects.get().first_fish is None


def test_a_note_that_waits_is_taken_out_or_corrected(event: Event, table: Speaker) -> None:
    one(table, pump_ok=True)
    one(table, pump_ok=False)
    assert one(table, replaces=2, void=True, reason="looked at the wrong boat")["state"] == "kept"
    assert not waiting_notes(event.pk)
    one(table, pump_ok=False)
    assert one(table, replaces=4, reason="looked again", pump_ok=True)["state"] == "kept"
    assert not waiting_notes(event.pk) and CareNote.objects.get().pump_ok is True


def test_a_correction_changes_what_its_note_said_and_leaves_the_rest(table: Speaker) -> None:
    first = care(pump_ok=True, ice_lb=20, most_on_board=9)
    table.one(first, "care")
    one(table, livewell_temp="78 F")
    fix = care(replaces=first["id"], reason="read 30", pump_ok=True, ice_lb=30)
    assert table.one(fix, "care")["state"] == "kept"
    note = CareNote.objects.get()
    assert (note.ice_lb, note.most_on_board, note.livewell_temp) == ("30", None, "78 F")
    assert "care note 3" in one(table, replaces=1, reason="again", ice_lb=40)["faults"][0]["message"]


def test_a_correction_after_the_page_changed_the_note_is_refused(event: Event, table: Speaker) -> None:
    one(table, ice_lb=20)
    write_care_note(event, {"boat": "1", "day": "1", "ice_lb": "25"}, "quill")
    answer = one(table, replaces=1, reason="read 30", ice_lb=30)
    assert fields(answer) == {"replaces"} and "on the page" in answer["faults"][0]["message"]
    assert CareNote.objects.get().ice_lb == "25" and SentNote.objects.count() == 1


def test_corrections_in_one_body_come_after_what_they_correct(table: Speaker) -> None:
    first = care(ice_lb=20)
    fix = care(replaces=first["id"], reason="read 30", ice_lb=30)
    assert [answer["state"] for answer in table.send(fix, first, what="care")] == ["kept", "kept"]
    assert CareNote.objects.get().ice_lb == "30"


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"id": None}, "id"),
        ({"boat": 99}, "boat"),
        ({"boat": None}, "boat"),
        ({"day": 9}, "day"),
        ({"pump_ok": "yes"}, "pump_ok"),
        ({"aeration": "magic"}, "aeration"),
        ({"livewell_gal": -1}, "livewell_gal"),
        ({"ice_lb": "7,5"}, "ice_lb"),
        ({"ice_lb": [7]}, "ice_lb"),
        ({"livewell_temp": "78"}, "livewell_temp"),
        ({"livewell_temp": 78}, "livewell_temp"),
        ({"livewell_temp": "120 F"}, "livewell_temp"),
        ({"livewell_temp": "78" + " " * 30 + "F"}, "livewell_temp"),
        ({"launched": "06:10"}, "launched"),
        ({"launched": "2026-06-20T08:00:00Z", "first_fish": "2026-06-20T07:00:00Z"}, "first_fish"),
        ({"first_fish": "2026-06-25T07:00:00Z"}, "first_fish"),
        ({"most_on_board": "9"}, "most_on_board"),
        ({"reflexes_absent": 3, "reflexes_checked": 2}, "reflexes_absent"),
        ({"note": "a\u0007"}, "note"),
        ({"official": " "}, "official"),
        ({"gross": "9.47"}, "gross"),
        ({"replaces": 5, "reason": "misread"}, "replaces"),
        ({"void": True, "reason": "twice"}, "replaces"),
    ],
)
def test_faults_of_a_note(table: Speaker, values: dict[str, Any], field: str) -> None:
    assert field in fields(one(table, **values))
    assert not CareNote.objects.exists() and not SentNote.objects.exists()


def test_faults_of_a_correction(table: Speaker) -> None:
    one(table, ice_lb=20)
    assert fields(one(table, replaces=1, ice_lb=30)) == {"reason"}
    assert fields(one(table, boat=2, replaces=1, reason="misread", ice_lb=30)) == {"replaces"}
    assert fields(one(table, replaces=1, reason="twice", void=True)) == {"void"}
    assert CareNote.objects.get().ice_lb == "20"


def test_a_note_is_held_against_the_boats_slip(table: Speaker) -> None:
    table.one(message(checked_in="2026-06-20T15:00:00-05:00"))
    assert "first_fish" in fields(one(table, first_fish="2026-06-20T15:30:00-05:00"))


def test_an_id_of_another_event_differs(table: Speaker) -> None:
    sent = care(ice_lb=20)
    Speaker(world.event("Elsewhere"), "Table 9").one(sent, "care")
    answer = table.one(sent, "care")
    assert (answer["state"], answer["slip"]) == ("differs", None) and not CareNote.objects.filter(
        event=table.event
    ).exists()


def test_fish_care_officials_send_notes_with_a_log_in(event: Event) -> None:
    client = world.member(event.club, Role.FISH_CARE_OFFICIAL, "sedge")
    answer = client.post(
        f"/api/events/{event.slug}/care", {"notes": [care(pump_ok=True)]}, content_type="application/json"
    )
    assert answer.json()["notes"][0]["state"] == "kept" and SentNote.objects.get().recorded_by == "sedge"

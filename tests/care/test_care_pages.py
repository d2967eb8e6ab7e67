"""The pages of fish care: the finding, the list, who lacks a note, and the note itself."""

import re
from html import unescape
from typing import Any

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from slips.table import record

from weighin.accounts.domain.roles import Role
from weighin.care.models import CareNote
from weighin.care.services.notes import write_care_note
from weighin.events.models import Event


@pytest.fixture
def event(db: None) -> Event:
    return world.event(rules={"boat_limit": "7"})


@pytest.fixture
def carer(event: Event) -> Client:
    return world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")


def notes(event: Event) -> str:
    return reverse("care:notes", args=[event.slug])


def note(event: Event, boat: int = 1, day: int = 1) -> str:
    return reverse("care:note", args=[event.slug, day, boat])


def write(event: Event, boat: int, **values: str) -> None:
    write_care_note(event, {"day": "1", "boat": str(boat), **values}, "lunt")


def text(answer: Any) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def posted(**values: str) -> dict[str, str]:
    return {"seen": "", "livewell_temp_unit": "F", **values}


def test_the_headline_says_the_finding(event: Event, carer: Client) -> None:
    assert "No check is recorded yet." in text(carer.get(notes(event)))
    write(event, 1, pump_ok="yes")
    assert "The one boat that was checked passed every recorded check" in text(carer.get(notes(event)))
    write(event, 2, pump_ok="yes")
    assert "All 2 boats passed every recorded check." in text(carer.get(notes(event)))
    write(event, 3, pump_ok="no", most_on_board="9")
    write(event, 4, most_on_board="8", livewell_do="4.2", note="recorded, but not a check: deep", deep_hooked="1")
    said = text(carer.get(notes(event)))
    assert "2 of 4 boats passed every recorded check." in said
    assert "Failed: fish on board (2 boats), pump (1 boat), oxygen (1 boat)." in said
    assert "Every boat that fishes has a care note." in said


def test_each_row_tells_what_was_kept_and_by_how_much_not(event: Event, carer: Client) -> None:
    write(
        event,
        1,
        pump_ok="yes",
        thermometer_ok="no",
        most_on_board="9",
        livewell_do="4.6",
        livewell_temp="50 F",
        first_fish="07:00",
    )
    record(event, dead="1", alive="6", bag_issued="14:59", weighed="15:05", bag_emptied="15:10:30", released="15:20")
    record(event, boat="2", weighed="15:00")
    said = text(carer.get(notes(event)))
    for words in (
        "✓ passed runs ✕ failed none",
        "✕ failed 9 8 h 20 min ✕ failed 11.5 min ✕ failed 12 °F ✕ failed 4.6 1 of 6",
        "8 h 20 min",
        "at most 9 h",
        "3 boats have no care note yet.",
    ):
        assert words in said.replace("\xa0", " "), words


def test_boats_of_several_days_are_counted_as_boat_days(db: None) -> None:
    event = world.event("Two", days=2)
    write(event, 1, pump_ok="yes")
    said = text(world.member(event.club).get(notes(event)))
    assert "7 boat-days have no care note yet." in said
    assert "boats have no care note yet" not in said


def test_a_warm_lake_is_said(db: None) -> None:
    event = world.event("Warm")
    client = world.member(event.club)
    Event.objects.filter(pk=event.pk).update(lake_temp="27 C")
    said = text(client.get(notes(event)))
    assert "care steps begin at 75 °F" in said and "Hayward & Arnold 1996" in said
    Event.objects.filter(pk=event.pk).update(lake_temp="76 F")
    said = text(client.get(notes(event)))
    assert "care steps begin at 75 °F" in said and "Hayward" not in said
    Event.objects.filter(pk=event.pk).update(lake_temp="74 F")
    assert "care steps begin at" not in text(client.get(notes(event)))


def test_the_list_is_searched_sorted_and_filtered(event: Event, carer: Client) -> None:
    write(event, 1, pump_ok="no")
    write(event, 2, pump_ok="yes")
    record(event, boat="2", weighed="15:00")
    record(event, boat="3", weighed="14:00")
    for asked, boats in (
        ({}, [1, 2, 3]),
        ({"which": "failed"}, [1]),
        ({"which": "missing"}, [3]),
        ({"boat": "2"}, [2]),
        ({"q": "PAIR 3"}, [3]),
        ({"sort": "-boat"}, [3, 2, 1]),
        ({"sort": "-held"}, [2, 3, 1]),
        ({"q": "nobody"}, []),
    ):
        answer = carer.get(notes(event), asked)
        assert [row.record.boat for row in answer.context["table"].rows] == boats, asked
    assert "No boat fits the search." in text(answer)


def test_the_list_asks_the_same_number_of_questions_for_1_boat_and_for_300(db: None) -> None:
    counts = []
    for boats in (1, 300):
        event = world.large(boats, name=f"Care {boats}")
        client = world.member(event.club, username=f"reader-{boats}")
        client.get(notes(event))
        with CaptureQueriesContext(connection) as asked:
            assert client.get(notes(event)).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1] <= 16  # check-ins, handed bags and releases tell the times too


def test_tanks_and_the_holding_study_are_shown(db: None) -> None:
    event = world.plain()
    said = text(world.member(event.club).get(notes(event)))
    for words in (
        "Recovery",
        "3:05 PM",
        "58 °F",
        "Tournament fish",
        "Reference fish",
        "Saturday",
        "drain a tank, never lift it",
    ):
        assert words in said.replace("\xa0", " ")
    bare = world.event("Bare")
    assert "No tank reading yet." in text(world.member(bare.club, username="x").get(notes(bare)))


def test_a_note_is_written_and_changed(event: Event, carer: Client) -> None:
    shown = carer.get(note(event))
    for words in ("insulated gloves", "Oxygen feeds fire", "Do not vent crappie", "Davis 2010", "permit come before"):
        assert words in text(shown)
    sent = posted(
        pump_ok="yes",
        aeration="oxygen",
        livewell_temp="24.5",
        livewell_temp_unit="C",
        first_fish="07:10:30",
        ice_lb="0",
        note="lid <shut>",
    )
    answer = carer.post(note(event), sent, follow=True)
    assert answer.redirect_chain == [(notes(event), 302)] and "The care note of boat 1, day 1, is saved." in text(
        answer
    )
    kept = CareNote.objects.get()
    assert (kept.livewell_temp, kept.aeration, kept.ice_lb, kept.thermometer_ok) == ("24.5 C", "oxygen", "0", None)
    form = carer.get(note(event)).context["form"]
    again = {name: form[name].value() or "" for name in form.fields}
    assert again["livewell_temp"] == "24.5" and again["livewell_temp_unit"] == "C" and again["first_fish"] == "07:10:30"
    carer.post(note(event), {**again, "thermometer_ok": "no"})
    kept.refresh_from_db()
    assert kept.thermometer_ok is False and kept.livewell_temp == "24.5 C" and kept.note == "lid <shut>"


def test_a_temperature_may_bring_its_own_unit(event: Event, carer: Client) -> None:
    carer.post(note(event), posted(livewell_temp="76 F", livewell_temp_unit="C"))
    assert CareNote.objects.get().livewell_temp == "76 F"


def test_faults_stand_at_their_fields_and_nothing_typed_is_lost(event: Event, carer: Client) -> None:
    sent = posted(
        pump_ok="yes",
        livewell_temp="99",
        livewell_temp_unit="C",
        launched="08:00",
        first_fish="07:00",
        ice_lb="lots",
        reflexes_absent="4",
        reflexes_checked="3",
    )
    answer = carer.post(note(event), sent)
    errors = answer.context["form"].errors
    assert set(errors) == {"livewell_temp", "first_fish", "ice_lb", "reflexes_absent"} and not CareNote.objects.exists()
    assert "“First fish in the livewell” is before “Launched”" in errors["first_fish"][0]
    html = answer.content.decode()
    for value in ("99", "8:00 AM", "7:00 AM", "lots", "4", "3"):
        assert f'value="{value}"' in html
    assert re.search(r'name="livewell_temp_unit" value="C"[^>]*checked', html) and re.search(
        r'name="pump_ok" value="yes"[^>]*checked', html
    )


def test_two_people_at_one_note_do_not_write_over_each_other(event: Event, carer: Client) -> None:
    write(event, 1, ice_lb="20")
    answer = carer.post(note(event), posted(pump_ok="yes"))
    said = text(answer)
    assert "Somebody else saved this note meanwhile" in said and "Ice added 20 lb" in said
    assert CareNote.objects.get().pump_ok is None
    form = answer.context["form"]
    carer.post(note(event), posted(pump_ok="yes", seen=form["seen"].value()))
    assert CareNote.objects.get().pump_ok is True


def test_the_note_page_says_how_the_fish_were_kept(event: Event, carer: Client) -> None:
    assert "No care note yet." in text(carer.get(note(event)))
    write(event, 1, pump_ok="yes", most_on_board="9", first_fish="07:00")
    record(event, bag_issued="14:55", weighed="15:00")
    said = text(carer.get(note(event))).replace("\xa0", " ")
    assert "Failed: 9 on board, limit 7. Passed: pump, time in the bag." in said
    assert "Slip 1 : 7 alive, 0 dead; held 8 h; 5 min in the bag." in said


def test_a_page_that_is_not_there(event: Event, carer: Client) -> None:
    for boat, day in ((9, 1), (1, 2), (2**40, 1), (1, 10**12)):
        assert carer.get(note(event, boat, day)).status_code == 404


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.CLUB_REVIEWER])
def test_other_members_read_notes_and_write_none(event: Event, role: Role) -> None:
    write(event, 1, pump_ok="yes", note="lid kept shut")
    client = world.member(event.club, role)
    said = text(client.get(note(event)))
    assert "lid kept shut" in said and "Keep the note" not in said
    assert "no note" not in text(client.get(notes(event)))  # only rows without a note say so
    assert client.post(note(event), posted(pump_ok="no")).status_code == 403
    assert CareNote.objects.get().pump_ok is True


def test_a_closed_event_shows_notes_and_takes_none(event: Event, carer: Client) -> None:
    write(event, 1, ice_lb="20")
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    said = text(carer.get(note(event)))
    assert "The event is closed." in said and "20 lb" in said and "Keep the note" not in said
    answer = carer.post(note(event), posted(pump_ok="yes", note="typed", seen=""))
    assert "is closed" in text(answer) and "typed" in answer.content.decode()
    assert CareNote.objects.get().pump_ok is None

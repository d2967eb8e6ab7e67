"""A season's events from a list: read as people write them, all or none, every fault at its line."""

from datetime import date

import pytest
import world
from django.urls import reverse

from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.schedule.parsing.season_list import read_season
from weighin.schedule.services.permits import keep_line
from weighin.schedule.services.season import make_season_events

SHAPES = (
    "2027-03-20, Spring opener, Heron Lake\n2027-04-17, Slab night, Reed Pond",
    "Date\tEvent\tLake\n3/20/2027\tSpring opener\tHeron Lake\n\n4/17/27\tSlab night\tReed Pond\t\t",
    "Mar 20, 2027, Spring opener, Heron Lake\nSat, Apr 17, 2027, Slab night, Reed Pond",
    "March 20th 2027; Spring opener; Heron Lake\r\nSaturday, 17 April 2027;Slab  night;Reed Pond",
    '"03-20-2027","Spring opener","Heron Lake"\n"Apr. 17, 2027",Slab night,Reed Pond',
)


@pytest.mark.parametrize("text", SHAPES)
def test_the_shapes_in_which_clubs_keep_it(text: str) -> None:
    rows = read_season(text)
    assert [(row.date, row.name, row.water) for row in rows] == [
        (date(2027, 3, 20), "Spring opener", "Heron Lake"),
        (date(2027, 4, 17), "Slab night", "Reed Pond"),
    ]


def test_every_line_that_cannot_be_read_is_named() -> None:
    with pytest.raises(Faults) as found:
        read_season(
            "2027-03-20, Opener, Heron Lake\nsoon, Second, Reed Pond\n\n2027-05-01\n2027-06-01, A, B, C\n1066-01-01, Old, B"
        )
    assert [fault.message for fault in found.value.faults] == [
        "line 2: soon is not a date: write it as Jun 20, 2026",
        "line 4: write the date, the name and the water, with a tab or a comma between them",
        "line 5: this has more than a date, a name and a water: remove what follows B",
        "line 6: 1066-01-01 is not in the years 1900 to 2200: check the year",
    ]
    assert {fault.field for fault in found.value.faults} == {"lines"}


def test_none_and_too_many() -> None:
    with pytest.raises(Faults, match="no event is written"):
        read_season(" \n\nDate, Event, Water\n")
    with pytest.raises(Faults, match="these are 101 events: write at most 100 at once"):
        read_season("2027-03-20, Opener, Heron Lake\n" * 101)


@pytest.fixture
def club(db: None) -> Club:
    return world.plain().club


def post(club: Club, lines: str, source: str = "event:plain-event-2026", **more: str) -> str:
    said = {"season": str(club.seasons.get().pk), "source": source, "lines": lines, **more}
    where = reverse("schedule:season_events", args=[club.slug])
    return world.member(club).post(where, said, follow=True).content.decode()


def test_events_take_the_set_up_of_an_event_without_its_teams(club: Club) -> None:
    event = Event.objects.get()
    keep_line(event, {"what": "Insurance", "days_before": "14", "done_on": "2026-01-01", "done_by": "Ash"}, "test")
    page = post(club, "3/20/2027, Opener, Long Slough\n4/17/2027, Second, Mill Pond", new_waters="on")
    assert "2 events added." in page
    made = Event.objects.get(name="Second")
    assert made.rule_sheet.written == event.rule_sheet.written and made.water.name == "Mill Pond"
    assert made.event_days.count() == event.event_days.count() and made.start_time == event.start_time
    assert made.flights.count() == event.flights.count()
    assert made.permit_lines.get().done_on is None
    assert not Entry.everyone.filter(event=made).exists()
    assert HistoryEntry.objects.filter(act="season.events_made").exists()


def test_events_take_a_rule_sheet(club: Club) -> None:
    page = post(club, "3/20/2027, Opener, Long Slough", source="start:team-crappie")
    made = Event.objects.get(name="Opener")
    assert "1 event added." in page and made.event_days.count() == 1
    assert made.start_time == Event.objects.get(name="Plain event").start_time


def test_one_fault_makes_none_and_everything_typed_stays(club: Club) -> None:
    lines = "3/20/2027, Opener, Long Slough\n4/17/2027, Plain event, Long Slough\n5/1/2027, Third, Mill Pond\n5/2/2027, Opener, Long Slough"
    page = post(club, lines)
    assert "Line 2: " in page and "Plain event already: write another name" in page
    assert "Line 3: the club has no water Mill Pond" in page
    assert "Line 4: " in page and lines.replace("\n", "\n") in page.replace("\r", "")
    assert Event.objects.count() == 1 and club.waters.count() == 1


def test_a_water_may_be_left_out_only_with_an_event_to_take_it_from(club: Club) -> None:
    assert "1 event added." in post(club, "3/20/2027, Opener")
    assert Event.objects.get(name="Opener").water.name == "Long Slough"
    assert "Line 1: the water is missing: write its name" in post(club, "3/21/2027, Next", source="defaults")
    assert "Line 1: " in post(club, "3/21/2027, Next, " + "x" * 130, new_waters="on")


def test_a_sheet_that_is_gone_and_a_club_without_an_event(db: None) -> None:
    season = world.season()
    gone = {"season": season, "lines": "3/20/2027, Opener, Reed Pond", "source": "event:gone", "new_waters": True}
    with pytest.raises(Faults, match="choose one of the list"):
        make_season_events(season.club, gone, "test")
    assert "1 event added." in post(season.club, "3/20/2027, Opener, Reed Pond", source="defaults", new_waters="on")
    assert Event.objects.get().time_zone == "America/Chicago"

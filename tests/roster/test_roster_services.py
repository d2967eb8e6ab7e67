"""Teams: entered one by one or many at once, changed, taken out; what must hold between them."""

from dataclasses import replace

import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext

from weighin.audit.models import HistoryEntry
from weighin.audit.queries import words_aside
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.roster.models import Angler, Entry, Team
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import add_entries, change_entry, enter_team, remove_entry
from weighin.rules.faults import Faults
from weighin.slips.queries.ledger import breaks
from weighin.slips.queries.slips import slips

pytestmark = pytest.mark.django_db
PAIR = EntryValues(7, "Lindell & Amaro", ("Mara Lindell", "Ines Amaro"), paid=True)


@pytest.fixture
def season() -> Season:
    return world.season()


@pytest.fixture
def event(season: Season) -> Event:
    return world.bare_event("Pairs", season)


def many(count: int, first: int = 1) -> list[EntryValues]:
    return [EntryValues(n, f"Team {n}", (f"First {n}", f"Second {n}")) for n in range(first, first + count)]


def fields(found: Faults) -> list[str]:
    return [fault.field for fault in found.faults]


def test_a_team_is_entered_with_its_anglers_and_its_history(event: Event) -> None:
    entry = enter_team(event, PAIR, "mara")
    assert (entry.boat, entry.name, entry.paid, entry.status) == (7, "Lindell & Amaro", True, "entered")
    assert list(entry.anglers.values_list("position", "name")) == [(1, "Mara Lindell"), (2, "Ines Amaro")]
    entry_of_history = HistoryEntry.objects.get()
    assert entry_of_history.sentence == "Boat 7, Lindell & Amaro, entered"
    assert words_aside([entry_of_history]) == {entry_of_history.pk: {"anglers": ["Mara Lindell", "Ines Amaro"]}}
    event.refresh_from_db()
    assert event.revision == 1


def test_entries_of_a_name_are_one_team_over_the_season(event: Event, season: Season) -> None:
    first = enter_team(event, PAIR, "mara")
    second = enter_team(world.bare_event("Second", season), replace(PAIR, name=" lindell &  AMARO"), "mara")
    assert first.team == second.team and second.name == "lindell &  AMARO"
    assert Team.objects.get().name == "Lindell & Amaro"
    other = world.season("2027", season.club)
    assert enter_team(world.bare_event("Third", other), PAIR, "mara").team != first.team


@pytest.mark.parametrize(
    ("wrong", "found"),
    [
        (replace(PAIR, boat=7, name="Other", anglers=("A",)), ["boat"]),
        (replace(PAIR, boat=0, name="Other", anglers=("A",)), ["boat"]),
        (replace(PAIR, boat=8, name="  ", anglers=("A",)), ["name"]),
        (replace(PAIR, boat=8, name="lindell & AMARO", anglers=("A",)), ["name"]),
        (replace(PAIR, boat=8, name="Other", anglers=("ines  AMARO",)), ["angler_1"]),
        (replace(PAIR, boat=8, name="Other", anglers=("A", "B", " a ")), ["angler_3"]),
        (replace(PAIR, boat=8, name="Other", anglers=("", " ")), ["angler_1"]),
        (replace(PAIR, boat=8, name="Other", anglers=("A", "B", "C", "D")), ["angler_3"]),
        (replace(PAIR, boat=8, name="Other", anglers=("A",), flight_name="X"), ["flight_name"]),
        (replace(PAIR, boat=8, name="Other", anglers=("A",), status="gone"), ["status"]),
        (replace(PAIR, boat=8, name="Other", anglers=("A",), note="x" * 501), ["note"]),
        (replace(PAIR, name="lindell & amaro", anglers=("Mara Lindell",), flight_name="X"),
         ["boat", "flight_name", "angler_1", "name"]),
    ],
)  # fmt: skip
def test_what_cannot_stand_beside_another_team_is_named_all_at_once(
    event: Event, wrong: EntryValues, found: list[str]
) -> None:
    enter_team(event, PAIR, "mara")
    with pytest.raises(Faults) as faults:
        enter_team(event, wrong, "mara")
    assert fields(faults.value) == found
    assert Entry.objects.count() == 1 and Team.objects.count() == 1 and HistoryEntry.objects.count() == 1


def test_an_angler_may_fish_in_another_event(event: Event, season: Season) -> None:
    enter_team(event, PAIR, "mara")
    enter_team(world.bare_event("Second", season), replace(PAIR, name="Amaro alone", anglers=("Ines Amaro",)), "mara")
    assert Angler.objects.filter(name="Ines Amaro").count() == 2


def test_many_are_entered_at_once_in_as_many_queries_as_a_few(event: Event, season: Season) -> None:
    large = world.bare_event("Large", season)
    with CaptureQueriesContext(connection) as few:
        add_entries(event, many(3), "mara")
    with CaptureQueriesContext(connection) as lots:
        entries = add_entries(large, many(60), "mara")
    assert len(entries) == 60 and entries[60].name == "Team 60"
    assert len(lots) == len(few)
    assert HistoryEntry.objects.order_by("-id")[0].sentence == "60 teams entered, boats 1 to 60"
    assert Team.objects.count() == 60


def test_entries_are_numbered_as_they_come_and_keep_it(event: Event) -> None:
    add_entries(event, [replace(row, boat=10 - row.boat) for row in many(3)], "mara")
    assert list(event.entries.order_by("number").values_list("number", "boat")) == [(1, 9), (2, 8), (3, 7)]
    remove_entry(event.entries.get(boat=8), "mara")
    change_entry(event.entries.get(boat=7), replace(PAIR, boat=20, name="Renamed", anglers=("Someone",)), "mara")
    enter_team(event, replace(PAIR, boat=1), "mara")
    assert list(event.entries.order_by("number").values_list("number", "boat")) == [(1, 9), (3, 20), (4, 1)]


def test_many_at_once_are_all_or_none_and_each_fault_names_its_boat(event: Event) -> None:
    rows = [*many(3), replace(PAIR, boat=2, name="Twice"), replace(PAIR, boat=9, anglers=("first 1",))]
    with pytest.raises(Faults) as found:
        add_entries(event, rows, "mara")
    assert [(f.field, f.message[:8]) for f in found.value.faults] == [("boat", "boat 2: "), ("angler_1", "boat 9: ")]
    assert not Entry.objects.exists() and not Team.objects.exists()


def test_a_change_is_noted_with_before_and_after(event: Event) -> None:
    entry = enter_team(event, PAIR, "mara")
    after = replace(PAIR, boat=12, status="withdrawn", paid=False, anglers=("Mara Lindell", "", "Kit Lund"))
    change_entry(entry, after, "mara")
    entry.refresh_from_db()
    assert (entry.boat, entry.status, entry.paid) == (12, "withdrawn", False)
    assert list(entry.anglers.values_list("position", "name")) == [(1, "Mara Lindell"), (3, "Kit Lund")]
    noted = HistoryEntry.objects.get(act="entry.changed")
    assert noted.details["changed"]["boat"] == [7, 12]
    assert words_aside([noted])[noted.pk] == {
        "anglers": ["Mara Lindell", "Kit Lund"],
        "anglers_before": ["Mara Lindell", "Ines Amaro"],
    }
    assert "boat is 12, was 7" in noted.sentence and "paid is no, was yes" in noted.sentence
    assert "anglers changed" in noted.sentence


def test_nothing_changed_is_nothing_noted(event: Event) -> None:
    entry = enter_team(event, PAIR, "mara")
    change_entry(entry, PAIR, "mara")
    assert not HistoryEntry.objects.filter(act="entry.changed").exists()
    event.refresh_from_db()
    assert event.revision == 1


def test_a_team_written_anew_is_another_team_of_the_season(event: Event) -> None:
    entry = enter_team(event, PAIR, "mara")
    change_entry(entry, replace(PAIR, name="Lindell and Amaro"), "mara")
    assert [team.name for team in Team.objects.all()] == ["Lindell and Amaro"]
    enter_team(event, replace(PAIR, boat=8, name="Other", anglers=("A",)), "mara")
    with pytest.raises(Faults, match="boat 8 is Other already"):
        change_entry(entry, replace(PAIR, name="other"), "mara")
    assert {team.name for team in Team.objects.all()} == {"Lindell and Amaro", "Other"}


def test_a_mistake_is_taken_out_with_its_team(event: Event) -> None:
    remove_entry(enter_team(event, PAIR, "mara"), "mara")
    assert not Entry.objects.exists() and not Angler.objects.exists() and not Team.objects.exists()
    assert HistoryEntry.objects.get(act="entry.removed").sentence == "Boat 7, Lindell & Amaro, removed"


def test_a_boat_on_slips_keeps_its_number_and_stays(db: None) -> None:
    event = world.plain()
    entry = event.entries.get(boat=1)
    row = EntryValues(1, entry.name, tuple(a.name for a in entry.anglers.all()), flight_name=entry.flight_name)
    with pytest.raises(Faults, match="boat 1 stands on weigh slips, which are never altered"):
        change_entry(entry, replace(row, boat=99), "mara")
    with pytest.raises(Faults, match="boat 1 has slips or care notes"):
        remove_entry(entry, "mara")
    change_entry(entry, replace(row, status="disqualified", paid=True, note="ruling 3"), "mara")
    entry.refresh_from_db()
    assert (entry.boat, entry.status) == (1, "disqualified")
    assert not breaks(slips(event))


def test_a_closed_event_takes_no_team(event: Event) -> None:
    from django.utils import timezone

    entry = enter_team(event, PAIR, "mara")
    Event.objects.update(closed_at=timezone.now())
    for act in (
        lambda: enter_team(event, replace(PAIR, boat=8, name="Other", anglers=("A",)), "mara"),
        lambda: change_entry(entry, replace(PAIR, paid=False), "mara"),
        lambda: remove_entry(entry, "mara"),
    ):
        with pytest.raises(Faults, match="is closed: reopen it"):
            act()
    assert Entry.objects.get().paid


@pytest.mark.parametrize("name", ["L\u0456ndell & Amaro", "Lindell\u200b & Amaro"])
def test_a_name_of_two_scripts_or_with_unseen_signs_is_refused(event: Event, name: str) -> None:
    with pytest.raises(Faults) as found:
        enter_team(event, replace(PAIR, name=name), "mara")
    assert fields(found.value) == ["name"] and not Team.objects.exists()


def test_a_team_that_looks_like_one_of_the_season_is_refused_by_its_name(event: Event, season: Season) -> None:
    enter_team(event, replace(PAIR, name="Oca"), "mara")
    second = world.bare_event("Second", season)
    with pytest.raises(Faults, match="looks like the season’s team Oca"):
        enter_team(second, replace(PAIR, name="\u043e\u0441\u0430"), "mara")
    with pytest.raises(Faults, match="looks like the season’s team Oca"):
        add_entries(second, [*many(3), replace(PAIR, name="\u041e\u0441\u0430")], "mara")
    assert Entry.objects.filter(event=second).count() == 0


def test_a_team_written_with_other_letters_may_be_corrected(event: Event) -> None:
    entry = enter_team(event, replace(PAIR, name="\u043e\u0441\u0430"), "mara")
    change_entry(entry, replace(PAIR, name="Oca"), "mara")
    assert [team.name for team in Team.objects.all()] == ["Oca"]

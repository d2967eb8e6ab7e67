"""Draws: made by a seed on record, checked by an outside script, voided and never repeated."""

import json
import subprocess
import sys
from io import StringIO
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
import world
from django.core.management import CommandError, call_command

from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.checkin.services.check_ins import record_check_in
from weighin.events.models import Event
from weighin.events.services.flights import change_flight
from weighin.operations.queries.ledgers import ledger_of
from weighin.registration.domain.drawing import by_hash
from weighin.registration.models import Draw
from weighin.registration.queries.draws import draws_of, entries_closed
from weighin.registration.services.draws import draw, draw_anew, void_draw
from weighin.roster.models import Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import add_entries, change_entry, enter_team, enter_teams, remove_entry
from weighin.rules.faults import Faults
from weighin.workbooks.services import may_replace, stays

pytestmark = pytest.mark.django_db
AGAIN = Path(__file__).with_name("again.py")
SEED = "river coin heads 7"


@pytest.fixture
def event() -> Event:
    flights = [
        {"flight": name, "due_time": due} for name, due in (("White", "15:00"), ("Blue", "15:30"), ("Amber", "16:00"))
    ]
    return world.event("Drawn", 7, more={"Flights": flights})


def run(*words: str) -> Any:
    out, said = StringIO(), StringIO()
    call_command("draw", *words, stdout=out, stderr=said)
    return json.loads(out.getvalue()) if "--json" in words else said.getvalue()


def again(document: Any) -> list[list[Any]]:
    done = subprocess.run(
        [sys.executable, str(AGAIN)], input=json.dumps(document), capture_output=True, text=True, check=True
    )
    found: list[list[Any]] = json.loads(done.stdout)
    return found


def messages(found: pytest.ExceptionInfo[Faults]) -> str:
    return "; ".join(fault.message for fault in found.value.faults)


@pytest.mark.parametrize("purpose", ["launch", "flights", "lots"])
def test_ten_lines_that_know_nothing_of_the_site_give_the_same_order(event: Event, purpose: str) -> None:
    Entry.objects.filter(boat=4).update(status="withdrawn")
    document = run(event.slug, purpose, "--seed", f"  {SEED}\n ", "--json")
    assert document["seed"] == SEED and document["void"] is None and document["by"] == "command line"
    assert f"{SEED}|{purpose}|1" in document["recipe"] and "SHA-256" in document["recipe"]
    assert again(document) == [[row["entry"], row["hash"]] for row in document["order"]]
    entries = {entry.number: entry for entry in Entry.objects.filter(event=event, status="entered")}
    assert {row["entry"]: row["team"] for row in document["order"]} == {n: one.name for n, one in entries.items()}
    results = [row["result"] for row in document["order"]]
    if purpose == "flights":
        assert results == ["White", "Blue", "Amber", "White", "Blue", "Amber"]
        assert [entries[row["entry"]].flight_name for row in document["order"]] == results
    else:
        assert results == [1, 2, 3, 4, 5, 6]
    if purpose == "lots":
        assert [entries[row["entry"]].lot for row in document["order"]] == results


def test_teams_without_a_boat_number_get_the_free_ones_and_give_them_back(event: Event) -> None:
    waiting = [EntryValues(None, f"Waiting {n}", (f"Waiter {n}",)) for n in range(1, 5)]
    enter_teams(event, [*waiting, EntryValues(9, "Nine", ("Nina Nine",)), EntryValues(10, "Ten", ("Tim Ten",))], "mara")
    Entry.everyone.filter(name="Waiting 2").update(status="withdrawn")
    document = run(event.slug, "boats", "--seed", SEED, "--json")
    assert {row["entry"] for row in document["order"]} == {8, 10, 11}
    assert again(document) == [[row["entry"], row["hash"]] for row in document["order"]]
    assert [row["result"] for row in document["order"]] == [8, 11, 12]
    given = {entry.number: entry.boat for entry in Entry.everyone.filter(event=event, number__in=(8, 9, 10, 11))}
    assert given == {row["entry"]: row["result"] for row in document["order"]} | {9: None}
    assert ledger_of(event).faults == ()
    void_draw(event, "boats", "mara", "A number was painted on already")
    assert set(Entry.everyone.filter(number__in=(8, 9, 10, 11)).values_list("boat", flat=True)) == {None}
    assert ledger_of(event).faults == ()


def test_a_number_stays_once_something_is_recorded_of_its_boat(event: Event) -> None:
    enter_teams(event, [EntryValues(None, "Waiting", ("Will Wait",))], "mara")
    draw(event, "boats", "mara", SEED)
    record_check_in(event, {"day": "1", "boat": "8", "checked_in": "14:50", "official": "R. Quill"}, "quill", uuid4())
    with pytest.raises(Faults) as found:
        void_draw(event, "boats", "mara", "Again")
    assert "their numbers stay" in messages(found)
    assert event.entries.get(name="Waiting").boat == 8


def test_the_seed_is_on_record_before_the_order(event: Event) -> None:
    draw(event, "launch", "mara", SEED)
    seed, drawn = HistoryEntry.objects.filter(event_id=event.pk, act__startswith="draw.").order_by("position")
    assert (seed.act, seed.actor, seed.details) == ("draw.seed", "mara", {"purpose": "launch", "seed": SEED})
    assert drawn.act == "draw.drawn" and len(drawn.details["order"]) == 7
    assert drawn.position == (seed.position or 0) + 1


def test_a_draw_is_not_repeated_but_voided_and_stays_listed(event: Event) -> None:
    draw(event, "lots", "mara", SEED)
    with pytest.raises(Faults) as found:
        draw(event, "lots", "mara", "another")
    assert "A draw is not repeated" in messages(found)
    with pytest.raises(Faults) as found:
        void_draw(event, "lots", "mara", "  ")
    assert "write why" in messages(found) and Draw.objects.count() == 1
    void_draw(event, "lots", "mara", "A team was missing")
    assert not Entry.objects.filter(event=event).exclude(lot=None).exists()
    with pytest.raises(Faults) as found:
        void_draw(event, "lots", "mara", "Once more")
    assert "no draw stands" in messages(found)
    anew = run(event.slug, "lots", "--seed", "toss two", "--json")
    listed = run(event.slug, "--list", "--json")
    assert [(one["seed"], one["void"]) for one in listed] == [(SEED, "A team was missing"), ("toss two", None)]
    assert listed[1] == anew


def test_what_an_entry_had_before_is_given_back(event: Event) -> None:
    Entry.objects.filter(boat=2).update(flight_name="Blue", lot=40)
    draw(event, "flights", "mara", SEED)
    draw(event, "lots", "mara", SEED)
    kept = Entry.objects.get(event=event, boat=3)
    Entry.objects.filter(pk=kept.pk).update(lot=99)  # somebody gave this team another lot since
    void_draw(event, "flights", "mara", "Two flights only")
    void_draw(event, "lots", "mara", "Not needed")
    found = {entry.boat: (entry.flight_name, entry.lot) for entry in Entry.objects.filter(event=event)}
    assert found == dict.fromkeys(range(1, 8), ("", None)) | {2: ("Blue", 40), 3: ("", 99)}


def test_a_voided_draw_takes_flights_back_that_were_renamed_since(event: Event) -> None:
    Entry.objects.filter(boat=2).update(flight_name="Blue")
    draw(event, "flights", "mara", SEED)
    flight = event.flights.get(name="Blue")
    change_flight(flight, {"name": "Indigo", "day": None, "launch": None, "due_time": flight.due_time}, "mara")
    flight = event.flights.get(name="White")
    change_flight(flight, {"name": "Ivory", "day": None, "launch": None, "due_time": flight.due_time}, "mara")
    kept = Entry.objects.get(event=event, boat=3)
    Entry.objects.filter(pk=kept.pk).update(flight_name=next(n for n in ("Indigo", "Amber") if n != kept.flight_name))
    moved = Entry.objects.get(pk=kept.pk).flight_name
    void_draw(event, "flights", "mara", "The names were wrong")
    found = {entry.boat: entry.flight_name for entry in Entry.objects.filter(event=event)}
    assert found == dict.fromkeys(range(1, 8), "") | {2: "Indigo", 3: moved}


@pytest.mark.parametrize("purpose", ["launch", "lots"])
def test_a_workbook_replaces_no_event_whose_draw_stands(event: Event, purpose: str) -> None:
    """What a draw gave is taken back by voiding it with a reason, and by nothing else."""
    made = draw(event, purpose, "mara", SEED)
    assert not may_replace(event) and f"draw {made.number} stands" in str(stays(event))
    void_draw(event, purpose, "mara", "A team was missing")
    assert may_replace(event)


def test_voiding_and_drawing_anew_is_both_or_neither(event: Event) -> None:
    first = draw(event, "launch", "mara", SEED)
    with pytest.raises(Faults):
        draw_anew(event, "launch", "mara", "The coin was not seen", " \t ")
    assert list(draws_of(event)) == [first] and entries_closed(event) is not None
    document = run(event.slug, "launch", "--void", "The coin was not seen", "--seed", "tails", "--json")
    assert document["seed"] == "tails" and again(document) == [[r["entry"], r["hash"]] for r in document["order"]]
    assert [one["void"] for one in run(event.slug, "--list", "--json")] == ["The coin was not seen", None]


@pytest.mark.parametrize("purpose", ["launch", "flights"])
def test_entries_are_closed_by_a_draw_and_open_again_when_it_is_voided(event: Event, purpose: str) -> None:
    late = EntryValues(9, "Latecomers", ("Ada Late",))
    draw(event, purpose, "mara", SEED)
    for act in (
        lambda: enter_team(event, late, "mara"),
        lambda: add_entries(event, [late], "mara"),
        lambda: remove_entry(Entry.objects.get(event=event, boat=1), "mara"),
    ):
        with pytest.raises(Faults) as found:
            act()
        assert "entries are closed since draw 1" in messages(found)
    first = Entry.objects.get(event=event, boat=1)
    change_entry(
        first, EntryValues(1, first.name, ("Someone",), status="withdrawn"), "mara"
    )  # pulling out is no entering
    void_draw(event, purpose, "mara", "A late entry")
    assert enter_team(event, late, "mara").number == 8


def test_a_list_of_teams_is_told_that_the_entries_are_closed(event: Event, tmp_path: Path) -> None:
    teams = tmp_path / "teams.csv"
    teams.write_text("Team,Angler 1\nLatecomers,Ada Late\n", encoding="utf-8")
    draw(event, "launch", "mara", SEED)
    for more in ((), ("--check",)):
        with pytest.raises(CommandError, match="entries are closed since draw 1"):
            call_command("import_teams", event.slug, str(teams), *more, stdout=StringIO(), stderr=StringIO())
    assert event.entries.count() == 7


def test_lots_leave_the_entries_open(event: Event) -> None:
    draw(event, "lots", "mara", SEED)
    assert enter_team(event, EntryValues(9, "Latecomers", ("Ada Late",)), "mara").lot is None


def test_what_cannot_be_drawn_is_said_and_changes_nothing(event: Event) -> None:
    bare = world.bare_event("Bare", event.season)
    told = [
        ((event, "launch", "mara", "   "), "the seed is missing"),
        ((event, "flights", "mara", "", "payment"), "never given in the order of payment"),
        ((event, "boats", "mara", SEED), "every entered team has a boat number"),
        ((bare, "launch", "mara", SEED), "no team is entered"),
    ]
    for asked, says in told:
        with pytest.raises(Faults) as found:
            draw(*asked)  # type: ignore[arg-type]
        assert says in messages(found)
    enter_team(bare, EntryValues(1, "Only", ("Ada Only",)), "mara")
    with pytest.raises(Faults) as found:
        draw(bare, "flights", "mara", SEED)
    assert "no flights" in messages(found)
    for words in (
        (event.slug, "launch"),
        (event.slug,),
        ("nowhere", "launch", "--seed", "a"),
        (event.slug, "launch", "--seed", ""),
    ):
        with pytest.raises(CommandError):
            run(*words)
    assert not Draw.objects.exists() and not HistoryEntry.objects.filter(act__startswith="draw.").exists()


def test_first_paid_goes_first_without_a_seed(event: Event) -> None:
    for boat, more in (("5", ()), ("3", ()), ("2", ()), ("5", ("--corrects", "1", "--reason", "by check"))):
        call_command(
            "take_payment",
            event.slug,
            boat,
            "entry_fee",
            "0",
            "--means",
            "check" if more else "cash",
            *more,
            stdout=StringIO(),
        )
    Entry.objects.filter(event=event, boat=2).update(status="withdrawn")
    document = run(event.slug, "launch", "--first-paid", "--json")
    assert document["seed"] is None and {row["hash"] for row in document["order"]} == {None}
    assert [row["entry"] for row in document["order"]] == [5, 3, 1, 4, 6, 7]
    assert "paid" in document["recipe"] and "SHA" not in document["recipe"]


def test_lots_break_the_ties_that_the_rule_sheet_leaves_to_them() -> None:
    slips = [world.slip(boat=str(n), gross="8.50", weighed="15:10") for n in (1, 2, 3)]
    event = world.event("Tied", 3, slips, rules={"ties": "lot"})
    document = run(event.slug, "lots", "--seed", SEED, "--json")
    out = StringIO()
    call_command("export_event", event.slug, "--format", "json", stdout=out)
    placed = [(row["place"], row["tied"], row["team"]) for row in json.loads(out.getvalue())["standings"]]
    assert placed == [(n, False, row["team"]) for n, row in enumerate(document["order"], start=1)]


def test_draws_are_only_added_and_the_ledger_knows_them(event: Event) -> None:
    kept = draw(event, "lots", "mara", SEED)
    draw(event, "flights", "mara", SEED)
    void_draw(event, "flights", "mara", "Again")
    assert ledger_of(event).faults == ()
    with pytest.raises(AppendOnlyError):
        kept.save()
    Entry.objects.filter(event=event, lot=1).update(lot=2)
    assert any("altered since" in fault for fault in ledger_of(event).faults)


def test_the_words_name_seed_recipe_and_every_team(event: Event) -> None:
    said = run(event.slug, "launch", "--seed", SEED)
    order = by_hash(SEED, "launch", [(one.number, one.name) for one in event.entries.order_by("number")])
    assert f"Seed: {SEED}" in said and "SHA-256" in said
    assert [line for line in said.splitlines() if line.startswith("Launches ")] == [
        f"Launches {place}: entry {entry}, {team}  {hashed}" for place, (entry, team, hashed) in enumerate(order, 1)
    ]

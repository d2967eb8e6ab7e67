"""Money by the commands, from the first payment to the official result."""

import json
from io import StringIO
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command

from weighin.audit.models import AppendOnlyError
from weighin.events.models import Event
from weighin.events.queries.club_sheets import named_sheet
from weighin.events.services.deletion import recorded, remove_event
from weighin.events.services.events import FIELDS, change_event
from weighin.events.services.rule_sheet import change_rules, copy_rules
from weighin.operations.queries.ledgers import ledger_of
from weighin.operations.queries.open_questions import CLOSE, open_questions
from weighin.registration.models import Payment
from weighin.registration.services.payments import rows_of_earlier_teams
from weighin.roster.models import Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.seen import mark_seen
from weighin.roster.services.teams import enter_team
from weighin.rules.faults import Faults
from weighin.workbooks.services import may_replace

pytestmark = [pytest.mark.django_db, pytest.mark.database]
TEAMS = [
    {"boat": "1", "team": "Alder", "angler_1": "A", "paid": "yes", "big_fish_pot": "yes"},
    {"boat": "2", "team": "Birch", "angler_1": "B"},
    {"boat": "3", "team": "Cedar", "angler_1": "C", "youth": "yes"},
    {"boat": "4", "team": "Dogwood", "angler_1": "D", "status": "withdrawn"},
]


def run(*words: Any) -> str:
    out = StringIO()
    call_command(*map(str, words), stdout=out, stderr=StringIO())
    return out.getvalue()


def paid(event: Event) -> dict[int, tuple[bool, bool]]:
    return {e.boat: (e.paid, e.big_fish_pot) for e in Entry.objects.filter(event=event)}


def take(event: Event, *words: Any, means: str = "cash") -> int:
    return int(run("take_payment", event.slug, *words, "--means", means).strip().splitlines()[-1])


def sheet(event: Event) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run("cash_up", event.slug, "--json"))
    return found


@pytest.fixture
def event() -> Event:
    slips = [
        world.slip(boat="1", gross="8.50", big_fish="1.80", weighed="15:10"),
        world.slip(boat="2", gross="7.00", weighed="15:05"),
        world.slip(boat="3", gross="6.00", fish="6", alive="6", weighed="15:01"),
    ]
    return world.event(
        "Money",
        TEAMS,
        slips,
        rules={"big_fish_pot_fee": "10", "payback_percent": "80"},
        entry_fee="60",
        added_money="100",
    )


def test_an_imported_paid_is_one_row_and_rows_say_who_has_paid(event: Event) -> None:
    rows = Payment.objects.filter(event=event).values_list("number", "entry__boat", "kind", "amount", "means")
    assert [(*row[:3], str(row[3]), row[4]) for row in rows] == [
        (1, 1, "entry_fee", "60.00", "not_recorded"),
        (2, 1, "big_fish_pot", "10.00", "not_recorded"),
    ]
    assert take(event, 2, "entry_fee", "$40.00") == 3
    assert paid(event)[2] == (False, False)
    assert take(event, 2, "entry_fee", 20) == 4
    assert take(event, 2, "big_fish_pot", "10", means="check") == 5
    assert paid(event) == {1: (True, True), 2: (True, True), 3: (False, False), 4: (False, False)}
    assert take(event, 2, "entry_fee", "-60") == 6
    assert paid(event)[2] == (False, True)
    assert not ledger_of(event).faults


def test_a_correction_takes_the_place_of_a_row_also_of_another_boat(event: Event) -> None:
    wrong = take(event, 2, "entry_fee", "60")
    with pytest.raises(CommandError, match="reason|why"):
        take(event, 3, "entry_fee", "60", "--corrects", wrong)
    right = take(event, 3, "entry_fee", "60", "--corrects", wrong, "--reason", "wrong boat")
    assert (right, paid(event)[2], paid(event)[3]) == (wrong + 1, (False, False), (True, False))
    with pytest.raises(CommandError):
        take(event, 3, "entry_fee", "50", "--corrects", wrong, "--reason", "again")
    with pytest.raises(AppendOnlyError):
        Payment.objects.filter(number=wrong).delete()


def test_the_cash_up_adds_up(event: Event) -> None:
    run("side_pot", event.slug, "Youth", "--fee", "5", "--wins", "youth_total")
    run("side_pot", event.slug, "First limit", "--fee", "5", "--wins", "first_limit", "--shares", "60, 40")
    take(event, 2, "entry_fee", "60", means="card")
    take(event, 3, "entry_fee", "70")
    take(event, 3, "side_pot", "5", "--pot", "youth")
    for boat in (1, 2, 3):
        take(event, boat, "side_pot", "5", "--pot", "First limit", means="check")
    take(event, 4, "entry_fee", "60")
    take(event, 4, "entry_fee", "-60")
    found = sheet(event)
    # Three fees of 60 paid; 80 % of 180 is 144, with 100 added 244: 1 place. The club keeps 190 - 144 = 46.
    # 6 fish are no limit of 7, so boats 2 (15:05) and 1 (15:10) share 15.00 by 60 : 40.
    assert found == {
        "currency": "$",
        "state": "live",
        "expected": {"entry_fee": "180.00", "big_fish_pot": "10.00", "side_pots": {"First limit": "15.00", "Youth": "5.00"}},
        "received": {"card": "60.00", "cash": "135.00", "check": "15.00", "not_recorded": "70.00"},
        "back": "60.00",
        "owed": [{"boat": 3, "team": "Cedar", "kind": "entry_fee", "pot": None, "amount": "-10.00"}],
        "purse": "244.00",
        "added_money": "100.00",
        "kept_by_club": "46.00",
        "pots": {"big_fish_pot": "10.00", "First limit": "15.00", "Youth": "5.00"},
        "due": [
            {"boat": 1, "kind": "place", "pot": None, "amount": "244.00"},
            {"boat": 1, "kind": "big_fish_pot", "pot": None, "amount": "10.00"},
            {"boat": 2, "kind": "side_pot", "pot": "First limit", "amount": "9.00"},
            {"boat": 1, "kind": "side_pot", "pot": "First limit", "amount": "6.00"},
            {"boat": 3, "kind": "side_pot", "pot": "Youth", "amount": "5.00"},
        ],
        "paid_out": "0.00",
        "unclaimed": "0.00",
        "difference": "10.00",
    }  # fmt: skip
    said = run("cash_up", event.slug)
    assert "  Entry fee: $180.00\n" in said and "  Card: $60.00\n" in said and "Difference: $10.00" in said
    assert "  Boat 3, Cedar, Entry fee: \N{MINUS SIGN}$10.00\n" in said


def test_official_needs_the_money_to_balance_or_a_reason(event: Event) -> None:
    take(event, 3, "entry_fee", "70")
    with pytest.raises(CommandError, match="--money-reason"):
        run("publish_result", event.slug, "--overrule", "as it is")
    run("publish_result", event.slug, "--overrule", "as it is", "--money-reason", "boat 3 gave the club ten")
    assert event.official_results.get().overruled[-1]["reason"] == "boat 3 gave the club ten"
    assert sheet(event)["state"] == "official"


def test_a_prize_is_paid_out_once(event: Event) -> None:
    run("pay_out", event.slug, 1, "place", "--means", "check", "--received-by", "A. Alder")
    assert sheet(event)["paid_out"] == "148.00"  # 80 % of 60, and 100 added
    for words in ((1, "place"), (2, "place"), (9, "place"), (1, "nothing"), (1, "side_pot", "--pot", "None")):
        with pytest.raises(CommandError):
            run("pay_out", event.slug, *words, "--means", "cash", "--received-by", "A")


@pytest.mark.parametrize(
    "words",
    [(9, "entry_fee", "60"), (1, "fee", "60"), (1, "entry_fee", "sixty"), (1, "entry_fee", "1.005"), (1, "side_pot", "5"),
     (1, "side_pot", "5", "--pot", "Nope"), (1, "entry_fee", "5", "--pot", "Nope"), ("x", "entry_fee", "5")],
)  # fmt: skip
def test_what_is_wrong_is_said_and_nothing_written(event: Event, words: tuple[Any, ...]) -> None:
    with pytest.raises(CommandError):
        take(event, *words)
    with pytest.raises(CommandError, match="means"):
        take(event, 1, "entry_fee", "5", means="shells")
    with pytest.raises(CommandError, match="fee"):
        run("side_pot", event.slug, "Pot", "--fee=-5", "--wins", "total")
    assert Payment.objects.count() == 2


def test_a_fee_that_was_paid_changes_with_a_reason_and_then_some_owe(event: Event) -> None:
    empty = world.event("Before slips", TEAMS, rules={"big_fish_pot_fee": "10"}, entry_fee="60")
    said = {name: getattr(empty, name) for name in FIELDS} | {"days": 1, "entry_fee": 75}
    with pytest.raises(Faults) as refused:
        change_event(empty, said, "dora")
    assert [fault.field for fault in refused.value.faults] == ["fee_reason"]
    change_event(empty, {**said, "fee_reason": "the ramp costs more"}, "dora")
    assert paid(empty)[1] == (False, True)
    assert {"boat": 1, "team": "Alder", "kind": "entry_fee", "pot": None, "amount": "15.00"} in sheet(empty)["owed"]
    written = {**empty.rule_sheet.written, "big_fish_pot_fee": "20"}
    with pytest.raises(Faults):
        change_rules(empty, written, "dora")
    change_rules(empty, {**written, "fee_reason": "asked for"}, "dora")
    assert paid(empty)[1] == (False, False)
    assert not ledger_of(empty).faults
    defaults = named_sheet(empty.club, "defaults", "lb")
    assert defaults is not None
    with pytest.raises(Faults) as refused:
        copy_rules(empty, defaults, "dora", {})
    assert [fault.field for fault in refused.value.faults] == ["fee_reason"]
    copy_rules(empty, defaults, "dora", {"fee_reason": "no pot this time"})
    assert not ledger_of(empty).faults


def test_a_side_pot_that_was_paid_keeps_its_name_and_changes_with_a_reason(event: Event) -> None:
    run("side_pot", event.slug, "Pot", "--fee", "5", "--wins", "total")
    run("side_pot", event.slug, "pot", "--fee", "6", "--wins", "total")
    take(event, 1, "side_pot", "6", "--pot", "Pot")
    with pytest.raises(CommandError, match="reason|why"):
        run("side_pot", event.slug, "Pot", "--fee", "7", "--wins", "total")
    run("side_pot", event.slug, "Pot", "--fee", "7", "--wins", "total", "--reason", "agreed")
    assert sheet(event)["owed"][0]["amount"] == "1.00"


def test_no_side_pot_is_called_what_files_call_the_big_fish_pot(event: Event) -> None:
    with pytest.raises(CommandError, match="another name"):
        run("side_pot", event.slug, "Big_fish_pot", "--fee", "5", "--wins", "total")
    assert sheet(event)["pots"] == {"big_fish_pot": "10.00"}


def test_teams_and_events_go_while_only_a_list_says_that_they_paid() -> None:
    event = world.event("Going", TEAMS, entry_fee="60")
    assert not recorded(event) and may_replace(event)
    take(event, 2, "entry_fee", "60")
    assert recorded(event) and not may_replace(event)
    other = world.event("Going too", TEAMS, entry_fee="60", season="2027")
    remove_event(other, "Going too", "by mistake", "dora")
    assert not Event.objects.filter(pk=other.pk).exists()
    assert set(Payment.objects.values_list("event", flat=True)) == {event.pk}


def test_money_of_a_team_without_a_boat_number_is_asked_about_before_a_result_is_official(event: Event) -> None:
    """Such a team stands in no standings, so its fee enters no purse: a reason is written, or the money goes back."""
    paid_in = EntryValues(None, "Alone", ("Al One",), paid=True, big_fish_pot=True, status="withdrawn")
    enter_team(event, paid_in, "dee")
    enter_team(event, EntryValues(None, "Unpaid", ("Una Paid",)), "dee")
    found = {question.code: question.words for question in open_questions(event)}
    assert "money_difference" not in found and sheet(event)["purse"] == "148.00"
    assert found["paid_without_number"].startswith("1 team has paid") and "Alone" not in found["paid_without_number"]
    assert "paid_without_number" not in {question.code for question in open_questions(event, CLOSE)}


def test_a_workbook_replaces_no_event_of_which_the_desk_has_seen_something(event: Event) -> None:
    other = world.event("Seen", TEAMS, entry_fee="60")
    assert may_replace(other)
    mark_seen(other, "2", ["waiver"], None, "dee")
    assert not may_replace(other)


def test_teams_of_earlier_databases_get_their_rows_once(event: Event) -> None:
    Entry.objects.filter(event=event, boat=2).update(paid=True)
    rows_of_earlier_teams()
    rows_of_earlier_teams()
    rows = Payment.objects.filter(event=event, entry__boat=2)
    assert [(row.kind, str(row.amount), row.means) for row in rows] == [("entry_fee", "60.00", "not_recorded")]

"""The lines of a slip's score: in words, and adding up to the total to the last digit."""

from decimal import Decimal

import pytest
import world
from second_reading.drawing.generate import random_event
from slips.table import EXAMPLE, EXAMPLE_RULES, record

from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.rules import rulebook, weights
from weighin.slips.domain.explaining import Scored, scored
from weighin.slips.domain.hints import clock_rules, goes_on_scale, hints, table_rules
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import current_slips

MINUS = "\u2212\u00a0"


def lines_of(event: Event, **values: str) -> list[tuple[str, str]]:
    slip = record(event, **values)
    return [(line.words, line.figures) for line in made(slip, event).lines]


def made(slip: WeighSlip, event: Event) -> Scored:
    found = scored(slip, table_of(event))
    assert found is not None
    return found


def amount(figures: str, unit: str) -> Decimal:
    """A line's figure as a number."""
    size = weights.read(figures.removeprefix(MINUS).removeprefix("\u2212"), unit)
    return -size if figures.startswith("\u2212") else size


def test_the_worked_example_of_the_contract(db: None) -> None:
    event = world.event(rules=EXAMPLE_RULES)
    assert lines_of(event, **EXAMPLE) == [
        ("Scale reading, 6 fish and bag", "9.47"),
        ("Bag", f"{MINUS}0.32"),
        ("1 short fish: the largest fish left removed", f"{MINUS}1.71"),
        ("2 dead fish: 0.25, then 0.50 lb", f"{MINUS}0.75"),
        ("3 minutes late, 1.00 lb each", f"{MINUS}3.00"),
    ]
    assert made(current_slips(event)[0], event).score.total == Decimal("3.69")


def test_what_cost_nothing_is_said(db: None) -> None:
    event = world.event()
    assert lines_of(event, checked_in="14:21") == [
        ("Net weight, 7 fish", "8.50"),
        ("No dead fish; no short fish; checked in 2:21 PM, due 3:00 PM", "0.00"),
    ]
    excused = lines_of(event, boat="2", checked_in="15:10", excused_minutes="12")
    assert excused[-1][0].endswith("checked in 3:10 PM, due 3:00 PM, 12 min excused")


def test_a_lost_day_takes_the_whole_net(db: None) -> None:
    event = world.event()
    assert lines_of(event, fish="8", alive="8") == [
        ("Net weight, 8 fish", "8.50"),
        ("Day lost for fish over the limit", f"{MINUS}8.50"),
    ]
    ruled = lines_of(event, boat="2", disqualified_reason="fished in closed water")
    assert ruled[-1][0] == "Day lost by ruling: fished in closed water"


def test_floor_and_bonus_have_lines_of_their_own(db: None) -> None:
    event = world.event(rules={"live_fish_bonus": "0.10"})
    lines = dict(
        lines_of(event, fish="1", alive="1", gross="1.00", extra_penalty="3.00", extra_penalty_reason="two rods")
    )
    assert lines["Bonus for live fish"] == "0.10" and lines["Extra penalty: two rods"] == f"{MINUS}3.00"
    assert lines["A day is never below 0"] == "1.90"


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"big_fish": "1.6"}, "Big fish, alive, 1.60 lb: counts."),
        ({"big_fish": "1.6", "alive": "6", "dead": "1", "big_fish_alive": "no"},
         "Big fish, dead, 1.60 lb: does not count, a dead fish cannot be the big fish."),
        ({"big_fish": "1.6", "disqualified_reason": "x"}, "Big fish, alive, 1.60 lb: does not count, the day is lost."),
        ({"big_fish": "1.6", "checked_in": "15:00:30"}, "Big fish, alive, 1.60 lb: counts 0.60 lb, less what coming in late costs."),
        ({}, ""),
    ],
)  # fmt: skip
def test_the_big_fish_is_told(db: None, values: dict[str, str], words: str) -> None:
    event = world.event(rules={"late_reduces_big_fish": "yes"})
    assert made(record(event, **values), event).big_fish == words


@pytest.mark.parametrize("seed", range(24))
def test_the_lines_add_up_on_random_events(db: None, seed: int) -> None:
    event = world.event_of(random_event(seed))
    table = table_of(event)
    for slip in current_slips(event):
        found = scored(slip, table)
        assert found is not None
        total = sum((amount(line.figures, event.weight_unit) for line in found.lines), Decimal(0))
        assert total == found.score.total, (slip.number, found.lines)


def test_a_void_has_no_score(db: None) -> None:
    event = world.event()
    slip = record(event)
    slip.void = True
    assert scored(slip, table_of(event)) is None


@pytest.mark.parametrize(
    ("rules", "counts", "words"),
    [
        ({}, (7, 0, 0), "7 fish go on the scale."),
        ({}, (1, 0, 0), "1 fish goes on the scale."),
        ({}, (0, 0, 0), "No fish: nothing goes on the scale."),
        ({}, (5, 2, 1), "6 fish go on the scale, 1 short does not."),
        ({"dead_fish": "not_weighed"}, (5, 2, 0), "5 fish go on the scale, 2 dead do not."),
        ({"dead_fish": "both"}, (5, 2, 1), "4 fish go on the scale, 3 short or dead do not."),
        ({"dead_fish": "both"}, (0, 2, 0), "Nothing goes on the scale, 2 dead do not."),
        ({"over_limit": "penalty"}, (9, 0, 0), "7 fish go on the scale, 2 smallest, over the limit, do not."),
    ],
)
def test_the_table_is_told_how_many_go_on_the_scale(
    rules: dict[str, str], counts: tuple[int, int, int], words: str
) -> None:
    assert goes_on_scale(rulebook.read(rules, "lb"), *counts) == words


def test_hints_say_what_these_rules_say() -> None:
    rules = rulebook.read({"dead_fish_penalty": "0.25", "minimum_length_in": "10", "bag_tare": "0.32"}, "lb")
    said = dict(table_rules(rules))
    assert said["Dead"] == "Dead fish are weighed. Each dead fish, short or not, costs 0.25 lb."
    assert said["Short"].startswith("Under 10 in") and "costs 1.00 lb" in said["Short"] and "Over 7" in said
    assert "15 minutes" in clock_rules(rules) and "0.32 lb" in hints(rules)["tare"]
    assert "cannot be it" in hints(rules)["big_fish_alive"]
    may = rulebook.read({"dead_fish_big_fish": "yes"}, "kg")
    assert "may be it" in hints(may)["big_fish_alive"] and "4.295" in hints(may)["gross"]

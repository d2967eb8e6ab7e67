"""What scoring costs, in multiples of the floor: a page, a standings table and an import all wait for this."""

from decimal import Decimal as D
from fractions import Fraction

import pytest

from bench.floor import FLOOR, best, floor
from bench.measured import Measured
from weighin.rules import rulebook
from weighin.rules.results import Team
from weighin.rules.scoring import score
from weighin.rules.slips import Slip
from weighin.rules.tournament import DaySlip, run

pytestmark = pytest.mark.bench

RULES = {
    "dead_fish_penalty": "0.25, 0.50",
    "short_fish": "lose_largest",
    "over_limit": "remove_largest",
    "live_fish_bonus": "0.10",
    "late_reduces_big_fish": "yes",
}
# Seen: 3.7 and 4.6 times
MOST_TIMES = 10
BOATS = 300


def costly(number: int) -> Slip:
    """A slip with every deduction there is, different from its neighbours."""
    return Slip(
        fish=8,
        alive=6,
        dead=2,
        short=1,
        gross=D("9.47") + D(number % 97) / 100,
        tare=D("0.32"),
        big_fish=D("1.62"),
        big_fish_alive=True,
        largest_weights=(D("1.71"), D("1.66"), D("1.62")),
        minutes_late=Fraction(130 + number % 7, 60),
        extra_penalty=D("0.10"),
        extra_penalty_reason="no life jacket",
    )


def test_a_thousand_slips(measured: Measured) -> None:
    book = rulebook.read(RULES, "lb")
    slips = [costly(number) for number in range(1_000)]
    assert all(len(score(book, slip).deductions) == 5 for slip in slips)
    took = best(lambda: [score(book, slip) for slip in slips])
    measured("1,000 slips scored", took, "ms", floor(), FLOOR, at_most=MOST_TIMES)


def test_a_large_event_is_ranked_paid_and_given_points(measured: Measured) -> None:
    book = rulebook.read(RULES | {"places_paid": "1 per 5", "points_per_pound": "1"}, "lb")
    teams = [Team(boat, f"Team {boat}", paid=True, big_fish_pot=True) for boat in range(1, BOATS + 1)]
    slips = [DaySlip(team.boat, day, costly(team.boat * 3 + day)) for team in teams for day in (1, 2, 3)]
    assert len(run(book, teams, slips, (1, 2, 3), D(60)).ranked) == BOATS
    took = best(lambda: run(book, teams, slips, (1, 2, 3), D(60)))
    measured("900 slips of 300 boats scored, ranked and paid", took, "ms", floor(), FLOOR, at_most=MOST_TIMES)

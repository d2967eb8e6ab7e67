"""Side pots by hand: who wins, ties, left-over cents, and what nobody claims. The rules are the project's own."""

from datetime import UTC, datetime
from decimal import Decimal

import pytest

from weighin.rules.ranking import rank
from weighin.rules.results import Team, TeamResult
from weighin.rules.rulebook import defaults
from weighin.rules.side_pots import SidePot, split_side_pot


def result(boat: int, total: str, big: str | None = None, paid: bool = True, status: str = "ranked") -> TeamResult:
    weight = Decimal(total)
    return TeamResult(
        team=Team(boat, f"Team {boat}", paid=paid),
        days=(),
        status=status,
        fish=7,
        alive=7,
        dead=0,
        weighed=7,
        gross=weight,
        penalty=Decimal(0),
        bonus=Decimal(0),
        total=weight,
        big_fish=None if big is None else Decimal(big),
        alive_counting=7,
    )


FOUR = rank(
    defaults("lb"),
    [
        result(1, "9.10", "1.90"),
        result(2, "8.00", "2.10"),
        result(3, "8.00", "2.10", paid=False),
        result(4, "7.00", "2.10"),
        result(5, "0", status="not_weighed"),
    ],
)
ALL = {1, 2, 3, 4, 5}


def pot(wins: str, fee: str = "5", *shares: int) -> SidePot:
    return SidePot("Pot", Decimal(fee), wins, tuple(map(Decimal, shares)) or (Decimal(100),))


def test_the_largest_fish_ties_share_and_the_odd_cent_goes_to_the_lower_boat() -> None:
    """Boats 2 and 4 hold 2.10 lb; boat 3 too, but it has not paid the entry fee. Four paid both: 4 x 5.01 = 20.04."""
    split = split_side_pot(pot("big_fish", "5.01"), FOUR, ALL)
    assert (split.amount, split.prizes) == (Decimal("20.04"), {2: Decimal("10.02"), 4: Decimal("10.02")})
    odd = split_side_pot(pot("big_fish", "6.67"), FOUR, {2, 4, 5})
    assert odd.prizes == {2: Decimal("10.01"), 4: Decimal("10.00")}


def test_shares_go_by_rank_and_fewer_teams_than_shares_take_the_first_of_them() -> None:
    """60 : 40 of 15.00 is 9 and 6; with one team in it, all."""
    split = split_side_pot(pot("total", "5", 60, 40), FOUR, {1, 2, 4})
    assert split.prizes == {1: Decimal("9.00"), 2: Decimal("6.00")}
    assert split_side_pot(pot("total", "5", 60, 40), FOUR, {4}).prizes == {4: Decimal("5.00")}


def test_cents_left_over_go_to_the_first() -> None:
    """A third of 10.00 each is 3.33; the first has the cent that is left."""
    split = split_side_pot(pot("total", "3.334", 1, 1, 1), FOUR, {1, 2, 4})
    assert split.amount == Decimal("10.00")
    assert split.prizes == {1: Decimal("3.34"), 2: Decimal("3.33"), 4: Decimal("3.33")}


def test_only_youth_teams_win_the_youth_pot_which_others_may_pay_into() -> None:
    split = split_side_pot(pot("youth_total"), FOUR, {1, 2, 4}, youth={4})
    assert (split.amount, split.prizes) == (Decimal("15.00"), {4: Decimal("15.00")})
    none = split_side_pot(pot("youth_total"), FOUR, {1, 2})
    assert (none.prizes, none.unclaimed) == ({}, Decimal("10.00"))


def test_the_first_limit_wins_by_its_clock_and_equal_moments_share() -> None:
    early, late = datetime(2026, 6, 20, 14, tzinfo=UTC), datetime(2026, 6, 20, 15, tzinfo=UTC)
    first = split_side_pot(pot("first_limit"), FOUR, {1, 2, 4}, first_limits={1: late, 2: early, 4: early, 3: early})
    assert first.prizes == {2: Decimal("7.50"), 4: Decimal("7.50")}
    untimed = split_side_pot(pot("first_limit"), FOUR, {1, 2, 4})
    assert (untimed.prizes, untimed.unclaimed) == ({}, Decimal("15.00"))


@pytest.mark.parametrize("wins", ["big_fish", "total"])
def test_a_pot_that_nobody_ranked_paid_is_unclaimed(wins: str) -> None:
    split = split_side_pot(pot(wins), FOUR, {5})
    assert (split.amount, split.unclaimed) == (Decimal("5.00"), Decimal("5.00"))


def test_a_big_fish_pot_without_a_big_fish_is_unclaimed() -> None:
    rows = rank(defaults("lb"), [result(1, "5"), result(2, "4")])
    assert split_side_pot(pot("big_fish"), rows, {1, 2}).unclaimed == Decimal("10.00")

"""The till by hand, and a hundred random events by a second way of adding up. Amounts are the tests' own."""

import random
from decimal import Decimal

from weighin.registration.domain.cash import FEE, POT, Cash, Paid, cash_of, side_pot

LARGEST = side_pot("Largest white")
FEES = {FEE: Decimal("60.00"), POT: Decimal("10.00"), LARGEST: Decimal("5.00")}


def row(entry: int, amount: str, what: tuple[str, str] = FEE, means: str = "cash") -> Paid:
    return Paid(entry, what, Decimal(amount), means)


def test_paid_part_paid_unpaid_and_given_back() -> None:
    """1 paid all; 2 owes 20 of 60; 3 nothing yet; 4 withdrew and has its 60 back; 5 withdrew unpaid; 6 paid 5 too much."""
    rows = [
        row(1, "60"),
        row(1, "10", POT, "check"),
        row(2, "40", FEE, "card"),
        row(4, "60"),
        row(4, "-60"),
        row(6, "65"),
    ]
    cash = cash_of(FEES, [1, 2, 3, 4, 5, 6], {4, 5}, rows)
    assert cash.expected == {FEE: Decimal(240), POT: Decimal(10), LARGEST: Decimal(0)}
    assert cash.received == {"cash": Decimal(185), "check": Decimal(10), "card": Decimal(40)}
    assert cash.back == Decimal(60)
    owed = [(one.entry, one.what, str(one.amount)) for one in cash.owed]
    assert owed == [(2, FEE, "20.00"), (3, FEE, "60.00"), (6, FEE, "-5.00")]
    assert cash.in_on == {FEE: {1, 6}, POT: {1}, LARGEST: set()}
    # 235 taken, 60 given back, less two fees and a pot (130): 40 of team 2 and 5 of team 6
    assert (cash.fees_kept, cash.difference) == (Decimal(165), Decimal(45))


def test_a_withdrawn_team_that_paid_and_was_not_paid_back_owes_the_rest() -> None:
    cash = cash_of(FEES, [1, 2], {1, 2}, [row(1, "60"), row(1, "-10"), row(2, "60")])
    assert [(one.entry, one.amount) for one in cash.owed] == [(1, Decimal(10))]
    assert cash.expected[FEE] == Decimal(120)


def test_a_fee_of_nothing_is_paid_by_a_row_of_nothing() -> None:
    free = dict.fromkeys(FEES, Decimal(0))
    cash = cash_of(free, [1, 2], set(), [row(1, "0"), row(1, "0", POT)])
    assert (cash.in_on[FEE], cash.in_on[POT], cash.owed, cash.received) == ({1}, {1}, (), {})


def test_a_pot_corrected_to_nothing_is_no_pot() -> None:
    cash = cash_of(FEES, [1], set(), [row(1, "60"), row(1, "0", LARGEST)])
    assert (cash.expected[LARGEST], cash.owed, cash.in_on[LARGEST]) == (0, (), set())


def test_a_hundred_random_tills_add_up() -> None:
    """Received less back, with what is owed, is what was expected; and the difference by cents counted one by one."""
    chance = random.Random(20260620)
    for _ in range(100):
        fees = {what: Decimal(chance.randrange(0, 9000)) / 100 for what in FEES}
        teams = list(range(1, chance.randrange(2, 40)))
        gone = {entry for entry in teams if chance.random() < 0.15}
        rows = []
        for entry in teams:
            for what, fee in fees.items():
                if chance.random() < (0.85 if what == FEE else 0.4):
                    part = chance.choice(
                        [fee, fee, fee, fee - Decimal("0.01"), fee + 1, Decimal(chance.randrange(0, 100))]
                    )
                    rows.append(Paid(entry, what, max(part, Decimal(0)), chance.choice(["cash", "check", "online"])))
                    if (entry in gone and chance.random() < 0.7) or chance.random() < 0.05:
                        rows.append(Paid(entry, what, -max(part, Decimal(0)), "cash"))
        check(cash_of(fees, teams, gone, rows), fees, rows)


def check(cash: Cash, fees: dict[tuple[str, str], Decimal], rows: list[Paid]) -> None:
    """A second way: whole cents, team by team, without any of the code above."""
    came = sum(int(one.amount * 100) for one in rows if one.amount > 0)
    went = -sum(int(one.amount * 100) for one in rows if one.amount < 0)
    owed = sum(int(one.amount * 100) for one in cash.owed)
    assert came == int(sum(cash.received.values()) * 100) and went == int(cash.back * 100)
    assert came - went + owed == int(sum(cash.expected.values()) * 100)
    covered = 0
    for what, fee in fees.items():
        for entry in {one.entry for one in rows if one.what == what}:
            mine = sum(int(one.amount * 100) for one in rows if (one.entry, one.what) == (entry, what))
            covered += int(fee * 100) if mine >= int(fee * 100) else 0
    assert int(cash.difference * 100) == came - went - covered

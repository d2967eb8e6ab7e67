"""Money: the purse, the places paid, the prizes and the big fish pot, to the cent."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from weighin.rules.ranking import Ranked
from weighin.rules.rulebook import Rulebook

CENT = Decimal("0.01")
NOTHING = Decimal("0.00")


@dataclass(frozen=True)
class Purse:
    """What was paid in and what is paid out. Money is Decimal with two decimals.

    ``prizes`` and ``pot_prizes`` map boat to amount, only those who get something.
    """

    paid_entries: int
    purse: Decimal
    places_paid: int
    unclaimed: Decimal
    big_fish_pot: Decimal
    big_fish_pot_unclaimed: Decimal
    prizes: dict[int, Decimal]
    pot_prizes: dict[int, Decimal]


def split(rulebook: Rulebook, ranked: Sequence[Ranked], entry_fee: Decimal, added_money: Decimal) -> Purse:
    """Share out the purse and the big fish pot among the ranked teams that have paid.

    ``ranked`` is the whole list of ``rank``; ``entry_fee`` and ``added_money`` are zero or more.
    Prizes add up to the purse to the cent unless nobody can claim it.

    >>> from weighin.rules import rulebook
    >>> rules = rulebook.read({"place_shares": "40, 30, 20, 10", "rounding": "5"}, "lb")
    >>> [str(prize) for prize in places(rules, Decimal("1354.00"), 4)]
    ['544.00', '405.00', '270.00', '135.00']
    """
    paid = [r.result.team for r in ranked if r.result.team.paid]
    paid_in = Fraction(entry_fee) * len(paid) * Fraction(rulebook.payback_percent) / 100
    kept_back = _floor_fraction(paid_in, CENT)
    purse = (kept_back + added_money).quantize(CENT)
    winners = [r for r in ranked if r.place is not None and r.result.team.paid]
    count = places_paid(rulebook, len(paid), len(winners))
    prizes = places(rulebook, purse, count)
    in_pot = [team for team in paid if team.big_fish_pot]
    pot = (rulebook.big_fish_pot_fee * len(in_pot)).quantize(CENT)
    pot_prizes = _pot(rulebook, pot, winners)
    return Purse(
        paid_entries=len(paid),
        purse=purse,
        places_paid=count,
        unclaimed=NOTHING if winners else purse,
        big_fish_pot=pot,
        big_fish_pot_unclaimed=NOTHING if pot_prizes else pot,
        prizes=_with_ties(prizes, [(r.place, r.result.team.boat) for r in winners]),
        pot_prizes=pot_prizes,
    )


def places_paid(rulebook: Rulebook, paid_entries: int, winners: int) -> int:
    """How many places are paid: at least 1, at most the ranked paid teams and the shares given; 0 without winners."""
    if winners == 0:
        return 0
    rule = rulebook.places_paid
    wanted = rule.number if rule.number is not None else paid_entries // (rule.one_per or 1)
    count = min(max(wanted, 1), winners)
    return count if rulebook.place_shares is None else min(count, len(rulebook.place_shares))


def places(rulebook: Rulebook, purse: Decimal, count: int) -> list[Decimal]:
    """The prizes of the first ``count`` places, each rounded down, what is left added to first."""
    shares = rulebook.place_shares[:count] if rulebook.place_shares else [Decimal(n) for n in range(count, 0, -1)]
    return _by_shares(purse, shares, rulebook.rounding)


def pot_split(pot: Decimal, shares: Sequence[Decimal], entered: Iterable[tuple[Any, int]]) -> dict[int, Decimal]:
    """What each boat gets of a pot: the least of (what it is ranked by, boat) is first.

    Fewer boats than shares: the first of them only; equal ones split the shares they cover; cents left over go to the
    first. Empty where nobody is entered.

    >>> pot_split(Decimal("10.01"), [Decimal(60), Decimal(40)], [(-2, 7), (-3, 5), (-1, 9)])
    {5: Decimal('6.01'), 7: Decimal('4.00')}
    """
    order = sorted(entered)
    return _with_ties(_by_shares(pot, shares[: len(order)], CENT), order)


def _pot(rulebook: Rulebook, pot: Decimal, winners: Sequence[Ranked]) -> dict[int, Decimal]:
    fish = (
        (-r.result.big_fish, r.result.team.boat)
        for r in winners
        if r.result.team.big_fish_pot and r.result.big_fish is not None
    )
    return pot_split(pot, rulebook.big_fish_shares, fish)


def _by_shares(amount: Decimal, shares: Sequence[Decimal], rounding: Decimal) -> list[Decimal]:
    if not shares:
        return []
    together = sum(shares, Decimal(0))
    # Shares that are zero as far as places are paid leave everything to first place.
    parts = [
        _floor_fraction(Fraction(amount) * Fraction(share) / Fraction(together), rounding) if together else NOTHING
        for share in shares
    ]
    parts[0] += amount - sum(parts, Decimal(0))
    return [part.quantize(CENT) for part in parts]


def _with_ties(prizes: Sequence[Decimal], order: Sequence[tuple[object, int]]) -> dict[int, Decimal]:
    """Give prizes to boats in ``order`` of (rank, boat); equal ranks split the places they cover."""
    paid: dict[int, Decimal] = {}
    start = 0
    while start < len(order):
        end = start
        while end < len(order) and order[end][0] == order[start][0]:
            end += 1
        boats = sorted(boat for _, boat in order[start:end])
        cents = int(sum(prizes[start:end], Decimal(0)) * 100)
        each, left = divmod(cents, len(boats))
        for position, boat in enumerate(boats):
            amount = Decimal(each + (1 if position < left else 0)) / 100
            if amount:
                paid[boat] = amount.quantize(CENT)
        start = end
    return paid


def _floor_fraction(amount: Fraction, step: Decimal) -> Decimal:
    return (amount // Fraction(step)) * step

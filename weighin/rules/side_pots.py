"""Side pots: what each holds and who wins it, to the cent."""

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from weighin.rules.payouts import CENT, NOTHING, pot_split
from weighin.rules.ranking import Ranked
from weighin.rules.rulebook import Rulebook

WINS = ("big_fish", "total", "youth_total", "first_limit")
WHOLE = (Decimal(100),)


@dataclass(frozen=True)
class SidePot:
    """A pot beside the big fish pot. ``fee`` is Decimal, zero or more; ``wins`` one of ``WINS``; ``shares`` as big_fish_shares."""

    name: str
    fee: Decimal
    wins: str
    shares: tuple[Decimal, ...] = WHOLE


@dataclass(frozen=True)
class SidePotSplit:
    """What a pot holds and what each boat gets of it; ``unclaimed`` is all of it or nothing."""

    amount: Decimal
    prizes: dict[int, Decimal]
    unclaimed: Decimal


def split_side_pot(
    pot: SidePot,
    ranked: Sequence[Ranked],
    paid_pot: Set[int],
    youth: Set[int] = frozenset(),
    first_limits: Mapping[int, datetime] | None = None,
) -> SidePotSplit:
    """Share a pot out among the ranked teams that paid it and the entry fee.

    ``ranked`` is the whole list of ``rank``; ``paid_pot`` the boats that paid this pot, ``youth`` those of youth teams;
    ``first_limits`` says of boats when their earliest limit was weighed. It holds the fee of every team that paid both,
    whatever became of it.
    """
    in_pot = [r for r in ranked if r.result.team.paid and r.result.team.boat in paid_pot]
    amount = (pot.fee * len(in_pot)).quantize(CENT)
    placed = [r for r in in_pot if r.place is not None]
    order = [(key, r.result.team.boat) for r in placed if (key := _rank(pot, r, youth, first_limits or {})) is not None]
    prizes = pot_split(amount, pot.shares, order)
    return SidePotSplit(amount, prizes, NOTHING if prizes else amount)


def first_limits(
    rulebook: Rulebook, ranked: Sequence[Ranked], weighed: Mapping[tuple[int, int], datetime]
) -> dict[int, datetime]:
    """When the earliest full limit of each boat was weighed: as many fish on the scale as the rules allow, day not lost.

    ``weighed`` says of (boat, day) when the slip that counts was weighed; one without a time is passed over.
    """
    found: dict[int, datetime] = {}
    for row in ranked:
        boat = row.result.team.boat
        for day in row.result.days:
            at = weighed.get((boat, day.day))
            if at is not None and not day.score.lost and day.score.on_scale == rulebook.fish_limit:
                found[boat] = min(at, found.get(boat, at))
    return found


def _rank(pot: SidePot, row: Ranked, youth: Set[int], first_limits: Mapping[int, datetime]) -> Any:
    """By what a team is ranked in the pot, the least first; None when it cannot win it."""
    boat = row.result.team.boat
    if pot.wins == "big_fish":
        return None if row.result.big_fish is None else -row.result.big_fish
    if pot.wins == "first_limit":
        return first_limits.get(boat)
    return -row.result.total if pot.wins == "total" or boat in youth else None

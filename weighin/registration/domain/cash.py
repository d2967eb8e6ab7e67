"""What was expected, taken in, given back and is owed: pure arithmetic over the rows that count.

Money is Decimal. A row that was corrected or taken out is not among them.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from decimal import Decimal

ENTRY_FEE, BIG_FISH_POT, SIDE_POT = KINDS = ("entry_fee", "big_fish_pot", "side_pot")
NONE = Decimal("0.00")

# What is paid for: a kind, and the name of a side pot (empty for the others)
What = tuple[str, str]
FEE: What = (ENTRY_FEE, "")
POT: What = (BIG_FISH_POT, "")


def side_pot(name: str) -> What:
    """A side pot by its name."""
    return (SIDE_POT, name)


@dataclass(frozen=True)
class Paid:
    """A row that counts: whose, what for, how much (negative = given back), by which means."""

    entry: int
    what: What
    amount: Decimal
    means: str


@dataclass(frozen=True)
class Owed:
    """What a team owes of one fee; negative = it paid too much."""

    entry: int
    what: What
    amount: Decimal


@dataclass(frozen=True)
class Cash:
    """The till. Teams are told by the keys of their entries: some wait for a boat number.

    ``in_on`` holds the teams that have paid each fee; ``owed`` only what is not 0, in the order of the teams.

    ``difference`` is what is there above what the paid fees come to; 0 when it balances.
    """

    expected: dict[What, Decimal]
    received: dict[str, Decimal]
    back: Decimal
    owed: tuple[Owed, ...]
    in_on: dict[What, frozenset[int]]
    fees_kept: Decimal
    difference: Decimal


def adds_up(amounts: Sequence[Decimal], fee: Decimal) -> bool:
    """Whether rows pay a fee: there is one, and they add up to it or more."""
    return bool(amounts) and sum(amounts, NONE) >= fee


def is_for(amounts: Iterable[Decimal], fee: Decimal) -> bool:
    """Whether rows of a pot say that the team wants to be in it: rows of 0 alone, where it costs something, do not."""
    return any(amount or not fee for amount in amounts)


def cash_of(
    fees: Mapping[What, Decimal],
    teams: Iterable[int],
    withdrawn: Set[int],
    rows: Iterable[Paid],
) -> Cash:
    """Add up the rows that count beside the ``fees`` (that of entry, the big fish pot's, the side pots').

    Every team is expected to pay the entry fee, and each pot that it has rows of; but one of ``withdrawn`` without a
    payment, or that got everything back, is not.
    """
    rows = list(rows)
    amounts: dict[tuple[int, What], list[Decimal]] = defaultdict(list)
    by_entry: dict[int, Decimal] = defaultdict(lambda: NONE)
    received: dict[str, Decimal] = defaultdict(lambda: NONE)
    back = NONE
    for row in rows:
        amounts[row.entry, row.what].append(row.amount)
        by_entry[row.entry] += row.amount
        if row.amount < 0:
            back -= row.amount
        else:
            received[row.means] += row.amount
    expected = dict.fromkeys(fees, NONE)
    in_on: dict[What, set[int]] = {what: set() for what in fees}
    owed = []
    for entry in teams:
        gone = entry in withdrawn and not by_entry.get(entry)
        for what, fee in fees.items():
            mine = amounts.get((entry, what), [])
            wanted = not gone and (what == FEE or is_for(mine, fee))
            due = fee if wanted else NONE
            expected[what] += due
            left = due - sum(mine, NONE)
            if left:
                owed.append(Owed(entry, what, left))
            if adds_up(mine, fee):
                in_on[what].add(entry)
    kept = sum((row.amount for row in rows if row.what == FEE), NONE)
    covered = sum((fee * len(in_on[what]) for what, fee in fees.items()), NONE)
    return Cash(
        expected=expected,
        received={means: amount for means, amount in received.items() if amount},
        back=back,
        owed=tuple(owed),
        in_on={what: frozenset(entries) for what, entries in in_on.items()},
        fees_kept=kept,
        difference=sum(received.values(), NONE) - back - covered,
    )

"""The cash-up of an event: the till beside what the standings as they are give."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from weighin.events.models import Event
from weighin.registration.domain.cash import BIG_FISH_POT, NONE, SIDE_POT, side_pot
from weighin.registration.models import PayOut
from weighin.registration.queries.till import Till, till_of
from weighin.registration.queries.waiting import Prize, waiting
from weighin.rules.side_pots import SidePotSplit, first_limits, split_side_pot
from weighin.standings.queries.protests import State, cases_of, result_state
from weighin.standings.queries.standings import Standings, standings_of

PLACE = "place"


@dataclass(frozen=True)
class Due:
    """A prize that the standings as they are give: to which boat, what for, and how much of it was paid out.

    ``waits`` are the numbers of the open protests that could change it.
    """

    boat: int
    kind: str
    pot: str
    amount: Decimal
    paid: Decimal = NONE
    waits: tuple[int, ...] = ()

    @property
    def left(self) -> Decimal:
        """What is still to be paid; negative where more was paid than is due now."""
        return self.amount - self.paid


@dataclass(frozen=True)
class CashUp:
    """Everything that the cash-up sheet says. ``too_much`` is what was paid out above what is due by now."""

    till: Till
    standings: Standings
    state: State
    pots: Mapping[str, SidePotSplit]
    due: tuple[Due, ...]
    paid_out: Decimal
    too_much: tuple[Due, ...]

    @property
    def purse(self) -> Decimal:
        """What the places share."""
        return self.standings.outcome.purse.purse

    @property
    def added_money(self) -> Decimal:
        """What was put into the purse beside the fees."""
        return Decimal(self.till.event.added_money)

    @property
    def kept_by_club(self) -> Decimal:
        """What is left of the entry fees once their part of the purse is taken."""
        return self.till.cash.fees_kept - (self.purse - self.added_money)

    @property
    def unclaimed(self) -> Decimal:
        """Purse and pots that nobody wins: carried to a later event by hand."""
        purse = self.standings.outcome.purse
        own = purse.unclaimed + purse.big_fish_pot_unclaimed
        return own + sum((split.unclaimed for split in self.pots.values()), NONE)

    @property
    def difference(self) -> Decimal:
        """What is there above what the paid fees come to; 0 when it balances."""
        return self.till.cash.difference


def cash_up_of(event: Event, standings: Standings | None = None) -> CashUp:
    """The cash-up now; the same number of queries whatever its size."""
    known = standings or standings_of(event)
    till = till_of(event)
    pots = split_pots(till, known)
    paid = paid_out(event)
    prizes = _prizes(known, pots)
    cases = cases_of(event)
    held = waiting(prizes, cases, till, known, pots)
    due = tuple(Due(*key, amount, paid.get(key, NONE), held.get(key, ())) for key, amount in prizes.items())
    over = tuple(
        Due(*key, prizes.get(key, NONE), amount) for key, amount in paid.items() if amount > prizes.get(key, NONE)
    )
    return CashUp(till, known, result_state(event, cases).state, pots, due, sum(paid.values(), NONE), over)


def split_pots(till: Till, standings: Standings) -> dict[str, SidePotSplit]:
    """The side pots as the standings share them out, by name."""
    boats = {pk: entry.boat for pk, entry in till.entries.items()}
    youth = {boat for boat, entry in standings.entries.items() if entry.youth}
    weighed = {(slip.entry.boat, slip.day): slip.weighed for slip in standings.counting if slip.weighed is not None}
    firsts = first_limits(standings.rules, standings.outcome.ranked, weighed)
    return {
        pot.name: split_side_pot(
            pot,
            standings.outcome.ranked,
            {boats[pk] for pk in till.cash.in_on[side_pot(pot.name)]},
            youth,
            firsts,
        )
        for pot in till.pots
    }


def paid_out(event: Event) -> dict[Prize, Decimal]:
    """What was paid out, by boat, kind and pot."""
    found: dict[Prize, Decimal] = {}
    rows = PayOut.objects.current().filter(event=event).values_list("entry__boat", "kind", "pot", "amount")
    for boat, kind, pot, amount in rows:
        found[boat, kind, pot] = found.get((boat, kind, pot), NONE) + amount
    return found


def _prizes(standings: Standings, pots: Mapping[str, SidePotSplit]) -> dict[Prize, Decimal]:
    """Every prize: of the places, then of each pot, the largest first."""
    purse = standings.outcome.purse
    order = {row.result.team.boat: number for number, row in enumerate(standings.outcome.ranked)}
    given: dict[Prize, Decimal] = {}
    for kind, pot, prizes in (
        (PLACE, "", purse.prizes),
        (BIG_FISH_POT, "", purse.pot_prizes),
        *((SIDE_POT, name, split.prizes) for name, split in pots.items()),
    ):
        for boat in sorted(prizes, key=lambda boat: (-prizes[boat], order[boat])):
            given[boat, kind, pot] = prizes[boat]
    return given


def as_json(cash_up: CashUp) -> dict[str, Any]:
    """The sheet in plain JSON: amounts are strings that hold exact decimals."""
    till, cash = cash_up.till, cash_up.till.cash
    purse = cash_up.standings.outcome.purse
    side = {pot.name: _plain(cash.expected[side_pot(pot.name)]) for pot in till.pots}
    return {
        "currency": till.event.club.currency,
        "state": cash_up.state,
        "expected": {
            **{kind: _plain(amount) for (kind, _pot), amount in cash.expected.items() if kind != SIDE_POT},
            "side_pots": side,
        },
        "received": {means: _plain(amount) for means, amount in sorted(cash.received.items())},
        "back": _plain(cash.back),
        "owed": [
            {
                "boat": till.entries[owed.entry].boat,
                "team": till.entries[owed.entry].name,
                "kind": owed.what[0],
                "pot": owed.what[1] or None,
                "amount": _plain(owed.amount),
            }
            for owed in cash.owed
        ],
        "purse": _plain(cash_up.purse),
        "added_money": _plain(cash_up.added_money),
        "kept_by_club": _plain(cash_up.kept_by_club),
        "pots": {
            BIG_FISH_POT: _plain(purse.big_fish_pot),
            **{name: _plain(split.amount) for name, split in cash_up.pots.items()},
        },
        "due": [
            {"boat": due.boat, "kind": due.kind, "pot": due.pot or None, "amount": _plain(due.amount)}
            for due in cash_up.due
        ],
        "paid_out": _plain(cash_up.paid_out),
        "unclaimed": _plain(cash_up.unclaimed),
        "difference": _plain(cash_up.difference),
    }


def _plain(amount: Decimal) -> str:
    return f"{amount:.2f}"

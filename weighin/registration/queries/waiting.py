"""Which prizes wait for which protests: those that a ruling could change, and no others."""

from collections.abc import Iterable, Mapping, Set

from weighin.registration.domain.cash import BIG_FISH_POT, SIDE_POT, side_pot
from weighin.registration.queries.till import Till
from weighin.rules.side_pots import SidePotSplit
from weighin.standings.models import Protest
from weighin.standings.queries.protests import Case
from weighin.standings.queries.standings import Standings

Prize = tuple[int, str, str]  # the boat that it is due to, its kind, and the name of a side pot


def waiting(
    prizes: Iterable[Prize],
    cases: Iterable[Case],
    till: Till,
    standings: Standings,
    pots: Mapping[str, SidePotSplit],
) -> dict[Prize, tuple[int, ...]]:
    """The numbers of the open protests that could change each prize; prizes that wait for none are left out.

    A protest about the whole result holds everything. One about a team that could drop holds the places from the team's
    down, since those move up or share, and the pots that the team wins; one about a team that could rise holds the places
    from the team's up, and the pots that the team is in. A team that has not paid takes no prize, so it holds none.
    """
    found: dict[Prize, tuple[int, ...]] = {}
    opened = [case for case in cases if case.ruling is None]
    for prize in prizes if opened else ():
        numbers = tuple(case.number for case in opened if _could_change(case.protest, prize, till, standings, pots))
        if numbers:
            found[prize] = numbers
    return found


def _could_change(
    protest: Protest, prize: Prize, till: Till, standings: Standings, pots: Mapping[str, SidePotSplit]
) -> bool:
    if protest.entry is None:
        return True
    boat, kind, pot = protest.entry.boat, prize[1], prize[2]
    drops, rises = protest.could != Protest.Could.RAISE, protest.could != Protest.Could.LOWER
    if boat not in standings.entries or not standings.entries[boat].paid:
        return False
    if kind == SIDE_POT:
        inside: Set[int] = till.cash.in_on[side_pot(pot)]
        return (drops and boat in pots[pot].prizes) or (rises and protest.entry_id in inside)
    if kind == BIG_FISH_POT:
        wins = boat in standings.outcome.purse.pot_prizes
        return (drops and wins) or (rises and standings.entries[boat].big_fish_pot)
    return _place_moves(boat, prize[0], standings, drops, rises)


def _place_moves(boat: int, winner: int, standings: Standings, drops: bool, rises: bool) -> bool:
    """Whether the winner's prize of a place changes when ``boat`` drops, or rises."""
    places = {row.result.team.boat: row.place for row in standings.outcome.ranked}
    mine, its = places[boat], places[winner]
    if mine is None or its is None:
        return rises
    in_money = sum(row.place is not None and row.result.team.paid for row in standings.outcome.ranked)
    # With a team fewer, fewer places are paid, and every share is another
    fewer = standings.outcome.purse.places_paid >= in_money
    return (drops and (its >= mine or fewer)) or (rises and its <= mine)

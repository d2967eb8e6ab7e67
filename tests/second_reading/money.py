"""Money and points: purse, places, big fish pot, points of one event."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from .amounts import CENT, down_to, whole_pounds
from .one_slip import ZERO
from .places import Team


def split_evenly(amount: Fraction, boats: Sequence[int]) -> dict[int, Fraction]:
    """As written: "Teams that tie split the sum ... down to the cent, left-over cents one each by lower boat
    number"."""
    each = down_to(amount / len(boats), CENT)
    left = (amount - each * len(boats)) / CENT
    return {boat: each + (CENT if i < left else ZERO) for i, boat in enumerate(sorted(boats))}


def share_out(purse: Fraction, shares: Sequence[Fraction], step: Fraction) -> list[Fraction]:
    """As written: "each place gets purse x share / sum of the n shares, rounded down to `rounding`; what is
    left goes to first place"."""
    whole = sum(shares, ZERO)
    prizes = [down_to(purse * share / whole, step) if whole else ZERO for share in shares]
    prizes[0] += purse - sum(prizes, ZERO)
    return prizes


def pay_in_order(groups: Sequence[Sequence[int]], prizes: Sequence[Fraction]) -> dict[int, Fraction]:
    """Groups of boats that tie, best first, each covering as many prize places as it has boats."""
    paid: dict[int, Fraction] = {}
    at = 0
    for boats in groups:
        covered = sum(prizes[at : at + len(boats)], ZERO)  # a place beyond the last paid one is worth nothing
        paid |= split_evenly(covered, boats)
        at += len(boats)
    return paid


def _grouped(teams: Sequence[Team], value: Any) -> list[list[int]]:
    """Boats in groups of equal value, smallest value first."""
    return [[t.boat for t in teams if value(t) == v] for v in sorted({value(t) for t in teams})]


def places_paid(rules: Mapping[str, Any], paid_entries: int, teams: int) -> int:
    """As written: "Places paid n: the number given; `1 per k` = paid entries // k; at least 1, at most the
    number of such teams, at most the number of place_shares when given"."""
    match = re.fullmatch(r"1 per (\d+)", rules["places_paid"])
    n = paid_entries // int(match[1]) if match else int(rules["places_paid"])
    n = min(max(n, 1), teams)
    return min(n, len(rules["place_shares"])) if rules["place_shares"] else n


def pay(
    teams: Sequence[Team], rules: Mapping[str, Any], entry_fee: Fraction, added: Fraction
) -> dict[str, int | Fraction]:
    """Set payout and big_fish_payout of each team and return the purse figures."""
    # "Paid entries: teams with paid = yes, whatever became of them"
    entries = sum(t.paid for t in teams)
    # "purse = paid x entry_fee x payback_percent / 100 (down to the cent) + added_money"
    purse = down_to(entries * entry_fee * rules["payback_percent"] / 100, CENT) + added
    # "Prizes go by the ranking of the ranked teams that have paid"
    takers = [t for t in teams if t.status == "ranked" and t.paid]
    payouts: dict[int, Fraction] = {}
    n = 0
    if takers:
        n = places_paid(rules, entries, len(takers))
        # "Shares: the first n of place_shares, else n, n-1, ..., 1"
        shares = rules["place_shares"][:n] if rules["place_shares"] else [Fraction(n - i) for i in range(n)]
        prizes = share_out(purse, shares, rules["rounding"])
        payouts = pay_in_order(_grouped(takers, lambda t: t.place), prizes)
    # "Big fish pot: big_fish_pot_fee x teams with big_fish_pot = yes and paid = yes"
    in_pot = [t for t in teams if t.in_pot and t.paid]
    pot = rules["big_fish_pot_fee"] * len(in_pot)
    # "to the largest counting big fish of ranked teams among those teams (one fish a team)"
    holders = [t for t in in_pot if t.status == "ranked" and t.big_fish is not None]
    pot_payouts: dict[int, Fraction] = {}
    if holders:
        # "without rounding but to the cent, left-over cents to the largest; fewer teams than shares: the
        # first of them only"
        prizes = share_out(pot, rules["big_fish_shares"][: len(holders)], CENT)
        pot_payouts = pay_in_order(_grouped(holders, lambda t: -t.big_fish), prizes)
    for team in teams:
        team.payout = payouts.get(team.boat, ZERO)
        team.big_fish_payout = pot_payouts.get(team.boat, ZERO)
    return {
        "paid_entries": entries,
        "purse": purse,
        "places_paid": n,
        "unclaimed": ZERO if takers else purse,
        "big_fish_pot": pot,
        "big_fish_pot_unclaimed": ZERO if holders else pot,
    }


def _for_place(place: int, rules: Mapping[str, Any]) -> Fraction:
    """As written: "with points_table (a list) its entry for the place, and beyond its end the last entry less
    points_step a place; else points_first - (place - 1) x points_step; never below points_floor"."""
    table, step = rules["points_table"], rules["points_step"]
    if table and place <= len(table):
        points = table[place - 1]
    elif table:
        points = table[-1] - (place - len(table)) * step
    else:
        points = rules["points_first"] - (place - 1) * step
    return max(points, rules["points_floor"])


def give_points(teams: Sequence[Team], rules: Mapping[str, Any], unit: str) -> None:
    """Set the points of every team."""
    ranked = [t for t in teams if t.status == "ranked"]
    # "the least a ranked team got before additions"; "No ranked team: the least is points_floor"
    least = min((_for_place(t.place or 0, rules) for t in ranked), default=rules["points_floor"])
    # "the largest counting big fish among ranked teams"
    largest = max((t.big_fish for t in ranked if t.big_fish is not None), default=None)
    below = rules["points_absent_below_last"]
    for team in teams:
        match team.status:
            case "ranked":
                team.points = _for_place(team.place or 0, rules)
                team.points += rules["points_per_pound"] * whole_pounds(team.total, unit)
                if largest is not None and team.big_fish == largest:
                    team.points += rules["points_big_fish"]
            case "no_fish":
                team.points = least if rules["points_no_fish"] == "last" else rules["points_no_fish"]
            case "not_weighed":
                team.points = rules["points_not_weighed"]
            case "absent":  # "max(0, that same least - b); else 0"
                team.points = max(ZERO, least - below) if below is not None else ZERO
            case _:
                team.points = ZERO

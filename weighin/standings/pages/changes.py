"""What changed between two frozen results: places, totals, money and points, boat by boat, in words."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext

from weighin.rules.values import plain
from weighin.rules.weights import spoken
from weighin.rules.words.scores import status_in_words
from weighin.standings.models import OfficialResult
from weighin.standings.queries.document import result_part
from weighin.standings.queries.standings import Standings
from weighin.ui import figures

Document = Mapping[str, Any]


def frozen(result: OfficialResult) -> Document:
    """What a version froze, its side pots among it."""
    return {**result.document, "side_pots": result.side_pots}


def changes_said(before: Document, after: Document, unit: str, sign: str) -> list[str]:
    """One sentence a boat whose place, total, money or points are other than they were, in the order of ``after``.

    Other rules, and a purse that nobody's prize shows, are said last.
    """
    said = list(changes_of_boats(before, after, unit, sign).values())
    purse = before["purse"]["purse"], after["purse"]["purse"]
    if purse[0] != purse[1]:
        said.append(gettext("Purse: %(before)s to %(after)s.") % _money(sign, *map(Decimal, purse)))
    if before["rules"] != after["rules"]:
        said.append(gettext("The rule sheet changed."))
    return said


def changes_of_boats(before: Document, after: Document, unit: str, sign: str) -> dict[int, str]:
    """The sentence of each boat whose place, total, money or points are other than they were, in the order of ``after``."""
    was = {row["boat"]: row for row in before["standings"]}
    now = {row["boat"]: row for row in after["standings"]}
    # Of an older version nobody knows the side pots: then they are compared nowhere
    known = None not in (before["side_pots"], after["side_pots"])
    pots = [document["side_pots"] if known else {} for document in (before, after)]
    said = {}
    for boat, row in now.items():
        more = [_won(pot, boat) for pot in pots]
        parts = _parts(was[boat], row, more, unit, sign) if boat in was else [gettext("new in the standings")]
        if parts:
            said[boat] = _boat(row, parts)
    gone = {boat: row for boat, row in was.items() if boat not in now}
    return said | {boat: _boat(row, [gettext("no longer in the standings")]) for boat, row in gone.items()}


def standings_of_boats(result: Document, unit: str) -> dict[int, str]:
    """Where each boat of a frozen result stands, and with which total, a sentence each."""
    return {
        row["boat"]: _boat(row, [_place(row), gettext("total %(total)s") % {"total": _weight(row["total"], unit)}])
        for row in result["standings"]
    }


def changes_since(
    before: OfficialResult | None, standings: Standings, side_pots: Mapping[str, Mapping[str, str]]
) -> list[str]:
    """The same between a version and the standings as they are; nothing where there is no version."""
    if before is None:
        return []
    event = standings.event
    now = {**result_part(standings), "side_pots": side_pots}
    return changes_said(frozen(before), now, event.weight_unit, event.club.currency)


def _boat(row: Mapping[str, Any], parts: list[str]) -> str:
    said = {"boat": row["boat"], "team": row["team"], "parts": ", ".join(parts)}
    return gettext("Boat %(boat)s, %(team)s: %(parts)s.") % said


def _won(pots: Mapping[str, Mapping[str, str]], boat: int) -> Decimal:
    return sum((Decimal(won.get(str(boat), "0.00")) for won in pots.values()), Decimal("0.00"))


def _parts(was: Mapping[str, Any], now: Mapping[str, Any], more: Sequence[Decimal], unit: str, sign: str) -> list[str]:
    found = []
    if (was["place"], was["status"]) != (now["place"], now["status"]):
        found.append(gettext("%(before)s to %(after)s") % {"before": _place(was), "after": _place(now)})
    elif was["tied"] != now["tied"]:
        found.append(gettext("tied now") if now["tied"] else gettext("no longer tied"))
    if was["total"] != now["total"]:
        weights = {"before": _weight(was["total"], unit), "after": _weight(now["total"], unit)}
        found.append(gettext("total %(before)s to %(after)s") % weights)
    own = [Decimal(row["payout"]) + Decimal(row["big_fish_payout"]) for row in (was, now)]
    prizes = [mine + pots for mine, pots in zip(own, more, strict=True)]
    if prizes[0] != prizes[1]:
        found.append(gettext("prizes %(before)s to %(after)s") % _money(sign, *prizes))
    if was["points"] != now["points"]:
        points = {"before": _points(was["points"]), "after": _points(now["points"])}
        found.append(gettext("points %(before)s to %(after)s") % points)
    return found


def _place(row: Mapping[str, Any]) -> str:
    if row["place"] is None:
        return status_in_words(row["status"])
    return gettext("place %(place)s") % {"place": row["place"]}


def _weight(total: str, unit: str) -> str:
    return spoken(Decimal(total), unit)


def _money(sign: str, before: Decimal, after: Decimal) -> dict[str, str]:
    return {"before": figures.money(before), "after": figures.money(after)}


def _points(points: float) -> str:
    return plain(Decimal(str(points)))

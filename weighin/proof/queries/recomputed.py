"""A proof worked out again from itself alone, by the rules that every result here is made by."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any

from django.utils.translation import gettext

from weighin.proof.domain.canonical import digest_of
from weighin.proof.parsing.proof_file import NOT_READ, Unreadable, read_proof
from weighin.proof.queries.result import result_of
from weighin.rules.side_pots import first_limits, split_side_pot
from weighin.rules.tournament import run

MOST_SHOWN = 60


@dataclass(frozen=True)
class Recomputed:
    """What a proof comes to: whether its digest is its own, the ``result`` (None where it cannot be worked out), and what
    is otherwise in it, a line a row."""

    digest_holds: bool
    result: dict[str, Any] | None
    differs: tuple[str, ...]


def recomputed(proof: Mapping[str, Any]) -> Recomputed:
    """Work a proof out again: nothing is asked of the database."""
    try:
        holds = digest_of(dict(proof)) == proof.get("digest")
    except ValueError:  # half characters, which no UTF-8 holds
        holds = False
    try:
        result, problems = _worked_out(proof)
    except (Unreadable, *NOT_READ) as error:
        why = str(error) if isinstance(error, Unreadable) else gettext("the slips cannot be put together")
        return Recomputed(holds, None, (why,))
    return Recomputed(holds, result, tuple(problems) + tuple(differences(proof["result"], result)))


def _worked_out(proof: Mapping[str, Any]) -> tuple[dict[str, Any], list[str]]:
    found = read_proof(proof)
    teams = list(found.teams.values())
    fished, first = found.calendar.fished, found.first if found.rules.cut_after_day is not None else []
    outcome = run(found.rules, teams, found.current, fished, found.entry_fee, found.added_money, first)
    firsts = first_limits(found.rules, outcome.ranked, found.weighed)
    pots = {pot.name: split_side_pot(pot, outcome.ranked, paid, found.youth, firsts) for pot, paid in found.pots}
    return result_of(outcome, pots, None), found.problems


def differences(told: Mapping[str, Any], found: Mapping[str, Any], where: str = "") -> list[str]:
    """What of a result is otherwise than it was found, a line a boat, then the purse and each side pot."""
    here = where or gettext("worked out again")
    lines = unlike_rows(told.get("standings"), found["standings"], "boat", gettext("boat %(number)s"), here)
    boats = [row.get("boat") for row in told.get("standings") or () if isinstance(row, dict)]
    if not lines and boats != [row["boat"] for row in found["standings"]]:
        lines.append(gettext("the places stand in another order"))
    lines += _named(gettext("the purse"), _unlike(told.get("purse"), found["purse"], here))
    pots = unlike_rows(told.get("side_pots"), found["side_pots"], "name", gettext("side pot %(number)s"), here)
    return lines + pots


def unlike_rows(told: Any, found: list[dict[str, Any]], number: str, words: str, here: str) -> list[str]:
    """Rows that are otherwise in the file than found, a line each; ``words`` name one by what stands under ``number``."""
    theirs, mine = _by(told, number), _by(found, number)
    return [
        line
        for one in [*mine, *(one for one in theirs if one not in mine)]
        for line in _named(words % {"number": one}, _row(theirs.get(one), mine.get(one), here))
    ]


def _by(rows: Any, name: str) -> dict[Any, Any]:
    if not isinstance(rows, list):
        return {}
    return {str(row.get(name)): row for row in rows if isinstance(row, dict)}


def _named(what: str, lines: list[str]) -> list[str]:
    return [f"{what}: {'; '.join(lines)}"] if lines else []


def _row(told: Any, found: Any, here: str) -> list[str]:
    if found is None:
        return [gettext("only in the file")]
    if told is None:
        return [gettext("not in the file")]
    plain = {name: value for name, value in found.items() if not isinstance(value, list)}
    lines = _unlike(told, plain, here)
    for name, rows in found.items():
        if isinstance(rows, list):
            lines += _rows(name, told.get(name), rows, here)
    return lines


def _rows(name: str, told: Any, found: list[Any], here: str) -> list[str]:
    if told == found:
        return []
    if not isinstance(told, list) or len(told) != len(found) or not all(isinstance(row, dict) for row in told):
        return [gettext("its %(what)s are others") % {"what": name.replace("_", " ")}]
    lines = []
    for row, mine in zip(told, found, strict=True):
        if name == "days":
            lines += [
                gettext("day %(day)s %(what)s") % {"day": mine["day"], "what": one} for one in _row(row, mine, here)
            ]
        else:
            lines += _unlike(row, mine, here)
    return lines


def _unlike(told: Any, found: Mapping[str, Any], here: str) -> list[str]:
    if not isinstance(told, dict):
        return [gettext("not in the file")]
    return [
        gettext("%(name)s %(told)s in the file, %(found)s %(here)s")
        % {"name": name.replace("_", " "), "told": _short(told.get(name)), "found": _short(value), "here": here}
        for name, value in found.items()
        if not _same(told.get(name), value)
    ]


def _same(told: Any, found: Any) -> bool:
    """Weights and money are compared as numbers: ``8.5`` is ``8.50``."""
    if told == found and isinstance(told, bool) == isinstance(found, bool):
        return True
    if not isinstance(told, str) or not isinstance(found, str):
        return False
    try:
        return Decimal(told) == Decimal(found)
    except InvalidOperation:
        return False


def _short(value: Any) -> str:
    if value is None or value == "":
        return gettext("nothing")
    said = str(value)
    return said if len(said) <= MOST_SHOWN else said[:MOST_SHOWN] + "…"

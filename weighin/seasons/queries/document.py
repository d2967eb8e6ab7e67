"""Season standings as plain JSON values, in the words and order of the project's contract.

Weights are strings holding exact decimals in pounds; null = not recorded, or not to be said.
"""

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from weighin.rules.points import Appearance, SeasonRow
from weighin.seasons.queries.standings import SeasonStandings
from weighin.standings.queries.document import number, weight


def standings_document(found: SeasonStandings) -> dict[str, Any]:
    """Teams, anglers and classes."""
    return {
        "teams": _rows(found.teams, "team"),
        "anglers": _rows(found.anglers, "angler"),
        "classes": {name: _rows(rows, "team") for name, rows in found.classes.items()},
    }


def _rows(rows: Sequence[SeasonRow], who: str) -> list[dict[str, Any]]:
    return [
        {
            "place": row.place,
            "tied": row.tied,
            who: row.team,
            "points": number(row.points),
            "counted": [_event(one) for one in row.counted],
            "dropped": [_event(one) for one in row.dropped],
            "big_fish": weight(row.big_fish),
            "total_weight": weight(row.total_weight),
            "best_possible": _maybe(row.best_possible),
            "in_reach": row.in_reach,
        }
        for row in rows
    ]


def _event(one: Appearance) -> dict[str, Any]:
    return {"event": one.event, "place": one.place, "points": number(one.points)}


def _maybe(value: Decimal | None) -> int | float | None:
    return None if value is None else number(value)

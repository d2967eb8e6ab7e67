"""A result as a proof has it: as the public JSON, without what officials wrote in words."""

from collections.abc import Mapping
from typing import Any

from weighin.rules.side_pots import SidePotSplit
from weighin.rules.tournament import Outcome
from weighin.standings.queries.document import purse_part, standings_part


def result_of(outcome: Outcome, pots: Mapping[str, SidePotSplit], version: int | None) -> dict[str, Any]:
    """Places, money and points; ``version`` is that of the official result that says so, None without one."""
    order = {row.result.team.boat: at for at, row in enumerate(outcome.ranked)}
    return {
        "version": version,
        "standings": without_texts(standings_part(outcome)),
        "purse": purse_part(outcome),
        "side_pots": [
            {
                "name": name,
                "amount": str(split.amount),
                "unclaimed": str(split.unclaimed),
                "payouts": [
                    {"boat": boat, "amount": str(split.prizes[boat])}
                    for boat in sorted(split.prizes, key=lambda one: (-split.prizes[one], order[one]))
                ],
            }
            for name, split in pots.items()
        ],
    }


def without_texts(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Standings without the texts of extra penalties, which may tell of a person."""
    return [{**row, "days": [_bare(day) for day in row["days"]]} for row in rows]


def _bare(day: dict[str, Any]) -> dict[str, Any]:
    lines = [{name: value for name, value in line.items() if name != "text"} for line in day["deductions"]]
    return {**day, "deductions": lines}

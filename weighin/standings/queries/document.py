"""Standings and purse as plain JSON values, in the words and order of the project's export contract.

Weights and money are strings holding exact decimals (pounds for ``lb`` and ``lb-oz``); null = not recorded.
"""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from weighin.events.models import Event
from weighin.events.queries.events import status_of
from weighin.rules.ranking import Ranked
from weighin.rules.results import DayResult
from weighin.rules.scoring import Deduction
from weighin.rules.tournament import Outcome
from weighin.standings.models import OfficialResult, Posting
from weighin.standings.queries.days import days_of, stage_to_keep
from weighin.standings.queries.standings import Standings


def result_part(standings: Standings) -> dict[str, Any]:
    """What an official result freezes beside the event and the ledger: rules, places with their scores, and money."""
    return {
        "rules": standings.rules.written(),
        "standings": standings_part(standings.outcome),
        "purse": purse_part(standings.outcome),
    }


def stands(result: OfficialResult | Posting, standings: Standings, ledger: tuple[int, str]) -> bool:
    """Whether the result, official or posted, still says what the event says now: slips, teams, rules, money and days."""
    if (result.ledger_length, result.ledger_head) != ledger:
        return False
    if isinstance(result, OfficialResult) and not _stage_stands(result, standings):
        return False
    now = result_part(standings)
    return all(result.document.get(name) == part for name, part in now.items())


def nothing_new(
    last: OfficialResult,
    standings: Standings,
    ledger: tuple[int, str],
    side_pots: Mapping[str, Mapping[str, str]] | None,
    stage: str,
) -> bool:
    """Whether a version published after the last one would say the same; ``side_pots`` is None where nobody asks for them."""
    same_stage = last.overruled is None or last.stage == stage
    return same_stage and stands(last, standings, ledger) and side_pots in (None, last.side_pots)


def _stage_stands(result: OfficialResult, standings: Standings) -> bool:
    """Whether it stands after the same day; versions that are older than the stage say nothing of it."""
    return result.overruled is None or result.stage == stage_to_keep(days_of(standings), result.published_at)


def event_part(event: Event, has_slips: bool) -> dict[str, Any]:
    """What the event is."""
    return {
        "slug": event.slug,
        "name": event.name,
        "club": event.club.name,
        "season": event.season.name,
        "water": event.water.name,
        "date": event.date.isoformat(),
        "days": event.event_days.count(),
        "status": status_of(event, has_slips),
        "weight_unit": event.weight_unit,
    }


def standings_part(outcome: Outcome) -> list[dict[str, Any]]:
    """One row a team, in the order of the list."""
    return [_row(outcome, ranked) for ranked in outcome.ranked]


def purse_part(outcome: Outcome) -> dict[str, Any]:
    """The money."""
    purse = outcome.purse
    return {
        "paid_entries": purse.paid_entries,
        "purse": str(purse.purse),
        "places_paid": purse.places_paid,
        "unclaimed": str(purse.unclaimed),
        "big_fish_pot": str(purse.big_fish_pot),
        "big_fish_pot_unclaimed": str(purse.big_fish_pot_unclaimed),
    }


def weight(value: Decimal | None) -> str | None:
    """An exact decimal as text, without an exponent."""
    return None if value is None else format(value, "f")


def _row(outcome: Outcome, ranked: Ranked) -> dict[str, Any]:
    result, purse = ranked.result, outcome.purse
    boat = result.team.boat
    return {
        "place": ranked.place,
        "tied": ranked.tied,
        "boat": boat,
        "team": result.team.name,
        "status": result.status,
        "fish": result.fish,
        "alive": result.alive,
        "dead": result.dead,
        "weighed": result.weighed,
        "gross": weight(result.gross),
        "penalty": weight(result.penalty),
        "bonus": weight(result.bonus),
        "total": weight(result.total),
        "big_fish": weight(result.big_fish),
        "payout": str(purse.prizes.get(boat, Decimal("0.00"))),
        "big_fish_payout": str(purse.pot_prizes.get(boat, Decimal("0.00"))),
        "points": number(outcome.points[boat]),
        "days": [_day(day) for day in result.days],
    }


def _day(day: DayResult) -> dict[str, Any]:
    score = day.score
    return {
        "day": day.day,
        "lost": score.lost,
        "fish": day.slip.fish,
        "weighed": score.weighed,
        "gross": weight(score.net),
        "bonus": weight(score.bonus),
        "total": weight(score.total),
        "big_fish": weight(score.big_fish),
        "deductions": [_deduction(line) for line in score.deductions],
    }


def _deduction(line: Deduction) -> dict[str, Any]:
    written: dict[str, Any] = {"reason": line.reason, "count": line.count, "amount": weight(line.amount)}
    if line.text:
        written["text"] = line.text
    return written


def number(value: Decimal) -> int | float:
    """Points as a number of JSON."""
    return int(value) if value == value.to_integral_value() else float(value)

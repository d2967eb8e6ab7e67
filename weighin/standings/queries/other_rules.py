"""Slips that score otherwise under one rule sheet than under another."""

from collections.abc import Mapping

from weighin.events.queries.events import rules_by_day
from weighin.rules.faults import Faults
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import Score, on_scale, score
from weighin.rules.slips import Slip
from weighin.slips.domain.values import rules_slip
from weighin.slips.models import WeighSlip
from weighin.standings.queries.standings import Standings


def fished_under_others(standings: Standings) -> list[WeighSlip]:
    """Slips of days that were fished under an earlier sheet, by which they would score otherwise: written or corrected
    after the rules changed from the next day on, when none was. Mostly none; no query."""
    return scored_otherwise(standings, rules_by_day(standings.event), standings.rules)


def scored_otherwise(standings: Standings, before: Mapping[int, Rulebook], after: Rulebook) -> list[WeighSlip]:
    """The slips of the days in ``before`` that score otherwise under ``after`` than under their day's sheet, or that would
    have had other fish on the scale; first readings up to a cut among them. By day and boat, one of each."""
    found = {
        (slip.day, slip.entry.boat): slip
        for slip in (*standings.first, *standings.current)
        if slip.day in before and _differs(rules_slip(slip, standings.table), before[slip.day], after)
    }
    return [found[key] for key in sorted(found)]


def _differs(slip: Slip, before: Rulebook, after: Rulebook) -> bool:
    return on_scale(before, slip) != on_scale(after, slip) or _scored(before, slip) != _scored(after, slip)


def _scored(rules: Rulebook, slip: Slip) -> Score | None:
    """None where the slip cannot be scored under these rules."""
    try:
        return score(rules, slip)
    except Faults:
        return None

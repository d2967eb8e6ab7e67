"""The placings that a failed scale check leaves open: neighbours whose difference lies within the error seen.

Each marked slip may be off by the error of its scale, so a team of several marked days by as many. Two neighbours are
named when their totals differ by no more than the larger of theirs, and one of them has a marked slip. No score changes.
An error that is the same for both takes nothing from their difference; that it was the same nobody knows.
"""

from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from django.utils.translation import gettext

from weighin.rules.ranking import Ranked
from weighin.scales.domain.words import size_in_words
from weighin.slips.queries.scale_doubts import Doubts, doubts_of
from weighin.standings.queries.standings import Standings


@dataclass(frozen=True)
class CloseCall:
    """Two neighbours in the standings that the error could turn round."""

    ahead: Ranked
    behind: Ranked
    difference: Decimal
    error: Decimal
    unit: str

    @property
    def words(self) -> str:
        """The two, their difference and the error in a sentence."""
        first, second = self.ahead.result.team, self.behind.result.team
        places = {
            "place": self.ahead.place,
            "team": first.name,
            "next_place": self.behind.place,
            "next_team": second.name,
            "error": size_in_words(self.error, self.unit),
        }
        if not self.difference:
            return (
                gettext(
                    "Place %(place)s, %(team)s, and place %(next_place)s, %(next_team)s have the same total; the error is up to "
                    "%(error)s."
                )
                % places
            )
        return gettext(
            "Place %(place)s, %(team)s, and place %(next_place)s, %(next_team)s are %(difference)s apart; the error is up to "
            "%(error)s."
        ) % {**places, "difference": size_in_words(self.difference, self.unit)}


@dataclass(frozen=True)
class WithinError:
    """What a failed check leaves open in the standings: the marked slips that count, and the close calls."""

    slips: int
    calls: tuple[CloseCall, ...]


def within_error(standings: Standings) -> WithinError | None:
    """The placings in doubt; None where no slip that counts is marked. One query where no check failed."""
    doubts = doubts_of(standings.event, standings.counting)
    if not doubts.marks:
        return None
    errors = _errors(standings, doubts)
    unit, calls = standings.event.weight_unit, []
    ranked = [row for row in standings.outcome.ranked if row.place is not None]
    for ahead, behind in pairwise(ranked):
        if ahead.made_cut != behind.made_cut:
            continue  # what they weighed before the cut set them apart, not their totals
        error = max(errors.get(row.result.team.boat, Decimal(0)) for row in (ahead, behind))
        difference = ahead.result.total - behind.result.total
        if error and difference <= error:
            calls.append(CloseCall(ahead, behind, difference, error, unit))
    return WithinError(len(doubts.marks), tuple(calls))


def _errors(standings: Standings, doubts: Doubts) -> dict[int, Decimal]:
    """By boat, how far its total may be off."""
    errors: dict[int, Decimal] = {}
    for slip in standings.counting:
        mark = doubts.marks.get(slip.pk)
        if mark is not None:
            errors[slip.entry.boat] = errors.get(slip.entry.boat, Decimal(0)) + mark.error
    return errors

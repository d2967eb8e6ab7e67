"""Another rule sheet for slips that are already written, and which of them it can be tried on.

A slip holds one weight for the whole bag and the fish that were brought under the rules of the day. So another sheet can be
tried exactly where the same fish would have gone on the scale; where not, no weight is made up.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

from django.utils.translation import gettext, ngettext

from weighin.checkin.domain.arrival import Arrival, arrival_counted
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.table import Table
from weighin.mortality.domain.words import counted
from weighin.rules import rulebook, weights
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import on_scale
from weighin.rules.slips import Slip
from weighin.rules.tournament import DaySlip
from weighin.slips.domain.values import rules_slip
from weighin.slips.models import WeighSlip

RULES = (
    "dead_fish_penalty",
    "live_fish_bonus",
    "fish_limit",
    "late_penalty_per_minute",
    "late_grace_minutes",
    "late_disqualify_after_minutes",
)
WEIGHTS = ("dead_fish_penalty", "live_fish_bonus", "late_penalty_per_minute")
MOST_MINUTES = 120


class NotReplayed(ValueError):
    """An event's slips do not tell what the other sheet would have made of them; the message says why."""


@dataclass(frozen=True)
class OtherSheet:
    """``changes`` of the rule sheet as written, and how many minutes later (below 0: earlier) every boat was due.

    Weights among the changes are written in ``unit``, or in the event's own when it is blank.
    """

    changes: Mapping[str, str] = field(default_factory=dict)
    due_minutes: int = 0
    unit: str = ""

    def of(self, rules: Rulebook) -> Rulebook:
        """The changed sheet. Raises Faults with the key as each fault's field."""
        changed = dict(self.changes)
        if self.unit not in ("", rules.unit):
            read = rulebook.read({key: text for key, text in changed.items() if key in WEIGHTS}, self.unit).written()
            # Pounds either way: written() spells them in the unit they were read in
            for key in WEIGHTS:
                if key in changed:
                    changed[key] = ", ".join(
                        weights.show(weights.read(item, self.unit), rules.unit) for item in read[key].split(", ")
                    )
        return rulebook.read({**rules.written(), **changed}, rules.unit)

    def slips(self, found: Iterable[WeighSlip], table: Table, rules: Rulebook) -> list[DaySlip]:
        """The slips as ``rules`` would score them. Raises NotReplayed where they do not tell."""
        slips = list(found)
        counted = {slip.pk: arrival_counted(slip, table.arrivals.get((slip.entry.boat, slip.day))) for slip in slips}
        self._check_clock(counted.values(), rules)
        moved = replace(table, calendar=_Moved(table.calendar, self.due_minutes)) if self.due_minutes else table
        rows = []
        for slip in slips:
            read = rules_slip(slip, moved)
            late = counted[slip.pk].minutes_late
            if self.due_minutes and counted[slip.pk].checked_in is None and late:
                read = _late(read, max(0, late - self.due_minutes))
            rows.append(DaySlip(slip.entry.boat, slip.day, read))
        _check_fish([row.slip for row in rows], table.rules, rules)
        return rows

    def _check_clock(self, slips: Iterable[WeighSlip | Arrival], rules: Rulebook) -> None:
        if self.due_minutes >= 0:
            return
        untold = sum(slip.checked_in is None and not slip.minutes_late for slip in slips)
        if untold:
            raise NotReplayed(
                ngettext(
                    "%(slips)s has no time of check-in, so whether that boat would have been late is not known.",
                    "%(slips)s have no time of check-in, so whether those boats would have been late is not known.",
                    untold,
                )
                % {"slips": counted(untold, "slip")}
            )


class _Moved(Calendar):
    """A calendar with every due time moved."""

    def __init__(self, calendar: Calendar, minutes: int):
        super().__init__(calendar.zone, calendar.days.values(), calendar.flights)
        self._by = timedelta(minutes=minutes)

    def due(self, number: int, flight: str = "") -> datetime:
        return super().due(number, flight) + self._by


def _late(slip: Slip, minutes: int) -> Slip:
    return Slip(**{**slip.__dict__, "minutes_late": minutes})


def _check_fish(slips: Iterable[Slip], before: Rulebook, after: Rulebook) -> None:
    fished = [slip for slip in slips if slip.fish]
    fewer = sum(after.fish_limit < slip.fish <= before.fish_limit for slip in fished)
    if fewer:
        raise NotReplayed(
            ngettext(
                "%(slips)s holds more than %(fewer)s fish within the limit of %(before)s. A slip has one weight for "
                "the whole bag, so what the best %(fewer)s weighed was not recorded.",
                "%(slips)s hold more than %(fewer)s fish within the limit of %(before)s. A slip has one weight for "
                "the whole bag, so what the best %(fewer)s weighed was not recorded.",
                fewer,
            )
            % {"slips": counted(fewer, "slip"), "fewer": after.fish_limit, "before": before.fish_limit}
        )
    other = sum(on_scale(before, slip) != on_scale(after, slip) for slip in fished)
    if other:
        raise NotReplayed(
            gettext("With %(slips)s other fish would have gone on the scale, and their weight was not recorded.")
            % {"slips": counted(other, "slip")}
        )

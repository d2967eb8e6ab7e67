"""Slips of one day beside each other, as equals."""

from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.checkin.queries.arrivals import table_of
from weighin.events.domain.clock import clock
from weighin.events.models import Event
from weighin.rules.weights import spoken
from weighin.slips.domain.explaining import scored
from weighin.slips.domain.in_words import LABELS, said
from weighin.slips.models import WeighSlip
from weighin.ui.nouns import recorder

SAME_FOR_BOTH = ("day", "boat")


@dataclass(frozen=True)
class ComparedLine:
    """One field of every slip, in words; blank where a slip does not record it."""

    label: str
    values: tuple[str, ...]

    @property
    def differs(self) -> bool:
        """Whether the slips do not all say the same."""
        return len(set(self.values)) > 1


@dataclass(frozen=True)
class Comparison:
    """The slips, their totals, and every field that at least one of them records."""

    slips: tuple[WeighSlip, ...]
    totals: tuple[str, ...]
    lines: tuple[ComparedLine, ...]


def comparison(event: Event, slips: list[WeighSlip]) -> Comparison:
    """``slips`` are current ones of one day: two of one boat, or those of two boats keyed for each other."""
    table = table_of(event)
    calendar, unit = table.calendar, event.weight_unit
    made = [scored(slip, table) for slip in slips]
    lines = [
        ComparedLine(gettext("Saved by"), tuple(recorder(slip.recorded_by) for slip in slips)),
        ComparedLine(gettext("Saved at"), tuple(clock(slip.received_at, calendar, slip.day) for slip in slips)),
        *(
            ComparedLine(label, tuple(said(slip, name, calendar, unit) for slip in slips))
            for name, label in LABELS.items()
            if name not in SAME_FOR_BOTH
        ),
    ]
    return Comparison(
        slips=tuple(slips),
        totals=tuple(spoken(m.score.total, unit) if m else gettext("cannot be scored") for m in made),
        lines=tuple(line for line in lines if any(line.values)),
    )

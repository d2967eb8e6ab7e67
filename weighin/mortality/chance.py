"""Where a season's events would lie by luck alone about its rate: a small event may lie far out without any reason."""

from collections.abc import Sequence
from dataclasses import dataclass

from weighin.mortality.season import SeasonEvent, SeasonMortality
from weighin.mortality.words import listed, number, percent
from weighin.survival.funnel import funnel
from weighin.survival.intervals import Interval

FEWEST = 4
STEPS = 40


@dataclass(frozen=True)
class Funnel:
    """The season's ``rate``; every event with its limits; the funnel's ``edge`` as (fish, limits) from small to large."""

    rate: float
    design_effect: float
    events: Sequence[tuple[SeasonEvent, Interval]]
    edge: Sequence[tuple[float, Interval]]

    @property
    def outside(self) -> list[SeasonEvent]:
        """Events beyond their limits, on either side."""
        return [line for line, within in self.events if not within.low <= (line.found.initial or 0.0) <= within.high]

    @property
    def title(self) -> str:
        if not self.outside:
            return f"All {number(len(self.events))} events lie where luck alone might put them."
        which = f"{number(len(self.outside)).capitalize()} of {number(len(self.events))} events"
        return f"{which} {'lies' if len(self.outside) == 1 else 'lie'} further out than luck alone would put nineteen in twenty."

    @property
    def said(self) -> str:
        about = f"Were every event’s true rate the season’s {percent(self.rate)}"
        if not self.outside:
            return f"{about}, events of these sizes might well look as they do."
        sides = [
            f"{line.event.name} ({'above' if (line.found.initial or 0.0) > self.rate else 'below'})"
            for line in self.outside
        ]
        return (
            f"{about}, {listed(sides)} would be unusual. One event in twenty lies outside without any reason; what else was "
            f"different on {'that day' if len(sides) == 1 else 'those days'} the funnel does not know."
        )


def funnel_of(found: SeasonMortality) -> Funnel | None:
    """The funnel about the season's rate; None with fewer than four events, or none or all of the fish dead."""
    pooled = found.pooled
    if pooled is None or len(found.fished) < FEWEST or found.dead in (0, found.presented):
        return None
    rate, effect = pooled.these_events.rate, pooled.these_events.design_effect
    sizes = [float(line.found.presented) for line in found.fished]
    low, high = min(sizes), max(sizes)
    places = [low + (high - low) * step / STEPS for step in range(STEPS + 1)] if high > low else [low]
    return Funnel(
        rate,
        effect,
        list(zip(found.fished, funnel(rate, sizes, design_effect=effect), strict=True)),
        list(zip(places, funnel(rate, places, design_effect=effect), strict=True)),
    )

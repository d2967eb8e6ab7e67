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
            return f"All {number(len(self.events))} events lie where chance alone might put them."
        above, below = ([line for line in self.outside if self._is_above(line) is side] for side in (True, False))
        parts = [
            f"{listed([line.event.name for line in lines])} lost {how} fish"
            for lines, how in ((above, "more"), (below, "fewer"))
            if lines
        ]
        return f"{listed(parts)} than chance explains."

    @property
    def said(self) -> str:
        about = f"Had every event the season’s rate of {percent(self.rate)}"
        if not self.outside:
            return f"{about}, events of these sizes might well look as they do."
        days = "that day" if len(self.outside) == 1 else "those days"
        return (
            f"{about}, about one event in twenty would still lie outside the shaded part. What else was different on {days} is "
            "not in this chart."
        )

    def _is_above(self, line: SeasonEvent) -> bool:
        return (line.found.initial or 0.0) > self.rate


def funnel_of(found: SeasonMortality) -> Funnel | None:
    """The funnel about the season's rate; None with fewer than four events, or none or all of the fish dead."""
    pooled = found.pooled
    if pooled is None or len(found.fished) < FEWEST or found.dead in (0, found.presented):
        return None
    rate, effect = pooled.these_events.rate, pooled.these_events.design_effect
    sizes = [float(line.found.presented) for line in found.fished]
    low, high = min(sizes), max(sizes)
    first = low / 4  # drawn on from a quarter of the smallest event, so that small ones can be seen to scatter widely
    places = [first + (high - first) * step / STEPS for step in range(STEPS + 1)]
    return Funnel(
        rate,
        effect,
        list(zip(found.fished, funnel(rate, sizes, design_effect=effect), strict=True)),
        list(zip(places, funnel(rate, places, design_effect=effect), strict=True)),
    )

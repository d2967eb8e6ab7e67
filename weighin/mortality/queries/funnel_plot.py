"""Where a season's events would lie by luck alone about its rate: a small event may lie far out without any reason."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext, ngettext

from weighin.mortality.domain.words import listed, number, percent
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.survival.funnel import funnel
from weighin.survival.intervals import Interval

FEWEST = 4
STEPS = 40


@dataclass(frozen=True)
class FunnelPlot:
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
            return gettext("All %(events)s events lie where chance alone might put them.") % {
                "events": number(len(self.events))
            }
        above, below = ([line for line in self.outside if self._is_above(line) is side] for side in (True, False))
        if above and below:
            said = gettext("%(above)s lost more fish and %(below)s lost fewer fish than chance explains.")
        elif above:
            said = gettext("%(above)s lost more fish than chance explains.")
        else:
            said = gettext("%(below)s lost fewer fish than chance explains.")
        return said % {
            "above": listed([line.event.name for line in above]),
            "below": listed([line.event.name for line in below]),
        }

    @property
    def said(self) -> str:
        rate = {"rate": percent(self.rate)}
        if not self.outside:
            return (
                gettext(
                    "Had every event the season’s rate of %(rate)s, events of these sizes might well look as they do."
                )
                % rate
            )
        return (
            ngettext(
                "Had every event the season’s rate of %(rate)s, about one event in twenty would still lie outside the shaded part. "
                "What else was different on that day is not in this chart.",
                "Had every event the season’s rate of %(rate)s, about one event in twenty would still lie outside the shaded part. "
                "What else was different on those days is not in this chart.",
                len(self.outside),
            )
            % rate
        )

    def _is_above(self, line: SeasonEvent) -> bool:
        return (line.found.initial or 0.0) > self.rate


def funnel_plot_of(found: SeasonMortality) -> FunnelPlot | None:
    """The funnel about the season's rate; None with fewer than four events, or none or all of the fish dead."""
    pooled = found.pooled
    if pooled is None or len(found.fished) < FEWEST or found.dead in (0, found.presented):
        return None
    rate, effect = pooled.these_events.rate, pooled.these_events.design_effect
    sizes = [float(line.found.presented) for line in found.fished]
    low, high = min(sizes), max(sizes)
    first = low / 4  # drawn on from a quarter of the smallest event, so that small ones can be seen to scatter widely
    places = [first + (high - first) * step / STEPS for step in range(STEPS + 1)]
    return FunnelPlot(
        rate,
        effect,
        list(zip(found.fished, funnel(rate, sizes, design_effect=effect), strict=True)),
        list(zip(places, funnel(rate, places, design_effect=effect), strict=True)),
    )

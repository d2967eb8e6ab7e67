"""Good days against bad: what was measured at the events with the lowest and with the highest rates."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from statistics import median, quantiles

from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.mortality.domain.lake import in_unit
from weighin.mortality.domain.words import SPACE, counted, limits, number, percent
from weighin.mortality.queries.season import FEWEST_EVENTS, SeasonEvent, SeasonMortality
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.nested import SAME_DAY

FEWEST = 4  # events with fish; fewer cannot be parted into good and bad
CHOSEN = gettext_lazy("We chose these days because their rates differ.")


@dataclass(frozen=True)
class Measured:
    """One thing measured, at the best and at the worst events: a figure, and of how many with its spread."""

    name: str
    best: tuple[str, str]
    worst: tuple[str, str]


@dataclass(frozen=True)
class GoodAndBad:
    """The third of the events with the lowest rates, the third with the highest, and what was measured at them."""

    best: Sequence[SeasonEvent]
    worst: Sequence[SeasonEvent]
    rows: Sequence[Measured]


def good_and_bad(found: SeasonMortality) -> GoodAndBad | None:
    """The comparison, or None with fewer than four events or all of one rate.

    The days are parted by their own rates, so that the rates differ is no finding; what stands beside them went together
    with it.
    """
    ordered = list(reversed(found.worst_first))
    size = len(ordered) // 3 or 1
    if len(ordered) >= FEWEST:
        size = max(2, size)
    best, worst = ordered[:size], ordered[-size:][::-1]
    if len(ordered) < FEWEST or best[-1].found.initial == worst[-1].found.initial:
        return None
    measures: list[tuple[str, Callable[[Sequence[SeasonEvent]], tuple[str, str]]]] = [
        (gettext("Fish dead by release"), _dead),
        (gettext("Lake temperature"), lambda lines: _lake(lines, found.unit)),
        (gettext("Minutes in the bag, middle boat-day"), _bag),
        (gettext("Boat-days with ice in the livewell"), _ice),
        (gettext("Boat-days with more than the limit on board"), _on_board),
        (gettext("Oxygen in the livewells, middle reading"), _oxygen),
    ]
    rows = [Measured(name, measure(best), measure(worst)) for name, measure in measures]
    return GoodAndBad(best, worst, [row for row in rows if row.best[0] or row.worst[0]])


def _dead(lines: Sequence[SeasonEvent]) -> tuple[str, str]:
    return _share([(line.found.dead, line.found.presented) for line in lines], "fish")


def _lake(lines: Sequence[SeasonEvent], unit: str) -> tuple[str, str]:
    known = [in_unit(line.lake.mean, unit) for line in lines if line.lake]
    if not known:
        return "", ""
    spread = (
        gettext("%(least)s to %(most)s °%(unit)s,")
        % {"least": f"{min(known):.0f}", "most": f"{max(known):.0f}", "unit": unit}
        + " "
        if len(known) > 1
        else ""
    )
    return f"{sum(known) / len(known):.0f}{SPACE}°{unit}", gettext("%(spread)s%(known)s of %(lines)s events") % {
        "spread": spread,
        "known": len(known),
        "lines": len(lines),
    }


def _bag(lines: Sequence[SeasonEvent]) -> tuple[str, str]:
    known = [minutes for line in lines for catch in line.catches if (minutes := catch.minutes_in_bag) is not None]
    return _middle(known, "boat-day", f"{SPACE}min", 0)


def _ice(lines: Sequence[SeasonEvent]) -> tuple[str, str]:
    noted = [[note.ice_lb > 0 for note in line.notes.values() if note.ice_lb is not None] for line in lines]
    return _share([(sum(boats), len(boats)) for boats in noted], "boat-day")


def _on_board(lines: Sequence[SeasonEvent]) -> tuple[str, str]:
    noted = [
        [note.most_on_board > line.rules.fish_limit for note in line.notes.values() if note.most_on_board is not None]
        for line in lines
    ]
    return _share([(sum(boats), len(boats)) for boats in noted], "boat-day")


def _oxygen(lines: Sequence[SeasonEvent]) -> tuple[str, str]:
    known = [note.oxygen for line in lines for note in line.notes.values() if note.oxygen is not None]
    return _middle(known, "reading", f"{SPACE}mg/L", 1)


def _share(counts: Sequence[tuple[int, int]], noun: str) -> tuple[str, str]:
    """A share over events, each a cluster, with its count and range."""
    if not any(n for _, n in counts):
        return "", ""
    rate: Clustered = clustered([some for some, _ in counts], [n for _, n in counts], correlation=SAME_DAY)
    seen = percent(rate.rate) if rate.dead else gettext("none")
    return seen, gettext("%(some)s of %(every)s, %(events_limits)s") % {
        "some": f"{rate.dead:,.0f}",
        "every": counted(int(rate.n), noun),
        "events_limits": events_limits(rate),
    }


def events_limits(rate: Clustered) -> str:
    """The range of a rate that counts events; two of them are too few for one.

    >>> events_limits(clustered([3, 5], [100, 90]))
    'two events, too few to tell'
    """
    if rate.clusters < FEWEST_EVENTS:
        return ngettext(
            "%(clusters)s event, too few to tell", "%(clusters)s events, too few to tell", rate.clusters
        ) % {"clusters": number(rate.clusters)}
    return gettext("range %(rate)s") % {"rate": limits(rate)}


def _middle(known: Sequence[Decimal], noun: str, unit: str, decimals: int) -> tuple[str, str]:
    """The median with the middle half of what was measured."""
    if not known:
        return "", ""
    figure = f"{median(known):.{decimals}f}{unit}"
    if len(known) < 4:
        return figure, gettext("of %(known)s") % {"known": counted(len(known), noun)}
    low, _, high = quantiles(known, n=4, method="inclusive")
    return figure, gettext("half between %(low)s and %(high)s, of %(known)s") % {
        "low": f"{low:.{decimals}f}",
        "high": f"{high:.{decimals}f}",
        "known": counted(len(known), noun),
    }

"""Dead fish to expect under another plan, if the rates seen held: nothing beyond the data, nothing about causes.

Each plan stands by itself; two together would take the data further than they reach.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.mortality.domain.lake import in_unit
from weighin.mortality.domain.words import SPACE, counted, times
from weighin.mortality.queries.practices import Compared
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.survival.clusters import Clustered
from weighin.survival.logistic import NoCurve

FEWEST_COMPARED = 3  # events with boats of both kinds; fewer are the story of a day
IF = gettext_lazy("If these rates held")


@dataclass(frozen=True)
class Expected:
    """A plan and what to expect of it: ``dead`` of ``fish`` with its 95 % range, or only ``said``, which says why not."""

    plan: str
    said: str
    fish: int | None = None
    dead: float | None = None
    low: float | None = None
    high: float | None = None

    @property
    def is_refused(self) -> bool:
        return self.dead is None


def at_temperature(found: SeasonMortality, line: SeasonEvent, fahrenheit: float) -> Expected:
    """An event's fish on a day, or at an hour, with the lake at another temperature (°F), by the season's curve."""
    temperature_curve, fish = found.temperature_curve, line.found.presented
    plan = gettext("%(name)s with the lake at %(fahrenheit)s") % {
        "name": line.event.name,
        "fahrenheit": _degrees(fahrenheit, found.unit),
    }
    if temperature_curve.fit is None:
        return Expected(plan, gettext("Not known: %(lower)s") % {"lower": _lower(temperature_curve.why_none)})
    if not fish:
        return Expected(plan, gettext("No fish was brought to the scales, so there is nothing to expect of."))
    seen = temperature_curve.fit.seen
    if not seen.low <= fahrenheit <= seen.high:
        return Expected(
            plan,
            gettext("Not known: no event was fished at %(fahrenheit)s; lakes were at %(low)s to %(high)s.")
            % {
                "fahrenheit": _degrees(fahrenheit, found.unit),
                "low": _degrees(seen.low, found.unit),
                "high": _degrees(seen.high, found.unit),
            },
        )
    try:
        share, band = temperature_curve.fit.predict(fahrenheit), temperature_curve.fit.band(fahrenheit)
    except NoCurve as refused:
        return Expected(plan, gettext("Not known: %(refused)s.") % {"refused": refused})
    return Expected(
        plan,
        gettext(
            "%(if)s, the %(fish)s of this event would mean %(dead)s; %(as_it_was)s%(were)s were dead. The range is for the "
            "middle of such days: a single one may well lie outside it."
        )
        % {
            "if": IF,
            "fish": _fish(fish),
            "dead": _dead(fish * share, fish * band.low, fish * band.high),
            "as_it_was": _as_it_was(found, line),
            "were": f"{line.found.dead:,}",
        },
        fish,
        fish * share,
        fish * band.low,
        fish * band.high,
    )


def with_limit(found: SeasonMortality, lines: Sequence[SeasonEvent], limit: int) -> Expected:
    """The events' boats bringing no more than ``limit`` fish a day each, dying at the rate seen."""
    plan = gettext("No more than %(fish)s a boat and day") % {"fish": counted(limit, "fish")}
    lines = [line for line in lines if line.rate is not None]
    if not lines:
        return Expected(plan, gettext("No fish was brought to the scales, so there is nothing to expect of."))
    most = max(line.rules.fish_limit for line in lines)
    if limit >= most:
        return Expected(
            plan,
            gettext("Not known: nobody was allowed more than %(most)s, so what more fish would do was never seen.")
            % {"most": most},
        )
    brought = sum(line.found.presented for line in lines)
    fish = sum(min(catch.fish, limit) for line in lines for catch in line.catches)
    rate = _rate(found, lines)
    dead = sum(line.found.dead for line in lines)
    few = " " + gettext("Fewer fish in a livewell may go with another rate; that is not in this figure.")
    return Expected(
        plan,
        ngettext(
            "%(fewer)s instead of %(fish)s would have come to the scales. %(if)s, that would mean %(dead)s where the same "
            "rate gives %(now)s. Both ranges are of this event, not of others like it.%(few)s",
            "%(fewer)s instead of %(fish)s would have come to the scales. %(if)s, that would mean %(dead)s where the same "
            "rate gives %(now)s. Both ranges are of these events, not of others like them.%(few)s",
            len(lines),
        )
        % {
            "fewer": f"{fish:,}",
            "fish": _fish(brought),
            "if": IF,
            "dead": _dead(fish * rate.rate, fish * rate.low, fish * rate.high),
            "now": _dead(dead, brought * rate.low, brought * rate.high),
            "few": few,
        },
        fish,
        fish * rate.rate,
        fish * rate.low,
        fish * rate.high,
    )


def with_practices(practices: Sequence[Compared]) -> list[Expected]:
    """Each practice that boats of the same event differed in, kept to by every boat of those events."""
    return [_with(one) for one in practices]


def _with(one: Compared) -> Expected:
    plan = gettext("%(name)s: %(practised)s at every boat") % {
        "name": one.practice.name,
        "practised": one.practice.practised,
    }
    if one.odds is None or one.events < FEWEST_COMPARED:
        return Expected(
            plan,
            gettext(
                "Not known: %(events)s had dead fish and boats of both kinds, and it takes %(fewest_compared)s at least."
            )
            % {"events": counted(one.events, "event"), "fewest_compared": FEWEST_COMPARED},
        )
    fish, dead = sum(fish for _, fish in one.without), sum(dead for dead, _ in one.without)
    about, low, high = (_shifted(one.without, ratio) for ratio in (one.odds.value, one.odds.low, one.odds.high))
    unclear = one.odds.low <= 1.0 <= one.odds.high
    return Expected(
        plan,
        gettext(
            "Of %(fish)s with %(otherwise)s, at %(events)s, %(dead)s were dead. %(if)s, at odds %(times)s as high those fish would mean %(expected)s."
        )
        % {
            "fish": _fish(fish),
            "otherwise": one.practice.otherwise,
            "events": counted(one.events, "event"),
            "dead": f"{dead:,}",
            "if": IF,
            "times": times(one.odds.value),
            "expected": _dead(about, low, high),
        }
        + (" " + gettext("No clear difference.") if unclear else ""),
        fish,
        about,
        low,
        high,
    )


def _shifted(without: Sequence[tuple[int, int]], ratio: float) -> float:
    """Dead to expect of the events' fish with the odds of dying at each times ``ratio``."""
    return sum(fish * dead * ratio / (fish - dead + dead * ratio) for dead, fish in without if fish)


def _rate(found: SeasonMortality, lines: Sequence[SeasonEvent]) -> Clustered:
    """The rate of one event, or of these very events: only the livewells are left to chance.

    A range for events like these would set what was seen beside other days.
    """
    pooled = found.pooled.these_events if found.pooled else None
    rate = lines[0].rate if len(lines) == 1 else pooled
    assert rate is not None  # the lines have fish
    return rate


def _dead(about: float, low: float, high: float) -> str:
    return gettext("about %(about)s dead (95 %% range %(low)s to %(high)s)") % {
        "about": f"{about:,.0f}",
        "low": f"{low:,.0f}",
        "high": f"{high:,.0f}",
    }


def _fish(count: int) -> str:
    return counted(count, "fish")


def _as_it_was(found: SeasonMortality, line: SeasonEvent) -> str:
    """What the same curve gives for the lake as it was: an event's own count is also its luck."""
    if line.lake is None or found.temperature_curve.fit is None:
        return ""
    try:
        share = found.temperature_curve.fit.predict(line.lake.mean)
    except NoCurve:
        return ""
    return (
        gettext("at its own %(lake)s the same curve gives about %(presented)s, and")
        % {"lake": line.lake.said(found.unit), "presented": f"{line.found.presented * share:,.0f}"}
        + " "
    )


def _degrees(fahrenheit: float, unit: str) -> str:
    return f"{in_unit(fahrenheit, unit):.0f}{SPACE}°{unit}"


def _lower(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]

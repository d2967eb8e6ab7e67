"""What warm events cost, and what fewer fish a boat or other months would have come to, as far as the curve reaches."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.mortality.domain.lake import in_unit
from weighin.mortality.domain.words import SPACE, counted, seen
from weighin.mortality.pages.caveats import is_bass
from weighin.mortality.queries.days import events_limits
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.rules.values import plain
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.nested import SAME_DAY


def cannot_tell() -> str:
    return gettext("What it would change is not known.")


@dataclass(frozen=True)
class Heat:
    """Warm events that lost more than cool ones: their figure, source and the temperature to decide at."""

    warm: Sequence[SeasonEvent]
    decided_at: str
    figure: str
    source: str


def heat_of(found: SeasonMortality) -> Heat | None:
    """None unless warm events lost more than cool ones and, where there is a curve, it rises for certain."""
    warm = [line for line in found.fished if line.is_warm]
    cool = [line for line in found.fished if line.lake is not None and not line.is_warm]
    if not warm or not cool:
        return None
    on_warm, on_cool = _rate(warm), _rate(cool)
    if on_warm.rate <= on_cool.rate or (
        found.temperature_curve.odds is not None and found.temperature_curve.odds[1] <= 1.0
    ):
        return None
    limit = f"{plain(warm[-1].rules.care_warm_f)}{SPACE}°F"
    return Heat(
        warm=warm,
        decided_at=limit,
        figure=(
            gettext(
                "At %(events)s with the lake at %(limit)s or warmer %(said)s were dead; at %(events_2)s %(said_2)s."
            )
            % {
                "events": counted(len(warm), "event"),
                "limit": limit,
                "said": rate_said(on_warm, "fish"),
                "events_2": counted(len(cool), "cooler event"),
                "said_2": rate_said(on_cool, "fish"),
            }
        ),
        source=(
            gettext(
                "Kansas agency rule and Mississippi guidance begin care steps at 75 °F; of largemouth bass more died above 25 °C "
                "(77 °F) (Edwards et al. 2004)%(extrapolated)s."
            )
            % {"extrapolated": extrapolated(found)}
        ),
    )


def with_fewer(found: SeasonMortality, warm: Sequence[SeasonEvent], limit: int) -> str:
    """The warm events' fish with a smaller limit, at the curve's rates on either side of the comparison."""
    now = _by_curve(found, [(line, line.found.presented) for line in warm])
    then = _by_curve(found, [(line, sum(min(catch.fish, limit) for catch in line.catches)) for line in warm])
    if now is None or then is None:
        return f"{cannot_tell()} {found.temperature_curve.why_none}".strip()
    return gettext(
        "If the curve’s rates held, a limit of %(limit)s would have brought %(then)s of the %(now)s fish to the scales "
        "on those days, about %(then_2)s dead instead of %(now_2)s. Fewer fish in a livewell may also fare better; that "
        "is not in it."
    ) % {
        "limit": limit,
        "then": f"{then[0]:,}",
        "now": f"{now[0]:,}",
        "then_2": f"{then[1]:.0f}",
        "now_2": f"{now[1]:.0f}",
    }


def _by_curve(found: SeasonMortality, fish: Sequence[tuple[SeasonEvent, int]]) -> tuple[int, float] | None:
    """Fish of events and the dead that the curve gives for them; None where there is no curve."""
    total, dead = 0, 0.0
    for line, brought in fish:
        given = found.temperature_curve.expected(line.lake.mean, brought) if line.lake else None
        if given is None:
            return None
        total, dead = total + brought, dead + given[0]
    return total, dead


def moved(found: SeasonMortality) -> str:
    """What the curve gives for the warmest event's fish where they were, and at the season's middle temperature.

    The curve is compared with itself: the warmest event's own count is also its luck.
    """
    temperature_curve = found.temperature_curve
    if temperature_curve.fit is None or not temperature_curve.points:
        return f"{cannot_tell()} {temperature_curve.why_none}".strip()
    places = sorted(fahrenheit for fahrenheit, _ in temperature_curve.points)
    middle = places[(len(places) - 1) // 2]
    warmest = max(found.fished, key=lambda line: line.lake.mean if line.lake else float("-inf"))
    if warmest.lake is None or warmest.lake.mean <= middle:
        return cannot_tell()
    fish = warmest.found.presented
    here, there = temperature_curve.expected(warmest.lake.mean, fish), temperature_curve.expected(middle, fish)
    if here is None or there is None:
        return cannot_tell()
    return gettext(
        "If the curve’s rates held, %(fish)s fish as brought to %(name)s would mean about %(ranged)s dead at "
        "%(in_unit)s °%(unit)s and about %(ranged_2)s at its own %(lake)s (95 %% ranges)."
    ) % {
        "fish": f"{fish:,}",
        "name": warmest.event.name,
        "ranged": _ranged(there),
        "in_unit": f"{in_unit(middle, found.unit):.0f}",
        "unit": found.unit,
        "ranged_2": _ranged(here),
        "lake": warmest.lake.said(found.unit),
    }


def _ranged(given: tuple[float, float, float]) -> str:
    return gettext("%(given)s (%(given_2)s to %(given_3)s)") % {
        "given": f"{given[0]:.0f}",
        "given_2": f"{given[1]:.0f}",
        "given_3": f"{given[2]:.0f}",
    }


def extrapolated(found: SeasonMortality) -> str:
    if is_bass(found.species):
        return ""
    said = gettext("for %(fish)s an extrapolation")
    return f", {said}" % {"fish": found.species or gettext("other fish")}


def _rate(lines: Sequence[SeasonEvent]) -> Clustered:
    return clustered(
        [line.found.dead for line in lines], [line.found.presented for line in lines], correlation=SAME_DAY
    )


def rate_said(rate: Clustered, noun: str) -> str:
    return gettext("%(some)s of %(every)s (%(rate)s, %(limits)s)") % {
        "some": f"{rate.dead:,.0f}",
        "every": counted(int(rate.n), noun),
        "rate": seen(rate),
        "limits": events_limits(rate),
    }

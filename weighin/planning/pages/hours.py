"""The planner's day hour by hour: the ice to put in, and the figures behind the charts."""

from dataclasses import dataclass
from math import ceil

from django.utils.translation import gettext

from weighin.livewell.figures.course import Band
from weighin.planning.domain.degrees import tenths
from weighin.planning.domain.plan import Answer
from weighin.planning.domain.quantities import ICE, TEMPERATURE, figure
from weighin.planning.pages.words import SOME_ICE_KG, clock


@dataclass(frozen=True)
class IceLine:
    """A row of the ice table; texts are blank where there is nothing to do."""

    clock: str
    found: str
    ice: str
    between: str
    left: str
    changed: bool


@dataclass(frozen=True)
class HourLine:
    """A row of the figures behind the charts."""

    clock: str
    well: str
    figures: tuple[str, ...]


def ice_lines(answer: Answer, system: str) -> list[IceLine]:
    """Ice by the hour, with the range that the warming leaves."""

    def ice(kg: float) -> str:
        return figure(kg, ICE, system, 1)

    return [
        IceLine(
            clock=clock(answer, look.hour),
            found=figure(look.found_c, TEMPERATURE, system, tenths(system)),
            ice=ice(look.ice_kg.stated) if look.ice_kg.stated >= SOME_ICE_KG else "",
            between=_ends(ice(look.ice_kg.low), ice(look.ice_kg.high)),
            left=figure(look.left_c, TEMPERATURE, system, tenths(system)),
            changed=look.changed_share > 0,
        )
        for look in answer.icings
    ]


def _ends(low: str, high: str) -> str:
    return "" if low == high else gettext("%(low)s to %(high)s") % {"low": low, "high": high}


def hour_lines(answer: Answer, system: str) -> list[HourLine]:
    """The hours of the day in figures: what the charts draw."""
    hours = [float(hour) for hour in range(ceil(answer.question.hours))] + [answer.question.hours]
    return [
        HourLine(
            clock=clock(answer, hour),
            well=figure(answer.temperature_c.at(hour), TEMPERATURE, system, tenths(system)),
            figures=(
                _range(answer.oxygen_at_rest, hour, 1),
                _range(answer.oxygen_freshly_caught, hour, 1),
                _range(answer.carbon_at_rest, hour, 0),
                _range(answer.carbon_freshly_caught, hour, 0),
            ),
        )
        for hour in hours
    ]


def _range(band: Band, hour: float, decimals: int) -> str:
    low, stated, high = (f"{course.at(hour):.{decimals}f}" for course in (band.low, band.stated, band.high))
    return (
        stated
        if low == high
        else gettext("%(stated)s (%(low)s to %(high)s)") % {"stated": stated, "low": low, "high": high}
    )

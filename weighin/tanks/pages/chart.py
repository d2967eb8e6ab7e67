"""The tanks' day as charts: oxygen, temperature, ammonia and load, each with a panel for every tank on one time axis."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.events.domain.care_context import CareContext
from weighin.events.domain.clock import clock
from weighin.livewell.ammonia import CAUTION_UNIONISED_MG_L
from weighin.rules.values import plain
from weighin.tanks.domain.judging import HOTTEST_F
from weighin.tanks.domain.measured import Measured
from weighin.tanks.queries.tanks import Tank
from weighin.ui import charts
from weighin.ui.charts import DayLine, Drawings, Panel

MOST_TANKS = 8  # more panels than this nobody compares


@dataclass(frozen=True)
class DayCharts:
    """What can be drawn of a day; None where no tank has two readings of it."""

    oxygen: Drawings | None
    temperature: Drawings | None
    ammonia: Drawings | None
    load: Drawings | None

    @property
    def any(self) -> bool:
        return bool(self.oxygen or self.temperature or self.ammonia or self.load)


@dataclass(frozen=True)
class Quantity:
    """Something read of a tank: its unit, its value, and the limit drawn with it."""

    unit: str
    value: Callable[[Measured], float | None]
    limit: float | None = None
    limit_words: str = ""
    lake: float | None = None


def day_charts(tanks: Sequence[Tank], care_context: CareContext, day: int) -> DayCharts:
    """The charts of a day, the tanks by name."""
    shown = sorted(tanks, key=lambda tank: tank.name.casefold())[:MOST_TANKS]
    unit, lake, keep = care_context.unit, care_context.lake(day), care_context.rules.care_min_do
    oxygen = Quantity("mg/L", lambda m: m.do, float(keep), gettext("keep %(keep)s or more") % {"keep": plain(keep)})
    hottest = HOTTEST_F if unit == "F" else round((HOTTEST_F - 32) / 1.8, 1)
    warmth = Quantity(
        f"°{unit}",
        lambda m: m.fahrenheit if unit == "F" else m.celsius,
        hottest,
        gettext("never above %(hottest)s °%(unit)s (Kansas)") % {"hottest": f"{hottest:g}", "unit": unit},
        None if lake is None else float(lake.fahrenheit if unit == "F" else lake.celsius),
    )
    load = Quantity("lb/gal", _pounds_a_gallon, 1.0, gettext("full, by the handbook"))
    caution = Quantity(
        "mg/L",
        lambda m: m.unionised,
        CAUTION_UNIONISED_MG_L,
        gettext("caution from %(caution)s") % {"caution": f"{CAUTION_UNIONISED_MG_L:g}"},
    )

    def drawn(quantity: Quantity, worst: Callable[..., float], empty: str, finding: str) -> Drawings | None:
        title = _finding(shown, care_context, day, quantity, worst, finding) or empty
        return _chart(shown, care_context, day, quantity, title)

    return DayCharts(
        oxygen=drawn(
            oxygen,
            min,
            gettext("Oxygen in the tanks over the day"),
            gettext("The lowest oxygen read was %(figure)s mg/L, in %(name)s at %(at)s"),
        ),
        temperature=drawn(
            warmth,
            max,
            gettext("Temperature of the tanks over the day"),
            gettext("The warmest water read was %(figure)s %(unit)s, in %(name)s at %(at)s"),
        ),
        ammonia=drawn(
            caution,
            max,
            gettext("Un-ionised ammonia in the tanks over the day"),
            gettext("The most un-ionised ammonia read was %(figure)s mg/L, in %(name)s at %(at)s"),
        ),
        load=drawn(
            load,
            max,
            gettext("Fish in the tanks over the day"),
            gettext("The most fish read were %(figure)s lb a gallon, in %(name)s at %(at)s"),
        ),
    )


def _finding(
    tanks: Sequence[Tank],
    care_context: CareContext,
    day: int,
    quantity: Quantity,
    worst: Callable[..., float],
    sentence: str,
) -> str:
    """The reading of the day that matters most, with its tank and time; empty where nothing was read."""
    readings = [
        (value, tank.name, m.at) for tank in tanks for m in tank.readings if (value := quantity.value(m)) is not None
    ]
    if not readings:
        return ""
    figure = worst(value for value, _, _ in readings)
    _, name, at = next(found for found in readings if found[0] == figure)
    said = {"figure": f"{round(figure, 3):g}", "unit": quantity.unit, "name": name}
    return sentence % {**said, "at": clock(at, care_context.calendar, day)}


def _chart(
    tanks: Sequence[Tank], care_context: CareContext, day: int, quantity: Quantity, title: str
) -> Drawings | None:
    drawn = [(tank, points) for tank in tanks if len(points := _points(tank, care_context, day, quantity.value)) > 1]
    if not drawn:
        return None
    minutes = [minute for _, points in drawn for minute, _ in points]
    panels = [_panel(tank, points, quantity, min(minutes), max(minutes)) for tank, points in drawn]
    return charts.drawn(
        charts.over_the_day,
        panels,
        title=title,
        description=gettext("A panel for each tank: its readings over the day, and the limit as a dashed line."),
        moments=_moments(drawn[0][0], care_context, day, min(minutes), max(minutes)),
    )


def _panel(tank: Tank, points: tuple[tuple[float, float], ...], quantity: Quantity, first: float, last: float) -> Panel:
    """A limit far from anything read is left out, so that the readings keep their height."""
    values = [value for _, value in points] + ([] if quantity.lake is None else [quantity.lake])
    reach = max(values) - min(values)
    limit = quantity.limit
    near = limit is not None and min(values) - 2 * reach - 2 <= limit <= max(values) + 2 * reach + 2
    lines = [DayLine(tank.name, f"{round(points[-1][1], 2):g} {quantity.unit}", points)]
    if quantity.lake is not None:
        level = ((first, quantity.lake), (last, quantity.lake))
        lines.append(DayLine(gettext("the lake"), f"{quantity.lake:g} {quantity.unit}", level, compared=True))
    return Panel(quantity.unit, tuple(lines), limit if near else None, quantity.limit_words if near else "")


def _points(
    tank: Tank, care_context: CareContext, day: int, value: Callable[[Measured], float | None]
) -> tuple[tuple[float, float], ...]:
    """(minute, value) of a tank, each minute once: of two readings in one minute the later."""
    found = {care_context.minute_of(day, m.at): figure for m in tank.readings if (figure := value(m)) is not None}
    return tuple(sorted(found.items()))


def _moments(tank: Tank, care_context: CareContext, day: int, first: float, last: float) -> list[tuple[float, str]]:
    """What was put into the tank of the first panel, where the chart draws its uprights."""
    found = [(care_context.minute_of(day, t.started), t.named) for t in tank.treatments]
    return [(minute, words) for minute, words in found if first <= minute <= last]


def _pounds_a_gallon(reading: Measured) -> float | None:
    return reading.load / reading.volume if reading.load is not None and reading.volume else None

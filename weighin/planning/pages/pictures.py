"""The answer as charts: the day's temperature and oxygen, and its carbon dioxide."""

from collections.abc import Callable

from django.utils.translation import gettext, gettext_lazy

from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.figures.course import Band, Course
from weighin.planning.domain.degrees import warmth
from weighin.planning.domain.plan import FLOORS_MG_L, Answer
from weighin.planning.domain.quantities import ICE, TEMPERATURE, figure
from weighin.planning.pages.words import SOME_ICE_KG
from weighin.ui import charts
from weighin.ui.charts import DayLine, Drawings, Panel

FLOOR_MG_L = FLOORS_MG_L[0]
REST, FRESH = gettext_lazy("at rest"), gettext_lazy("freshly caught")


def oxygen_chart(answer: Answer, system: str) -> Drawings:
    """The well's temperature and its oxygen over the day."""
    well, lake = answer.temperature_c, answer.question.lake_c
    in_units = TEMPERATURE.unit(system).from_si
    degrees = Panel(
        TEMPERATURE.unit(system).word,
        (
            DayLine(gettext("lake at filling"), warmth(lake, system), _ends(answer, in_units(lake)), compared=True),
            DayLine(gettext("your livewell"), warmth(well.last, system), _points(answer, well, in_units)),
        ),
    )
    words = gettext("keep above %(floor_mg_l)s mg/L") % {"floor_mg_l": f"{FLOOR_MG_L:.0f}"}
    panels = [
        degrees,
        _panel(answer, str(REST), answer.oxygen_at_rest, 1, FLOOR_MG_L, words),
        _panel(answer, str(FRESH), answer.oxygen_freshly_caught, 1, FLOOR_MG_L, words),
    ]
    moments = [
        (
            _minute(answer, look.hour),
            (gettext("%(figure)s %(unit)s ice") if i == 0 else "%(figure)s %(unit)s")
            % {"figure": figure(look.ice_kg.stated, ICE, system, 1), "unit": ICE.unit(system).word},
        )
        for i, look in enumerate(look for look in answer.icings if look.ice_kg.stated >= SOME_ICE_KG)
    ]
    rest, fresh = answer.oxygen_at_rest, answer.oxygen_freshly_caught
    return charts.drawn(
        charts.over_the_day,
        panels,
        title=gettext("The livewell’s temperature and oxygen over the day"),
        description=(
            gettext(
                "The livewell ends at %(last)s, filled at %(lake)s. Oxygen at rest falls to %(lowest)s mg/L, between %(low_lowest)s "
                "and %(high_lowest)s; freshly caught to %(stated_lowest)s, between %(fresh_low)s and %(fresh_high)s. The "
                "floor is 5. The hours in figures stand in the table below."
            )
            % {
                "last": warmth(well.last, system),
                "lake": warmth(lake, system),
                "lowest": f"{rest.stated.lowest:.1f}",
                "low_lowest": f"{rest.low.lowest:.1f}",
                "high_lowest": f"{rest.high.lowest:.1f}",
                "stated_lowest": f"{fresh.stated.lowest:.1f}",
                "fresh_low": f"{fresh.low.lowest:.1f}",
                "fresh_high": f"{fresh.high.lowest:.1f}",
            }
        ),
        moments=moments,
    )


def carbon_chart(answer: Answer) -> Drawings:
    """The well's carbon dioxide over the day."""
    words = gettext("advice: under %(hauling_limit_mg_l)s mg/L") % {"hauling_limit_mg_l": f"{HAULING_LIMIT_MG_L:.0f}"}
    rest, fresh = answer.carbon_at_rest, answer.carbon_freshly_caught
    return charts.drawn(
        charts.over_the_day,
        [
            _panel(answer, str(REST), rest, 0, HAULING_LIMIT_MG_L, words),
            _panel(answer, str(FRESH), fresh, 0, HAULING_LIMIT_MG_L, words),
        ],
        title=gettext("The livewell’s carbon dioxide over the day"),
        description=(
            gettext(
                "It rises to %(highest)s mg/L at rest, between %(low_highest)s and %(high_highest)s, and to %(stated_highest)s "
                "freshly caught. Hauling advice is under 20."
            )
            % {
                "highest": f"{rest.stated.highest:.0f}",
                "low_highest": f"{rest.low.highest:.0f}",
                "high_highest": f"{rest.high.highest:.0f}",
                "stated_highest": f"{fresh.stated.highest:.0f}",
            }
        ),
    )


def _panel(answer: Answer, name: str, band: Band, decimals: int, limit: float, words: str) -> Panel:
    low, stated, high = (_points(answer, course) for course in (band.low, band.stated, band.high))
    ends = tuple((minute, least, most) for (minute, least), (_, most) in zip(low, high, strict=True))
    line = DayLine(name, f"{band.stated.last:.{decimals}f}\u00a0mg/L", stated, band=ends)
    return Panel("mg/L", (line,), limit=limit, limit_words=words)


def _points(
    answer: Answer, course: Course, convert: Callable[[float], float] = float
) -> tuple[tuple[float, float], ...]:
    return tuple(
        (_minute(answer, hour), convert(value)) for hour, value in zip(course.hours, course.values, strict=True)
    )


def _ends(answer: Answer, value: float) -> tuple[tuple[float, float], ...]:
    return ((_minute(answer, 0), value), (_minute(answer, answer.question.hours), value))


def _minute(answer: Answer, hour: float) -> float:
    return answer.question.start_minute + hour * 60

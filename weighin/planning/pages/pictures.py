"""The answer as charts: the day's temperature and oxygen, and its carbon dioxide."""

from collections.abc import Callable

from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.figures.course import Band, Course
from weighin.planning.domain.degrees import warmth
from weighin.planning.domain.plan import FLOORS_MG_L, Answer
from weighin.planning.domain.quantities import ICE, TEMPERATURE, figure
from weighin.planning.pages.words import SOME_ICE_KG
from weighin.ui import charts
from weighin.ui.charts import DayLine, Drawings, Panel

FLOOR_MG_L = FLOORS_MG_L[0]
REST, FRESH = "at rest", "freshly caught"


def oxygen_chart(answer: Answer, system: str) -> Drawings:
    """The well's temperature and its oxygen over the day."""
    well, lake = answer.temperature_c, answer.question.lake_c
    in_units = TEMPERATURE.unit(system).from_si
    degrees = Panel(
        TEMPERATURE.unit(system).word,
        (
            DayLine("lake at filling", warmth(lake, system), _ends(answer, in_units(lake)), compared=True),
            DayLine("your well", warmth(well.last, system), _points(answer, well, in_units)),
        ),
    )
    words = f"keep above {FLOOR_MG_L:.0f} mg/L"
    panels = [
        degrees,
        _panel(answer, REST, answer.oxygen_at_rest, 1, FLOOR_MG_L, words),
        _panel(answer, FRESH, answer.oxygen_freshly_caught, 1, FLOOR_MG_L, words),
    ]
    moments = [
        (
            _minute(answer, look.hour),
            f"{figure(look.ice_kg.stated, ICE, system, 1)} {ICE.unit(system).word}{' ice' if i == 0 else ''}",
        )
        for i, look in enumerate(look for look in answer.icings if look.ice_kg.stated >= SOME_ICE_KG)
    ]
    rest, fresh = answer.oxygen_at_rest, answer.oxygen_freshly_caught
    return charts.drawn(
        charts.over_the_day,
        panels,
        title="The well’s temperature and oxygen over the day",
        description=(
            f"The well ends at {warmth(well.last, system)}, filled at {warmth(lake, system)}. "
            f"Oxygen at rest falls to {rest.stated.lowest:.1f} mg/L, between {rest.low.lowest:.1f} and "
            f"{rest.high.lowest:.1f}; freshly caught to {fresh.stated.lowest:.1f}, between {fresh.low.lowest:.1f} and "
            f"{fresh.high.lowest:.1f}. The floor is 5. The hours in figures stand in the table below."
        ),
        moments=moments,
    )


def carbon_chart(answer: Answer) -> Drawings:
    """The well's carbon dioxide over the day."""
    words = f"advice: under {HAULING_LIMIT_MG_L:.0f} mg/L"
    rest, fresh = answer.carbon_at_rest, answer.carbon_freshly_caught
    return charts.drawn(
        charts.over_the_day,
        [
            _panel(answer, REST, rest, 0, HAULING_LIMIT_MG_L, words),
            _panel(answer, FRESH, fresh, 0, HAULING_LIMIT_MG_L, words),
        ],
        title="The well’s carbon dioxide over the day",
        description=(
            f"It rises to {rest.stated.highest:.0f} mg/L at rest, between {rest.low.highest:.0f} and "
            f"{rest.high.highest:.0f}, and to {fresh.stated.highest:.0f} freshly caught. Hauling advice is under 20."
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

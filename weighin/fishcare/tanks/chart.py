"""The tanks' day as a chart: temperature, oxygen and load, each a panel on one time axis."""

from collections.abc import Callable, Sequence

from weighin.fishcare.models import Treatment
from weighin.fishcare.scene import Scene
from weighin.fishcare.tanks.judging import HOTTEST_F
from weighin.fishcare.tanks.measured import Measured
from weighin.fishcare.tanks.queries import Tank
from weighin.ui import charts
from weighin.ui.charts import DayLine, Drawings, Panel

MOST_TANKS = 6  # more lines than this cannot be told apart on one panel


def day_chart(tanks: Sequence[Tank], scene: Scene, day: int) -> Drawings | None:
    """The day's chart; None until some tank has two readings of something."""
    shown = sorted(tanks, key=lambda tank: tank.name.casefold())[:MOST_TANKS]
    unit, rules, lake = scene.unit, scene.rules, scene.lake(day)
    panels = [
        panel
        for panel in (
            _panel(shown, scene, day, f"°{unit}", lambda m: _degrees(m, unit)),
            _panel(
                shown,
                scene,
                day,
                "mg/L",
                lambda m: m.do,
                float(rules.care_min_do),
                f"keep {rules.care_min_do:f} or more",
            ),
            _panel(shown, scene, day, "lb/gal", _pounds_a_gallon, 1.0, "full, by the handbook"),
        )
        if panel is not None
    ]
    if not panels:
        return None
    if lake is not None and panels[0].unit == f"°{unit}":
        panels[0] = _with_lake(panels[0], float(lake.fahrenheit if unit == "F" else lake.celsius), unit)
    return charts.drawn(
        charts.over_the_day,
        panels,
        title=title(shown, scene),
        description="Readings of the tanks over the day, a line for each tank; the dashed lines are the limits.",
        moments=_moments(shown, scene, day),
    )


def title(tanks: Sequence[Tank], scene: Scene) -> str:
    """The finding: the lowest oxygen of the day and where it was read, else how many readings there are."""
    lowest = min(
        ((m.do, tank.name, m) for tank in tanks for m in tank.readings if m.do is not None),
        key=lambda found: found[0],
        default=None,
    )
    if lowest is None:
        return "The tanks over the day"
    figure, name, reading = lowest
    at = f"{reading.at.astimezone(scene.calendar.zone):%H:%M}"
    return f"The lowest oxygen read was {figure:g} mg/L, in {name} at {at}"


def _panel(
    tanks: Sequence[Tank],
    scene: Scene,
    day: int,
    unit: str,
    value: Callable[[Measured], float | None],
    limit: float | None = None,
    limit_words: str = "",
) -> Panel | None:
    lines = []
    for tank in tanks:
        points = _points(tank, scene, day, value)
        if len(points) > 1:
            lines.append(DayLine(tank.name, f"{round(points[-1][1], 2):g} {unit}", points))
    return Panel(unit, tuple(lines), limit, limit_words) if lines else None


def _points(
    tank: Tank, scene: Scene, day: int, value: Callable[[Measured], float | None]
) -> tuple[tuple[float, float], ...]:
    """(minute, value) of a tank, each minute once: of two readings in one minute the later."""
    found = {}
    for reading in tank.readings:
        figure = value(reading)
        if figure is not None:
            found[scene.minute_of(day, reading.at)] = figure
    return tuple(sorted(found.items()))


def _with_lake(panel: Panel, lake: float, unit: str) -> Panel:
    """The panel of temperatures with the lake beside the tanks, and no tank above the hottest allowed unseen."""
    minutes = [minute for line in panel.lines for minute, _ in line.points]
    level = ((min(minutes), lake), (max(minutes), lake))
    highest = max(value for line in panel.lines for _, value in line.points)
    hottest = HOTTEST_F if unit == "F" else (HOTTEST_F - 32) / 1.8
    near = highest > hottest - 4
    beside = DayLine("the lake", f"{lake:g} °{unit}", level, compared=True)
    words = f"never above {HOTTEST_F:.0f} °F (Kansas)" if near else ""
    return Panel(panel.unit, (*panel.lines, beside), hottest if near else None, words)


def _moments(tanks: Sequence[Tank], scene: Scene, day: int) -> list[tuple[float, str]]:
    said = {Treatment.What.WATER: "water", Treatment.What.ICE: "ice", Treatment.What.SALT: "salt"}
    found = [
        (scene.minute_of(day, treatment.started), said.get(Treatment.What(treatment.what), "treated"))
        for tank in tanks
        for treatment in tank.treatments
    ]
    first = min((scene.minute_of(day, m.at) for tank in tanks for m in tank.readings), default=0.0)
    last = max((scene.minute_of(day, m.at) for tank in tanks for m in tank.readings), default=0.0)
    return [(minute, words) for minute, words in found if first <= minute <= last]


def _degrees(reading: Measured, unit: str) -> float | None:
    return reading.fahrenheit if unit == "F" else reading.celsius


def _pounds_a_gallon(reading: Measured) -> float | None:
    return reading.load / reading.volume if reading.load is not None and reading.volume else None

"""Ice by the hour: down in allowed steps, then held against the warming and against each change of water."""

from dataclasses import dataclass
from itertools import pairwise

from weighin.livewell.figures.course import Course, steady
from weighin.livewell.figures.mixed import diluted
from weighin.livewell.figures.ranges import above, gettext_noop, temperature, within
from weighin.livewell.ice import kg_for_drop
from weighin.livewell.temperature.cooling import STRICTEST_STEP_C, Schedule, schedule
from weighin.livewell.temperature.warming import FASTEST_PER_H, HOTTEST_OUTSIDE_C, temperature_after
from weighin.livewell.water_change import Change

SAME_HOUR = 1e-9


@dataclass(frozen=True)
class Icing:
    """One look at the well.

    Attributes
    ----------
    hour : float
    found_c : float
        The water as found, after a change of water if there is one then.
    wanted_c : float
        By the cooling schedule.
    ice_kg : float
        Ice to put in; 0 when it is cold enough.
    changed_share : float
        Share of the water changed then.
    """

    hour: float
    found_c: float
    wanted_c: float
    ice_kg: float
    changed_share: float


@dataclass(frozen=True)
class IcePlan:
    """Ice over the day.

    Attributes
    ----------
    icings : tuple of Icing
        In the order of the day.
    temperature_c : Course
        The well's temperature, with its jumps; fit for `day.LivewellDay`.
    cooling : Schedule
        The steps down.
    """

    icings: tuple[Icing, ...]
    temperature_c: Course
    cooling: Schedule

    @property
    def total_kg(self) -> float:
        return sum(each.ice_kg for each in self.icings)


def ice_plan(
    *,
    volume_l: float,
    fill_c: float,
    hold_c: float,
    outside_c: float | Course,
    hours: float,
    warming_per_h: float,
    ice_c: float = 0.0,
    every_h: float = 1.0,
    step_c: float = STRICTEST_STEP_C,
    hours_between: float = 1.0,
    changes: tuple[Change, ...] = (),
    lake_c: float | None = None,
) -> IcePlan:
    """Ice for a day on the water.

    Parameters
    ----------
    volume_l : float
        Water in L, more than 0, at most 100000; add the fish's kg, for they are cooled too. Melted ice runs
        over.
    fill_c : float
        The water that fills the well, °C, 0 to 40.
    hold_c : float
        The temperature to hold, °C, 0 to 40 (`cooling.target_c`); not below `fill_c` means no ice until it
        warms past it.
    outside_c : float or Course
        Air at the well over the day, °C, -20 to 70.
    hours : float
        Length of the day, more than 0, at most 72.
    warming_per_h : float
        The well's coefficient, 0 to 5 (`warming`).
    ice_c : float
        °C, -40 to 0.
    every_h : float
        Hours between icings, 0.1 to 24.
    step_c, hours_between : float
        As for `cooling.schedule`.
    changes : tuple of Change
        Water changes; the lake's water is iced down again at once.
    lake_c : float, optional
        The lake water of the changes, °C, 0 to 40; as `fill_c` when left out.

    Returns
    -------
    IcePlan

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    75 L from 28 to 25 °C, 34 °C outside; never changed, and half changed every 2.5 hours:

    >>> from weighin.livewell.water_change import every
    >>> day = {"volume_l": 75, "fill_c": 28, "hold_c": 25, "outside_c": 34, "hours": 8, "warming_per_h": 0.1}
    >>> never, half = ice_plan(**day), ice_plan(**day, changes=every(every_h=2.5, hours=8))
    >>> round(never.total_kg, 1), round(half.total_kg, 1)
    (6.4, 9.4)
    """
    volume = above("volume_l", volume_l, 0, 100_000, gettext_noop("The water"), "L")
    water = temperature("fill_c", fill_c, what=gettext_noop("The water that fills the livewell"))
    hold = temperature("hold_c", hold_c, what=gettext_noop("The temperature to hold"))
    lake = water if lake_c is None else temperature("lake_c", lake_c, what=gettext_noop("The lake’s temperature"))
    day = above("hours", hours, 0, 72, gettext_noop("The day"), "h")
    apart = within("every_h", every_h, 0.1, 24, gettext_noop("The time between icings"), "h")
    per_h = within(
        "warming_per_h", warming_per_h, 0, FASTEST_PER_H, gettext_noop("The warming coefficient"), "per hour"
    )
    air = outside_c if isinstance(outside_c, Course) else steady(_outside(outside_c))
    for value in air.values:
        _outside(value)
    cooling = schedule(from_c=water, to_c=hold, step_c=step_c, hours_between=hours_between)
    looks = {i * apart for i in range(int(day / apart) + 1)} | {step.hour for step in cooling.steps}
    looks |= {change.hour for change in changes}

    icings: list[Icing] = []
    times, values, now = [0.0], [water], 0.0
    for hour in [*_apart(sorted(look for look in looks if look < day - SAME_HOUR)), day]:
        for start, end in _quarters(now, hour):
            middle = air.at((start + end) / 2)
            water = temperature_after(from_c=water, outside_c=middle, hours=end - start, per_h=per_h)
            times.append(end)
            values.append(water)
        now = hour
        if hour == day:
            break
        share = 0.0
        for change in changes:
            if abs(change.hour - hour) <= SAME_HOUR:
                water = diluted(value=water, fresh=lake, share=change.share)
                share = 1 - (1 - share) * (1 - change.share)
        wanted = _wanted(cooling, hold, hour)
        found = water
        ice = kg_for_drop(volume, found, wanted, ice_c) if found > wanted else 0.0
        water = min(found, wanted)
        times.append(hour)
        values.append(water)
        icings.append(Icing(hour, found, wanted, ice, share))
    return IcePlan(tuple(icings), Course(hours=tuple(times), values=tuple(values)), cooling)


def _outside(outside_c: float) -> float:
    return temperature("outside_c", outside_c, -20, HOTTEST_OUTSIDE_C, gettext_noop("The temperature outside"))


def _wanted(cooling: Schedule, hold: float, hour: float) -> float:
    """The lowest temperature the schedule has come to."""
    if not cooling.steps:
        return hold
    reached = [step.to_c for step in cooling.steps if step.hour <= hour + SAME_HOUR]
    return min(reached, default=cooling.steps[0].from_c)


def _apart(hours: list[float]) -> list[float]:
    """Sorted hours without those that are the same but for rounding."""
    kept: list[float] = []
    for hour in hours:
        if not kept or hour - kept[-1] > SAME_HOUR:
            kept.append(hour)
    return kept


def _quarters(start: float, end: float) -> list[tuple[float, float]]:
    """The stretch from `start` to `end` in pieces of at most a quarter of an hour."""
    count = max(1, round((end - start) * 4 + 0.499)) if end > start else 0
    marks = [start + (end - start) * i / count for i in range(count)] + [end] if count else []
    return list(pairwise(marks))

"""A well-mixed tank: a quantity that is drawn towards a value, gains at a rate and is diluted at times.

Oxygen, carbon dioxide, ammonia and temperature all follow d(value)/dt = k (towards - value) + gain.
"""

from collections.abc import Callable, Iterable
from math import exp, expm1, log
from typing import NamedTuple

from weighin.livewell.figures.course import Course
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.ranges import OutOfRange, above, gettext_noop, number, within

SAME_HOUR = 1e-9


class Rates(NamedTuple):
    """What acts on the value at one moment: k (1/h), the value it is drawn to, and the gain (value per
    hour)."""

    per_h: float
    towards: float
    gain_per_h: float


def after(value: float, hours: float, rates: Rates) -> float:
    """The value after `hours` of constant `rates`, exactly.

    Parameters
    ----------
    value : float
        At the start.
    hours : float
        0 or more.
    rates : Rates
        `per_h` 0 or more.

    Examples
    --------
    >>> round(after(5.0, 1.0, Rates(per_h=0.5, towards=8.0, gain_per_h=0.0)), 3)
    6.18
    """
    number("value", value, gettext_noop("The value"))
    hours = within("hours", hours, 0, 10_000, gettext_noop("The time"), "h")
    return _after(value, hours, rates)


def _after(value: float, hours: float, rates: Rates) -> float:
    kt = rates.per_h * hours
    gained = hours * (-expm1(-kt) / kt) if kt > 1e-12 else hours
    return rates.towards + (value - rates.towards) * exp(-kt) + rates.gain_per_h * gained


def diluted(*, value: float, fresh: float, share: float) -> float:
    """The value after a share of the water was changed for fresh water.

    Holds for everything that mixes: oxygen, carbon dioxide, ammonia, salt and, equal volumes of water being
    equally warm, temperature.

    Parameters
    ----------
    value, fresh : float
        Of the water in the tank and of the water that goes in, same unit.
    share : float
        Share of the water changed, 0 to 1.

    Examples
    --------
    >>> diluted(value=24.0, fresh=2.0, share=0.5)
    13.0
    """
    value, fresh = (
        number("value", value, gettext_noop("The value")),
        number("fresh", fresh, gettext_noop("The fresh water’s value")),
    )
    share = within("share", share, 0, 1, gettext_noop("The share of water changed"))
    return value * (1 - share) + fresh * share


def coefficient_per_h(*, start: float, end: float, towards: float, hours: float, reading_error: float) -> Estimate:
    """The k of an approach, from two readings and the value that is approached.

    k = ln((towards - start) / (towards - end)) / hours; its ends are what the readings allow when each of the
    two may be wrong by `reading_error`, both the worse way round.

    Parameters
    ----------
    start, end, towards : float
        Readings at the beginning and the end, and the value approached, one unit.
    hours : float
        Between the readings, more than 0, at most 24.
    reading_error : float
        By how much a reading may be wrong, 0 or more.

    Returns
    -------
    Estimate
        Per hour; its low end is 0 when the readings cannot tell the rise from none.

    Raises
    ------
    OutOfRange
        When the readings move away from `towards`, reach or pass it, or are too near it to tell anything.

    Examples
    --------
    >>> k = coefficient_per_h(start=20.0, end=20.4, towards=34.0, hours=1 / 6, reading_error=0.1)
    >>> [round(end, 2) for end in k.ends]
    [0.09, 0.17, 0.26]
    """
    start, end = (
        number("start", start, gettext_noop("The first reading")),
        number("end", end, gettext_noop("The second reading")),
    )
    towards = number("towards", towards, gettext_noop("The value approached"))
    hours = above("hours", hours, 0, 24, gettext_noop("The time between the readings"), "h")
    error = within("reading_error", reading_error, 0, 1e6, gettext_noop("The reading error"))
    gap, left = abs(towards - start), abs(towards - end)
    if (towards - start) * (towards - end) <= 0:
        raise OutOfRange(
            "end",
            gettext_noop("The second reading has reached or passed the value it moves to: measure for a shorter time."),
        )
    if left > gap:
        raise OutOfRange(
            "end", gettext_noop("The second reading is further off than the first: the value moves the other way.")
        )
    if left <= 2 * error:
        raise OutOfRange(
            "towards", gettext_noop("The readings are too near the value they move to: start from further away.")
        )
    return Estimate(
        max(0.0, log((gap - error) / (left + error)) / hours),
        log(gap / left) / hours,
        log((gap + error) / (left - error)) / hours,
    )


def follow(
    *,
    start: float,
    hours: float,
    rates: Callable[[float], Rates],
    jumps: Iterable[tuple[float, Callable[[float], float]]] = (),
    breaks: Iterable[float] = (),
    step_h: float = 1 / 12,
) -> Course:
    """The course of a value over the day.

    Each step is solved exactly with the rates of its middle; no step spans a jump or a break, so that fish
    coming aboard and water changes fall between steps. A value never goes below 0.

    Parameters
    ----------
    start : float
        Value at hour 0.
    hours : float
        Length of the day, more than 0, at most 72.
    rates : callable
        Hour -> `Rates` that hold then.
    jumps : iterable of (hour, callable)
        What happens to the value at an hour (old value -> new value); in the order given when at the same
        hour.
    breaks : iterable of float
        Hours at which the rates jump.
    step_h : float
        Longest step, more than 0, at most 1 h.

    Examples
    --------
    >>> rates = Rates(per_h=0.0, towards=0.0, gain_per_h=4.0)
    >>> course = follow(start=0.0, hours=8, rates=lambda hour: rates, jumps=[(4, lambda value: value / 2)])
    >>> course.just_before(4), course.at(4), course.last
    (16.0, 8.0, 24.0)
    """
    hours = above("hours", hours, 0, 72, gettext_noop("The day"), "h")
    step_h = above("step_h", step_h, 0, 1, gettext_noop("A step"), "h")
    at_hours = sorted(((hour, jump) for hour, jump in jumps if 0 <= hour <= hours), key=lambda pair: pair[0])
    value = max(0.0, number("start", start, gettext_noop("The value at the start")))
    times, values = [0.0], [value]
    for end in _grid(hours, step_h, [hour for hour, _ in at_hours], breaks):
        begin = times[-1]
        while at_hours and at_hours[0][0] <= begin + SAME_HOUR:
            value = max(0.0, at_hours.pop(0)[1](value))
            times.append(begin)
            values.append(value)
        value = max(0.0, _after(value, end - begin, rates((begin + end) / 2)))
        times.append(end)
        values.append(value)
    for _, jump in at_hours:
        value = max(0.0, jump(value))
        times.append(hours)
        values.append(value)
    return Course(hours=tuple(times), values=tuple(values))


def _grid(hours: float, step_h: float, *more: Iterable[float]) -> list[float]:
    """The ends of the steps: every `step_h`, and whatever hours lie between."""
    regular = [i * step_h for i in range(1, int(hours / step_h) + 1)]
    wanted = sorted(h for h in [*regular, *(h for each in more for h in each)] if SAME_HOUR < h < hours - SAME_HOUR)
    ends: list[float] = []
    for hour in wanted:
        if not ends or hour - ends[-1] > SAME_HOUR:
            ends.append(hour)
    return [*ends, hours]

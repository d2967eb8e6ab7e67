"""How cold, and in which steps.

Sources disagree on the largest safe step: 7 °F (summary of a Mississippi State study), 8 to 10 °F (Keeping
Bass Alive), 10 °F (Oklahoma's agency). The strictest is the default; the director may choose. The same
figures cap how far the well may end up below the lake, for the fish have to go back into it.
"""

from dataclasses import dataclass
from math import ceil, floor

from weighin.livewell.figures.ranges import above, gettext_noop, temperature, within
from weighin.livewell.figures.units import DEGREES_F_PER_C, celsius, fahrenheit

MISSISSIPPI_STATE_STEP_C = 7 / DEGREES_F_PER_C
OKLAHOMA_STEP_C = 10 / DEGREES_F_PER_C
STRICTEST_STEP_C = MISSISSIPPI_STATE_STEP_C
CARE_BEGINS_C = celsius(75)  # Kansas agency rule; Mississippi guidance
HOTTEST_TARGET_C = celsius(80)  # the warmest of Schramm's targets: for a lake above 85 °F
HOTTEST_C = celsius(85)  # Kansas: no tank may ever be above (K.A.R. 115-7-8)

# Walleye: losses were low below 14 °C and much higher above 18 °C in 14 events (Schramm, Vondracek, French & Gerard
# 2010, N. Am. J. Fish. Manage. 30, 238-253). Of walleye used to 24 °C none lived five days after a simulated
# tournament (Loomis et al. 2013, Trans. Am. Fish. Soc. 142, 868-875). Abstracts read.
WALLEYE_CARE_C = 18.0
WALLEYE_NONE_LIVED_C = 24.0
ROUNDING = 1e-9


@dataclass(frozen=True)
class Step:
    """One lowering of the water: at which hour, from and to which temperature in °C."""

    hour: float
    from_c: float
    to_c: float


@dataclass(frozen=True)
class Schedule:
    """Steps down to a temperature.

    Attributes
    ----------
    steps : tuple of Step
        Empty when there is nothing to cool.
    step_c : float
        The largest step allowed.
    beyond_step : bool
        The whole drop is more than one allowed step: sources that cap how far below the lake the well may be
        would not go there, and the fish have to be brought back up before release.
    """

    steps: tuple[Step, ...]
    step_c: float
    beyond_step: bool


def target_c(lake_c: float) -> float:
    """The well's temperature for a lake's, by Schramm's stepwise targets.

    Parameters
    ----------
    lake_c : float
        °C, 0 to 40; read to the whole °F as the targets are.

    Returns
    -------
    float
        °C. Lake 75-80 °F: 75; 81-85: 78; above 85: 80; at 75 °F and below the lake itself. From 88 °F on the
        target lies more than one strictest step below the lake: see `schedule`.

    Raises
    ------
    OutOfRange
        Outside the range above (a ValueError).

    References
    ----------
    Schramm's livewell targets, as in Mississippi's guidance to tournament anglers.

    Examples
    --------
    >>> round(target_c(29.0), 2)
    25.56
    """
    lake = temperature("lake_c", lake_c, what=gettext_noop("The lake’s temperature"))
    if lake <= CARE_BEGINS_C:
        return lake
    whole_f = floor(fahrenheit(lake) + 0.5)
    if whole_f <= 80:
        return CARE_BEGINS_C
    return celsius(78) if whole_f <= 85 else celsius(80)


def coolest_c(lake_c: float, step_c: float = STRICTEST_STEP_C) -> float:
    """The coldest the well may be when it may not be further below the lake than one step.

    Parameters
    ----------
    lake_c : float
        °C, 0 to 40.
    step_c : float
        °C, more than 0, at most 10.

    Returns
    -------
    float
        °C, not below 0.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> round(coolest_c(30.0), 2)
    26.11
    """
    lake = temperature("lake_c", lake_c, what=gettext_noop("The lake’s temperature"))
    return max(0.0, lake - _step(step_c))


def schedule(
    *,
    from_c: float,
    to_c: float,
    step_c: float = STRICTEST_STEP_C,
    hours_between: float = 1.0,
    first_hour: float = 0.0,
) -> Schedule:
    """Equal steps down to a temperature, none larger than allowed.

    Parameters
    ----------
    from_c, to_c : float
        °C, 0 to 40. Nothing to do when `to_c` is not below `from_c`.
    step_c : float
        Largest step, °C, more than 0, at most 10.
    hours_between : float
        Between steps, 0 to 24 h. How long fish need between steps no source says; an hour is our default.
    first_hour : float
        When the first step is taken, 0 to 72.

    Returns
    -------
    Schedule

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> [(step.hour, round(step.to_c, 1)) for step in schedule(from_c=32, to_c=26).steps]
    [(0.0, 29.0), (1.0, 26.0)]
    """
    start = temperature("from_c", from_c, what=gettext_noop("The temperature at the start"))
    end = temperature("to_c", to_c, what=gettext_noop("The temperature wanted"))
    largest = _step(step_c)
    apart = within("hours_between", hours_between, 0, 24, gettext_noop("The time between steps"), "h")
    first = within("first_hour", first_hour, 0, 72, gettext_noop("The hour of the first step"), "h")
    if end >= start:
        return Schedule((), largest, beyond_step=False)
    count = max(1, ceil((start - end) / largest - ROUNDING))
    marks = [start + (end - start) * i / count for i in range(count)] + [end]
    steps = tuple(Step(first + i * apart, marks[i], marks[i + 1]) for i in range(count))
    return Schedule(steps, largest, beyond_step=count > 1)


def _step(step_c: float) -> float:
    return above("step_c", step_c, 0, 10, gettext_noop("The largest step"), "°C")

"""The oxygen of a livewell over a day: what fish use against what surface, pump, cylinder and lake bring."""

from functools import cache

from weighin.livewell import transfer
from weighin.livewell.bag import FLOOR_MG_L
from weighin.livewell.day import LivewellDay
from weighin.livewell.figures.course import Band, Course
from weighin.livewell.figures.estimate import NOTHING, Estimate
from weighin.livewell.figures.mixed import Rates
from weighin.livewell.figures.ranges import OutOfRange, above, gettext_noop, within
from weighin.livewell.oxygen import saturation_mg_l

__all__ = ["FLOOR_MG_L", "most_kg", "oxygen_mg_l"]


def oxygen_mg_l(
    day: LivewellDay,
    *,
    transfer_per_h: Estimate = NOTHING,
    supply_mg_per_h: Estimate = NOTHING,
    pressure_mmhg: float = 760.0,
    salinity: float = 0.0,
    start_mg_l: float | None = None,
    lake_mg_l: float | None = None,
) -> Band:
    """The well's oxygen through the day.

    Parameters
    ----------
    day : LivewellDay
    transfer_per_h : Estimate
        Surface and pump together, per hour at 20 °C, 0 to 100: see `transfer`.
    supply_mg_per_h : Estimate
        Oxygen dissolving from a cylinder, mg/h, 0 or more: see `supply`.
    pressure_mmhg, salinity : float
        As for `oxygen.saturation_mg_l`; station pressure.
    start_mg_l, lake_mg_l : float, optional
        Oxygen of the first filling and of the lake water of later changes, mg/L, 0 to 40. The first left out is
        saturation at the well's temperature then; the second left out is the first, for both are lake water.
        Lake water holds what the lake's own temperature allows, also where the well is iced.

    Returns
    -------
    Band
        mg/L. `low` takes the most use with the least transfer and supply, `high` the other way round,
        `stated` the middle of each: read the band, the middle is no forecast. It may go above saturation
        under pure oxygen and never goes below 0.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Notes
    -----
    Fish are taken to breathe on at the same rate however little oxygen is left, which is the cautious side.

    Examples
    --------
    Seven crappie of 400 g aboard from the start, the pump off:

    >>> from weighin.livewell.day import Boarding
    >>> day = LivewellDay(volume_l=75, hours=8, boardings=(Boarding(0, 7, 400),), temperature_c=26.0)
    >>> still = oxygen_mg_l(day)
    >>> still.high.first_below(5.0) is None, round(still.low.first_below(5.0), 1)
    (False, 0.7)
    >>> pumped = oxygen_mg_l(day, transfer_per_h=transfer.pump_per_h(flow_l_per_h=1500, volume_l=75))
    >>> round(pumped.low.last, 1), round(pumped.high.last, 1)
    (0.0, 7.9)
    """
    if transfer_per_h.low < 0 or transfer_per_h.high > 100:
        raise OutOfRange("transfer_per_h", gettext_noop("The transfer coefficient is from 0 to 100 per hour."))
    if supply_mg_per_h.low < 0:
        raise OutOfRange("supply_mg_per_h", gettext_noop("The oxygen supply is 0 mg/h or more."))

    @cache
    def full(hour: float) -> float:
        return saturation_mg_l(day.course_c.at(hour), pressure_mmhg, salinity)

    def given(name: str, value: float | None, otherwise: float) -> float:
        return otherwise if value is None else within(name, value, 0, 40, gettext_noop("The water’s oxygen"), "mg/L")

    start = given("start_mg_l", start_mg_l, full(0.0))
    lake = given("lake_mg_l", lake_mg_l, start)

    @cache
    def warmth(hour: float) -> float:
        return float(transfer.THETA ** (day.course_c.at(hour) - 20))

    def course(use: int, gain: int) -> Course:
        def rates(hour: float) -> Rates:
            net = supply_mg_per_h.ends[gain] - day.use_mg_per_h(hour).ends[use]
            return Rates(transfer_per_h.ends[gain] * warmth(hour), full(hour), net / day.volume_l)

        return day.run(start=start, fresh=lake, rates=rates)

    return Band(low=course(2, 0), stated=course(1, 1), high=course(0, 2))


def most_kg(
    *,
    use_mg_per_kg_h: Estimate,
    volume_l: float,
    temperature_c: float,
    transfer_per_h: Estimate = NOTHING,
    supply_mg_per_h: Estimate = NOTHING,
    floor_mg_l: float = FLOOR_MG_L,
    pressure_mmhg: float = 760.0,
) -> Estimate:
    """The fish that surface, pump and cylinder can keep at a floor of oxygen for as long as they run.

    Parameters
    ----------
    use_mg_per_kg_h : Estimate
        Oxygen used per kg and hour, more than 0, times rest included.
    volume_l : float
        L, more than 0, at most 100000.
    temperature_c : float
        °C, 0 to 40.
    transfer_per_h, supply_mg_per_h : Estimate
        As for `oxygen_mg_l`.
    floor_mg_l : float
        mg/L, 0 to 20; at or above saturation only the cylinder counts.
    pressure_mmhg : float
        Station pressure.

    Returns
    -------
    Estimate
        kg. Oxygen alone: carbon dioxide, ammonia and room may allow less.

    Raises
    ------
    OutOfRange
        Outside the ranges above (a ValueError).

    Examples
    --------
    >>> from weighin.livewell.respiration import sunfish_mg_per_kg_h
    >>> pump = transfer.pump_per_h(flow_l_per_h=1500, volume_l=75)
    >>> use = sunfish_mg_per_kg_h(400, 26).times(3)
    >>> most = most_kg(use_mg_per_kg_h=use, volume_l=75, temperature_c=26, transfer_per_h=pump)
    >>> [round(end, 1) for end in most.ends]
    [0.3, 1.9, 11.5]
    """
    volume = above("volume_l", volume_l, 0, 100_000, gettext_noop("The water"), "L")
    if use_mg_per_kg_h.low <= 0:
        raise OutOfRange("use_mg_per_kg_h", gettext_noop("The oxygen fish use is more than 0."))
    missing = saturation_mg_l(temperature_c, pressure_mmhg) - within(
        "floor_mg_l", floor_mg_l, 0, 20, gettext_noop("The floor of oxygen"), "mg/L"
    )
    brought = transfer.at(transfer_per_h, temperature_c).times(max(0.0, missing) * volume).plus(supply_mg_per_h)
    use = use_mg_per_kg_h
    return Estimate(brought.low / use.high, brought.stated / use.stated, brought.high / use.low)

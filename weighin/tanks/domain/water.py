"""When to change a tank's water: the handbook's clock, and what builds up in it meanwhile.

Fish breathe carbon dioxide and ammonia into a tank even where oxygen is full. The rise is worked out for the tank's
load at rest, and for freshly caught fish that use three times as much; it is a range, and a reading goes before it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from weighin.livewell import ammonia, carbon_dioxide
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.figures.units import kilograms, litres
from weighin.livewell.respiration import sunfish_mg_per_kg_h
from weighin.livewell.water_change import HANDBOOK_EVERY_H
from weighin.tanks.domain.measured import Measured
from weighin.tanks.models import Treatment

A_FISH_G = 300.0  # a crappie of about two thirds of a pound: smaller fish use more a pound
FRESHLY_CAUGHT = 3.0  # times rest, from memory of the exercise literature


@dataclass(frozen=True)
class BuildUp:
    """Hours until a limit is reached at rest and freshly caught, least and most; None where it is not known.

    ``carbon_dioxide`` with the lid shut and nothing vented, from what air-balanced water holds; ``ammonia`` from the
    reading's own total at its own pH.
    """

    carbon_dioxide_at_rest: tuple[float, float] | None
    carbon_dioxide_caught: tuple[float, float] | None
    ammonia_at_rest: tuple[float, float] | None
    ammonia_caught: tuple[float, float] | None


@dataclass(frozen=True)
class WaterDue:
    """When the handbook's next change is due: two to three hours after ``since``, the last change or first fish."""

    since: datetime
    was_changed: bool
    first: datetime
    last: datetime


def build_up(now: Measured) -> BuildUp | None:
    """What builds up in a tank with its last reading's load; None without load, volume or temperature."""
    if not now.load or not now.volume or now.celsius is None:
        return None
    try:
        use = sunfish_mg_per_kg_h(A_FISH_G, now.celsius)
    except OutOfRange:
        return None
    oxygen = use.times(kilograms(now.load) / litres(now.volume))  # mg/L and hour
    gas = [carbon_dioxide.given_off_mg(end) for end in (oxygen.low, oxygen.high)]
    room = carbon_dioxide.HAULING_LIMIT_MG_L - carbon_dioxide.IN_AIR_BALANCE_MG_L
    at_rest, caught = _hours(room, gas, 1.0), _hours(room, gas, FRESHLY_CAUGHT)
    poison = poison_caught = None
    if now.unionised is not None and now.unionised_share:
        left = max(0.0, ammonia.CAUTION_UNIONISED_MG_L - now.unionised)
        worth = now.unionised_share * ammonia.AMMONIA_PER_NITROGEN
        rise = [ammonia.given_off_mg_n(oxygen.low).low * worth, ammonia.given_off_mg_n(oxygen.high).high * worth]
        poison, poison_caught = _hours(left, rise, 1.0), _hours(left, rise, FRESHLY_CAUGHT)
    return BuildUp(at_rest, caught, poison, poison_caught)


def water_due(readings: Iterable[Measured], treatments: Iterable[Treatment]) -> WaterDue | None:
    """The handbook's next change of a tank, from its readings and treatments of one day; None before it holds fish."""
    changed = [t.ended or t.started for t in treatments if t.what == Treatment.What.WATER]
    with_fish = [reading.at for reading in readings if reading.load]
    if not with_fish:
        return None
    since = max([*changed, min(with_fish)])
    soonest, latest = (since + timedelta(hours=hours) for hours in HANDBOOK_EVERY_H)
    return WaterDue(since, since in changed, soonest, latest)


def _hours(room: float, rises: list[float], times: float) -> tuple[float, float]:
    least, most = rises
    return room / (most * times), room / (least * times)

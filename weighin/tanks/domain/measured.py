"""What a tank reading means: how full the water is of oxygen, how much ammonia is un-ionised, how full the tank is."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from weighin.events.domain import temperatures
from weighin.events.domain.care_context import CareContext
from weighin.events.domain.temperatures import Temperature
from weighin.livewell import ammonia, oxygen
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.figures.units import kilograms, litres
from weighin.livewell.loading import share_of_capacity
from weighin.tanks.models import TankReading


@dataclass(frozen=True)
class Measured:
    """A reading in figures; None is not measured, or outside what can be worked out.

    ``do`` in mg/L, ``full_do`` what the water holds in balance with air, ``saturation`` their ratio; ``total`` ammonia
    nitrogen in mg/L, ``unionised_share`` of it 0-1, ``unionised`` mg/L as NH3; ``salt`` in per cent; ``load`` in lb,
    ``volume`` in gal, ``filled`` the share of one pound a gallon.
    """

    reading: TankReading
    at: datetime
    water: Temperature | None
    do: float | None
    full_do: float | None
    saturation: float | None
    ph: float | None
    total: float | None
    unionised_share: float | None
    unionised: float | None
    salt: float | None
    load: float | None
    volume: float | None
    filled: float | None

    @property
    def fahrenheit(self) -> float | None:
        return float(self.water.fahrenheit) if self.water else None

    @property
    def celsius(self) -> float | None:
        return float(self.water.celsius) if self.water else None


def measured(reading: TankReading, care_context: CareContext, volume_gal: str = "") -> Measured:
    """A reading worked out. ``volume_gal`` is the tank's as known from other readings, for one that does not say it."""
    water = temperatures.water(reading.temp) if reading.temp else None
    celsius = float(water.celsius) if water else None
    do, ph, total = _figure(reading.do), _figure(reading.ph), _figure(reading.total_ammonia)
    salt, load = _figure(reading.salt_percent), _figure(reading.fish_lb)
    volume = _figure(reading.volume_gal) or _figure(volume_gal)
    full = None
    if celsius is not None:
        full = _try(lambda: oxygen.saturation_mg_l(celsius, care_context.pressure_mmhg, 10 * (salt or 0.0)))
    share = None
    if celsius is not None and ph is not None:
        share = _try(lambda: ammonia.unionised_fraction(celsius, ph))
    unionised = None
    if share is not None and total is not None:
        unionised = total * share * ammonia.AMMONIA_PER_NITROGEN
    filled = None
    if load is not None and volume:
        filled = _try(lambda: share_of_capacity(fish_kg=kilograms(load), volume_l=litres(volume)))
    return Measured(
        reading=reading,
        at=reading.time,
        water=water,
        do=do,
        full_do=full,
        saturation=None if do is None or not full else do / full,
        ph=ph,
        total=total,
        unionised_share=share,
        unionised=unionised,
        salt=salt,
        load=load,
        volume=volume,
        filled=filled,
    )


def _figure(text: str) -> float | None:
    return float(text) if text else None


def _try(work_out: Callable[[], float]) -> float | None:
    try:
        return work_out()
    except OutOfRange:
        return None

"""What is planned: one question in SI, and where fish may not be held at all. Pure."""

from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.livewell.day import Boarding
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.oxygen import saturation_mg_l
from weighin.livewell.pressure import at_elevation_mmhg
from weighin.livewell.respiration import SUNFISH
from weighin.livewell.temperature import cooling, warming
from weighin.livewell.water_change import Change, every

WALLEYE = "walleye"
LOTS = 4  # fish that come aboard through the day come in so many lots


@dataclass(frozen=True)
class Question:
    """What is planned, in SI. `work_out` checks the ranges.

    Attributes
    ----------
    volume_l, lake_c, elevation_m, hours : float
        Water in L, the lake in °C, its elevation in m, hours from filling to weigh-in.
    fish, mass_g : int, float
        How many fish and the mass of one in g.
    air_c : float
        The warmest air of the day in °C; taken to be that warm all day, the cautious side.
    start_minute : int
        When the well is filled, minutes after midnight.
    species : str
        'sunfish' (crappie, bass, bluegill: the range over the family) or one with a curve of its own.
    all_day : bool
        All fish aboard from the start, the cautious side; else in lots through the day.
    ice : bool
    ice_aboard_kg : float, optional
        Ice carried along.
    on_timer, vented : bool
        The pump on a timer instead of without a break; the lid open to the air instead of shut.
    flow_l_per_h : float
        What the pump really moves.
    change_every_h : float, optional
        Half the water is changed every so many hours; None is never.
    warming_per_h, transfer_per_h : Estimate
        As measured; `transfer_per_h` None is not measured.
    start_mg_l : float, optional
        A reading of the lake water's oxygen; saturation at the lake's temperature when left out.
    oxygen_l_per_min : float
        From a cylinder.
    step_c : float
        The most the well may be below the lake, °C.
    """

    volume_l: float
    lake_c: float
    elevation_m: float
    fish: int
    mass_g: float
    hours: float
    air_c: float
    start_minute: int = 360
    species: str = SUNFISH
    all_day: bool = True
    ice: bool = True
    ice_aboard_kg: float | None = None
    on_timer: bool = False
    vented: bool = False
    flow_l_per_h: float = 1500.0
    change_every_h: float | None = None
    warming_per_h: Estimate = warming.UNMEASURED_PER_H
    transfer_per_h: Estimate | None = None
    start_mg_l: float | None = None
    oxygen_l_per_min: float = 0.0
    step_c: float = cooling.STRICTEST_STEP_C

    @property
    def kg(self) -> float:
        return self.fish * self.mass_g / 1000

    @property
    def pressure_mmhg(self) -> float:
        return at_elevation_mmhg(self.elevation_m)

    @property
    def boardings(self) -> tuple[Boarding, ...]:
        if self.all_day:
            return (Boarding(0, self.fish, self.mass_g),)
        lots = min(LOTS, self.fish)
        sizes = [self.fish * (i + 1) // lots - self.fish * i // lots for i in range(lots)]
        return tuple(Boarding(self.hours * i / lots, size, self.mass_g) for i, size in enumerate(sizes))

    @property
    def changes(self) -> tuple[Change, ...]:
        return every(every_h=self.change_every_h, hours=self.hours) if self.change_every_h else ()

    @property
    def care_c(self) -> float:
        """The lake's temperature from which the well is cooled, °C."""
        return cooling.WALLEYE_CARE_C if self.species == WALLEYE else cooling.CARE_BEGINS_C

    @property
    def hottest_c(self) -> float:
        """The warmest well that any source would hold these fish in, °C."""
        return cooling.WALLEYE_CARE_C if self.species == WALLEYE else cooling.HOTTEST_TARGET_C

    @property
    def coolest_c(self) -> float:
        """The coldest that the well may be, one allowed step below the lake, °C."""
        return cooling.coolest_c(self.lake_c, self.step_c)

    @property
    def may_hold(self) -> bool:
        """Whether the allowed step below the lake brings the well to a temperature at which fish may be held."""
        return self.lake_c <= self.care_c or self.coolest_c <= self.hottest_c + cooling.ROUNDING

    @property
    def hold_c(self) -> float:
        """The temperature to hold, °C.

        Schramm's target (walleye: 18 °C), but no further below the lake than the allowed step. In a lake up to 75 °F
        (walleye: 18 °C) no ice is called for until the well itself is past that or a step above the lake, whichever
        comes first: our reading, no source.
        """
        if self.lake_c <= self.care_c:
            return min(self.care_c, self.lake_c + cooling.STRICTEST_STEP_C)
        target = self.hottest_c if self.species == WALLEYE else cooling.target_c(self.lake_c)
        return max(target, self.coolest_c)

    @property
    def lake_mg_l(self) -> float:
        """The lake water's oxygen, mg/L: as read, else what water of the lake's own temperature holds."""
        return saturation_mg_l(self.lake_c, self.pressure_mmhg) if self.start_mg_l is None else self.start_mg_l


class DoNotHold(OutOfRange):
    """The lake is too warm: no step that is allowed brings a well to where fish may be held."""

    def __init__(self, question: Question) -> None:
        super().__init__("lake_c", gettext("Do not hold fish today: fish by measured length or earlier in the year."))
        self.question = question

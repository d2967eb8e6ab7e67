"""The care plan of an event: bags, tanks, helpers, ice, oxygen, salt and the line, from boats and water. Pure.

What agencies ask for is counted as they word it; the rest is the livewell's and the line's own arithmetic.
"""

from dataclasses import dataclass
from functools import cached_property
from math import ceil

from weighin.line.domain.flights import Flights, line_of, short_line, sizes
from weighin.line.domain.planning import Question as LineQuestion
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.units import litres
from weighin.livewell.ice import kg_for_drop
from weighin.livewell.loading import HANDBOOK_KG_PER_L
from weighin.livewell.respiration import estimate_mg_per_kg_h
from weighin.livewell.salt import kg_for_percent
from weighin.livewell.supply import l_per_min_for
from weighin.livewell.temperature.cooling import CARE_BEGINS_C, HOTTEST_C, ROUNDING, coolest_c
from weighin.planning.domain.plan import FRESHLY_CAUGHT, bags_for

OKLAHOMA_A_TANK, KANSAS_A_TANK = 20, 25  # contestants a tank: Oklahoma's guidance, K.A.R. 115-7-8
OKLAHOMA_TANK_L = litres(100)
CONTESTANTS_A_BAG = (5, 20)  # Oklahoma's guidance: at most five bags for twenty contestants
ANGLERS_A_HELPER = 10  # Kansas, above 75 °F
SALT_PERCENT = 0.5  # Kansas, release tanks above 75 °F
DIP_PERCENT = 3.0  # Kansas, instead: 10 to 15 s
OKLAHOMA_FLIGHTS_FROM = 50  # contestants above which Oklahoma's guidance has them weighed in flights


@dataclass(frozen=True)
class CareQuestion:
    """What is asked, in SI.

    ``anglers`` are the contestants of all boats, ``fish`` the limit of a boat, ``mass_g`` the mean mass of one,
    ``tank_l`` the water of one tank, ``step_c`` the most a tank may be below the lake, ``species`` a curve of
    `livewell.respiration`. ``flights`` come in one after another, due ``apart_min`` minutes apart.
    """

    anglers: int
    fish: int
    mass_g: float
    lake_c: float
    tank_l: float
    step_c: float
    species: str
    line: LineQuestion
    scales: int
    flights: int
    apart_min: int

    @property
    def boats(self) -> int:
        return self.line.boats


@dataclass(frozen=True)
class CarePlan:
    """The answer to a `CareQuestion`. Raises OutOfRange where the models' ranges end (a ValueError)."""

    asked: CareQuestion

    @property
    def fish(self) -> int:
        """The fish of every boat's limit."""
        return self.asked.boats * self.asked.fish

    @property
    def kg(self) -> float:
        return self.fish * self.asked.mass_g / 1000

    @property
    def warm(self) -> bool:
        """Whether the lake is at the temperature from which care steps are asked for."""
        return self.asked.lake_c >= CARE_BEGINS_C - ROUNDING

    @cached_property
    def line(self) -> Flights:
        """The line as the flights are asked."""
        asked = self.asked
        return line_of(asked.line, asked.scales, asked.flights, asked.apart_min)

    @cached_property
    def short(self) -> Flights | None:
        """The flights that keep the longest wait within the limit; None where not even twelve do."""
        return short_line(self.asked.line, self.asked.scales, self.asked.flights)

    @property
    def bags_a_boat(self) -> int | None:
        """Bags of at most 15 lb for a boat's limit; None when one fish is heavier."""
        return bags_for(self.asked.fish, self.asked.mass_g)

    @property
    def bags(self) -> int | None:
        """Bags that are in use at once when they are called."""
        return None if self.bags_a_boat is None else self.line.bags * self.bags_a_boat

    @property
    def bags_most(self) -> int:
        """Oklahoma's most bags out at once."""
        bags, contestants = CONTESTANTS_A_BAG
        return max(1, bags * self.asked.anglers // contestants)

    @property
    def tanks_oklahoma(self) -> int:
        """Oklahoma's gallons, in tanks of the size asked."""
        gallons = ceil(self.asked.anglers / OKLAHOMA_A_TANK)
        return ceil(gallons * max(1.0, OKLAHOMA_TANK_L / self.asked.tank_l) - ROUNDING)

    @property
    def tanks_kansas(self) -> int:
        return ceil(self.asked.anglers / KANSAS_A_TANK)

    @property
    def tank_kg(self) -> float:
        """The fish that fill a tank by the handbook's pound a gallon."""
        return self.asked.tank_l * HANDBOOK_KG_PER_L

    @property
    def flight_kg(self) -> float:
        """The fish of the largest flight."""
        return sizes(self.asked.boats, self.asked.flights)[0] * self.asked.fish * self.asked.mass_g / 1000

    @property
    def tanks_by_load(self) -> int:
        """Tanks that hold all fish of the largest flight at once."""
        return ceil(self.flight_kg / self.tank_kg - ROUNDING)

    @property
    def tanks(self) -> int:
        """The largest of the three counts."""
        return max(self.tanks_oklahoma, self.tanks_kansas, self.tanks_by_load)

    @property
    def helpers(self) -> int:
        return ceil(self.asked.anglers / ANGLERS_A_HELPER)

    @property
    def tank_c(self) -> float:
        """The temperature of a tank: the allowed step below a warm lake, never above 85 °F; else the lake's own."""
        asked = self.asked
        return min(coolest_c(asked.lake_c, asked.step_c), HOTTEST_C) if self.warm else asked.lake_c

    @property
    def ice_kg(self) -> float:
        """Ice that takes one tank of lake water down, nothing for the hours after; 0 where the lake is cool."""
        return kg_for_drop(self.asked.tank_l, self.asked.lake_c, self.tank_c) if self.warm else 0.0

    @property
    def oxygen_mg_per_h(self) -> Estimate:
        """What the freshly caught fish of a full tank use."""
        use = estimate_mg_per_kg_h(self.asked.species, self.asked.mass_g, self.tank_c)
        return use.times(FRESHLY_CAUGHT * self.tank_kg)

    @property
    def oxygen_l_per_min(self) -> Estimate:
        """Pure oxygen for one full tank if nothing else gave any."""
        return l_per_min_for(mg_per_h=self.oxygen_mg_per_h)

    @property
    def salt_kg(self) -> float:
        """Non-iodized salt for one tank at 0.5 %."""
        return kg_for_percent(self.asked.tank_l, SALT_PERCENT)

    def dip_kg(self, volume_l: float) -> float:
        """Salt for so much of a 3 % dip."""
        return kg_for_percent(volume_l, DIP_PERCENT)

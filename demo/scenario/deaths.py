"""How many fish of a livewell are dead at the table.

The curve is invented for this scenario and comes from no study: it only makes warm lakes, missing ice, crowded
livewells and long waits in the bag cost fish, and lets the fish of one livewell live or die together.
"""

from dataclasses import dataclass
from math import exp
from random import Random

BASE, PER_DEGREE, MILD_F = -4.3, 0.066, 60
NO_ICE, WARM_F = 0.5, 75
PER_BAG_MINUTE, BAG_MINUTES = 0.035, 10
PER_EXTRA_FISH, LIMIT = 0.06, 7
PUMP_STOPPED = 2.2


@dataclass(frozen=True)
class Livewell:
    """What the fish went through: temperatures in °F, ice in lb, time in the bag in minutes."""

    lake_f: float
    ice_lb: int
    most_on_board: int
    bag_minutes: float
    pump_ok: bool


def risk(well: Livewell) -> float:
    """The mean chance, 0 to 1, that a fish of such a livewell is dead at the table."""
    score = BASE + PER_DEGREE * max(0.0, well.lake_f - MILD_F)
    score += NO_ICE * (well.lake_f >= WARM_F and well.ice_lb == 0)
    score += PER_BAG_MINUTE * max(0.0, well.bag_minutes - BAG_MINUTES)
    score += PER_EXTRA_FISH * max(0, well.most_on_board - LIMIT)
    score += PUMP_STOPPED * (not well.pump_ok)
    return 1 / (1 + exp(-score))


def deaths(rng: Random, well: Livewell, fish: int) -> list[bool]:
    """Which fish are dead: one chance drawn for the livewell, more uneven between livewells in warm water."""
    together = 0.06 + 0.011 * max(0.0, well.lake_f - MILD_F)
    spread = 1 / together - 1
    mean = risk(well)
    chance = rng.betavariate(mean * spread, (1 - mean) * spread)
    return [rng.random() < chance for _ in range(fish)]

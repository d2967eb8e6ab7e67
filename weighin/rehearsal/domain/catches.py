"""What the boats of a rehearsal bring to the scales, by the event's own rules. Pure; the same seed, the same fish."""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from random import Random
from typing import Any

from weighin.rules import weights
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import on_scale
from weighin.rules.slips import Slip

FULL_SHARE = 0.7  # of boats with their limit, ours
DEAD_SHARE = 0.05  # of fish, ours
SPREAD = 0.25  # of a fish's weight around the mean, ours
STEP = {"lb": Decimal("0.01"), "lb-oz": Decimal("0.03125"), "kg": Decimal("0.005")}  # what scales show


def catches(rules: Rulebook, mean: Decimal, boats: Sequence[int], seed: int) -> dict[int, dict[str, Any]]:
    """What a station sends of each boat's fish, under the names of the message; ``mean`` is the weight of one fish in the event's unit. At least one boat has a dead fish."""
    random = Random(f"{seed} fish")
    certain = random.choice(boats)
    return {boat: _catch(rules, mean, random, boat == certain) for boat in boats}


def _catch(rules: Rulebook, mean: Decimal, random: Random, one_dead: bool) -> dict[str, Any]:
    limit = max(1, rules.fish_limit)
    fish = limit if random.random() < FULL_SHARE else random.randint(1, limit)
    dead = sorted(place for place in range(fish) if random.random() < DEAD_SHARE) or ([0] if one_dead else [])
    step = STEP[rules.unit]
    each = [_weighed(mean, step, random) for _ in range(fish)]
    said: dict[str, Any] = {"fish": fish, "alive": fish - len(dead), "dead": len(dead)}
    laid = range(fish) if rules.dead_are_weighed else [place for place in range(fish) if place not in dead]
    if on_scale(rules, Slip(fish, fish - len(dead), len(dead))):
        said["gross"] = weights.show(sum((each[place] for place in laid), rules.bag_tare), rules.unit)
        largest = max(laid, key=lambda place: each[place])
        said["big_fish"] = weights.show(each[largest], rules.unit)
        if dead:
            said["big_fish_alive"] = largest not in dead
    return said


def _weighed(mean: Decimal, step: Decimal, random: Random) -> Decimal:
    drawn = mean * Decimal(repr(max(0.3, random.gauss(1, SPREAD))))
    return max(step, (drawn / step).quantize(Decimal(1), ROUND_HALF_UP) * step)

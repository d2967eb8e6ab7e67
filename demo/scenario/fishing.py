"""Fish a day: every boat's fish, its wait at the line and what its livewell did to them."""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from .catch import Catch, Row
from .clubs import Team
from .deaths import Livewell, deaths
from .scales import Scale
from .water import full_of_air

MINUTE = 60


@dataclass(frozen=True)
class Conditions:
    """A day's water and how the club runs it: temperatures in °F, weights in lb, times in minutes."""

    lake_f: int
    start: int
    due: int
    mean_fish: float
    bag: tuple[float, float]
    service: float = 1.6
    limit: int = 7
    iced: float = 0.0
    crowded: float = 0.2
    pump_fails: float = 0.02
    short_catch: float = 0.25
    deepest: int = 0
    spread: float = 0.19
    heaviest: float = 1.95
    lightest: float = 0.45
    tare: float = 0.3
    black_share: float = 0.4
    crappie: bool = True


Boat = tuple[int, Team]


def fish_day(
    rng: Random, day: int, boats: Sequence[Boat], at: Conditions, scale: Scale, late_flights: dict[int, int] | None = None
) -> dict[str, Catch]:  # fmt: skip
    """Every boat's catch by its team's name; ``late_flights`` shifts a boat's day by minutes."""
    arrivals = []
    for boat, team in boats:
        shift = (late_flights or {}).get(boat, 0)
        due = at.due + shift
        arrivals.append((round(rng.triangular(due - 65, due - 1, due - 18) * MINUTE), boat, team, at.start + shift))
    free = 0.0
    caught = {}
    for arrived, boat, team, start in sorted(arrivals, key=lambda arrival: arrival[:2]):
        bag = rng.uniform(*at.bag) * MINUTE
        weighed = max(free + at.service * MINUTE * rng.uniform(0.8, 1.3), arrived + bag + rng.uniform(1, 4) * MINUTE)
        free = weighed
        emptied = weighed + rng.uniform(1, 2.5) * MINUTE
        times = {
            "launched": round((start + boat * 0.5) * MINUTE),
            "checked_in": arrived,
            "bag_issued": round(weighed - bag),
            "weighed": round(weighed),
            "bag_emptied": round(emptied),
            "released": round(emptied + rng.uniform(3, 14) * MINUTE),
        }
        times["first_fish"] = times["launched"] + round(rng.triangular(8, 150, 35) * MINUTE)
        caught[team.name] = _catch(rng, day, boat, team, at, scale, times)
    return caught


def _catch(
    rng: Random, day: int, boat: int, team: Team, at: Conditions, scale: Scale, times: dict[str, int]
) -> Catch:  # fmt: skip
    number = at.limit
    if rng.random() < at.short_catch:
        number = rng.randint(max(2, at.limit - 4), at.limit - 1)
    mean = at.mean_fish + team.skill * 0.7 + rng.gauss(0, 0.11)
    pounds = (min(at.heaviest, max(at.lightest, rng.gauss(mean, at.spread))) for _ in range(number))
    weights = sorted((scale.steps(weight) for weight in pounds), reverse=True)
    care = _care(rng, at)
    bag_minutes = (times["bag_emptied"] - times["bag_issued"]) / MINUTE
    well = Livewell(at.lake_f, care["ice_lb"], care["most_on_board"], bag_minutes, care["pump_ok"] == "yes")
    dead = deaths(rng, well, number)
    catch = Catch(day, boat, team.name, list(zip(weights, dead, strict=True)), times, care, scale.steps(at.tare))
    if at.crappie:
        catch.black = sum(rng.random() < at.black_share for _ in range(number))
    return catch


def _care(rng: Random, at: Conditions) -> Row:
    """What the fish-care official notes at the boat."""
    ice = rng.choice([20, 20, 30, 40]) if rng.random() < at.iced else 0
    cooled = {0: 0, 20: 4, 30: 6, 40: 8}[ice]
    pump = rng.random() >= at.pump_fails
    checked = rng.random() < 0.4
    aeration = "none" if not pump else rng.choice(["recirculated", "recirculated", "pumped", "oxygen"])
    most = full_of_air(at.lake_f - cooled) * (1.2 if aeration == "oxygen" else 0.97)
    care: Row = {
        "pump_ok": "yes" if pump else "no",
        "aeration": aeration,
        "livewell_gal": rng.choice([18, 20, 24, 30, 36]),
        "ice_lb": ice,
        "thermometer_ok": "yes" if rng.random() < 0.85 else "no",
        "livewell_temp": f"{at.lake_f - cooled + rng.choice([-1, 0, 0, 1])} F",
        "livewell_do": round(rng.uniform(3.1, 4.6) if not pump else rng.triangular(4.6, most, most * 0.8), 1),
        "most_on_board": at.limit + (rng.randint(1, 8) if rng.random() < at.crowded else 0),
        "deep_hooked": int(rng.random() < 0.1),
        "barotrauma": rng.randint(0, 2) if at.deepest > 22 and rng.random() < 0.3 else 0,
    }
    if checked:
        stress = 0.5 if not pump else max(0.03, (at.lake_f - 60) / 90)
        care["reflexes_checked"] = 15
        care["reflexes_absent"] = sum(rng.random() < stress for _ in range(15))
    return care

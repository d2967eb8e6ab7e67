"""Draw boat numbers and open an event's book."""

from collections.abc import Set
from random import Random

from .book import Book
from .catch import Row, clock
from .clubs import CRAPPIE_CLUB, CRAPPIE_TEAMS, Team
from .fishing import MINUTE, Boat
from .scales import Scale
from .water import full_of_air

ZONE = "America/Chicago"
SEASON_RULES: Row = {
    "points_first": "100", "points_step": "1", "points_floor": "20", "points_no_fish": "40", "points_not_weighed": "30",
    "points_big_fish": "2", "count_best": "4",
}  # fmt: skip


def minutes(clock: str) -> int:
    """``HH:MM`` as minutes since midnight."""
    hours, rest = clock.split(":")
    return int(hours) * 60 + int(rest)


def open_book(file: str, scale: Scale, event: Row, rules: Row, days: list[Row], teams: list[Row]) -> Book:
    """The book of a crappie event with the season's own rules and the number of its days."""
    start: Row = {"club": CRAPPIE_CLUB, "season": "2026"}
    rest: Row = {"days": len(days), "weight_unit": scale.unit, "time_zone": ZONE}
    return Book(file, scale, start | event | rest, {**rules, **SEASON_RULES}, days, teams)


def draw(
    rng: Random, away: Set[str] = frozenset(), teams: tuple[Team, ...] = CRAPPIE_TEAMS, unpaid: Set[str] = frozenset()
) -> tuple[list[Boat], list[Row]]:  # fmt: skip
    """Boat numbers for the teams that come, and the rows of the Teams sheet by boat."""
    coming = [team for team in teams if team.name not in away]
    # Sorting by drawn numbers, not shuffle(): the order must not depend on the interpreter.
    coming.sort(key=lambda team: (rng.random(), team.name))
    boats = list(enumerate(coming, start=1))
    rows = []
    for boat, team in boats:
        anglers = {f"angler_{n}": name for n, name in enumerate(team.anglers, start=1)}
        paid = team.name not in unpaid
        row: Row = {"boat": boat, "team": team.name, **anglers, "youth": "yes" if team.youth else "no"}
        row |= {"paid": "yes" if paid else "no", "big_fish_pot": "yes" if paid and rng.random() < 0.7 else "no"}
        rows.append(row | {"status": "entered"})
    return boats, rows


def tank_readings(
    rng: Random, day: int, due: str, lake_f: int, cooled: int, salt: float, fish_lb: int, low: bool = False
) -> list[Row]:  # fmt: skip
    """Two recovery tanks, read every half hour from an hour before the due time to an hour after it."""
    rows: list[Row] = []
    most = full_of_air(lake_f - cooled) - 0.1
    for tank in ("North tank", "South tank"):
        ammonia = 0.1
        for number, after in enumerate((-60, -30, 0, 30, 60)):
            ammonia += rng.uniform(0.05, 0.25)
            dip = 2.2 if low and tank == "North tank" and number in (2, 3) else 0
            row: Row = {"day": day, "tank": tank, "volume_gal": 300, "time": clock((minutes(due) + after) * MINUTE)}
            row |= {"temp": f"{lake_f - cooled + number * (0.5 if cooled else 0):g} F"}
            row |= {
                "do": round(rng.uniform(6.2, min(8.4, most)) - dip - number * 0.2, 1),
                "ph": round(7.8 - number * 0.1, 1),
            }
            row |= {
                "total_ammonia": round(ammonia, 2),
                "salt_percent": salt,
                "fish_lb": round(fish_lb * (0, 0.4, 0.9, 1.0, 0.5)[number]),
            }
            if dip:
                row["note"] = "Bubbles weak; second stone put in and the line held"
            rows.append(row)
    return rows

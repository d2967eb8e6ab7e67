"""Large events as workbooks, to measure with: believable figures, the same every time."""

from pathlib import Path
from random import Random

from openpyxl import Workbook

EVENT = {
    "club": "Measured Mile Anglers", "season": "2026", "water": "Long Reach", "date": "2026-06-20", "weight_unit": "lb",
    "lake_temp": "79 F", "entry_fee": "60", "start_time": "06:00", "due_time": "15:00",
}  # fmt: skip
SLIPS = (
    "slip", "day", "boat", "fish", "alive", "dead", "gross", "tare", "big_fish", "big_fish_alive", "checked_in",
    "bag_issued", "weighed", "bag_emptied", "released", "dead_at_release", "official",
)  # fmt: skip
CARE = (
    "day",
    "boat",
    "pump_ok",
    "ice_lb",
    "thermometer_ok",
    "launched",
    "first_fish",
    "livewell_temp",
    "most_on_board",
)


def write_large_event(path: Path, name: str, boats: int, days: int, care: bool = True) -> int:
    """Write an event of ``boats`` teams and ``days`` days; returns how many rows the workbook has."""
    rng = Random(boats * 31 + days)
    book = Workbook(write_only=True)
    event = book.create_sheet("Event")
    event.append(["key", "value"])
    for key, value in {**EVENT, "event": name, "days": days}.items():
        event.append([key, value])
    teams = book.create_sheet("Teams")
    teams.append(["boat", "team", "angler_1", "angler_2", "paid", "big_fish_pot"])
    slips = book.create_sheet("Slips")
    slips.append(SLIPS)
    notes = book.create_sheet("Fish care")
    notes.append(CARE)
    for boat in range(1, boats + 1):
        teams.append([boat, f"Pair {boat}", f"First {boat}", f"Second {boat}", "yes", "yes" if boat % 3 else "no"])
    number = 0
    for day in range(1, days + 1):
        for boat in range(1, boats + 1):
            number += 1
            slips.append(_slip(rng, number, day, boat))
            if care:
                notes.append(
                    [day, boat, "yes", rng.choice([0, 10, 20]), "yes", "06:10", "06:55", "74 F", rng.randint(5, 9)]
                )
    book.save(path)
    return boats * (1 + days * (2 if care else 1)) + len(EVENT) + 5


def _slip(rng: Random, number: int, day: int, boat: int) -> list[object]:
    fish = rng.choice([0, 5, 6, 7, 7, 7, 7])
    dead = min(fish, rng.choice([0, 0, 0, 0, 1, 2]))
    net = sum(rng.randint(90, 170) for _ in range(fish))
    big = min(net, rng.randint(120, 190)) if fish else None
    minute = rng.randint(0, 59)
    return [
        number, day, boat, fish, fish - dead, dead, f"{(net + 40) / 100:.2f}" if fish else None, 0.4 if fish else None,
        big / 100 if big else None, "yes" if big and dead < fish else ("no" if big else None), f"14:{minute:02d}:30",
        f"15:{minute:02d}", f"15:{minute:02d}:40" if minute else "15:00:40", f"16:{minute:02d}", f"16:{minute:02d}:30", 0, "R. Ostler",
    ]  # fmt: skip

"""Random valid weigh slips of a team and a day, with their corrections and voids."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from fractions import Fraction
from random import Random
from typing import Any

from .amounts import weight
from .clock import Day
from .one_slip import Counts, count
from .spelling import moment_text, weight_text, weights_text, yes_text

F = Fraction
# (smallest step, fewest steps, most steps) of a fish's weight
COARSE = {"lb": (F("0.25"), 1, 6), "lb-oz": (F("0.25"), 1, 6), "kg": (F("0.1"), 1, 8)}
FINE = {"lb": (F("0.01"), 30, 190), "lb-oz": (F(1, 32), 10, 60), "kg": (F("0.005"), 25, 170)}


@dataclass
class Trip:
    """What a boat's day would have been, in UTC, whether or not anyone wrote it down."""

    launched: datetime
    first_fish: datetime
    checked_in: datetime
    bag_issued: datetime
    weighed: datetime
    bag_emptied: datetime
    released: datetime


@dataclass
class SlipMaker:
    """Makes slips under one rule sheet; remembers each boat's trips for the care notes."""

    rng: Random
    unit: str
    rules: Mapping[str, Any]
    lean: bool = False
    close: bool = False
    trips: dict[tuple[int, str], Trip] = field(default_factory=dict)
    number: int = 0
    tables: list[tuple[Counts, dict[str, str]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.grain = (COARSE if self.close else self.rng.choice([COARSE, FINE]))[self.unit]
        self.recorded = self.rng.choice([0.2, 0.9])
        self.alike = 0.9 if self.close else self.rng.choice([0.0, 0.4, 0.9])
        self.over = self.rng.choice([0.05, 0.25])
        self.late = 0.05 if self.close else self.rng.choice([0.05, 0.4, 0.4])
        self.number = self.rng.choice([0, 0, 0, 4000])  # a paper pad's numbers start anywhere

    def of_team(
        self, team: Mapping[str, str], day: Day, due: datetime, others: Sequence[str], no_fish: float = 0.1
    ) -> list[dict[str, str]]:
        """The slip rows of a boat's day, a correction after what it corrects."""
        boat = team["boat"]
        trip = self.trips[day.number, boat] = self._trip(day, due)

        def slip() -> dict[str, str]:
            return self._slip(boat, day, trip, others, no_fish)

        rows = [slip()]
        if self.lean:
            return rows
        while self.rng.random() < 0.15:
            rows.append(slip() | {"replaces": rows[-1]["slip"], "reason": "misread"})
        if self.rng.random() < 0.06:
            void = {"day": str(day.number), "boat": boat, "fish": "0", "alive": "0", "dead": "0"}
            void |= {
                "void": yes_text(self.rng, True),
                "replaces": rows[-1]["slip"],
                "reason": "other boat's slip",
            }
            rows.append(void | {"slip": self._next_number()})
            if self.rng.random() < 0.5:
                rows.append(slip())
        return rows

    def _next_number(self) -> str:
        self.number += 1
        return str(self.number)

    def _trip(self, day: Day, due: datetime) -> Trip:
        rng = self.rng

        def after(moment: datetime, least: int, most: int) -> datetime:
            """Between `least` and `most` minutes later, half of the time with seconds."""
            return moment + timedelta(minutes=rng.randint(least, most), seconds=rng.choice([0, 0, 1, 30, 59, 3, 57]))

        if rng.random() < self.late:
            checked_in = after(due, 0, 19)
        else:
            checked_in = due - timedelta(minutes=rng.randint(0, 60), seconds=rng.choice([0, 0, 20]))
        bag_issued = after(checked_in, 0, 20)
        weighed = after(bag_issued, 1, 14)
        bag_emptied = after(weighed, 0, 2)
        launched = after(day.starts, -20, 30)
        first_fish = min(after(launched, 5, 150), checked_in)
        return Trip(launched, first_fish, checked_in, bag_issued, weighed, bag_emptied, after(bag_emptied, 0, 40))

    def _slip(self, boat: str, day: Day, trip: Trip, others: Sequence[str], no_fish: float) -> dict[str, str]:
        rng = self.rng
        if not self.tables or rng.random() >= self.alike:
            self.tables.append(self._table(no_fish))
            counts, catch = self.tables[-1]
        else:  # one of the first few again: the same bags on other days or of other boats make ties
            counts, catch = rng.choice(self.tables[:3])
        row = {"day": str(day.number), "boat": boat} | catch
        if self.lean:
            return {name: text for name, text in row.items() if text}
        row |= self._times(day, trip) | self._release(counts) | self._rulings()
        if others and rng.random() < 0.05:
            row["well_boat"] = rng.choice(others)
        if self.close and counts.on_scale and rng.random() < 0.3:
            row |= self._made_good(catch["gross"])
        row["official"] = rng.choice(["", "R. Quill"])
        row["slip"] = self._next_number()
        return {name: text for name, text in row.items() if text}

    def _made_good(self, gross: str) -> dict[str, str]:
        """As much more on the scale as an extra penalty takes: the same total with other deductions."""
        step = self.grain[0]
        heavier = weight_text(self.rng, weight(gross, self.unit) + step, self.unit)
        penalty = weight_text(self.rng, step, self.unit)
        return {"gross": heavier, "extra_penalty": penalty, "extra_penalty_reason": "wake in the ramp"}

    def _table(self, no_fish: float) -> tuple[Counts, dict[str, str]]:
        """What lay on the table: its counts and what the scale showed."""
        rng, rules = self.rng, self.rules
        limit = rules["fish_limit"]
        fish = 0 if rng.random() < no_fish else rng.randint(1, limit)
        if fish and rng.random() < self.over:
            fish = limit + rng.randint(1, 3)
        dead = sum(rng.random() < 0.2 for _ in range(fish))
        if rng.random() < 0.05:
            dead = fish
        short = sum(rng.random() < 0.06 for _ in range(fish))
        if rng.random() < 0.03:
            short = fish
        counts = count(fish, fish - dead, dead, short, rules)
        row = {"fish": str(fish), "alive": str(fish - dead), "dead": str(dead)}
        if short or rng.random() < 0.3:
            row["short"] = str(short)
        return counts, row | self._scale(counts)

    def _scale(self, counts: Counts) -> dict[str, str]:
        """gross, tare, largest_weights and big fish of fish laid on the scale one by one."""
        rng, unit = self.rng, self.unit
        step, fewest, most = self.grain
        fish = sorted((step * rng.randint(fewest, most) for _ in range(counts.on_scale)), reverse=True)
        tare, row = self.rules["bag_tare"], {}
        if rng.random() < 0.3 and not self.lean:
            tare = step * rng.choice([0, 1, 2])
            row["tare"] = weight_text(rng, tare, unit)
        if fish:
            row["gross"] = weight_text(rng, sum(fish) + tare, unit)
        elif rng.random() < 0.3:
            row["gross"] = weight_text(rng, tare, unit)
        listed = counts.removed if counts.removed < len(fish) else rng.randint(0, len(fish))
        if rng.random() < 0.2:
            listed = min(len(fish), listed + 1)
        if listed:
            row["largest_weights"] = weights_text(rng, fish[:listed], unit)
        if counts.removed < len(fish) and rng.random() < 0.6:
            row |= self._big_fish(counts, rng.choice(fish[counts.removed :][:2]))
        return row

    def _big_fish(self, counts: Counts, value: Fraction) -> dict[str, str]:
        rng = self.rng
        alive = counts.alive > 0 and (counts.dead == 0 or rng.random() < 0.7)
        row = {"big_fish": weight_text(rng, value, self.unit)}
        if counts.dead or rng.random() < 0.3:
            row["big_fish_alive"] = yes_text(rng, alive)
        return row

    def _times(self, day: Day, trip: Trip) -> dict[str, str]:
        rng = self.rng
        row = {
            name: moment_text(rng, getattr(trip, name), day)
            for name in ("checked_in", "bag_issued", "weighed", "bag_emptied", "released")
            if rng.random() < self.recorded
        }
        if rng.random() < 0.1:
            row.pop("checked_in", None)
            row["minutes_late"] = str(rng.choice([0, 1, 2, 5, 6, 10, 11, 15, 16, 25]))
        if rng.random() < 0.15 and "minutes_late" not in row:  # which takes no excuse
            row["excused_minutes"] = str(rng.choice([0, 2, 5, 30]))
        return row

    def _release(self, counts: Counts) -> dict[str, str]:
        rng = self.rng
        later = rng.randint(0, counts.alive) if rng.random() < 0.2 else 0
        kept = rng.randint(0, counts.alive - later) if rng.random() < 0.1 else 0
        black = rng.randint(0, counts.fish)
        row = {"dead_at_release": str(later) if later or rng.random() < 0.3 else ""}
        row["kept"] = str(kept) if kept or rng.random() < 0.1 else ""
        if rng.random() < 0.3:
            row |= {"black_crappie": str(black), "white_crappie": str(counts.fish - black)}
        return row

    def _rulings(self) -> dict[str, str]:
        rng, row = self.rng, {}
        if rng.random() < 0.07:
            row["extra_penalty"] = weight_text(rng, self.grain[0] * rng.randint(0, 4), self.unit)
            row["extra_penalty_reason"] = "no life jacket"
        if rng.random() < 0.04:
            row["disqualified_reason"] = "fished outside the marked water"
        return row

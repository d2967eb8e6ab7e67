"""Random valid weigh slips of a team and a day, with their corrections and voids."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from fractions import Fraction
from typing import Any

from ..amounts import weight
from ..clock import Day
from ..one_slip import Counts, count
from .chance import Chance
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

    rng: Chance
    unit: str
    rules: Mapping[str, Any]
    lean: bool = False
    close: bool = False
    trips: dict[tuple[int, str], Trip] = field(default_factory=dict)
    number: int = 0
    tables: list[tuple[Counts, dict[str, str]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        pick = self.rng.pick
        self.grain = (COARSE if self.close else pick("grain", [COARSE, FINE]))[self.unit]
        self.recorded = pick("recorded", [0.2, 0.9])
        self.alike = 0.9 if self.close else pick("alike", [0.0, 0.4, 0.9])
        self.over = pick("over", [0.05, 0.25])
        self.late = 0.05 if self.close else pick("late", [0.05, 0.4, 0.4])
        self.number = pick("pad", [0, 0, 0, 4000])  # a paper pad's numbers start anywhere

    def of_team(
        self, team: Mapping[str, str], day: Day, due: datetime, others: Sequence[str], no_fish: float = 0.1
    ) -> list[dict[str, str]]:
        """The slip rows of a boat's day, a correction after what it corrects."""
        boat = team["boat"]
        rng = self.rng.of(day.number, boat)
        trip = self.trips[day.number, boat] = self._trip(rng.of("trip"), day, due)

        def slip(name: object) -> dict[str, str]:
            return self._slip(rng.of(name), boat, day, trip, others, no_fish)

        rows = [slip(1)]
        if self.lean:
            return rows
        while rng.of(len(rows)).happens("misread", 0.15):
            rows.append(slip(len(rows) + 1) | {"replaces": rows[-1]["slip"], "reason": "misread"})
        if rng.happens("void", 0.06):
            void = {"day": str(day.number), "boat": boat, "fish": "0", "alive": "0", "dead": "0"}
            void |= {
                "void": yes_text(rng.of("void", "spelt"), True),
                "replaces": rows[-1]["slip"],
                "reason": "other boat's slip",
            }
            rows.append(void | {"slip": self._next_number()})
            if rng.happens("another after the void", 0.5):
                rows.append(slip("after the void"))
        return rows

    def _next_number(self) -> str:
        self.number += 1
        return str(self.number)

    def _trip(self, rng: Chance, day: Day, due: datetime) -> Trip:
        def after(moment: datetime, least: int, most: int, name: str) -> datetime:
            """Between `least` and `most` minutes later, half of the time with seconds."""
            seconds = rng.pick(f"seconds of {name}", [0, 0, 1, 30, 59, 3, 57])
            return moment + timedelta(minutes=rng.of(name).randint(least, most), seconds=seconds)

        if rng.happens("late", self.late):
            checked_in = after(due, 0, 19, "late by")
        else:
            early = rng.of("early").randint(0, 60)
            checked_in = due - timedelta(minutes=early, seconds=rng.pick("seconds early", [0, 0, 20]))
        bag_issued = after(checked_in, 0, 20, "bag_issued")
        weighed = after(bag_issued, 1, 14, "weighed")
        bag_emptied = after(weighed, 0, 2, "bag_emptied")
        launched = after(day.starts, -20, 30, "launched")
        first_fish = min(after(launched, 5, 150, "first_fish"), checked_in)
        released = after(bag_emptied, 0, 40, "released")
        return Trip(launched, first_fish, checked_in, bag_issued, weighed, bag_emptied, released)

    def _slip(
        self, rng: Chance, boat: str, day: Day, trip: Trip, others: Sequence[str], no_fish: float
    ) -> dict[str, str]:
        if not self.tables or not rng.happens("alike", self.alike):
            self.tables.append(self._table(rng.of("table"), no_fish))
            counts, catch = self.tables[-1]
        else:  # one of the first few again: the same bags on other days or of other boats make ties
            counts, catch = rng.pick("like", self.tables[:3])
        row = {"day": str(day.number), "boat": boat} | catch
        if self.lean:
            return {name: text for name, text in row.items() if text}
        row |= self._times(rng.of("times"), day, trip) | self._release(rng.of("release"), counts)
        row |= self._rulings(rng.of("rulings"))
        if others and rng.happens("well_boat", 0.05):
            row["well_boat"] = rng.pick("whose well", others)
        if self.close and counts.on_scale and rng.happens("made good", 0.3):
            row |= self._made_good(rng.of("made good"), catch["gross"])
        row["official"] = rng.pick("official", ["", "R. Quill"])
        row["slip"] = self._next_number()
        return {name: text for name, text in row.items() if text}

    def _made_good(self, rng: Chance, gross: str) -> dict[str, str]:
        """As much more on the scale as an extra penalty takes: the same total with other deductions."""
        step = self.grain[0]
        heavier = weight_text(rng.of("gross"), weight(gross, self.unit) + step, self.unit)
        penalty = weight_text(rng.of("penalty"), step, self.unit)
        return {"gross": heavier, "extra_penalty": penalty, "extra_penalty_reason": "wake in the ramp"}

    def _table(self, rng: Chance, no_fish: float) -> tuple[Counts, dict[str, str]]:
        """What lay on the table: its counts and what the scale showed."""
        limit = self.rules["fish_limit"]
        fish = 0 if rng.happens("no fish", no_fish) else rng.of("fish").randint(1, limit)
        if fish and rng.happens("over", self.over):
            fish = limit + rng.of("over by").randint(1, 3)
        dead = fish if rng.happens("all dead", 0.05) else sum(rng.of(n).happens("dead", 0.2) for n in range(fish))
        short = fish if rng.happens("all short", 0.03) else sum(rng.of(n).happens("short", 0.06) for n in range(fish))
        counts = count(fish, fish - dead, dead, short, self.rules)
        row = {"fish": str(fish), "alive": str(fish - dead), "dead": str(dead)}
        if short or rng.happens("short said", 0.3):
            row["short"] = str(short)
        return counts, row | self._scale(rng.of("scale"), counts)

    def _scale(self, rng: Chance, counts: Counts) -> dict[str, str]:
        """gross, tare, largest_weights and big fish of fish laid on the scale one by one."""
        unit = self.unit
        step, fewest, most = self.grain
        fish = sorted((step * rng.of(n).randint(fewest, most) for n in range(counts.on_scale)), reverse=True)
        tare, row = self.rules["bag_tare"], {}
        if rng.happens("tare", 0.3) and not self.lean:
            tare = step * rng.pick("what tare", [0, 1, 2])
            row["tare"] = weight_text(rng.of("tare", "spelt"), tare, unit)
        if fish or rng.happens("gross of no fish", 0.3):
            row["gross"] = weight_text(rng.of("gross"), sum(fish, F(0)) + tare, unit)
        listed = counts.removed if counts.removed < len(fish) else rng.of("listed").randint(0, len(fish))
        if rng.happens("one more listed", 0.2):
            listed = min(len(fish), listed + 1)
        if listed:
            row["largest_weights"] = weights_text(rng.of("largest_weights"), fish[:listed], unit)
        if counts.removed < len(fish) and rng.happens("big fish", 0.6):
            row |= self._big_fish(rng.of("big_fish"), counts, rng.pick("which", fish[counts.removed :][:2]))
        return row

    def _big_fish(self, rng: Chance, counts: Counts, value: Fraction) -> dict[str, str]:
        alive = counts.alive > 0 and (counts.dead == 0 or rng.happens("alive", 0.7))
        row = {"big_fish": weight_text(rng.of("weight"), value, self.unit)}
        if counts.dead or rng.happens("alive said", 0.3):
            row["big_fish_alive"] = yes_text(rng.of("alive", "spelt"), alive)
        return row

    def _times(self, rng: Chance, day: Day, trip: Trip) -> dict[str, str]:
        row = {
            name: moment_text(rng.of(name), getattr(trip, name), day)
            for name in ("checked_in", "bag_issued", "weighed", "bag_emptied", "released")
            if rng.of(name).happens("recorded", self.recorded)
        }
        if rng.happens("minutes_late", 0.1):
            row.pop("checked_in", None)
            row["minutes_late"] = str(rng.pick("minutes", [0, 1, 2, 5, 6, 10, 11, 15, 16, 25]))
        if rng.happens("excused_minutes", 0.15) and "minutes_late" not in row:  # which takes no excuse
            row["excused_minutes"] = str(rng.pick("excused", [0, 2, 5, 30]))
        return row

    def _release(self, rng: Chance, counts: Counts) -> dict[str, str]:
        later = rng.of("later").randint(0, counts.alive) if rng.happens("dead_at_release", 0.2) else 0
        kept = rng.of("how many").randint(0, counts.alive - later) if rng.happens("kept", 0.1) else 0
        row = {"dead_at_release": str(later) if later or rng.happens("none dead said", 0.3) else ""}
        row["kept"] = str(kept) if kept or rng.happens("none kept said", 0.1) else ""
        if rng.happens("species", 0.3):
            black = rng.of("black_crappie").randint(0, counts.fish)
            row |= {"black_crappie": str(black), "white_crappie": str(counts.fish - black)}
        return row

    def _rulings(self, rng: Chance) -> dict[str, str]:
        row = {}
        if rng.happens("extra_penalty", 0.07):
            steps = rng.of("steps").randint(0, 4)
            row["extra_penalty"] = weight_text(rng.of("spelt"), self.grain[0] * steps, self.unit)
            row["extra_penalty_reason"] = "no life jacket"
        if rng.happens("disqualified_reason", 0.04):
            row["disqualified_reason"] = "fished outside the marked water"
        return row

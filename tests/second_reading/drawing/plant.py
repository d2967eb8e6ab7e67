"""Faults planted into the plain event, each with the cells that may name it.

A fault is put in by `Planting.put`, which returns the address of its cell as `Sheet!B7`. Where a fault lies
between two or three cells (fish against alive and dead) any of them names it. Rows count as in the file: row
1 is the header. The order is that of the list of faults in the workbook contract.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from openpyxl.utils import get_column_letter

from ..plain_event import plain_event, weight
from ..workbook import COLUMNS, book

Cells = set[str]


class Planting:
    """The plain event's workbook and where its cells are."""

    def __init__(self, unit: str) -> None:
        self.unit = unit
        self.sheets = plain_event(unit)
        self.book: Workbook = book(self.sheets)

    def at(self, sheet: str, row: int, *columns: str) -> Cells:
        """Addresses of cells."""
        names = COLUMNS[sheet].split()
        return {f"{sheet}!{get_column_letter(names.index(column) + 1)}{row}" for column in columns}

    def put(self, sheet: str, row: int, column: str, value: Any) -> Cells:
        """Write one cell."""
        self.book[sheet].cell(row, COLUMNS[sheet].split().index(column) + 1).value = value
        return self.at(sheet, row, column)

    def put_key(self, sheet: str, key: str, value: Any) -> Cells:
        """Write the value of a key."""
        return self.put(sheet, self.row_of(sheet, key), "value", value)

    def row_of(self, sheet: str, key: str) -> int:
        """The row of a key."""
        return [row["key"] for row in self.sheets[sheet]].index(key) + 2

    def add(self, sheet: str, **values: Any) -> int:
        """A further row; its number."""
        self.book[sheet].append([values.get(column) for column in COLUMNS[sheet].split()])
        return int(self.book[sheet].max_row)

    def weight(self, pounds: str) -> str:
        return weight(self.unit, pounds)

    def save(self, path: Path) -> None:
        self.book.save(path)


@dataclass(frozen=True)
class PlantedFault:
    """`plant` changes the workbook and returns the cells of which at least one has to be named; `says` are
    words that the message has to hold."""

    name: str
    plant: Callable[[Planting], Cells]
    unit: str = "lb"
    says: tuple[str, ...] = ()


def cell(
    name: str, sheet: str, row: int, column: str, value: Any, *or_at: str, unit: str = "lb", says: str = ""
) -> PlantedFault:
    """One cell changed; `or_at` are other columns of the row that may name the fault."""

    def plant(p: Planting) -> Cells:
        return p.put(sheet, row, column, value) | p.at(sheet, row, *or_at)

    return PlantedFault(name, plant, unit, tuple(says.split()))


def key(name: str, sheet: str, of: str, value: Any, unit: str = "lb", says: str = "") -> PlantedFault:
    """The value of one key changed."""
    return PlantedFault(name, lambda p: p.put_key(sheet, of, value), unit, tuple(says.split()))


MISSING = [
    *(key(f"no {k}", "Event", k, None) for k in ("club", "season", "event", "water", "date", "weight_unit")),
    *(
        cell(f"no {column} in {sheet}", sheet, row, column, None)
        for sheet, row, columns in (
            ("Days", 3, "day"),
            ("Flights", 2, "flight due_time"),
            ("Teams", 6, "boat team angler_1"),
            ("Slips", 6, "day boat fish alive dead"),
            ("Fish care", 3, "day boat"),
            ("Tanks", 2, "day tank time"),
            ("Holding", 3, "group kind hours held dead"),
        )
        for column in columns.split()
    ),
]

NOT_A_NUMBER = [
    cell("words for fish", "Slips", 6, "fish", "one"),
    cell("part of a fish", "Slips", 2, "dead_at_release", "0.5"),
    cell("words for a weight", "Slips", 2, "gross", "heavy"),
    cell("part of a minute late", "Slips", 3, "minutes_late", "2.5"),
    cell("words for a lot", "Teams", 3, "lot", "first"),
    cell("boat zero", "Teams", 6, "boat", "0"),
    cell("words for gallons", "Fish care", 2, "livewell_gal", "plenty"),
    cell("words for a volume", "Tanks", 2, "volume_gal", "big"),
    cell("words for fish held", "Holding", 2, "held", "many"),
    key("words for days", "Event", "days", "two"),
    key("words for a fee", "Event", "entry_fee", "free"),
    key("words for a limit", "Rules", "fish_limit", "five"),
    cell("no time of day", "Slips", 2, "checked_in", "25:00"),
    cell("words for a time", "Tanks", 2, "time", "noon"),
    key("words for a date", "Event", "date", "7 March"),
]

WEIGHTS = [
    cell("kilograms with ounces", "Slips", 3, "gross", "5-07.5", unit="kg"),
    cell("sixteen ounces", "Slips", 3, "gross", "4-16", unit="lb-oz"),
    cell("more than sixteen ounces", "Slips", 3, "gross", "4 lb 17.5 oz", unit="lb-oz"),
    cell("a negative weight", "Slips", 3, "gross", "-5.00"),
    cell("a negative number", "Slips", 3, "gross", -5.0, unit="kg"),
    cell("more than 999 lb", "Slips", 3, "gross", "1000"),
    cell("more than 999 kg", "Slips", 3, "gross", "999.5", unit="kg"),
    cell("a bare decimal for pounds and ounces", "Slips", 3, "gross", "5.25", unit="lb-oz"),
    cell("a bare number cell for pounds and ounces", "Slips", 3, "gross", 5.25, unit="lb-oz"),
    cell("a date for a weight", "Slips", 3, "gross", datetime(2026, 5, 7), unit="lb-oz", says="Excel date text"),
    cell("a decimal comma", "Slips", 3, "gross", "5,25"),
    cell("a decimal comma in kilograms", "Slips", 3, "gross", "5,250", unit="kg"),
    cell("kilograms in a pound event", "Slips", 3, "gross", "5.00 kg"),
    cell("pounds in a kilogram event", "Slips", 3, "gross", "5.00 lb", unit="kg"),
    cell("kilograms among pounds and ounces", "Slips", 3, "gross", "5.00 kg", unit="lb-oz"),
    key("a rule in another unit", "Rules", "over_limit_penalty", "1.00 kg"),
    cell("a formula without a value", "Slips", 3, "gross", "=4+1"),
]

COUNTS = [
    cell("fish not alive + dead", "Slips", 2, "fish", "6", "alive", "dead"),
    cell("short > fish", "Slips", 2, "short", "6", "fish"),
    cell("released dead and kept > alive", "Slips", 2, "dead_at_release", "4", "kept", "alive"),
    cell("gross < tare", "Slips", 3, "gross", "0.25", "tare"),
    cell("no gross with fish on the scale", "Slips", 2, "gross", None),
    cell("gross with nothing on the scale", "Slips", 5, "gross", "1.00"),
    cell("too few largest_weights", "Slips", 2, "largest_weights", None),
    cell("largest_weights not largest first", "Slips", 2, "largest_weights", "1.00, 2.00"),
    cell("largest_weights more than net", "Slips", 2, "largest_weights", "2.00, 2.00, 2.00"),
    cell("big fish more than net less removed", "Slips", 2, "big_fish", "4.00"),
    cell("big fish of no fish", "Slips", 5, "big_fish", "1.00"),
    cell("species more than fish", "Slips", 2, "other_species", "1", "black_crappie", "white_crappie", "fish"),
]

UNKNOWN = [
    cell("unknown boat of a slip", "Slips", 6, "boat", "99"),
    cell("unknown boat of a care note", "Fish care", 3, "boat", "99"),
    cell("unknown well_boat", "Slips", 2, "well_boat", "99"),
    cell("unknown flight", "Teams", 3, "flight", "Z"),
    cell("unknown day of a slip", "Slips", 8, "day", "9"),
    cell("unknown day of a care note", "Fish care", 3, "day", "9"),
    cell("unknown day of a tank", "Tanks", 2, "day", "9"),
    cell("unknown day of a flight", "Flights", 3, "day", "9"),
    cell("unknown day of the days", "Days", 4, "day", "9"),
    cell("slip of a cancelled day", "Slips", 8, "day", "3"),
    cell("slip after a missed cut", "Slips", 8, "boat", "4", "day"),
]


def _second_current(p: Planting) -> Cells:
    p.put("Slips", 4, "reason", None)
    return p.put("Slips", 4, "replaces", None) | p.at("Slips", 4, "boat", "day")


def _replaced_twice(p: Planting) -> Cells:
    more = {"slip": "8", "day": "1", "boat": "2", "fish": "0", "alive": "0", "dead": "0"}
    row = p.add("Slips", **more, replaces="2", reason="again")
    return p.at("Slips", row, "replaces", "boat", "day")


def _circle(p: Planting) -> Cells:
    p.put("Slips", 3, "reason", "misread")
    return p.put("Slips", 3, "replaces", "3") | p.at("Slips", 4, "replaces")


CHAINS = [
    PlantedFault("second current slip", _second_current),
    PlantedFault("a slip replaced twice", _replaced_twice),
    cell("replaces no slip", "Slips", 4, "replaces", "77"),
    cell("replaces another boat's slip", "Slips", 4, "replaces", "1"),
    PlantedFault("a circle of two", _circle),
    cell("a circle of one", "Slips", 4, "replaces", "3"),
    cell("a correction without a reason", "Slips", 4, "reason", None, "replaces"),
    cell("a void of nothing", "Slips", 6, "void", "yes", "replaces"),
    cell("slip number used twice", "Slips", 6, "slip", "1"),
]


def _first_fish_late(p: Planting) -> Cells:
    return p.put("Fish care", 2, "first_fish", "14:50") | p.at("Slips", 2, "checked_in")


TIMES = [
    cell("checked_in and minutes_late", "Slips", 2, "minutes_late", "3", "checked_in"),
    cell("launched after first_fish", "Fish care", 2, "launched", "07:30", "first_fish"),
    PlantedFault("first_fish after checked_in", _first_fish_late),
    cell("bag_issued after weighed", "Slips", 2, "bag_issued", "14:45:30", "weighed"),
    cell("weighed after bag_emptied", "Slips", 2, "bag_emptied", "14:44", "weighed"),
    cell("weighed after released", "Slips", 2, "released", "14:44", "weighed"),
    cell("weighed before the start", "Slips", 7, "weighed", "05:00"),
    cell("a slip's time that does not exist", "Slips", 7, "bag_issued", "02:30"),
    key("a start time that does not exist", "Event", "start_time", "02:30"),
]

TEMPERATURES = [
    key("event's lake without a unit", "Event", "lake_temp", "62"),
    cell("day's lake without a unit", "Days", 2, "lake_temp", "60"),
    cell("air without a unit", "Days", 2, "air_temp", 50),
    cell("livewell without a unit", "Fish care", 2, "livewell_temp", "58"),
    cell("tank without a unit", "Tanks", 2, "temp", "58"),
    cell("pen without a unit", "Holding", 2, "water_temp", "60"),
    key("a lake too hot", "Event", "lake_temp", "120 F"),
    cell("a livewell too cold", "Fish care", 2, "livewell_temp", "31.9 F"),
    cell("a tank too hot", "Tanks", 2, "temp", "45.1 C"),
    cell("air too hot", "Days", 2, "air_temp", "60.5 C"),
    cell("air too cold", "Days", 2, "air_temp", "-41 F"),
]


def _second_boat(p: Planting) -> Cells:
    return p.at("Teams", p.add("Teams", boat="1", team="Team again", angler_1="Angler again"), "boat")


def _second_note(p: Planting) -> Cells:
    return p.at("Fish care", p.add("Fish care", day="1", boat="1", pump_ok="no"), "boat", "day")


def _same_angler(p: Planting) -> Cells:
    return p.put("Teams", 3, "angler_2", "Angler 1 A") | p.at("Teams", 2, "angler_1")


ROWS = [
    cell("reflexes_absent > reflexes_checked", "Fish care", 2, "reflexes_absent", "6", "reflexes_checked"),
    cell("dead + missing > held", "Holding", 2, "dead", "20", "missing", "held"),
    PlantedFault("two rows for a boat", _second_boat),
    PlantedFault("two notes for a boat and day", _second_note),
    PlantedFault("an angler in two teams", _same_angler),
]

CHOICES = [
    key("unknown unit", "Event", "weight_unit", "stone", says="lb lb-oz kg"),
    key("unknown handling", "Event", "handling", "frozen", says="hold_release immediate_release harvest"),
    cell("unknown day status", "Days", 3, "status", "fun", says="fished shortened cancelled"),
    cell("unknown team status", "Teams", 3, "status", "gone", says="entered withdrawn absent disqualified"),
    cell("unknown aeration", "Fish care", 2, "aeration", "wind", says="recirculated pumped oxygen none"),
    cell("unknown kind", "Holding", 2, "kind", "control", says="tournament reference"),
    key("unknown dead_fish", "Rules", "dead_fish", "ignore", says="penalty not_weighed both"),
    key("unknown short_fish", "Rules", "short_fish", "ignore", says="penalty lose_largest lose_day"),
    key("unknown over_limit", "Rules", "over_limit", "no", says="disqualify_day remove_largest penalty"),
    key("unknown negative_totals", "Rules", "negative_totals", "no", says="floor keep"),
    key("unknown tie key", "Rules", "ties", "big_fish, coin", says="live_fish lot share"),
    key("unknown season tie key", "Rules", "season_ties", "coin", says="big_fish total_weight share"),
    cell("neither yes nor no", "Teams", 3, "paid", "perhaps", says="yes no"),
    key("unknown time zone", "Event", "time_zone", "Nowhere/Lake"),
]


def _penalty_without_reason(p: Planting) -> Cells:
    return p.put("Slips", 2, "extra_penalty", p.weight("0.5")) | p.at("Slips", 2, "extra_penalty_reason")


def _cut_without_keep(p: Planting) -> Cells:
    after = p.at("Rules", p.row_of("Rules", "cut_after_day"), "value")
    return after | p.put_key("Rules", "cut_keep", None)


def _dead_big_fish_of_live_fish(p: Planting) -> Cells:
    p.put("Slips", 6, "big_fish", p.weight("0.5"))
    return p.put("Slips", 6, "big_fish_alive", "no")


def _live_big_fish_of_dead_fish(p: Planting) -> Cells:
    p.put("Slips", 6, "alive", "0")
    p.put("Slips", 6, "dead", "1")
    p.put("Slips", 6, "big_fish", p.weight("0.5"))
    return p.put("Slips", 6, "big_fish_alive", "yes")


RULES = [
    PlantedFault("extra_penalty without a reason", _penalty_without_reason),
    PlantedFault("cut_after_day without cut_keep", _cut_without_keep),
    key("1 per 0", "Rules", "places_paid", "1 per 0"),
    key("place shares all zero", "Rules", "place_shares", "0, 0"),
    key("big fish shares all zero", "Rules", "big_fish_shares", "0"),
    key("a tie key after share", "Rules", "ties", "share, big_fish"),
    key("two values for one penalty", "Rules", "short_fish_penalty", "1.00, 2.00"),
    key("two values for a limit", "Rules", "fish_limit", "5, 6"),
    PlantedFault("big_fish_alive no with dead 0", _dead_big_fish_of_live_fish),
    PlantedFault("big_fish_alive yes with alive 0", _live_big_fish_of_dead_fish),
    cell("big_fish_alive empty with dead fish", "Slips", 2, "big_fish_alive", None, "big_fish"),
]

FAULTS = [
    *MISSING,
    *NOT_A_NUMBER,
    *WEIGHTS,
    *COUNTS,
    *UNKNOWN,
    *CHAINS,
    *TIMES,
    *TEMPERATURES,
    *ROWS,
    *CHOICES,
    *RULES,
]
# faults in different rows and sheets, to be listed together
TOGETHER = [
    f
    for f in FAULTS
    if f.name
    in {
        "words for a fee",
        "day's lake without a unit",
        "two values for a limit",
        "words for a lot",
        "fish not alive + dead",
        "unknown boat of a slip",
        "replaces no slip",
        "reflexes_absent > reflexes_checked",
        "words for a volume",
        "dead + missing > held",
    }
]
# faults of the slip that slip 3 corrects
ROW_3_OF_SLIPS = {f.name for f in WEIGHTS if "rule" not in f.name} | {"part of a minute late", "gross < tare"}

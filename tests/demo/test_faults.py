"""No workbook of the demo has a fault of the contract's list, and the reading that says so sees every one of them."""

from collections.abc import Callable
from copy import deepcopy

import pytest

from .faults import Book, faults
from .workbooks import NEIGHBOURS, SEASON, cells, rows

Spoil = Callable[[Book], None]


def book(file: str) -> Book:
    return {sheet: deepcopy(rows(file, sheet)) for sheet in cells(file)}


def first(spoiled: Book, sheet: str, name: str = "fish") -> dict[str, object]:
    """The first row with something in that cell."""
    return next(row for row in spoiled[sheet] if row.get(name))


@pytest.mark.parametrize("file", SEASON + NEIGHBOURS)
def test_no_workbook_has_a_fault(file: str) -> None:
    assert faults(book(file)) == []


def rule(key: str, value: str) -> Spoil:
    return lambda spoiled: spoiled["Rules"].append({"key": key, "value": value})


def event(key: str, value: object) -> Spoil:
    return lambda spoiled: next(row for row in spoiled["Event"] if row["key"] == key).update(value=value)


def cell(sheet: str, of: str, **values: object) -> Spoil:
    """Write into the first row that has something in the cell ``of``."""
    return lambda spoiled: first(spoiled, sheet, of).update(values)


def again(sheet: str, **values: object) -> Spoil:
    return lambda spoiled: spoiled[sheet].append({**spoiled[sheet][0], **values})


def circle(spoiled: Book) -> None:
    newer = first(spoiled, "Slips", "replaces")
    older = next(slip for slip in spoiled["Slips"] if slip["slip"] == newer["replaces"])
    older.update(replaces=newer["slip"], reason="none")


HIGH_SUMMER, SPAWN, HOLDING, TWO_DAYS = SEASON[3], SEASON[2], SEASON[4], SEASON[1]
SPOILED: dict[str, tuple[str, Spoil]] = {
    "club is missing": (HIGH_SUMMER, event("club", None)),
    "angler_1 is missing": (HIGH_SUMMER, cell("Teams", "boat", angler_1=None)),
    "a count of fish is missing": (HIGH_SUMMER, cell("Slips", "fish", alive=None)),
    "'seven' is no count": (HIGH_SUMMER, cell("Slips", "fish", black_crappie="seven")),
    "'some' is no number": (HIGH_SUMMER, cell("Fish care", "boat", ice_lb="some")),
    "no weight a scale shows": (HIGH_SUMMER, cell("Slips", "gross", gross=-1.5)),
    "no weight in pounds and ounces": (SPAWN, cell("Slips", "gross", gross="8-16")),
    "not alive and dead": (HIGH_SUMMER, cell("Slips", "fish", fish=99)),
    "more short fish than fish": (HIGH_SUMMER, cell("Slips", "fish", short=99)),
    "more dead at release": (HIGH_SUMMER, cell("Slips", "fish", dead_at_release=99)),
    "more fish of all species": (HIGH_SUMMER, cell("Slips", "fish", white_crappie=99)),
    "gross below the tare": (HIGH_SUMMER, cell("Slips", "gross", gross=0.1, big_fish=None)),
    "no gross weight": (HIGH_SUMMER, cell("Slips", "gross", gross=None)),
    "fewer largest weights": (SPAWN, cell("Slips", "largest_weights", largest_weights=None)),
    "not largest first": (SPAWN, cell("Slips", "gross", largest_weights="1-02, 1-09")),
    "heavier than what counts": (HIGH_SUMMER, cell("Slips", "gross", big_fish=98.0)),
    "a big fish but no fish": (HIGH_SUMMER, cell("Slips", "gross", fish=0, alive=0, dead=0)),
    "neither of the dead": (HIGH_SUMMER, cell("Slips", "big_fish", dead=0, big_fish_alive="no")),
    "unknown flight": (TWO_DAYS, cell("Teams", "flight", flight="Z")),
    "an unknown boat": (HIGH_SUMMER, cell("Slips", "fish", well_boat=999)),
    "day 7 was not fished": (HIGH_SUMMER, cell("Slips", "fish", day=7)),
    "day 1 was not fished": (HIGH_SUMMER, cell("Days", "day", status="cancelled")),
    "two current slips": (HIGH_SUMMER, again("Slips", slip=900)),
    "a number is used twice": (HIGH_SUMMER, again("Slips")),
    "which it cannot": (HIGH_SUMMER, cell("Slips", "replaces", replaces=101)),
    "gives no reason": (HIGH_SUMMER, cell("Slips", "replaces", reason=None)),
    "in a circle": (HIGH_SUMMER, circle),
    "takes nothing out": (HIGH_SUMMER, again("Slips", slip=900, void="yes")),
    "both checked_in": (HIGH_SUMMER, cell("Slips", "checked_in", minutes_late=1)),
    "released": (HIGH_SUMMER, cell("Slips", "released", released="06:00")),
    "first fish before its launch": (HIGH_SUMMER, cell("Fish care", "first_fish", first_fish="04:00")),
    "first_fish": (HIGH_SUMMER, cell("Fish care", "first_fish", first_fish="20:00")),
    "no temperature with its unit": (HIGH_SUMMER, cell("Fish care", "boat", livewell_temp="82")),
    "is out of range": (HIGH_SUMMER, event("lake_temp", "186 F")),
    "is no time": (HIGH_SUMMER, cell("Slips", "weighed", weighed="2 pm")),
    "the clock changes": (HIGH_SUMMER, event("date", "2026-11-01")),
    "reflexes absent": (HIGH_SUMMER, cell("Fish care", "reflexes_checked", reflexes_absent=99)),
    "more fish than it held": (HOLDING, cell("Holding", "held", dead=99)),
    "boat 1 stands twice": (HIGH_SUMMER, again("Teams", angler_1="A", angler_2="B")),
    "2 notes for boat": (HIGH_SUMMER, again("Fish care")),
    "ewa kestrelby stands twice": (HIGH_SUMMER, lambda b: b["Teams"][-1].update(angler_1="Ewa  KESTRELBY")),
    "is not one of": (HIGH_SUMMER, cell("Teams", "boat", status="asleep")),
    "without a reason": (HIGH_SUMMER, cell("Slips", "extra_penalty", extra_penalty_reason=None)),
    "cut_after_day without cut_keep": (HIGH_SUMMER, rule("cut_after_day", "1")),
    "1 per 0": (HIGH_SUMMER, rule("places_paid", "1 per 0")),
    "are all zero": (HIGH_SUMMER, rule("place_shares", "0, 0")),
    "takes one value": (HIGH_SUMMER, rule("fish_limit", "7, 8")),
    "over_limit is no mercy": (HIGH_SUMMER, rule("over_limit", "mercy")),
}  # fmt: skip


@pytest.mark.parametrize("said", SPOILED)
def test_each_fault_is_seen(said: str) -> None:
    file, spoil = SPOILED[said]
    spoiled = book(file)
    spoil(spoiled)
    assert any(said in fault for fault in faults(spoiled)), faults(spoiled)

"""Checks of fish care in words: what each asks for, and by how much one was not kept."""

from collections.abc import Iterable

from weighin.care.domain.checks import CHECKS
from weighin.care.queries.care import CareRow
from weighin.events.domain.measured import degrees, minutes
from weighin.events.domain.temperatures import Temperature
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain

NAMES = {
    "pump": "pump",
    "thermometer": "thermometer",
    "ice": "ice",
    "on_board": "fish on board",
    "held": "time held",
    "bag": "time in the bag",
    "cooling": "cooling",
    "oxygen": "oxygen",
}


def passed_in_words(names: Iterable[str]) -> str:
    """The checks that were kept, in their order."""
    return ", ".join(NAMES[name] for name in names)


def failed_in_words(row: CareRow, rules: Rulebook, lake: Temperature | None) -> list[str]:
    """Each check that was not kept, with its figure beside the bound."""
    return [_failed(name, row, rules, lake) for name in row.care.failed]


def bounds_in_words(rules: Rulebook) -> list[tuple[str, str]]:
    """What each check asks for under these rules; a check without a bound says so."""
    asked = {
        "pump": "It runs.",
        "thermometer": "There is one, and it works.",
        "ice": f"Some ice in the well, with the lake at {plain(rules.care_warm_f)} °F or warmer.",
        "on_board": "No limit is set." if rules.boat_limit is None else f"At most {rules.boat_limit} fish at once.",
        "held": "No limit is set."
        if rules.care_max_held_minutes is None
        else f"At most {minutes(rules.care_max_held_minutes)} from the first fish to the release.",
        "bag": f"At most {minutes(rules.care_max_bag_minutes)} from the bag’s issue until it is emptied.",
        "cooling": f"The well at most {plain(rules.care_max_cooling_f)} °F below the lake.",
        "oxygen": f"At least {plain(rules.care_min_do)} mg/L dissolved in the well.",
    }
    return [(NAMES[name].capitalize(), asked[name]) for name in CHECKS]


def held_in_words(row: CareRow) -> str:
    """The longest any fish can have been held; blank when an end is missing."""
    held = row.care.minutes_held
    if held is None:
        return ""
    return f"at most {minutes(held)}" if row.care.held_is_upper_bound else minutes(held)


def _failed(name: str, row: CareRow, rules: Rulebook, lake: Temperature | None) -> str:
    note, care = row.note, row.care
    if name == "held":
        return f"held {held_in_words(row)}, limit {minutes(rules.care_max_held_minutes)}"
    if name == "bag":
        return f"{minutes(care.minutes_in_bag)} in the bag, limit {minutes(rules.care_max_bag_minutes)}"
    if note is None:
        return NAMES[name]
    if name == "ice" and lake is not None:
        return f"no ice, the lake at {degrees(lake.written())}"
    if name == "on_board":
        return f"{note.most_on_board} on board, limit {rules.boat_limit}"
    if name == "cooling":
        return f"well {degrees(note.livewell_temp)}, more than {plain(rules.care_max_cooling_f)} °F below the lake"
    if name == "oxygen":
        return f"oxygen {note.livewell_do} mg/L, at least {plain(rules.care_min_do)}"
    return {"pump": "pump not in order", "thermometer": "no working thermometer"}.get(name, NAMES[name])

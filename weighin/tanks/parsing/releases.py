"""Read releases, floater walks and kept fish as a person writes them."""

from collections.abc import Mapping
from functools import partial
from typing import Any

from weighin.events.domain import temperatures
from weighin.events.domain.care_context import CareContext
from weighin.events.parsing.moments import read_moment
from weighin.events.parsing.rows import Reader
from weighin.rules import values
from weighin.tanks.domain.faults import (
    MORE_BACK_THAN_LENT,
    MORE_DEAD_THAN_BROUGHT,
    NO_BOAT_KEPT_FROM,
    NOT_LENT,
    ODD_WALK_HOURS,
)
from weighin.tanks.models import FloaterWalk, KeptFish, Release

RELEASE_FIELDS = (
    "day", "time", "by", "place", "depth_ft", "water_temp", "tank_temp", "distance_mi", "fish", "dead", "note",
)  # fmt: skip
WALK_FIELDS = ("hours", "walked", "shore", "length_mi", "dead", "note")
KEPT_FIELDS = ("day", "went", "boat", "fish", "alive", "came_back", "receiver", "note")
MOST_FISH = 100_000


def read_release(written: Mapping[str, str], care_context: CareContext) -> dict[str, Any]:
    """A release's values, the fields of ``Release``. Raises Faults with field names."""
    reader, calendar = Reader(written), care_context.calendar
    day = reader.day(calendar)
    found: dict[str, Any] = {
        "day": day,
        "time": reader.required("time", lambda text: calendar.read(day, text), None) if day in calendar.days else None,
        "by": reader.required("by", lambda text: values.choice(text, Release.By.values), ""),
        "place": reader.required("place", partial(values.line, most=80), ""),
        "depth_ft": reader.figure("depth_ft", most=2000),
        "distance_mi": reader.figure("distance_mi", most=500),
        "fish": reader.required("fish", partial(values.whole, least=1, most=MOST_FISH), 0),
        "dead": reader.value("dead", partial(values.whole, most=MOST_FISH), 0),
        "note": reader.value("note", values.lines, ""),
    }
    for name in ("water_temp", "tank_temp"):
        found[name] = reader.checked(name, temperatures.water)
    if found["fish"] and found["dead"] > found["fish"]:
        reader.faults.append(MORE_DEAD_THAN_BROUGHT.at("dead", "fish", dead=found["dead"], fish=found["fish"]))
    reader.finish()
    return found


def read_walk(written: Mapping[str, str], care_context: CareContext) -> dict[str, Any]:
    """A floater walk's values, the fields of ``FloaterWalk``. Raises Faults with field names."""
    reader = Reader(written)
    found: dict[str, Any] = {
        "hours": reader.required("hours", _hours, 0),
        "walked": read_moment(reader, "walked", care_context),
        "shore": reader.required("shore", values.line, ""),
        "length_mi": reader.figure("length_mi", most=500),
        "dead": reader.required("dead", partial(values.whole, most=MOST_FISH), 0),
        "note": reader.value("note", values.lines, ""),
    }
    reader.finish()
    return found


def read_kept(written: Mapping[str, str], care_context: CareContext) -> dict[str, Any]:
    """Kept fish, the fields of ``KeptFish``. Raises Faults with field names."""
    reader = Reader(written)
    found: dict[str, Any] = {
        "day": reader.day(care_context.calendar),
        "went": reader.required("went", lambda text: values.choice(text, KeptFish.Went.values), ""),
        "fish": reader.required("fish", partial(values.whole, least=1, most=MOST_FISH), 0),
        "alive": reader.required("alive", values.yes_no, False),
        "came_back": reader.value("came_back", partial(values.whole, most=MOST_FISH), 0),
        "receiver": reader.value("receiver", values.line, ""),
        "note": reader.value("note", values.lines, ""),
        "boat": reader.value("boat", partial(values.whole, least=1, most=2_000_000_000)),
    }
    boats = set(care_context.event.entries.values_list("boat", flat=True)) if found["boat"] else set()
    if found["boat"] and found["boat"] not in boats:
        reader.faults.append(NO_BOAT_KEPT_FROM.at("boat", boat=found["boat"]))
    if found["came_back"] and found["went"] != KeptFish.Went.LENT:
        reader.faults.append(NOT_LENT.at("came_back", "went"))
    elif found["fish"] and found["came_back"] > found["fish"]:
        reader.faults.append(MORE_BACK_THAN_LENT.at("came_back", "fish", back=found["came_back"], fish=found["fish"]))
    reader.finish()
    return found


def _hours(text: str) -> int:
    found = values.whole(text, most=1000)
    if found not in FloaterWalk.After.values:
        raise ODD_WALK_HOURS.wrong(hours=found)
    return found

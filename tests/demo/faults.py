"""What the workbook contract calls a fault, looked for with nothing of ours: a second, plain reading for the demo's files.

``faults(book)`` takes ``{sheet: rows}`` and gives sentences. A slip after a missed cut needs the scores and has a test
of its own.
"""

import re
from collections import Counter
from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from typing import Any

Row = dict[str, Any]
Book = dict[str, list[Row]]

REQUIRED = {
    "Days": "day", "Flights": "flight due_time", "Teams": "boat team angler_1", "Slips": "day boat",
    "Fish care": "day boat", "Tanks": "day tank time", "Holding": "group kind hours held dead",
}  # fmt: skip
EVENT_REQUIRED = "club season event water date weight_unit"
COUNTS = (
    "slip day boat fish alive dead short black_crappie white_crappie other_species well_boat minutes_late dead_at_release kept "
    "replaces most_on_board deep_hooked barotrauma reflexes_absent reflexes_checked held missing lot"
).split()
MEASURES = (
    "excused_minutes livewell_gal ice_lb livewell_do volume_gal do ph total_ammonia salt_percent fish_lb hours".split()
)
WEIGHTS = "gross tare big_fish extra_penalty".split()
TIMES = "start_time due_time launch launched first_fish checked_in bag_issued weighed bag_emptied released time".split()
WATERS = "lake_temp livewell_temp temp water_temp".split()
CHOICES = {
    **dict.fromkeys(
        "youth paid big_fish_pot pump_ok thermometer_ok big_fish_alive void late_reduces_big_fish dead_fish_big_fish".split(),
        "yes no",
    ),
    "weight_unit": "lb lb-oz kg", "handling": "hold_release immediate_release harvest",
    "aeration": "recirculated pumped oxygen none", "kind": "tournament reference",
    "dead_fish": "penalty not_weighed both", "short_fish": "penalty lose_largest lose_day",
    "over_limit": "disqualify_day remove_largest penalty", "negative_totals": "floor keep",
}  # fmt: skip
STATUSES = {"Days": "fished shortened cancelled", "Teams": "entered withdrawn absent disqualified"}
LISTS = "dead_fish_penalty ties place_shares big_fish_shares points_table season_ties".split()
IN_ORDER = (
    ("launched", "first_fish"), ("first_fish", "checked_in"), ("launched", "checked_in"), ("bag_issued", "weighed"),
    ("weighed", "bag_emptied"), ("bag_issued", "bag_emptied"), ("weighed", "released"),
)  # fmt: skip
CLOCK = re.compile(r"([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?")
TEMPERATURE = re.compile(r"(-?\d+(?:\.\d+)?) ([FC])")
POUNDS_AND_OUNCES = re.compile(r"(\d{1,3})-(\d{2}(?:\.\d+)?)")


def faults(book: Book) -> list[str]:
    """The faults of a workbook, as sentences; none for a sound one. Rows are held together once each cell can be read."""
    unreadable = [*_event(book), *_cells(book)]
    return unreadable or [*_teams(book), *_slips(book), *_replacements(book), *_care(book)]


def keyed(rows: list[Row]) -> Row:
    """The Event or Rules sheet as one mapping."""
    return {row["key"]: row["value"] for row in rows}


def weight(written: Any, unit: str) -> Fraction:
    """A weight in pounds or kilograms. Raises ValueError when the unit cannot hold it."""
    if unit == "lb-oz":
        found = POUNDS_AND_OUNCES.fullmatch(str(written))
        if isinstance(written, str) and found and Fraction(found[2]) < 16:
            return int(found[1]) + Fraction(found[2]) / 16
        if written == 0:
            return Fraction(0)
        raise ValueError(f"{written!r} is no weight in pounds and ounces")
    read = Fraction(str(written))
    if not 0 <= read <= 999:
        raise ValueError(f"{written!r} is no weight a scale shows")
    return read


def _event(book: Book) -> Iterator[str]:
    event, rules = keyed(book["Event"]), keyed(book["Rules"])
    for key in EVENT_REQUIRED.split():
        if not event.get(key):
            yield f"Event: {key} is missing"
    for key, count in Counter(row["key"] for row in book["Event"] + book["Rules"]).items():
        if count > 1:
            yield f"{key} stands twice"
    if rules.get("cut_after_day", "none") != "none" and rules.get("cut_keep", "none") == "none":
        yield "Rules: cut_after_day without cut_keep"
    if rules.get("places_paid") == "1 per 0":
        yield "Rules: 1 per 0"
    for key, value in rules.items():
        if "," in str(value) and key not in LISTS:
            yield f"Rules: {key} takes one value"
        if key.endswith("_shares") and value != "none" and not any(float(share) for share in str(value).split(",")):
            yield f"Rules: {key} are all zero"
        if key in CHOICES and value not in CHOICES[key].split():
            yield f"Rules: {key} is no {value}"
        if "penalty" in key or key in ("bag_tare", "live_fish_bonus"):
            for one in str(value).split(","):
                try:
                    weight(0 if one.strip() == "0" else one.strip(), event["weight_unit"])
                except ValueError as error:
                    yield f"Rules: {key}: {error}"


def _cells(book: Book) -> Iterator[str]:
    unit = keyed(book["Event"])["weight_unit"]
    for sheet, rows in book.items():
        rows = [keyed(rows)] if sheet == "Event" else rows
        for number, row in enumerate(rows, start=2):
            for name in REQUIRED.get(sheet, "").split():
                if row.get(name) in (None, ""):
                    yield f"{sheet} {number}: {name} is missing"
            for name, value in row.items():
                if value is not None and (said := _cell(sheet, name, value, unit)):
                    yield f"{sheet} {number}, {name}: {said}"


def _cell(sheet: str, name: str, value: Any, unit: str) -> str | None:
    """What is wrong with a cell by itself."""
    if name in COUNTS or (name == "dead" and sheet != "Rules"):
        return None if type(value) is int and value >= 0 else f"{value!r} is no count"
    if name in MEASURES:
        return None if isinstance(value, int | float) and value >= 0 else f"{value!r} is no number"
    if name in WEIGHTS:
        try:
            weight(value, unit)
        except ValueError as error:
            return str(error)
    if name in TIMES:
        # No event is on a day whose clock changes, so every time of day exists.
        return None if isinstance(value, str) and CLOCK.fullmatch(value) else f"{value!r} is no time"
    if name in WATERS or name == "air_temp":
        found = TEMPERATURE.fullmatch(str(value))
        if not found:
            return f"{value!r} is no temperature with its unit"
        celsius = (float(found[1]) - 32) / 1.8 if found[2] == "F" else float(found[1])
        low, high = (-40, 60) if name == "air_temp" else (0, 45)
        return None if low <= celsius <= high else f"{value!r} is out of range"
    choices = STATUSES.get(sheet) if name == "status" else CHOICES.get(name)
    if choices and value not in choices.split():
        return f"{value!r} is not one of {choices}"
    if name == "date":
        day = date.fromisoformat(str(value))
        return None if (day.month, day.day) not in ((3, 8), (11, 1)) else "the clock changes that day"
    return None


def _teams(book: Book) -> Iterator[str]:
    boats = Counter(team["boat"] for team in book["Teams"])
    yield from (f"Teams: boat {boat} stands twice" for boat, count in boats.items() if count > 1)
    people = Counter(
        " ".join(team[name].split()).casefold()
        for team in book["Teams"]
        for name in ("angler_1", "angler_2", "angler_3")
        if team.get(name)
    )
    yield from (f"Teams: {person} stands twice" for person, count in people.items() if count > 1)
    flights = {row["flight"] for row in book.get("Flights", [])}
    yield from (
        f"Teams: boat {team['boat']} in an unknown flight {team['flight']}"
        for team in book["Teams"]
        if team.get("flight") and team["flight"] not in flights
    )


def _slips(book: Book) -> Iterator[str]:
    unit, rules = keyed(book["Event"])["weight_unit"], keyed(book["Rules"])
    boats = {team["boat"] for team in book["Teams"]}
    fished = {day["day"] for day in book["Days"] if day["status"] != "cancelled"}
    care = {(note["day"], note["boat"]): note for note in book.get("Fish care", [])}
    for slip in book["Slips"]:
        where = f"Slips: slip {slip['slip']}"
        if slip["boat"] not in boats or (slip.get("well_boat") or slip["boat"]) not in boats:
            yield f"{where}: an unknown boat"
        if slip["day"] not in fished:
            yield f"{where}: day {slip['day']} was not fished"
        if slip.get("void") == "yes":
            continue
        if any(slip.get(name) is None for name in ("fish", "alive", "dead")):
            yield f"{where}: a count of fish is missing"
            continue
        yield from (f"{where}: {said}" for said in _counts(slip))
        yield from (f"{where}: {said}" for said in _weights(slip, rules, unit))
        times = {
            name: time for name, time in {**care.get((slip["day"], slip["boat"]), {}), **slip}.items() if name in TIMES
        }
        for earlier, later in IN_ORDER:
            if times.get(earlier) and times.get(later) and times[earlier][:5] > times[later][:5]:
                yield f"{where}: {later} before {earlier}"
        if slip.get("checked_in") and slip.get("minutes_late") is not None:
            yield f"{where}: both checked_in and minutes_late"
        if slip.get("extra_penalty") and not slip.get("extra_penalty_reason"):
            yield f"{where}: an extra penalty without a reason"


def _counts(slip: Row) -> Iterator[str]:
    fish, alive, dead = slip["fish"], slip["alive"], slip["dead"]
    if fish != alive + dead:
        yield "fish is not alive and dead together"
    if (slip.get("short") or 0) > fish:
        yield "more short fish than fish"
    if (slip.get("dead_at_release") or 0) + (slip.get("kept") or 0) > alive:
        yield "more dead at release and kept than alive"
    if sum(slip.get(name) or 0 for name in ("black_crappie", "white_crappie", "other_species")) > fish:
        yield "more fish of all species than fish"
    if slip.get("big_fish") is not None:
        if not fish:
            yield "a big fish but no fish"
        if (slip.get("big_fish_alive"), dead) == ("no", 0) or (slip.get("big_fish_alive"), alive) == ("yes", 0):
            yield "the big fish is neither of the dead nor of the living"
        if dead and not slip.get("big_fish_alive"):
            yield "whether the big fish was alive is missing"


def _weights(slip: Row, rules: Row, unit: str) -> Iterator[str]:
    gross, tare, big = (weight(slip[name], unit) if slip.get(name) is not None else None for name in WEIGHTS[:3])
    largest = [weight(one.strip(), unit) for one in str(slip.get("largest_weights") or "").split(",") if one.strip()]
    short, legal = slip.get("short") or 0, slip["fish"] - (slip.get("short") or 0)
    over = max(0, slip["fish"] - int(rules.get("fish_limit", 7)))
    removed = over * (rules.get("over_limit") == "remove_largest") + short * (rules.get("short_fish") == "lose_largest")
    if gross is None:
        if legal:
            yield "no gross weight with fish on the scale"
        return
    tare = tare if tare is not None else weight(rules.get("bag_tare", 0), unit)
    if gross < tare:
        yield "gross below the tare"
    if removed < legal and len(largest) < removed:
        yield "fewer largest weights than the rules take away"
    if largest != sorted(largest, reverse=True) or sum(largest) > gross - tare:
        yield "largest weights that are not largest first, or add up to more than the net"
    if big is not None and big > gross - tare - sum(largest[:removed]):
        yield "a big fish heavier than what counts"


def _replacements(book: Book) -> Iterator[str]:
    slips = {slip["slip"]: slip for slip in book["Slips"]}
    if len(slips) < len(book["Slips"]):
        yield "Slips: a number is used twice"
    gone = Counter(slip["replaces"] for slip in book["Slips"] if slip.get("replaces"))
    for slip in book["Slips"]:
        old = slip.get("replaces")
        if old is None:
            if slip.get("void") == "yes":
                yield f"Slips: the void {slip['slip']} takes nothing out"
            continue
        if old not in slips or slips[old]["boat"] != slip["boat"] or gone[old] > 1:
            yield f"Slips: slip {slip['slip']} replaces {old}, which it cannot"
        if not slip.get("reason"):
            yield f"Slips: slip {slip['slip']} gives no reason"
        path = [slip["slip"]]
        while (at := slips.get(path[-1], {}).get("replaces")) and at not in path:
            path.append(at)
        if at:
            yield f"Slips: slip {slip['slip']} goes round in a circle"
    current = Counter(
        (slip["day"], slip["boat"]) for slip in book["Slips"] if slip["slip"] not in gone and slip.get("void") != "yes"
    )
    yield from (f"Slips: boat {boat} has two current slips on day {day}" for (day, boat), n in current.items() if n > 1)


def _care(book: Book) -> Iterator[str]:
    boats, days = {team["boat"] for team in book["Teams"]}, {day["day"] for day in book["Days"]}
    notes = book.get("Fish care", [])
    for (day, boat), count in Counter((note["day"], note["boat"]) for note in notes).items():
        if count > 1 or boat not in boats or day not in days:
            yield f"Fish care: {count} notes for boat {boat} on day {day}"
    for note in notes:
        if (note.get("reflexes_absent") or 0) > (note.get("reflexes_checked") or 0):
            yield f"Fish care: boat {note['boat']} has more reflexes absent than checked"
        if note.get("launched") and note.get("first_fish") and note["launched"] > note["first_fish"]:
            yield f"Fish care: boat {note['boat']} has its first fish before its launch"
    yield from (f"Tanks: an unknown day {tank['day']}" for tank in book.get("Tanks", []) if tank["day"] not in days)
    for pen in book.get("Holding", []):
        if pen["dead"] + (pen.get("missing") or 0) > pen["held"]:
            yield f"Holding: pen {pen.get('pen')} lost more fish than it held"

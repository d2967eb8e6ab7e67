"""Random valid events as sheets of texts, the same for the same seed.

`random_event(seed)` gives sheet name -> rows; `workbook.write` makes the file of them. Weights are coarse in
half of the events so that teams tie; every sixth event is lean: only what the workbook contract requires.
"""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from .clock import Day
from .places import may_weigh
from .random_care import care_notes, holding_pens, tank_readings
from .random_roll import check_ins
from .random_rules import TIE_KEYS, random_rules
from .random_slips import SlipMaker
from .reading import due_time, read_days, read_teams
from .rule_sheet import read_rules
from .spelling import yes_text

Rows = list[dict[str, str]]
Sheets = dict[str, Rows]

# Ordinary dates, and those on which the clocks of Chicago or Berlin change in the night
DATES = ["2026-05-02", "2026-06-13", "2026-03-07", "2026-10-31", "2026-10-24", "2025-11-01", "2027-03-13"]
CHANGES = ["2026-10-31", "2026-10-31", "2026-03-07"]
NIGHTS = [("19:00", "01:30"), ("18:30", "03:15"), ("20:00", "01:45")]
HOURS = [("06:00", "15:00"), ("05:30", "14:30"), ("00:30", "09:15"), *NIGHTS]


def random_event(seed: int) -> Sheets:
    """The sheets of one event."""
    rng = Random(f"second reading {seed}")
    if seed % 6 == 5:
        return _lean_event(rng, seed)
    while True:
        try:
            return _full_event(rng, seed)
        except MissingTime:
            continue


class MissingTime(Exception):
    """A start or due time that its day's clock does not show."""


def _key_rows(values: dict[str, str]) -> Rows:
    return [{"key": key, "value": value} for key, value in values.items()]


def _lean_event(rng: Random, seed: int) -> Sheets:
    """Required keys and columns, no rules, one day."""
    unit = rng.choice(["lb", "lb-oz", "kg"])
    sheets: Sheets = {
        "Event": _key_rows(
            {
                "club": "Heron Bend Anglers",
                "season": "2026",
                "event": f"Lean event {seed}",
                "water": "Long Slough",
                "date": rng.choice(DATES),
                "weight_unit": unit,
            }
        ),
        "Teams": [
            {"boat": str(boat), "team": f"Team {boat}", "angler_1": f"Angler {boat}"}
            for boat in rng.sample(range(1, 30), rng.randint(1, 8))
        ],
        "Slips": [],
    }
    if rng.random() < 0.15:  # an event before its weigh-in
        del sheets["Slips"]
        return sheets
    maker = SlipMaker(rng, unit, read_rules({}, unit), lean=True)
    day = read_days(sheets)[1]
    for row in sheets["Teams"]:
        if rng.random() < 0.9:
            sheets["Slips"] += maker.of_team(row, day, day.ends, [])
    return sheets


def _full_event(rng: Random, seed: int) -> Sheets:
    close, clocks = seed % 6 == 1, seed % 6 == 3  # a close finish; a night in which the clocks change
    unit = rng.choice(["lb", "lb-oz", "kg"])
    count = 3 if close else rng.choice([1, 1, 2, 3, 3])
    start, due = rng.choice(NIGHTS if clocks else HOURS)
    boats = rng.sample(range(1, 99), 20 if close else rng.choice([3, 5, 8, 12, 20, 40]))
    event = {
        "club": "Heron Bend Anglers",
        "season": "2026",
        "event": f"Event {seed}",
        "water": "Long Slough",
        "date": rng.choice(CHANGES if clocks else DATES),
        "days": str(count),
        "weight_unit": unit,
        "start_time": start,
        "due_time": due,
        "time_zone": "America/Chicago" if clocks else rng.choice(["America/Chicago", "Europe/Berlin"]),
        "handling": rng.choice(["hold_release", "immediate_release", "harvest"]),
        "elevation_ft": "612",
        "entry_fee": rng.choice(["0", "60.00", "60.00", "80", "45.55", "33.33"]),
        "added_money": rng.choice(["0", "250.00", "17.77"]),
        "permit": "P-77",
        "note": "made at random",
    }
    if rng.random() < 0.7:
        event["lake_temp"] = _lake(rng)
    rules = random_rules(rng, unit, count, len(boats))
    if close:
        rules["ties"] = TIE_KEYS[seed // 6 % len(TIE_KEYS)]
    sheets: Sheets = {"Event": _key_rows(event), "Rules": _key_rows(rules)}
    _drop_defaults(rng, sheets["Event"])
    if close or rng.random() < 0.6:
        sheets["Days"] = _days(rng, event, count)
    if close:  # the first or the last day is cancelled
        cancelled = {"first_day": "1", "last_day": "3"}.get(rules["ties"]) or rng.choice(["1", "3"])
        sheets["Days"] = [{"day": cancelled, "status": "cancelled"}, {"day": "2", "status": "fished"}]
    days = read_days(sheets)
    _check_clock(days)
    flights = _flights(rng, days) if rng.random() < 0.5 else []
    if flights:
        sheets["Flights"] = flights
    sheets["Teams"] = _teams(rng, boats, sorted({row["flight"] for row in flights}))
    sheets["Slips"] = []
    maker = SlipMaker(rng, unit, read_rules(rules, unit), close=close)
    roll: Rows = []
    if rng.random() < 0.6:
        sheets["Check-ins"] = roll
    _weigh_in(rng, sheets, days, maker)
    _loosen(rng, sheets["Slips"])
    if maker.rules["cut_after_day"] is None:  # which was reckoned without these
        _excuse(Random(f"excuses {seed}"), sheets["Slips"])
    if rng.random() < 0.8:
        sheets["Fish care"] = care_notes(rng, sheets["Teams"], days, maker)
    if rng.random() < 0.4:
        sheets["Tanks"] = tank_readings(rng, days)
    if rng.random() < 0.6:
        sheets["Holding"] = holding_pens(rng)
    return {name: rows for name, rows in sheets.items() if rows or name in ("Teams", "Slips")}


def _lake(rng: Random) -> str:
    # 23.9 C is 75.02 F, 27 C is 80.6 F and 30 C is 86 F: values at and about the limits of the checks
    return rng.choice(["75 F", "75 F", "23.9 C", "27 C", "27 C", "82 F", "86 F", "30 C", "68 F", "27.8 C"])


def _drop_defaults(rng: Random, rows: Rows) -> None:
    """Leave some optional keys out, or empty."""
    for row in list(rows):
        if row["key"] in ("handling", "elevation_ft", "entry_fee", "added_money", "permit", "note"):
            if rng.random() < 0.2:
                rows.remove(row)
            elif rng.random() < 0.1:
                row["value"] = ""


def _days(rng: Random, event: dict[str, str], count: int) -> Rows:
    first = date.fromisoformat(event["date"])
    gap = rng.choice([1, 1, 7])
    rows = []
    for n in range(1, count + 1):
        row = {
            "day": str(n),
            "status": rng.choice(["fished", "fished", "fished", "shortened", "cancelled", ""]),
        }
        if gap == 7 or rng.random() < 0.7:
            row["date"] = (first + timedelta(days=gap * (n - 1))).isoformat()
        if rng.random() < 0.3:
            row["lake_temp"] = _lake(rng)
        if row["status"] == "shortened" and event["due_time"] > event["start_time"]:
            row["due_time"] = f"{int(event['due_time'][:2]) - 2:02d}:00"
            if rng.random() < 0.5:
                row["start_time"] = f"{int(event['start_time'][:2]) + 1:02d}:20"
        elif row["status"] == "shortened" and rng.random() < 0.5:
            row["due_time"] = "23:30"  # a night that ends before midnight
        if rng.random() < 0.3:
            row |= {"air_temp": "91 F", "weather": "overcast, wind S"}
        if n > 1 and gap == 1 and rng.random() < 0.1:
            continue  # a day without a row follows the first date
        rows.append(row)
    return rows


def _check_clock(days: dict[int, Day]) -> None:
    for day in days.values():
        try:
            if day.starts >= day.ends:
                raise MissingTime
        except ValueError as error:
            raise MissingTime from error


def _flights(rng: Random, days: dict[int, Day]) -> Rows:
    """Two or three flights, each for every day or day by day, due at or after the day's due time."""
    rows: Rows = []
    for n, name in enumerate(rng.choice([["1", "2", "3"], ["A", "B"], ["Early", "Late"]])):
        every = rng.random() < 0.7
        of_days = [None, *(d for d in days if rng.random() < 0.3)] if every else [d for d in days if rng.random() < 0.7]
        for number in of_days:
            for_days = [days[number]] if number else list(days.values())
            due = _later(for_days[0], 20 * n + rng.choice([0, 10]))
            if _usable(due, for_days):
                row = {"flight": name, "due_time": due, "launch": for_days[0].start.strftime("%H:%M")}
                if rng.random() < 0.4:
                    del row["launch"]
                rows.append(row | ({"day": str(number)} if number else {}))
    rng.shuffle(rows)
    return rows


def _later(day: Day, added: int) -> str:
    total = day.due.hour * 60 + day.due.minute + added
    return f"{total // 60 % 24:02d}:{total % 60:02d}"


def _usable(due: str, days: list[Day]) -> bool:
    try:
        return all(day.moment(due) >= day.ends for day in days)
    except ValueError:
        return False


def _teams(rng: Random, boats: list[int], flights: list[str]) -> Rows:
    rows = []
    money = rng.choice([0.9, 0.9, 0.9, 0.9, 0.5, 0.5, 0.5, 0.0])
    for boat in boats:
        row = {"boat": str(boat), "team": f"Team {boat}", "angler_1": f"Angler {boat} A"}
        if rng.random() < 0.7:
            row["angler_2"] = f"Angler {boat} B"
        if rng.random() < 0.2:
            row["angler_3"] = f"Angler {boat} C"
        if flights and rng.random() < 0.85:
            row["flight"] = rng.choice(flights)
        row["youth"] = rng.choice(["", yes_text(rng, rng.random() < 0.2)])
        row["paid"] = rng.choice(["", yes_text(rng, False)]) if rng.random() > money else yes_text(rng, True)
        row["big_fish_pot"] = rng.choice(["", yes_text(rng, rng.random() < 0.8)])
        row["status"] = rng.choice(["entered"] * 9 + [""] * 9 + ["withdrawn", "absent", "disqualified"])
        if rng.random() < 0.6:
            row["lot"] = str(rng.randint(1, 12))
        if rng.random() < 0.1:
            row["note"] = "sponsor's boat, paid in cash"
        rows.append(row)
    return rows


def _loosen(rng: Random, slips: Rows) -> None:
    """Slip numbers that nothing names may be missing, and rows may stand in any order."""
    if rng.random() < 0.2:
        named = {row.get("replaces") for row in slips}
        for row in slips:
            if row["slip"] not in named and "replaces" not in row:
                del row["slip"]
    if rng.random() < 0.1:
        rng.shuffle(slips)


def _excuse(rng: Random, slips: Rows) -> None:
    """Excuses that stand alone on slips, beside the time of the check-in table."""
    for row in slips:
        if not {"checked_in", "minutes_late", "void"} & row.keys() and rng.random() < 0.4:
            row["excused_minutes"] = str(rng.choice([0, 1, 7]))


def _weigh_in(rng: Random, sheets: Sheets, days: dict[int, Day], maker: SlipMaker) -> None:
    """Day by day, so that nobody who missed the cut weighs after it."""
    rules = maker.rules
    cut = rules["cut_after_day"]
    no_fish = rng.choice([0.05, 0.3])
    quiet = {row["boat"] for row in sheets["Teams"] if rng.random() < 0.07}
    for day in days.values():
        if day.cancelled:
            if "Check-ins" in sheets:  # boats were out when it was called off
                sheets["Check-ins"] += check_ins(rng, sheets["Teams"][0]["boat"], day, day.ends)
            continue
        after = cut is not None and day.number > cut
        teams = {team.boat: team for team in read_teams(sheets, rules, days)} if after else {}
        for row in sheets["Teams"]:
            status = row["status"] or "entered"
            if status == "absent" or row["boat"] in quiet or rng.random() < 0.08:
                continue
            if status != "entered" and (day.number > 1 or rng.random() < 0.5):
                continue
            if after and not may_weigh(teams[int(row["boat"])], list(teams.values()), rules):
                continue
            due = due_time(sheets, row.get("flight"), day)
            others = [other["boat"] for other in sheets["Teams"] if other is not row]
            sheets["Slips"] += maker.of_team(row, day, due, others, no_fish)
            if "Check-ins" in sheets and rng.random() < 0.7:
                sheets["Check-ins"] += check_ins(rng, row["boat"], day, maker.trips[day.number, row["boat"]].checked_in)

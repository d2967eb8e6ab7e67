"""Random valid events as sheets of texts, the same for the same seed.

`random_event(seed)` gives sheet name -> rows; `workbook.write` makes the file of them. Weights are coarse in
half of the events so that teams tie; every sixth event is lean: only what the workbook contract requires. Every
value is drawn under a name of its own (`chance.py`), so that a further column or rule shifts no other value.
"""

from __future__ import annotations

from datetime import date, timedelta
from itertools import count as every_number

from ..clock import Day
from ..places import may_weigh
from ..reading import due_time, read_days, read_teams
from ..rule_sheet import read_rules
from .chance import Chance
from .random_care import care_notes, holding_pens, tank_readings
from .random_roll import check_ins
from .random_rules import TIE_KEYS, random_rules
from .random_slips import SlipMaker
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
    rng = Chance(f"second reading {seed}")
    if seed % 6 == 5:
        return _lean_event(rng, seed)
    for attempt in every_number():
        try:
            return _full_event(rng.of(attempt), seed)
        except MissingTime:
            continue
    raise AssertionError("some attempt holds no missing time")


class MissingTime(Exception):
    """A start or due time that its day's clock does not show."""


def _key_rows(values: dict[str, str]) -> Rows:
    return [{"key": key, "value": value} for key, value in values.items()]


def _lean_event(rng: Chance, seed: int) -> Sheets:
    """Required keys and columns, no rules, one day."""
    unit = rng.pick("unit", ["lb", "lb-oz", "kg"])
    sheets: Sheets = {
        "Event": _key_rows(
            {
                "club": "Heron Bend Anglers",
                "season": "2026",
                "event": f"Lean event {seed}",
                "water": "Long Slough",
                "date": rng.pick("date", DATES),
                "weight_unit": unit,
            }
        ),
        "Teams": [
            {"boat": str(boat), "team": f"Team {boat}", "angler_1": f"Angler {boat}"}
            for boat in rng.of("boats").sample(range(1, 30), rng.of("how many").randint(1, 8))
        ],
        "Slips": [],
    }
    if rng.happens("before its weigh-in", 0.15):
        del sheets["Slips"]
        return sheets
    maker = SlipMaker(rng.of("slips"), unit, read_rules({}, unit), lean=True)
    day = read_days(sheets)[1]
    for row in sheets["Teams"]:
        if rng.of(row["boat"]).happens("weighs", 0.9):
            sheets["Slips"] += maker.of_team(row, day, day.ends, [])
    return sheets


def _full_event(rng: Chance, seed: int) -> Sheets:
    close, clocks = seed % 6 == 1, seed % 6 == 3  # a close finish; a night in which the clocks change
    unit = rng.pick("unit", ["lb", "lb-oz", "kg"])
    count = 3 if close else rng.pick("days", [1, 1, 2, 3, 3])
    start, due = rng.pick("hours", NIGHTS if clocks else HOURS)
    boats = rng.of("boats").sample(range(1, 99), 20 if close else rng.pick("how many", [3, 5, 8, 12, 20, 40]))
    event = {
        "club": "Heron Bend Anglers",
        "season": "2026",
        "event": f"Event {seed}",
        "water": "Long Slough",
        "date": rng.pick("date", CHANGES if clocks else DATES),
        "days": str(count),
        "weight_unit": unit,
        "start_time": start,
        "due_time": due,
        "time_zone": "America/Chicago" if clocks else rng.pick("time_zone", ["America/Chicago", "Europe/Berlin"]),
        "handling": rng.pick("handling", ["hold_release", "immediate_release", "harvest"]),
        "elevation_ft": "612",
        "entry_fee": rng.pick("entry_fee", ["0", "60.00", "60.00", "80", "45.55", "33.33"]),
        "added_money": rng.pick("added_money", ["0", "250.00", "17.77"]),
        "permit": "P-77",
        "note": "made at random",
    }
    if rng.happens("lake_temp", 0.7):
        event["lake_temp"] = _lake(rng)
    rules = random_rules(rng.of("rules"), unit, count, len(boats))
    if close:
        rules["ties"] = TIE_KEYS[seed // 6 % len(TIE_KEYS)]
    sheets: Sheets = {"Event": _key_rows(event), "Rules": _key_rows(rules)}
    _drop_defaults(rng.of("event"), sheets["Event"])
    if close or rng.happens("days sheet", 0.6):
        sheets["Days"] = _days(rng.of("days"), event, count)
    if close:  # the first or the last day is cancelled
        cancelled = {"first_day": "1", "last_day": "3"}.get(rules["ties"]) or rng.pick("cancelled", ["1", "3"])
        sheets["Days"] = [{"day": cancelled, "status": "cancelled"}, {"day": "2", "status": "fished"}]
    days = read_days(sheets)
    _check_clock(days)
    flights = _flights(rng.of("flights"), days) if rng.happens("flights sheet", 0.5) else []
    if flights:
        sheets["Flights"] = flights
    sheets["Teams"] = _teams(rng.of("teams"), boats, sorted({row["flight"] for row in flights}))
    sheets["Slips"] = []
    maker = SlipMaker(rng.of("slips"), unit, read_rules(rules, unit), close=close)
    roll: Rows = []
    if rng.happens("check-ins", 0.6):
        sheets["Check-ins"] = roll
    _weigh_in(rng.of("weigh-in"), sheets, days, maker)
    if maker.rules["cut_after_day"] is None:  # which was reckoned without these
        _excuse(rng.of("excuses"), sheets["Slips"])
    _loosen(rng.of("loosen"), sheets["Slips"])
    if rng.happens("care", 0.8):
        sheets["Fish care"] = care_notes(rng.of("care"), sheets["Teams"], days, maker)
    if rng.happens("tanks", 0.4):
        sheets["Tanks"] = tank_readings(rng.of("tanks"), days)
    if rng.happens("holding", 0.6):
        sheets["Holding"] = holding_pens(rng.of("holding"))
    return {name: rows for name, rows in sheets.items() if rows or name in ("Teams", "Slips")}


def _lake(rng: Chance) -> str:
    # 23.9 C is 75.02 F, 27 C is 80.6 F and 30 C is 86 F: values at and about the limits of the checks
    return rng.pick("lake", ["75 F", "75 F", "23.9 C", "27 C", "27 C", "82 F", "86 F", "30 C", "68 F", "27.8 C"])


def _drop_defaults(rng: Chance, rows: Rows) -> None:
    """Leave some optional keys out, or empty."""
    for row in list(rows):
        if row["key"] in ("handling", "elevation_ft", "entry_fee", "added_money", "permit", "note"):
            if rng.of(row["key"]).happens("left out", 0.2):
                rows.remove(row)
            elif rng.of(row["key"]).happens("empty", 0.1):
                row["value"] = ""


def _days(rng: Chance, event: dict[str, str], count: int) -> Rows:
    first = date.fromisoformat(event["date"])
    gap = rng.pick("gap", [1, 1, 7])
    rows = []
    for n in range(1, count + 1):
        own = rng.of(n)
        row = {
            "day": str(n),
            "status": own.pick("status", ["fished", "fished", "fished", "shortened", "cancelled", ""]),
        }
        if gap == 7 or own.happens("date", 0.7):
            row["date"] = (first + timedelta(days=gap * (n - 1))).isoformat()
        if own.happens("lake_temp", 0.3):
            row["lake_temp"] = _lake(own)
        if row["status"] == "shortened" and event["due_time"] > event["start_time"]:
            row["due_time"] = f"{int(event['due_time'][:2]) - 2:02d}:00"
            if own.happens("start_time", 0.5):
                row["start_time"] = f"{int(event['start_time'][:2]) + 1:02d}:20"
        elif row["status"] == "shortened" and own.happens("ends before midnight", 0.5):
            row["due_time"] = "23:30"
        if own.happens("weather", 0.3):
            row |= {"air_temp": "91 F", "weather": "overcast, wind S"}
        if n > 1 and gap == 1 and own.happens("no row", 0.1):
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


def _flights(rng: Chance, days: dict[int, Day]) -> Rows:
    """Two or three flights, each for every day or day by day, due at or after the day's due time."""
    rows: Rows = []
    for n, name in enumerate(rng.pick("names", [["1", "2", "3"], ["A", "B"], ["Early", "Late"]])):
        every = rng.of(n).happens("every day", 0.7)
        own = [d for d in days if rng.of(n, d).happens("own due time", 0.3 if every else 0.7)]
        for number in [None, *own] if every else own:
            for_days = [days[number]] if number else list(days.values())
            due = _later(for_days[0], 20 * n + rng.of(n, number).pick("later", [0, 10]))
            if _usable(due, for_days):
                row = {"flight": name, "due_time": due, "launch": for_days[0].start.strftime("%H:%M")}
                if rng.of(n, number).happens("no launch", 0.4):
                    del row["launch"]
                rows.append(row | ({"day": str(number)} if number else {}))
    rng.of("order").shuffle(rows)
    return rows


def _later(day: Day, added: int) -> str:
    total = day.due.hour * 60 + day.due.minute + added
    return f"{total // 60 % 24:02d}:{total % 60:02d}"


def _usable(due: str, days: list[Day]) -> bool:
    try:
        return all(day.moment(due) >= day.ends for day in days)
    except ValueError:
        return False


def _teams(rng: Chance, boats: list[int], flights: list[str]) -> Rows:
    rows = []
    money = rng.pick("money", [0.9, 0.9, 0.9, 0.9, 0.5, 0.5, 0.5, 0.0])
    for boat in boats:
        own = rng.of(boat)
        row = {"boat": str(boat), "team": f"Team {boat}", "angler_1": f"Angler {boat} A"}
        if own.happens("angler_2", 0.7):
            row["angler_2"] = f"Angler {boat} B"
        if own.happens("angler_3", 0.2):
            row["angler_3"] = f"Angler {boat} C"
        if flights and own.happens("flight", 0.85):
            row["flight"] = own.pick("which flight", flights)

        def perhaps(column: str, share: float, own: Chance = own) -> str:
            """Yes or no, or nothing written."""
            return own.pick(column, ["", yes_text(own.of(column, "spelt"), own.happens(f"is {column}", share))])

        row["youth"] = perhaps("youth", 0.2)
        row["paid"] = yes_text(own.of("has paid"), True) if own.happens("paid", money) else perhaps("paid", 0)
        row["big_fish_pot"] = perhaps("big_fish_pot", 0.8)
        row["status"] = own.pick("status", ["entered"] * 9 + [""] * 9 + ["withdrawn", "absent", "disqualified"])
        if own.happens("lot", 0.6):
            row["lot"] = str(own.of("which lot").randint(1, 12))
        if own.happens("note", 0.1):
            row["note"] = "sponsor's boat, paid in cash"
        rows.append(row)
    return rows


def _loosen(rng: Chance, slips: Rows) -> None:
    """Slip numbers that nothing names may be missing, and rows may stand in any order."""
    if rng.happens("no numbers", 0.2):
        named = {row.get("replaces") for row in slips}
        for row in slips:
            if row["slip"] not in named and "replaces" not in row:
                del row["slip"]
    if rng.happens("any order", 0.1):
        rng.of("order").shuffle(slips)


def _excuse(rng: Chance, slips: Rows) -> None:
    """Excuses that stand alone on slips, beside the time of the check-in table."""
    for row in slips:
        own = rng.of(row["slip"])
        if not {"checked_in", "minutes_late", "void"} & row.keys() and own.happens("excused", 0.4):
            row["excused_minutes"] = str(own.pick("minutes", [0, 1, 7]))


def _weigh_in(rng: Chance, sheets: Sheets, days: dict[int, Day], maker: SlipMaker) -> None:
    """Day by day, so that nobody who missed the cut weighs after it."""
    rules = maker.rules
    cut = rules["cut_after_day"]
    no_fish = rng.pick("no fish", [0.05, 0.3])
    quiet = {row["boat"] for row in sheets["Teams"] if rng.of(row["boat"]).happens("quiet", 0.07)}
    for day in days.values():
        if day.cancelled:
            if "Check-ins" in sheets:  # boats were out when it was called off
                sheets["Check-ins"] += check_ins(rng.of(day.number), sheets["Teams"][0]["boat"], day, day.ends)
            continue
        after = cut is not None and day.number > cut
        teams = {team.boat: team for team in read_teams(sheets, rules, days)} if after else {}
        for row in sheets["Teams"]:
            status, own = row["status"] or "entered", rng.of(day.number, row["boat"])
            if status == "absent" or row["boat"] in quiet or own.happens("not weighed", 0.08):
                continue
            if status != "entered" and (day.number > 1 or own.happens("out before the weigh-in", 0.5)):
                continue
            if after and not may_weigh(teams[int(row["boat"])], list(teams.values()), rules):
                continue
            due = due_time(sheets, row.get("flight"), day)
            others = [other["boat"] for other in sheets["Teams"] if other is not row]
            sheets["Slips"] += maker.of_team(row, day, due, others, no_fish)
            if "Check-ins" in sheets and own.happens("checked in", 0.7):
                came = maker.trips[day.number, row["boat"]].checked_in
                sheets["Check-ins"] += check_ins(own.of("roll"), row["boat"], day, came)

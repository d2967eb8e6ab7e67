"""March, April and May: a cold start, two days with a cut, and fish on the banks."""

from random import Random

from .book import Book, late_by, no_fish
from .clubs import MERROW, OSPERRY, QUILL
from .entering import SEASON_RULES, draw, minutes, open_book, tank_readings
from .fishing import Conditions, fish_day
from .level import leaders, one_more, tie_at
from .scales import OUNCES, POUNDS

# Every key of a rule sheet stands here, so that one event shows them all.
FULL_RULES = {
    "species": "crappie", "fish_limit": "7", "bag_tare": "0.30", "boat_limit": "15", "minimum_length_in": "10",
    "dead_fish": "penalty", "dead_fish_penalty": "0.25", "dead_fish_big_fish": "no",
    "short_fish": "penalty", "short_fish_penalty": "1.00", "over_limit": "disqualify_day", "over_limit_penalty": "1.00",
    "late_penalty_per_minute": "1.00", "late_grace_minutes": "0", "late_disqualify_after_minutes": "15",
    "late_reduces_big_fish": "no", "live_fish_bonus": "0", "negative_totals": "floor",
    "ties": "big_fish, live_fish, share", "cut_after_day": "none", "cut_keep": "none",
    "places_paid": "1 per 5", "payback_percent": "80", "place_shares": "none", "rounding": "5.00",
    "big_fish_pot_fee": "10", "big_fish_shares": "100",
    "points_table": "none", **SEASON_RULES, "points_absent_below_last": "none", "points_per_pound": "0", "season_ties": "big_fish, total_weight, share",
    "care_warm_f": "75", "care_max_cooling_f": "7", "care_min_do": "5.0", "care_max_bag_minutes": "10",
    "care_max_held_minutes": "none", "care_stop_percent": "10", "deep_fish_kept_ft": "none", "measured_lengths_above": "none",
}  # fmt: skip


def icebreaker(rng: Random) -> Book:
    """March at Lake Osperry: two teams level at the last paid place, one boat seven seconds late."""
    absent, withdrawn, unweighed, empty = "Sunday Shift", "First Frost", "Late Start", "Bank Job"
    boats, teams = draw(rng, {"Shiners"}, unpaid={"Quiet Motor", "Pier Pressure", absent})
    book = open_book(
        "01-icebreaker.xlsx", POUNDS,
        {
            "event": "Icebreaker", "water": OSPERRY, "date": "2026-03-14", "start_time": "07:00", "due_time": "15:00",
            "handling": "hold_release", "elevation_ft": 640, "lake_temp": "54 F", "entry_fee": 60, "added_money": 200,
            "permit": "Written consent of the lake warden on file, number 26-014",
        },
        FULL_RULES,
        [{"day": 1, "date": "2026-03-14", "lake_temp": "54 F", "air_temp": "47 F", "weather": "Overcast, wind north-west 9 mph", "status": "fished"}],
        teams,
    )  # fmt: skip
    for name in (absent, withdrawn):
        book.say(name, status="absent" if name == absent else "withdrawn", big_fish_pot="no")
    book.say(withdrawn, note="Outboard would not start; told the desk before launch")
    book.say(unweighed, note="Released the fish on the water")
    fishing = [boat for boat in boats if boat[1].name not in (absent, withdrawn)]
    at = Conditions(54, minutes("07:00"), minutes("15:00"), 1.12, bag=(4, 8), deepest=26, crowded=0.15)
    day = fish_day(rng, 1, fishing, at, POUNDS)
    no_fish(day[empty])
    short = day["Tangled Early"]
    short.fish, short.short = [(weight, False) for weight, _ in short.fish], 1
    late_by(day["Knot Again"], minutes("15:00"), 7)
    odd = {"Tangled Early", "Knot Again", unweighed, empty}
    paid = {t["team"] for t in teams if t["paid"] == "yes"}
    plain = {name: catch for name, catch in day.items() if name not in odd}
    tie_at(plain, len(paid) // 5, paid, 25)
    book.lay_down(day, no_care=("Old Rope", "Bobber Down"))
    book.void(unweighed, "Slip written for the wrong boat: this team never came to the table")
    right = book.slip_of("Stump Field")
    book.mistake("Stump Field", "Keyed a pound too high; the paper slip agrees with this one", gross=right["gross"] + 1)
    book.tanks = tank_readings(rng, 1, "15:00", 54, 0, 0.5, 90)
    return book


def dogwood(rng: Random) -> Book:
    """April at Quill Reservoir: two days, two flights, fifteen boats left after the cut."""
    boats, teams = draw(rng, {"Cold Coffee", "Dip Net Cousins"}, unpaid={"Borrowed Boat"})
    for row in teams:
        row["flight"] = "A" if row["boat"] <= 15 else "B"
    book = open_book(
        "02-dogwood-two-day.xlsx", POUNDS,
        {
            "event": "Dogwood Two-Day", "water": QUILL, "date": "2026-04-18", "start_time": "06:30", "due_time": "15:00",
            "elevation_ft": 710, "lake_temp": "62 F", "entry_fee": 90, "added_money": 300,
        },
        {
            "bag_tare": "0.30", "cut_after_day": "1", "cut_keep": "15", "places_paid": "6", "place_shares": "34, 22, 16, 12, 9, 7",
            "payback_percent": "85", "rounding": "5", "big_fish_pot_fee": "10", "big_fish_shares": "70, 30",
            "ties": "big_fish, first_day, share", "late_penalty_per_minute": "0.50",
        },
        [
            {"day": 1, "date": "2026-04-18", "lake_temp": "62 F", "air_temp": "66 F", "weather": "Clear, light south wind", "status": "fished"},
            {"day": 2, "date": "2026-04-19", "due_time": "14:00", "lake_temp": "63 F", "air_temp": "64 F", "weather": "Showers until ten, then still", "status": "fished", "note": "Last day ends an hour early for the prizes"},
        ],
        teams,
    )  # fmt: skip
    book.flights = [
        {"flight": "A", "day": 2, "launch": "06:30", "due_time": "13:30"},
        {"flight": "B", "day": 2, "launch": "06:50", "due_time": "14:00"},
        {"flight": "A", "launch": "06:30", "due_time": "14:30"},
        {"flight": "B", "launch": "06:50", "due_time": "15:00"},
    ]
    later = {boat: 25 for boat, _ in boats if boat > 15}
    first = fish_day(rng, 1, boats, Conditions(62, minutes("06:30"), minutes("14:30"), 1.16, bag=(4, 9)), POUNDS, later)
    no_fish(first["Weather Permitting"])
    book.lay_down(first, no_care=("Mud Line",))
    stay = leaders(first, 15, 25)
    on = [boat for boat in boats if boat[1].name in stay]
    second = fish_day(rng, 2, on, Conditions(63, minutes("06:30"), minutes("13:30"), 1.1, bag=(4, 9)), POUNDS, later)
    book.lay_down(second)
    out = sorted(second)[3]
    book.mistake(out, "A live fish was counted dead; both officials agree", day=2, **_one_more_dead(book, out))
    book.tanks = tank_readings(rng, 1, "14:30", 62, 0, 0.5, 110) + tank_readings(rng, 2, "13:30", 63, 0, 0.5, 70)
    return book


def _one_more_dead(book: Book, name: str) -> dict[str, int]:
    slip = book.slip_of(name, 2)
    return {"alive": slip["alive"] - 1, "dead": slip["dead"] + 1}


def spawn(rng: Random) -> Book:
    """May at Merrow Lake, weighed in pounds and ounces: a short fish and a fish too many, each at the price of the largest."""
    boats, teams = draw(rng, {"Mud Line", "Nine Foot of Water", "Ledge Nine"}, unpaid={"Late Start"})
    book = open_book(
        "03-bank-spawn.xlsx", OUNCES,
        {
            "event": "Bank Spawn Open", "water": MERROW, "date": "2026-05-16", "start_time": "06:00", "due_time": "14:30",
            "elevation_ft": 590, "lake_temp": "71 F", "entry_fee": 60, "added_money": 150,
            "permit": "One live crappie may stay in the visitor center's tank",
        },
        {
            "minimum_length_in": "10", "bag_tare": "0-05", "dead_fish_penalty": "0-04, 0-08", "short_fish": "lose_largest",
            "over_limit": "remove_largest", "late_penalty_per_minute": "1-00", "places_paid": "1 per 5", "payback_percent": "80",
            "rounding": "5", "big_fish_pot_fee": "10",
        },
        [{"day": 1, "date": "2026-05-16", "lake_temp": "71 F", "air_temp": "74 F", "weather": "Sun and cloud, wind south 6 mph", "status": "fished"}],
        teams,
    )  # fmt: skip
    book.say("Half a Bucket", status="withdrawn", note="Called away before noon", big_fish_pot="no")
    fishing = [boat for boat in boats if boat[1].name != "Half a Bucket"]
    at = Conditions(71, minutes("06:00"), minutes("14:30"), 1.2, bag=(5, 10), tare=0.3125, iced=0.2, lightest=0.6)
    day = fish_day(rng, 1, fishing, at, OUNCES)
    no_fish(day["Shiners"])
    short = day["Pier Pressure"]
    short.fish, short.short, short.removed = [(weight, False) for weight, _ in short.fish], 1, 1
    full = day["Two Rods Down"]
    full.fish = [(weight, False) for weight, _ in (full.fish * 2)[:7]]
    full.fish.sort(reverse=True)
    full = day["Two Rods Down"] = one_more(full, full.fish[-1][0] - 2)
    full.removed = 1
    full.extra["note"] = "Eight fish in the bag; the team counted again and agreed"
    guests, hosts = day["Cattail Kids"], day["Young Drakes"]
    guests.extra |= {
        "well_boat": hosts.boat,
        "note": "Fish held in the livewell of the Young Drakes: own pump would not run",
    }
    guests.care |= {"pump_ok": "no", "aeration": "none", "livewell_temp": None, "livewell_do": None, "most_on_board": 0}
    lender = max(day.values(), key=lambda catch: (not catch.dead, catch.fish[:1]))
    lender.extra |= {"kept": 1, "note": "One live fish stays in the visitor center's tank, as the permit allows"}
    book.lay_down(day, no_care=("Creek Mouth",))
    book.tanks = tank_readings(rng, 1, "14:30", 71, 2, 0.5, 120)
    return book

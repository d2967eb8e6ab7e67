"""June and August: two warm mornings, run with the care that July lacked."""

from random import Random

from .book import Book, no_fish
from .clubs import MERROW, OSPERRY
from .entering import draw, minutes, open_book, tank_readings
from .fishing import Conditions, fish_day
from .scales import POUNDS

RULES = {
    "bag_tare": "0.30", "boat_limit": "10", "dead_fish_penalty": "0.25, 0.50", "places_paid": "1 per 5", "payback_percent": "80",
    "rounding": "5", "big_fish_pot_fee": "10", "care_max_held_minutes": "480",
}  # fmt: skip


def long_light(rng: Random) -> Book:
    """June at Lake Osperry, 80 °F: ice in most wells, a line that moves."""
    boats, teams = draw(rng, {"Knot Again", "Mud Line", "Shiners"}, unpaid={"First Frost"})
    book = open_book(
        "09-long-light.xlsx", POUNDS,
        {
            "event": "Long Light", "water": OSPERRY, "date": "2026-06-13", "start_time": "05:30", "due_time": "13:30",
            "elevation_ft": 640, "lake_temp": "80 F", "entry_fee": 60, "added_money": 100,
            "permit": "Written consent of the lake warden on file, number 26-022",
        },
        RULES,
        [{"day": 1, "date": "2026-06-13", "lake_temp": "80 F", "air_temp": "84 F", "weather": "Sun, wind south-west 7 mph", "status": "fished"}],
        teams,
    )  # fmt: skip
    book.say("Bobber Down", status="absent", big_fish_pot="no")
    fishing = [boat for boat in boats if boat[1].name != "Bobber Down"]
    at = Conditions(80, minutes("05:30"), minutes("13:30"), 1.08, bag=(5, 10), iced=0.6, crowded=0.25, pump_fails=0.03)
    day = fish_day(rng, 1, fishing, at, POUNDS)
    no_fish(day["Cattail Kids"])
    book.lay_down(day, no_care=("Creek Mouth",))
    book.tanks = tank_readings(rng, 1, "13:30", 80, 6, 0.5, 110)
    return book


def early_bell(rng: Random) -> Book:
    """August at Merrow Lake, 83 °F: in by eleven, after what July had shown."""
    boats, teams = draw(rng, {"Half a Bucket", "Late Start", "Ledge Nine"}, unpaid={"Borrowed Boat"})
    book = open_book(
        "10-early-bell.xlsx", POUNDS,
        {
            "event": "Early Bell", "water": MERROW, "date": "2026-08-15", "start_time": "05:00", "due_time": "11:00",
            "elevation_ft": 590, "lake_temp": "83 F", "entry_fee": 60, "added_money": 100,
            "note": "A short morning after July; every boat got ice at the ramp.",
        },
        RULES,
        [{"day": 1, "date": "2026-08-15", "lake_temp": "83 F", "air_temp": "88 F", "weather": "Haze, then sun", "status": "fished", "note": "Due at eleven instead of two"}],
        teams,
    )  # fmt: skip
    book.say("Sunday Shift", status="withdrawn", note="Trailer tyre flat on the way", big_fish_pot="no")
    fishing = [boat for boat in boats if boat[1].name != "Sunday Shift"]
    at = Conditions(83, minutes("05:00"), minutes("11:00"), 1.04, bag=(4, 9), iced=0.8, crowded=0.15, pump_fails=0.03)
    day = fish_day(rng, 1, fishing, at, POUNDS)
    no_fish(day["Pier Pressure"])
    book.lay_down(day, no_care=("Old Rope",))
    book.tanks = tank_readings(rng, 1, "11:00", 83, 7, 0.5, 100)
    return book

"""October: cool water, an orderly line, nearly every fish swims off."""

from random import Random

from .book import Book, no_fish
from .clubs import MERROW
from .entering import draw, minutes, open_book, tank_readings
from .fishing import Conditions, fish_day
from .scales import POUNDS


def leaf_fall(rng: Random) -> Book:
    """October at Merrow Lake: all slips are in and nobody has to settle anything."""
    boats, teams = draw(rng, {"Two Rods Down", "Tangled Early"}, unpaid={"Dip Net Cousins"})
    book = open_book(
        "06-leaf-fall.xlsx", POUNDS,
        {
            "event": "Leaf Fall Classic", "water": MERROW, "date": "2026-10-17", "start_time": "07:00", "due_time": "15:00",
            "elevation_ft": 590, "lake_temp": "61 F", "entry_fee": 80, "added_money": 400,
        },
        {
            "bag_tare": "0.30", "boat_limit": "10", "places_paid": "1 per 5", "payback_percent": "85", "rounding": "5",
            "big_fish_pot_fee": "20", "big_fish_shares": "60, 40",
        },
        [{"day": 1, "date": "2026-10-17", "lake_temp": "61 F", "air_temp": "58 F", "weather": "Clear and cool, wind north 4 mph", "status": "fished"}],
        teams,
    )  # fmt: skip
    book.say("Pier Pressure", status="absent", big_fish_pot="no")
    fishing = [boat for boat in boats if boat[1].name != "Pier Pressure"]
    at = Conditions(
        61, minutes("07:00"), minutes("15:00"), 1.18, bag=(3, 7), crowded=0.08, short_catch=0.18, pump_fails=0.0
    )
    day = fish_day(rng, 1, fishing, at, POUNDS)
    no_fish(day["Shiners"])
    book.lay_down(day, no_care=("Bank Job",))
    book.tanks = tank_readings(rng, 1, "15:00", 61, 0, 0.5, 130)
    return book

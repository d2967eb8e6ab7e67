"""Two other clubs with one small event each: another unit, other fish, other rules."""

from random import Random

from .book import Book, no_fish
from .clubs import BASS_CLUB, BASS_TEAMS, TARN, WALLEYE_CLUB, WALLEYE_TEAMS, WITHY
from .entering import ZONE, draw, minutes
from .fishing import Conditions, fish_day
from .scales import KILOGRAMS, POUNDS


def neighbours() -> list[Book]:
    """The books of the two other clubs; the same every time."""
    return [walleye(Random("tarn h")), bass(Random("withy"))]


def walleye(rng: Random) -> Book:
    """June at Tarn Lake: walleye in kilograms, five a team, each weighed in the boat and let go at once."""
    boats, teams = draw(rng, teams=WALLEYE_TEAMS)
    book = Book(
        "07-tarn-walleye.xlsx", KILOGRAMS,
        {
            "club": WALLEYE_CLUB, "season": "2026", "event": "Reef Evening", "water": TARN, "date": "2026-06-06", "days": 1,
            "weight_unit": "kg", "start_time": "13:00", "due_time": "19:00", "time_zone": ZONE, "handling": "immediate_release",
            "lake_temp": "18.5 C", "entry_fee": 40, "note": "A marshal in every boat weighs each fish and sees it swim off",
        },
        {"species": "walleye", "fish_limit": "5", "dead_fish_penalty": "0.1", "places_paid": "3", "payback_percent": "90"},
        [{"day": 1, "date": "2026-06-06", "lake_temp": "18.5 C", "air_temp": "21 C", "weather": "Light wind from the south", "status": "fished"}],
        teams,
    )  # fmt: skip
    at = Conditions(
        65, minutes("13:00"), minutes("19:00"), 2.3, bag=(3, 8), limit=5, spread=0.5, heaviest=6.5, lightest=1.0,
        tare=0, short_catch=0.5, crowded=0, pump_fails=0, crappie=False,
    )  # fmt: skip
    day = fish_day(rng, 1, boats, at, KILOGRAMS)
    no_fish(day["Fog Bell"])
    for catch in day.values():
        catch.held = False
    book.lay_down(day, officials=("Signe Marwood", "Otto Pellering"))
    return book


def bass(rng: Random) -> Book:
    """May at Withy Pool: bass in pounds, five a team, a little more for every live fish."""
    boats, teams = draw(rng, teams=BASS_TEAMS, unpaid={"Far Bank"})
    book = Book(
        "08-withy-bass.xlsx", POUNDS,
        {
            "club": BASS_CLUB, "season": "2026", "event": "Pool Opener", "water": WITHY, "date": "2026-05-30", "days": 1,
            "weight_unit": "lb", "start_time": "06:00", "due_time": "14:00", "time_zone": ZONE, "lake_temp": "73 F", "entry_fee": 50,
        },
        {
            "species": "black bass", "fish_limit": "5", "bag_tare": "0.40", "minimum_length_in": "14", "live_fish_bonus": "0.10",
            "dead_fish_penalty": "0.50", "places_paid": "1 per 4", "big_fish_pot_fee": "10",
        },
        [{"day": 1, "date": "2026-05-30", "lake_temp": "73 F", "air_temp": "78 F", "weather": "Cloud, a little rain", "status": "fished"}],
        teams,
    )  # fmt: skip
    at = Conditions(
        73, minutes("06:00"), minutes("14:00"), 2.2, bag=(4, 9), limit=5, spread=0.55, heaviest=6.0, lightest=1.3, tare=0.4,
        short_catch=0.5, iced=0.3, crappie=False,
    )  # fmt: skip
    day = fish_day(rng, 1, boats, at, POUNDS)
    no_fish(day["Open Hatch"])
    book.lay_down(day, officials=("Ingram Sproat", "Delphine Cawl"))
    return book

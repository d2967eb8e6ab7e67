"""July, when much went wrong, and September, when fish were held to see what became of them."""

from random import Random

from .book import Book, no_fish
from .catch import Row
from .clubs import OSPERRY, QUILL
from .entering import draw, minutes, open_book, tank_readings
from .fishing import Conditions, fish_day
from .scales import POUNDS

CULLED = "A dead fish was culled on the water and seen by two boats: day lost after a written protest"


def high_summer(rng: Random) -> Book:
    """July at Lake Osperry: 86 °F, little ice, a slow line; whole livewells died together."""
    boats, teams = draw(rng, {"Shiners", "Cattail Kids", "Bank Job", "Old Rope"}, unpaid={"Sunday Shift"})
    book = open_book(
        "04-high-summer.xlsx", POUNDS,
        {
            "event": "High Summer", "water": OSPERRY, "date": "2026-07-18", "start_time": "05:30", "due_time": "14:00",
            "elevation_ft": 640, "lake_temp": "86 F", "entry_fee": 60, "added_money": 100,
            "permit": "Written consent of the lake warden on file, number 26-031",
            "note": "Written protest at 15:50 about a fish culled dead near the dam; ruled on the same evening. "
                    "One of the two scales failed at noon, and every bag waited long in the line. The committee will look at "
                    "measured lengths and immediate release for July.",
        },
        {
            "bag_tare": "0.30", "boat_limit": "10", "dead_fish_penalty": "0.25, 0.50", "places_paid": "1 per 5",
            "payback_percent": "80", "rounding": "5", "big_fish_pot_fee": "10", "care_max_held_minutes": "480",
        },
        [{"day": 1, "date": "2026-07-18", "lake_temp": "86 F", "air_temp": "95 F", "weather": "Still and hot, haze", "status": "fished", "note": "Ice at the landing sold out by six"}],
        teams,
    )  # fmt: skip
    book.say("Ledge Nine", status="absent", big_fish_pot="no")
    book.say("Tangled Early", status="withdrawn", note="Turned back because of the heat", big_fish_pot="no")
    book.say("Half a Bucket", note="All fish released on the water before noon")
    stays = {"Ledge Nine", "Tangled Early", "Half a Bucket"}
    fishing = [boat for boat in boats if boat[1].name not in stays]
    at = Conditions(
        86, minutes("05:30"), minutes("14:00"), 1.02, bag=(12, 23), service=2.4, iced=0.3, crowded=0.45, pump_fails=0.08,
        short_catch=0.35,
    )  # fmt: skip
    day = fish_day(rng, 1, fishing, at, POUNDS)
    no_fish(day["Pier Pressure"])
    for catch in day.values():
        alive = len(catch.fish) - catch.dead
        catch.extra["dead_at_release"] = min(alive, int(rng.random() < 0.08))
        if catch.fish and catch.dead == len(catch.fish):
            catch.care["note"] = "Whole livewell lost; water warm to the hand"
    book.lay_down(day, no_care=("Mud Line", "Two Rods Down"))
    accused = "Weather Permitting"
    book.slip_of(accused)["note"] = "Protest by the team Knot Again: a dead fish was culled on the water"
    book.rule_on(accused, "Ruling of the director on the protest of 18 July", disqualified_reason=CULLED)
    fined = book.slip_of("Left of the Dam")
    fined |= {"extra_penalty": 0.5, "extra_penalty_reason": "Ran through the no-wake water by the landing"}
    book.tanks = tank_readings(rng, 1, "14:00", 86, 8, 0.5, 120, low=True)
    return book


def holding_study(rng: Random) -> Book:
    """September at Quill Reservoir: three pens of tournament fish beside three pens of reference fish."""
    boats, teams = draw(rng, {"Six Pole Problem", "Young Drakes", "Bobber Down"}, unpaid={"Bank Job"})
    book = open_book(
        "05-turnover.xlsx", POUNDS,
        {
            "event": "Turnover", "water": QUILL, "date": "2026-09-12", "start_time": "06:30", "due_time": "15:00",
            "elevation_ft": 710, "lake_temp": "77 F", "entry_fee": 60, "added_money": 150,
            "permit": "Holding pens allowed at the north dock for three days",
            "note": "Fish of every third bag went into the pens; reference fish were caught by trap net the day before.",
        },
        {
            "bag_tare": "0.30", "boat_limit": "10", "places_paid": "1 per 5", "payback_percent": "80", "rounding": "5",
            "big_fish_pot_fee": "10",
        },
        [{"day": 1, "date": "2026-09-12", "lake_temp": "77 F", "air_temp": "81 F", "weather": "Broken cloud, wind west 5 mph", "status": "fished"}],
        teams,
    )  # fmt: skip
    book.say("Cold Coffee", status="absent", big_fish_pot="no")
    fishing = [boat for boat in boats if boat[1].name != "Cold Coffee"]
    at = Conditions(77, minutes("06:30"), minutes("15:00"), 1.1, bag=(5, 11), iced=0.75, crowded=0.25)
    day = fish_day(rng, 1, fishing, at, POUNDS)
    no_fish(day["First Frost"])
    book.lay_down(day, no_care=("Slow Drift",))
    book.slip_of("Stump Field")["excused_minutes"] = 10
    book.slip_of("Stump Field")["note"] = "Towed Quiet Motor in from the far bank"
    book.tanks = tank_readings(rng, 1, "15:00", 77, 6, 0.5, 100)
    book.holding = _pens()
    return book


def _pens() -> list[Row]:
    counts = (("tournament", ((20, 2, 0), (20, 3, 0), (19, 1, 1))), ("reference", ((20, 1, 0), (20, 0, 0), (20, 1, 0))))
    rows: list[Row] = []
    for kind, pens in counts:
        for number, (held, dead, missing) in enumerate(pens, start=1):
            row: Row = {"group": f"{kind.title()} fish", "kind": kind, "pen": f"{kind[0].upper()}{number}"}
            row["source"] = "Weighed bags" if kind == "tournament" else "Trap net, day before"
            row |= {"species": "crappie", "started": "2026-09-12 16:30", "hours": 72, "held": held, "dead": dead}
            row |= {"missing": missing, "water_temp": "77 F"}
            if missing:
                row["note"] = "One fish gone through a torn seam, sewn up at the first check"
            rows.append(row)
    return rows

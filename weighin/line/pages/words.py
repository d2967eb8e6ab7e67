"""The line in sentences: what to do now, what a boat's minutes mean, what the figures stand on."""

from dataclasses import dataclass
from datetime import datetime
from math import ceil
from zoneinfo import ZoneInfo

from weighin.events.domain.temperatures import Temperature
from weighin.line.domain.learning import Service
from weighin.line.queries import Line, Standing
from weighin.livewell.bag import minutes_until_floor
from weighin.ui.templatetags.ui import counted, in_words, temperature

LONGEST_SHOWN = 12 * 60
BAG_WATER_L, BAG_FISH_KG = 7.571, 6.804  # 2 gal and 15 lb: the Kansas agency's bag
MASS_G = 300
WARMEST_C = 36
LEFT = "{} min left of the limit"
OVER = "Over the limit by {} min: weigh it next, or put the fish back into moving water."
OVER_AT_SCALES = "Over the limit by {} min, at the scales now."


@dataclass(frozen=True)
class Advice:
    """The finding of the page: its headline, why, and whether the next bag goes out now."""

    headline: str
    why: str
    give: bool


def span(minutes: float) -> str:
    """Minutes with seconds: ``2 min 40 s``."""
    whole, seconds = divmod(round(minutes * 60), 60)
    return f"{whole} min {seconds} s" if whole and seconds else f"{whole} min" if whole else f"{seconds} s"


def about(minutes: float) -> str:
    """Whole minutes, begun ones counted: ``4 minutes``."""
    return counted(max(1, ceil(minutes - 0.01)), "minute")


def plain(minutes: float) -> str:
    """Minutes with a decimal where there is one: ``10``, ``7.5``."""
    return f"{minutes:.1f}".removesuffix(".0")


def advice(line: Line, zone: ZoneInfo, closed: bool) -> Advice:
    """What to do now."""
    bags = line.with_bag
    if closed:
        left = f"{counted(len(bags), 'bag')} never weighed and not taken back. " if bags else ""
        return Advice("The event is closed, and the line with it.", left + _weighed(line), False)
    if line.hold is not None:
        since = f"{line.hold.since.astimezone(zone):%H:%M}"
        return Advice(
            f"The line is held since {since}: no bags out.",
            f"Held by {line.hold.by}. Boats that are checked in stay on time: lateness goes by the check-in alone.",
            False,
        )
    if not line.waiting:
        if bags:
            out = f"{in_words(len(bags)).capitalize()} {'bag is' if len(bags) == 1 else 'bags are'} out."
            return Advice(f"Nobody waits for a bag. {out}", "", False)
        return Advice("Nobody is in the line.", _weighed(line), False)
    first, word = line.waiting[0], line.next_bag
    expected = f"Given now, its fish would be weighed in about {about(word.forecast.in_bag)}"
    limit = plain(line.limit)
    if word.give and word.forecast.careful <= line.limit:
        return Advice(f"Call boat {first.boat}: give it a bag.", f"{expected}; the limit is {limit}.", True)
    if word.give:
        return Advice(
            f"Call boat {first.boat}: give it a bag.",
            f"{expected}, and the limit is {limit}. No boat stands before it: waiting would not make it shorter.",
            True,
        )
    wait = f"No more bags now: wait about {about(word.wait_min)}."
    if word.why == "bags":
        bags_out = (
            "The one bag there is is out." if line.terms.bags == 1 else f"All {in_words(line.terms.bags)} bags are out."
        )
        return Advice(wait, f"{bags_out} Boat {first.boat} is next.", False)
    return Advice(
        wait,
        f"{expected}, {about(word.forecast.careful)} when boats take longer; the limit is {limit}. Boat {first.boat} is next.",
        False,
    )


def stands_on(service: Service, going_on: bool = True) -> str:
    """How long a boat takes, and what that is known from."""
    day = "today" if going_on else "that day"
    if not service.boats:
        return f"A boat is reckoned at {span(service.minutes)} on a scale: assumed, none is measured {day}."
    return (
        f"A boat is reckoned at {span(service.minutes)} on a scale: from {counted(service.boats, 'boat')} measured {day} "
        f"(the middle one {span(service.middle or 0)}) and {span(service.assumed)} assumed before, which counts as three."
    )


def expected_wait(line: Line) -> str:
    """When the next boat to check in may expect to be weighed; blank while the line is held."""
    if line.hold is not None:
        return ""
    return f"A boat that checks in now may expect to be weighed in about {about(line.wait_for_weight)}."


def minutes_in_bag(standing: Standing, now: datetime) -> str:
    """Whole minutes gone, as a watch shows them; after twelve hours a dash, for nobody stands there any more."""
    minutes = standing.minutes_in_bag(now)
    return f"{int(minutes)}" if minutes < LONGEST_SHOWN else "\u2013"


def bag_words(line: Line, standing: Standing) -> str:
    """What a boat's minutes in the bag mean."""
    minutes = standing.minutes_in_bag(line.now)
    if minutes >= LONGEST_SHOWN:
        return "Given long ago and never weighed: take the bag back, or write the slip."
    left = line.limit - minutes
    return over_words(standing).format(max(1, ceil(-left))) if left < 0 else LEFT.format(int(left))


def over_words(standing: Standing) -> str:
    """What a boat over the limit is told, with a place for the minutes."""
    return OVER if standing.at_scales is None else OVER_AT_SCALES


def today(line: Line) -> str:
    """Minutes in the bag of the boats weighed, with how many have both times."""
    found = line.bag_minutes
    if not found.weighed:
        return "No boat is weighed yet."
    if found.middle is None or found.longest is None:
        return f"{counted(found.weighed, 'boat')} weighed, of none of which both times of the bag are written."
    many = "none" if not found.over else in_words(found.over)
    return (
        f"Of {counted(found.weighed, 'boat')} weighed {in_words(found.boats)} {'has' if found.boats == 1 else 'have'} both "
        f"times of the bag: the middle one {plain(found.middle)} min, the longest {plain(found.longest)} min, {many} over "
        f"{plain(found.limit)}."
    )


def bag_oxygen(lake: Temperature | None) -> str:
    """How fast a full bag runs out of oxygen at the lake's temperature; blank where that is not known."""
    if lake is None or lake.celsius > WARMEST_C:
        return ""
    at_rest = minutes_until_floor(
        water_l=BAG_WATER_L, fish_kg=BAG_FISH_KG, mass_g=MASS_G, temperature_c=float(lake.celsius)
    )
    return (
        f"Worked out: shut up with 15 lb of resting sunfishes in 2 gallons at the lake\u2019s "
        f"{temperature(lake.celsius, lake.unit)}, water full of oxygen falls to 5 mg/L in {at_rest.low:.1f} to {at_rest.high:.1f} "
        "minutes; freshly caught fish are several times faster. So aerated tanks along the line, or fewer fish in a bag."
    )


def _weighed(line: Line) -> str:
    if not line.bag_minutes.weighed:
        return "A boat stands here from its check-in until its slip is kept."
    return f"{counted(line.bag_minutes.weighed, 'boat')} weighed on day {line.day}."

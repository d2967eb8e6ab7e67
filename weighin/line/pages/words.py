"""The line in sentences: what to do now, what a boat's minutes mean, what the figures stand on."""

from dataclasses import dataclass
from datetime import datetime
from math import ceil
from zoneinfo import ZoneInfo

from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.events.domain.temperatures import Temperature
from weighin.line.domain.learning import Service
from weighin.line.queries import Line, Standing
from weighin.livewell.bag import minutes_until_floor
from weighin.ui import figures
from weighin.ui.templatetags.ui import in_words, temperature

LONGEST_SHOWN = 12 * 60
BAG_WATER_L, BAG_FISH_KG = 7.571, 6.804  # 2 gal and 15 lb: the Kansas agency's bag
MASS_G = 300
WARMEST_C = 36
LEFT = gettext_lazy("{} min left of the limit")
OVER = gettext_lazy("Over the limit by {} min: weigh it next, or put the fish back into moving water.")
OVER_AT_SCALES = gettext_lazy("Over the limit by {} min, at the scales now.")


@dataclass(frozen=True)
class Advice:
    """The finding of the page: its headline, why, and whether the next bag goes out now."""

    headline: str
    why: str
    give: bool


def span(minutes: float) -> str:
    """Minutes with seconds: ``2 min 40 s``."""
    whole, seconds = divmod(round(minutes * 60), 60)
    if whole and seconds:
        return gettext("%(minutes)s min %(seconds)s s") % {"minutes": whole, "seconds": seconds}
    return gettext("%(minutes)s min") % {"minutes": whole} if whole else gettext("%(seconds)s s") % {"seconds": seconds}


def about(minutes: float) -> str:
    """Whole minutes, begun ones counted: ``4 minutes``."""
    whole = max(1, ceil(minutes - 0.01))
    return ngettext("%(n)s minute", "%(n)s minutes", whole) % {"n": f"{whole:,}"}


def plain(minutes: float) -> str:
    """Minutes with a decimal where there is one: ``10``, ``7.5``."""
    return f"{minutes:.1f}".removesuffix(".0")


def advice(line: Line, zone: ZoneInfo, closed: bool) -> Advice:
    """What to do now."""
    bags = line.with_bag
    if closed:
        left = ngettext(
            "%(n)s bag never weighed and not returned.", "%(n)s bags never weighed and not returned.", len(bags)
        ) % {"n": len(bags)}
        why = f"{left} {_weighed(line)}" if bags else _weighed(line)
        return Advice(gettext("The event is closed, and the line with it."), why, False)
    if line.hold is not None:
        since = figures.clock(line.hold.since, zone)
        return Advice(
            gettext("The line is held since %(since)s: no bags out.") % {"since": since},
            gettext("Held by %(by)s. Boats that are checked in stay on time: lateness goes by the check-in alone.")
            % {"by": line.hold.by},
            False,
        )
    if not line.waiting:
        if bags:
            out = ngettext(
                "Nobody waits for a bag. %(number)s bag is out.",
                "Nobody waits for a bag. %(number)s bags are out.",
                len(bags),
            )
            return Advice(out % {"number": in_words(len(bags)).capitalize()}, "", False)
        return Advice(gettext("Nobody is in the line."), _weighed(line), False)
    first, word = line.waiting[0], line.next_bag
    known = {
        "boat": first.boat,
        "expected": about(word.forecast.in_bag),
        "careful": about(word.forecast.careful),
        "limit": plain(line.limit),
    }
    if word.give:
        why = gettext("Given now, its fish would be weighed in about %(expected)s; the limit is %(limit)s.")
        if word.forecast.careful > line.limit:
            why = gettext(
                "Given now, its fish would be weighed in about %(expected)s, and the limit is %(limit)s. "
                "No boat stands before it: waiting would not make it shorter."
            )
        return Advice(gettext("Call boat %(boat)s: give it a bag.") % known, why % known, True)
    wait = gettext("No more bags now: wait about %(time)s.") % {"time": about(word.wait_min)}
    if word.why == "bags":
        bags_out = gettext("All %(number)s bags are out. Boat %(boat)s is next.")
        if line.terms.bags == 1:
            bags_out = gettext("The one bag there is is out. Boat %(boat)s is next.")
        return Advice(wait, bags_out % {**known, "number": in_words(line.terms.bags)}, False)
    longer = gettext(
        "Given now, its fish would be weighed in about %(expected)s, %(careful)s when boats take longer; "
        "the limit is %(limit)s. Boat %(boat)s is next."
    )
    return Advice(wait, longer % known, False)


def stands_on(service: Service, going_on: bool = True) -> str:
    """How long a boat takes, and what that is known from."""
    if not service.boats:
        none = gettext("A boat takes about %(time)s on the scale (assumed: none was timed that day).")
        if going_on:
            none = gettext("A boat takes about %(time)s on the scale (assumed: none is timed yet today).")
        return none % {"time": span(service.minutes)}
    measured = ngettext(
        "A boat takes about %(time)s on the scale (%(n)s boat timed that day, the middle one %(middle)s; %(assumed)s assumed before counts as three).",
        "A boat takes about %(time)s on the scale (%(n)s boats timed that day, the middle one %(middle)s; %(assumed)s assumed before counts as three).",
        service.boats,
    )
    if going_on:
        measured = ngettext(
            "A boat takes about %(time)s on the scale (%(n)s boat timed today, the middle one %(middle)s; %(assumed)s assumed before counts as three).",
            "A boat takes about %(time)s on the scale (%(n)s boats timed today, the middle one %(middle)s; %(assumed)s assumed before counts as three).",
            service.boats,
        )
    return measured % {
        "time": span(service.minutes),
        "n": service.boats,
        "middle": span(service.middle or 0),
        "assumed": span(service.assumed),
    }


def expected_wait(line: Line) -> str:
    """When the next boat to check in may expect to be weighed; blank while the line is held."""
    if line.hold is not None:
        return ""
    said = gettext("A boat that checks in now can expect to be weighed in about %(time)s.")
    return said % {"time": about(line.wait_for_weight)}


def minutes_in_bag(standing: Standing, now: datetime) -> str:
    """Whole minutes gone, as a watch shows them; after twelve hours a dash, for nobody stands there any more."""
    minutes = standing.minutes_in_bag(now)
    return f"{int(minutes)}" if minutes < LONGEST_SHOWN else "\u2013"


def bag_words(line: Line, standing: Standing) -> str:
    """What a boat's minutes in the bag mean."""
    minutes = standing.minutes_in_bag(line.now)
    if minutes >= LONGEST_SHOWN:
        return gettext("Given long ago and never weighed: take the bag back, or add the slip.")
    left = line.limit - minutes
    return over_words(standing).format(max(1, ceil(-left))) if left < 0 else LEFT.format(int(left))


def over_words(standing: Standing) -> str:
    """What a boat over the limit is told, with a place for the minutes."""
    return str(OVER if standing.at_scales is None else OVER_AT_SCALES)


def today(line: Line) -> str:
    """Minutes in the bag of the boats weighed, with how many have both times."""
    found = line.bag_minutes
    if not found.weighed:
        return gettext("No boat is weighed yet.")
    if found.middle is None or found.longest is None:
        return ngettext(
            "%(n)s boat weighed, of none of which both times of the bag are written.",
            "%(n)s boats weighed, of none of which both times of the bag are written.",
            found.weighed,
        ) % {"n": found.weighed}
    said = ngettext(
        "Of %(weighed)s weighed %(boats)s has both times of the bag: the middle one %(middle)s min, "
        "the longest %(longest)s min, %(over)s over %(limit)s.",
        "Of %(weighed)s weighed %(boats)s have both times of the bag: the middle one %(middle)s min, "
        "the longest %(longest)s min, %(over)s over %(limit)s.",
        found.boats,
    )
    return said % {
        "weighed": ngettext("%(n)s boat", "%(n)s boats", found.weighed) % {"n": found.weighed},
        "boats": in_words(found.boats),
        "middle": plain(found.middle),
        "longest": plain(found.longest),
        "over": in_words(found.over) if found.over else gettext("none"),
        "limit": plain(found.limit),
    }


def bag_oxygen(lake: Temperature | None) -> str:
    """How fast a full bag runs out of oxygen at the lake's temperature; blank where that is not known."""
    if lake is None or lake.celsius > WARMEST_C:
        return ""
    at_rest = minutes_until_floor(
        water_l=BAG_WATER_L, fish_kg=BAG_FISH_KG, mass_g=MASS_G, temperature_c=float(lake.celsius)
    )
    said = gettext(
        "Worked out: shut up with 15 lb of resting sunfishes in 2 gallons at the lake’s %(temperature)s, water full of "
        "oxygen falls to 5 mg/L in %(low)s to %(high)s minutes; freshly caught fish are several times faster. "
        "So aerated tanks along the line, or fewer fish in a bag."
    )
    return said % {
        "temperature": temperature(lake.celsius, lake.unit),
        "low": f"{at_rest.low:.1f}",
        "high": f"{at_rest.high:.1f}",
    }


def _weighed(line: Line) -> str:
    if not line.bag_minutes.weighed:
        return gettext("A boat shows here from its check-in until its slip is saved.")
    weighed = line.bag_minutes.weighed
    said = ngettext("%(n)s boat weighed on day %(day)s.", "%(n)s boats weighed on day %(day)s.", weighed)
    return said % {"n": weighed, "day": line.day}

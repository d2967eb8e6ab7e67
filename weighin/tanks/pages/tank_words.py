"""Readings of a tank in figures and the sentences that explain them."""

from dataclasses import dataclass

from weighin.livewell.ammonia import CAUTION_UNIONISED_MG_L
from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.tanks.domain.judging import HOTTEST_F, degrees
from weighin.tanks.domain.measured import Measured
from weighin.tanks.domain.water import BuildUp
from weighin.tanks.queries.tanks import Tank
from weighin.ui.templatetags.ui import SPACE, in_words

MANY_HOURS = 48


@dataclass(frozen=True)
class Fact:
    """A figure of a tank: its name, the figure and unit, and what it means; ``figure`` is empty when not measured."""

    name: str
    figure: str
    unit: str
    why: str


def headline(tanks: list[Tank]) -> str:
    """The finding over all tanks."""
    stop = [tank.name for tank in tanks if tank.needs_somebody]
    heed = [tank for tank in tanks if tank.alarms and not tank.needs_somebody]
    if not tanks:
        return "No tank is read yet."
    if len(stop) == 1:
        return f"{stop[0]} needs somebody now."
    if stop:
        return f"{in_words(len(stop)).capitalize()} tanks need somebody now."
    if heed:
        what = "One tank wants" if len(heed) == 1 else f"{in_words(len(heed)).capitalize()} tanks want"
        return f"{what} looking after."
    if len(tanks) == 1:
        return f"{tanks[0].name} is within its limits."
    which = "Both" if len(tanks) == 2 else f"All {in_words(len(tanks))}"
    return f"{which} tanks are within their limits."


def facts(tank: Tank) -> list[Fact]:
    """The tank's last reading, explained."""
    now = tank.now
    found = [_oxygen(tank), _water(tank), _load(now), _ammonia(now)]
    if now.salt is not None:
        found.append(Fact("Salt", f"{now.salt:g}", "%", "By weight. Kansas: 0.5 in release tanks."))
    if tank.due is not None or tank.build_up is not None:
        found.append(_change(tank))
    return found


def limits(rules: Rulebook) -> list[tuple[str, str]]:
    """What is asked of a tank, each with where it comes from."""
    least, cooling, warm = plain(rules.care_min_do), plain(rules.care_max_cooling_f), plain(rules.care_warm_f)
    return [
        (
            "Oxygen",
            f"{least} mg/L or more: the event’s rule sheet (common practice: 5; a Mississippi State summary: 5.5).",
        ),
        (
            "Cooling",
            f"At most {cooling} °F below the lake: the event’s rule sheet. Sources disagree: 7, 8 to 10, 10 °F.",
        ),
        (
            "Warm days",
            f"Care steps begin at {warm} °F; Kansas asks for tanks 5 to 10 °F below the lake above 75 °F, recirculated, aerated and with an electrolyte (black bass events, September 1 to June 15).",
        ),
        ("Heat", f"Never above {HOTTEST_F:.0f} °F (Kansas, K.A.R. 115-7-8)."),
        ("Load", "One pound of fish a gallon at most (Keeping Bass Alive): there stop, or open another tank."),
        (
            "Un-ionised ammonia",
            f"Caution from {CAUTION_UNIONISED_MG_L:g} mg/L as NH₃ (UF/IFAS FA16, from memory). Kits show total ammonia as nitrogen; as NH₃ it is 22 % more, the careful side where the caution was meant as nitrogen.",
        ),
        ("Salt", "0.5 % in release tanks, or a 3 % dip of 10 to 15 seconds (Kansas)."),
        (
            "Water",
            "Half of it every two to three hours (Keeping Bass Alive); many tanks are never changed (common practice).",
        ),
        (
            "Tap water",
            "Take the chlorine out first; bring hardness and pH near the lake’s by steps; ice of tap water in sealed bottles (common practice).",
        ),
        ("Readings", "Twice an hour while fish are in the tank (common practice)."),
    ]


def _oxygen(tank: Tank) -> Fact:
    now, keep = tank.now, plain(tank.care_context.rules.care_min_do)
    if now.do is None:
        return Fact("Oxygen", "", "", f"Not measured. Keep {keep} mg/L or more.")
    why = f"Keep {keep} or more."
    if now.saturation is not None and now.full_do is not None and now.water is not None:
        height = tank.care_context.elevation_ft
        where = (
            f" and {height:,.0f} ft" if height is not None else " at sea level (the lake’s height is not written down)"
        )
        salt = f", {now.salt:g} % salt" if now.salt else ""
        full = f"{100 * now.saturation:.0f}{SPACE}% of the {now.full_do:.1f} that water at {degrees(now.water)}{where}{salt}"
        why = f"{full} holds against air. {why}"
    return Fact("Oxygen", f"{now.do:g}", "mg/L", why)


def _water(tank: Tank) -> Fact:
    now, lake = tank.now, tank.care_context.lake(tank.day)
    most = plain(tank.care_context.rules.care_max_cooling_f)
    if now.water is None:
        return Fact("Water", "", "", "The temperature was not read: oxygen and ammonia cannot be judged without it.")
    if lake is None:
        why = f"The lake’s temperature is not written down; at most {most} °F below it."
    else:
        off = float(lake.fahrenheit - now.water.fahrenheit) / (1 if now.water.unit == "F" else 1.8)
        side = (
            f"{abs(round(off, 1)):g} °{now.water.unit} {'below' if off > 0 else 'above'}"
            if round(off, 1)
            else "as warm as"
        )
        why = f"{side[0].upper()}{side[1:]} the lake at {degrees(lake)}. At most {most} °F below it."
    return Fact("Water", f"{now.water.figure:f}", f"°{now.water.unit}", why)


def _load(now: Measured) -> Fact:
    if now.load is None:
        return Fact("Load", "", "", "The weight of the fish in it is not written down.")
    if now.filled is None or now.volume is None:
        return Fact(
            "Load", f"{now.load:g}", "lb", "What the tank holds is not written down, so how full it is cannot be said."
        )
    room = now.volume - now.load
    left = f"room for {room:.0f} lb more" if room >= 0.5 else "no room for more"
    return Fact(
        "Load",
        f"{now.load:g}",
        "lb",
        f"{100 * now.filled:.0f}{SPACE}% of {now.volume:g} gal at one pound a gallon: {left}.",
    )


def _ammonia(now: Measured) -> Fact:
    name = "Un-ionised ammonia"
    if now.total is None:
        return Fact(name, "", "", "Ammonia was not measured.")
    if now.unionised is None or now.unionised_share is None:
        return Fact(name, "", "", f"Total ammonia {now.total:g} mg/L; pH and temperature tell how much of it harms.")
    share = f"{100 * now.unionised_share:.2g}{SPACE}% of {now.total:g} mg/L total ammonia nitrogen is un-ionised at pH {now.ph:g}"
    source = "(Emerson et al. 1975, fresh water; with salt a little less), shown as NH₃, 22 % more than as nitrogen."
    return Fact(
        name, f"{now.unionised:.3f}", "mg/L", f"{share} {source} Caution from {CAUTION_UNIONISED_MG_L:g}, from memory."
    )


def _change(tank: Tank) -> Fact:
    parts, figure, unit = [], "", ""
    if tank.due is not None:
        zone = tank.care_context.calendar.zone
        clock = [f"{moment.astimezone(zone):%H:%M}" for moment in (tank.due.first, tank.due.last, tank.due.since)]
        figure, unit = clock[0], f"to {clock[1]}"
        after = "the last change" if tank.due.was_changed else "the first reading with fish"
        parts.append(f"Half of it, two to three hours after {after} at {clock[2]} (Keeping Bass Alive).")
    if tank.build_up is not None:
        parts += _build_up(tank.build_up)
    return Fact("Next change of water", figure, unit, " ".join(parts))


def _build_up(found: BuildUp) -> list[str]:
    said = []
    if found.carbon_dioxide_at_rest and found.carbon_dioxide_caught:
        said.append(
            f"With the lid shut this load brings carbon dioxide to {HAULING_LIMIT_MG_L:g} mg/L, the most advised for hauling, in "
            f"{_hours(found.carbon_dioxide_at_rest)} at rest, in {_hours(found.carbon_dioxide_caught)} freshly caught; open and "
            "aerated it takes longer (estimate)."
        )
    if found.ammonia_at_rest and found.ammonia_caught:
        if found.ammonia_at_rest[1] <= 0:
            said.append("Ammonia has reached its caution: change water now.")
        else:
            said.append(
                f"Un-ionised ammonia would reach {CAUTION_UNIONISED_MG_L:g} in {_hours(found.ammonia_at_rest)} at rest, "
                f"{_hours(found.ammonia_caught)} freshly caught (estimate)."
            )
    return said


def _hours(span: tuple[float, float]) -> str:
    """About how long, least to most: 25 to 60 min, 1.1 to 2.9 h, 50 min to 3.0 h."""
    least, most = span
    if most >= MANY_HOURS:
        return f"{_one(least)} to more than two days" if least < MANY_HOURS else "more than two days"
    if most < 1.95:
        return f"{round(least * 60):d} to {round(most * 60):d} min"
    if least >= 0.95:
        return f"{least:.1f} to {most:.1f} h"
    return f"{_one(least)} to {_one(most)}"


def _one(hours: float) -> str:
    return f"{round(hours * 60):d} min" if hours < 0.95 else f"{hours:.1f} h"

"""Readings of a tank in figures and the sentences that explain them."""

from dataclasses import dataclass

from django.utils.translation import gettext, ngettext

from weighin.livewell.ammonia import CAUTION_UNIONISED_MG_L
from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.tanks.domain.judging import HOTTEST_F, degrees
from weighin.tanks.domain.measured import Measured
from weighin.tanks.domain.water import BuildUp
from weighin.tanks.queries.tanks import Tank
from weighin.ui import figures
from weighin.ui.templatetags.ui import in_words

MANY_HOURS = 48


@dataclass(frozen=True)
class Fact:
    """A figure of a tank: its name, the figure and unit, and what it means; ``figure`` is empty when not measured.

    ``more`` is said when it is asked for: how the figure was worked out, and estimates.
    """

    name: str
    figure: str
    unit: str
    why: str
    more: str = ""


def headline(tanks: list[Tank]) -> str:
    """The finding over all tanks."""
    stop = [tank.name for tank in tanks if tank.needs_somebody]
    heed = [tank for tank in tanks if tank.alarms and not tank.needs_somebody]
    if not tanks:
        return gettext("No tank is read yet.")
    if stop:
        return ngettext("%(tank)s needs attention now.", "%(tanks)s tanks need attention now.", len(stop)) % {
            "tank": stop[0],
            "tanks": in_words(len(stop)).capitalize(),
        }
    if heed:
        wants = ngettext("One tank needs attention.", "%(tanks)s tanks need attention.", len(heed))
        return wants % {"tanks": in_words(len(heed)).capitalize()}
    if len(tanks) == 1:
        return gettext("%(tank)s is within its limits.") % {"tank": tanks[0].name}
    if len(tanks) == 2:
        return gettext("Both tanks are within their limits.")
    return gettext("All %(tanks)s tanks are within their limits.") % {"tanks": in_words(len(tanks))}


def facts(tank: Tank) -> list[Fact]:
    """The tank's last reading, explained."""
    now = tank.now
    found = [_oxygen(tank), _water(tank), _load(now), _ammonia(now)]
    if now.salt is not None:
        found.append(Fact(gettext("Salt"), f"{now.salt:g}", "%", gettext("By weight. Kansas: 0.5 in release tanks.")))
    if tank.due is not None or tank.build_up is not None:
        found.append(_change(tank))
    return found


def limits(rules: Rulebook) -> list[tuple[str, str]]:
    """What is asked of a tank, each with where it comes from."""
    least, cooling, warm = plain(rules.care_min_do), plain(rules.care_max_cooling_f), plain(rules.care_warm_f)
    return [
        (
            gettext("Oxygen"),
            gettext(
                "%(least)s mg/L or more: the event’s rule sheet (common practice: 5; a Mississippi State summary: 5.5)."
            )
            % {"least": least},
        ),
        (
            gettext("Cooling"),
            gettext(
                "At most %(cooling)s °F below the lake: the event’s rule sheet. Sources disagree: 7, 8 to 10, 10 °F."
            )
            % {"cooling": cooling},
        ),
        (
            gettext("Warm days"),
            (
                gettext(
                    "Care steps begin at %(warm)s °F; Kansas asks for tanks 5 to 10 °F below the lake above 75 °F, recirculated, "
                    "aerated and with an electrolyte (black bass events, September 1 to June 15)."
                )
                % {"warm": warm}
            ),
        ),
        (
            gettext("Heat"),
            gettext("Never above %(hottest_f)s °F (Kansas, K.A.R. 115-7-8).") % {"hottest_f": f"{HOTTEST_F:.0f}"},
        ),
        (
            gettext("Load"),
            gettext("One pound of fish a gallon at most (Keeping Bass Alive): there stop, or open another tank."),
        ),
        (
            gettext("Un-ionised ammonia"),
            (
                gettext(
                    "Caution from %(caution)s mg/L as NH₃ (UF/IFAS FA16, from memory). Kits show total ammonia as "
                    "nitrogen; as NH₃ it is 22 %% more, the careful side where the caution was meant as nitrogen."
                )
                % {"caution": f"{CAUTION_UNIONISED_MG_L:g}"}
            ),
        ),
        (gettext("Salt"), gettext("0.5 % in release tanks, or a 3 % dip of 10 to 15 seconds (Kansas).")),
        (
            gettext("Water"),
            gettext(
                "Half of it every two to three hours (Keeping Bass Alive); many tanks are never changed (common practice)."
            ),
        ),
        (
            gettext("Tap water"),
            gettext(
                "Take the chlorine out first; bring hardness and pH near the lake’s by steps; ice of tap water in sealed bottles (common practice)."
            ),
        ),
        (gettext("Readings"), gettext("Twice an hour while fish are in the tank (common practice).")),
    ]


def _oxygen(tank: Tank) -> Fact:
    now, keep = tank.now, plain(tank.care_context.rules.care_min_do)
    if now.do is None:
        return Fact(gettext("Oxygen"), "", "", gettext("Not measured. Keep %(keep)s mg/L or more.") % {"keep": keep})
    why = gettext("Keep %(keep)s or more.") % {"keep": keep}
    if now.saturation is not None and now.full_do is not None and now.water is not None:
        height = tank.care_context.elevation_ft
        water = degrees(now.water)
        if now.salt:
            water = gettext("%(degrees)s with %(salt)s %% salt") % {"degrees": water, "salt": f"{now.salt:g}"}
        full = (
            gettext("%(share)s %% of the %(full)s that water at %(water)s and %(height)s ft holds against air.")
            if height is not None
            else gettext(
                "%(share)s %% of the %(full)s that water at %(water)s at sea level (the lake’s elevation is not recorded) holds "
                "against air."
            )
        )
        full %= {
            "share": f"{100 * now.saturation:.0f}",
            "full": f"{now.full_do:.1f}",
            "water": water,
            "height": "" if height is None else f"{height:,.0f}",
        }
        why = f"{full} {why}"
    return Fact(gettext("Oxygen"), f"{now.do:g}", "mg/L", why)


def _water(tank: Tank) -> Fact:
    now, lake = tank.now, tank.care_context.lake(tank.day)
    most = plain(tank.care_context.rules.care_max_cooling_f)
    if now.water is None:
        return Fact(
            gettext("Water"),
            "",
            "",
            gettext("The temperature was not read: oxygen and ammonia cannot be judged without it."),
        )
    if lake is None:
        why = gettext("The lake’s temperature is not recorded; at most %(most)s °F below it.") % {"most": most}
    else:
        off = float(lake.fahrenheit - now.water.fahrenheit) / (1 if now.water.unit == "F" else 1.8)
        if not round(off, 1):
            why = gettext("As warm as the lake at %(lake)s. At most %(most)s °F below it.")
        elif off > 0:
            why = gettext("%(off)s below the lake at %(lake)s. At most %(most)s °F below it.")
        else:
            why = gettext("%(off)s above the lake at %(lake)s. At most %(most)s °F below it.")
        why %= {"off": f"{abs(round(off, 1)):g} °{now.water.unit}", "lake": degrees(lake), "most": most}
    return Fact(gettext("Water"), f"{now.water.figure:f}", f"°{now.water.unit}", why)


def _load(now: Measured) -> Fact:
    if now.load is None:
        return Fact(gettext("Load"), "", "", gettext("The weight of the fish in it is not recorded."))
    if now.filled is None or now.volume is None:
        return Fact(
            gettext("Load"),
            f"{now.load:g}",
            "lb",
            gettext("The tank’s size is not recorded, so how full it is is not known."),
        )
    room = now.volume - now.load
    left = (
        gettext("%(share)s %% of %(volume)s gal at one pound a gallon: room for %(room)s lb more.")
        if room >= 0.5
        else gettext("%(share)s %% of %(volume)s gal at one pound a gallon: no room for more.")
    )
    said = {"share": f"{100 * now.filled:.0f}", "volume": f"{now.volume:g}", "room": f"{room:.0f}"}
    return Fact(gettext("Load"), f"{now.load:g}", "lb", left % said)


def _ammonia(now: Measured) -> Fact:
    name = gettext("Un-ionised ammonia")
    if now.total is None:
        return Fact(name, "", "", gettext("Ammonia was not measured."))
    if now.unionised is None or now.unionised_share is None:
        return Fact(
            name,
            "",
            "",
            gettext("Total ammonia %(total)s mg/L; pH and temperature tell how much of it harms.")
            % {"total": f"{now.total:g}"},
        )
    why = gettext(
        "%(share)s %% of %(total)s mg/L total ammonia nitrogen is un-ionised at pH %(ph)s. Caution from %(caution)s."
    ) % {
        "share": f"{100 * now.unionised_share:.2g}",
        "total": f"{now.total:g}",
        "ph": f"{now.ph:g}",
        "caution": f"{CAUTION_UNIONISED_MG_L:g}",
    }
    more = gettext(
        "Emerson et al. 1975, for fresh water; with salt a little less. Shown as NH₃, which is more than as nitrogen by the "
        "factor 1.22. The caution is from memory."
    )
    return Fact(name, f"{now.unionised:.3f}", "mg/L", why, more)


def _change(tank: Tank) -> Fact:
    parts, figure, unit = [], "", ""
    if tank.due is not None:
        zone = tank.care_context.calendar.zone
        clock = [figures.clock(moment, zone) for moment in (tank.due.first, tank.due.last, tank.due.since)]
        figure, unit = clock[0], gettext("to %(clock)s") % {"clock": clock[1]}
        half = (
            gettext("Half of it, two to three hours after the last change at %(clock)s (Keeping Bass Alive).")
            if tank.due.was_changed
            else gettext(
                "Half of it, two to three hours after the first reading with fish at %(clock)s (Keeping Bass Alive)."
            )
        )
        parts.append(half % {"clock": clock[2]})
    if tank.build_up is not None:
        parts += _build_up(tank.build_up)
    return Fact(gettext("Next change of water"), figure, unit, "".join(parts[:1]), " ".join(parts[1:]))


def _build_up(found: BuildUp) -> list[str]:
    said = []
    if found.carbon_dioxide_at_rest and found.carbon_dioxide_caught:
        said.append(
            gettext(
                "With the lid shut this load brings carbon dioxide to %(advice)s mg/L, the most advised for hauling, "
                "in %(hours)s at rest, in %(caught)s freshly caught; open and aerated it takes longer "
                "(estimate)."
            )
            % {
                "advice": f"{HAULING_LIMIT_MG_L:g}",
                "hours": _hours(found.carbon_dioxide_at_rest),
                "caught": _hours(found.carbon_dioxide_caught),
            }
        )
    if found.ammonia_at_rest and found.ammonia_caught:
        if found.ammonia_at_rest[1] <= 0:
            said.append(gettext("Ammonia has reached its caution: change water now."))
        else:
            said.append(
                gettext(
                    "Un-ionised ammonia would reach %(caution)s in %(hours)s at rest, %(caught)s freshly caught (estimate)."
                )
                % {
                    "caution": f"{CAUTION_UNIONISED_MG_L:g}",
                    "hours": _hours(found.ammonia_at_rest),
                    "caught": _hours(found.ammonia_caught),
                }
            )
    return said


def _hours(span: tuple[float, float]) -> str:
    """About how long, least to most: 25 to 60 min, 1.1 to 2.9 h, 50 min to 3.0 h."""
    least, most = span
    if most >= MANY_HOURS:
        return (
            gettext("%(one)s to more than two days") % {"one": _one(least)}
            if least < MANY_HOURS
            else gettext("more than two days")
        )
    if most < 1.95:
        return gettext("%(least)s to %(most)s min") % {
            "least": f"{round(least * 60):d}",
            "most": f"{round(most * 60):d}",
        }
    if least >= 0.95:
        return gettext("%(least)s to %(most)s h") % {"least": f"{least:.1f}", "most": f"{most:.1f}"}
    return gettext("%(least)s to %(most)s") % {"least": _one(least), "most": _one(most)}


def _one(hours: float) -> str:
    return gettext("%(hours)s min") % {"hours": f"{round(hours * 60):d}"} if hours < 0.95 else f"{hours:.1f} h"

"""Alarms of a tank in words: what is wrong, by how much, and what to do about it.

The bounds are the rule sheet's where it has them (oxygen, cooling, from which temperature care begins), else published
ones with their source in the sentence.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.translation import gettext

from weighin.events.domain.temperatures import Temperature
from weighin.livewell.ammonia import CAUTION_UNIONISED_MG_L
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.tanks.domain.measured import Measured
from weighin.ui.figures import SPACE

STOP, HEED = "stop", "heed"
HOTTEST_F = 85.0  # Kansas: never above (K.A.R. 115-7-8)
KANSAS_WARM_F = 75.0
LEAST_COOLING_F = 5.0  # Kansas: tanks 5 to 10 °F below the lake above 75 °F
NEARLY_FULL = 0.8  # from here the next tank is to be got ready: our own margin
RELEASE_TANK_SALT, DIP_SALT = 0.5, 3.0  # per cent; Kansas: in release tanks, and as a dip of 10 to 15 s
BATH_OR_DIP = 1.0  # above it no tank is meant to stand: our own line between the two
READ_AGAIN = timedelta(minutes=30)  # twice an hour: common practice, no source


@dataclass(frozen=True)
class Alarm:
    """``level`` is ``stop`` (act now) or ``heed``; ``name`` a stable word; ``finding`` and ``act`` are sentences."""

    level: str
    name: str
    finding: str
    act: str


def alarms(now: Measured, rules: Rulebook, lake: Temperature | None) -> list[Alarm]:
    """What is wrong with a tank by its last reading, what must be done at once first."""
    found = [*_oxygen(now, rules), *_warmth(now, rules, lake), *_load(now), *_ammonia(now, rules), *_salt(now)]
    return sorted(found, key=lambda alarm: alarm.level != STOP)


def overdue(now: Measured, moment: datetime, going: bool) -> Alarm | None:
    """Whether a tank with fish in it waits for its next reading, while its day goes on."""
    since = moment - now.at
    if not going or since <= READ_AGAIN or now.load == 0:
        return None
    minutes = int(since.total_seconds() // 60)
    said = (
        gettext("The last reading is %(minutes)s min old.") % {"minutes": minutes}
        if minutes < 120
        else gettext("The last reading is %(hours)s h %(minutes)s min old.")
        % {"hours": minutes // 60, "minutes": minutes % 60}
    )
    return Alarm(
        HEED,
        "overdue",
        said,
        gettext("Read it again: twice an hour while fish are in it (common practice)."),
    )


def _oxygen(now: Measured, rules: Rulebook) -> Iterator[Alarm]:
    if now.do is None or now.do >= float(rules.care_min_do):
        return
    yield Alarm(
        STOP,
        "oxygen",
        gettext("Oxygen is %(oxygen)s, below the %(care_min_do)s to keep.")
        % {"oxygen": _mg(now.do), "care_min_do": plain(rules.care_min_do)},
        gettext(
            "More air or oxygen now, and no more fish in. If five minutes do not bring it back, move fish to another tank or "
            "let them go. Cylinder: open slowly, no flame, smoke, oil or grease near it."
        ),
    )


def _warmth(now: Measured, rules: Rulebook, lake: Temperature | None) -> Iterator[Alarm]:
    if now.water is None or now.fahrenheit is None:
        return
    here, most = now.fahrenheit, float(rules.care_max_cooling_f)
    if here > HOTTEST_F:
        yield Alarm(
            STOP,
            "hot",
            gettext(
                "The water is %(water)s, above the %(hottest_f)s °F that no tank may pass (Kansas, K.A.R. 115-7-8)."
            )
            % {"water": degrees(now.water), "hottest_f": f"{HOTTEST_F:.0f}"},
            gettext(
                "Take no more fish in. Cool it in steps of at most %(most)s °F with ice in sealed bottles, or let the fish go. Insulated gloves; no dry ice."
            )
            % {"most": f"{most:g}"},
        )
    if lake is None:
        return
    below = float(lake.fahrenheit) - here
    if below > most:
        yield Alarm(
            HEED,
            "cold",
            gettext("The tank is %(difference)s below the lake at %(lake)s; at most %(most)s is allowed.")
            % {
                "difference": _difference(below, now.water.unit),
                "lake": degrees(lake),
                "most": _difference(most, now.water.unit),
            },
            gettext("No more ice. Let lake water in by and by until it is within that before fish go in or back."),
        )
    elif (
        float(lake.fahrenheit) > max(float(rules.care_warm_f), KANSAS_WARM_F)
        and below < LEAST_COOLING_F
        and here <= HOTTEST_F
    ):
        yield Alarm(
            HEED,
            "warm",
            gettext("With the lake at %(lake)s the tank is %(beside)s.")
            % {"lake": degrees(lake), "beside": _beside(below, now.water.unit)},
            gettext(
                "Kansas asks for tanks 5 to 10 °F cooler above 75 °F; this event allows %(most)s. Ice in sealed bottles, little "
                "by little. Insulated gloves; no dry ice."
            )
            % {"most": f"{most:g}"},
        )


def _load(now: Measured) -> Iterator[Alarm]:
    if now.filled is None or now.load is None or now.volume is None or now.filled < NEARLY_FULL:
        return
    tank = gettext("%(load)s lb of fish in %(volume)s gal") % {"load": f"{now.load:g}", "volume": f"{now.volume:g}"}
    if now.filled >= 1:
        yield Alarm(
            STOP,
            "full",
            gettext("%(tank)s: the tank is full. One pound a gallon is the handbook’s most (Keeping Bass Alive).")
            % {"tank": tank},
            gettext(
                "Hold the line and open another tank, or let fish go. A full tank is drained, never lifted: a gallon weighs 8.3 lb."
            ),
        )
    else:
        yield Alarm(
            HEED,
            "filling",
            gettext("%(tank)s: %(filled)s %% full.") % {"tank": tank, "filled": f"{100 * now.filled:.0f}"},
            gettext("Get the next tank ready."),
        )


def _ammonia(now: Measured, rules: Rulebook) -> Iterator[Alarm]:
    if now.unionised is None or now.unionised < CAUTION_UNIONISED_MG_L:
        return
    yield Alarm(
        STOP,
        "ammonia",
        gettext(
            "Un-ionised ammonia is %(unionised)s mg/L; from %(caution)s on it harms fish that stay in it (UF/IFAS FA16, from memory)."
        )
        % {"unionised": f"{now.unionised:.2f}", "caution": f"{CAUTION_UNIONISED_MG_L:g}"},
        gettext("Change half the water now, for lake water no more than %(most)s °F apart, and read again.")
        % {"most": f"{float(rules.care_max_cooling_f):g}"},
    )


def _salt(now: Measured) -> Iterator[Alarm]:
    if now.salt is None or now.salt <= BATH_OR_DIP:
        return
    yield Alarm(
        HEED,
        "salt",
        gettext("%(salt)s %% salt is a dip, not a tank to stand in.") % {"salt": f"{now.salt:g}"},
        gettext(
            "Kansas: %(release_tank_salt)s %% in release tanks; %(dip_salt)s %% only as a dip of 10 to 15 seconds. Keep brine out of the lake."
        )
        % {"release_tank_salt": f"{RELEASE_TANK_SALT:g}", "dip_salt": f"{DIP_SALT:g}"},
    )


def degrees(seen: Temperature) -> str:
    """A temperature in its own unit: 78 °F."""
    return f"{seen.figure:f}{SPACE}°{seen.unit}"


def _difference(fahrenheit: float, unit: str) -> str:
    size = fahrenheit if unit == "F" else fahrenheit / 1.8
    return f"{round(size, 1):g}{SPACE}°{unit}"


def _beside(below: float, unit: str) -> str:
    if below <= 0:
        return (
            gettext("%(difference)s warmer") % {"difference": _difference(-below, unit)}
            if below < 0
            else gettext("no cooler")
        )
    return gettext("only %(difference)s cooler") % {"difference": _difference(below, unit)}


def _mg(figure: float) -> str:
    return f"{figure:g}{SPACE}mg/L"

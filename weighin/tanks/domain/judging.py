"""Alarms of a tank in words: what is wrong, by how much, and what to do about it.

The bounds are the rule sheet's where it has them (oxygen, cooling, from which temperature care begins), else published
ones with their source in the sentence.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from weighin.events.domain.temperatures import Temperature
from weighin.livewell.ammonia import CAUTION_UNIONISED_MG_L
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.tanks.domain.measured import Measured
from weighin.ui.templatetags.ui import SPACE

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
    said = f"{minutes} min" if minutes < 120 else f"{minutes // 60} h {minutes % 60} min"
    return Alarm(
        HEED,
        "overdue",
        f"The last reading is {said.replace(' ', SPACE)} old.",
        "Read it again: twice an hour while fish are in it (common practice).",
    )


def _oxygen(now: Measured, rules: Rulebook) -> Iterator[Alarm]:
    if now.do is None or now.do >= float(rules.care_min_do):
        return
    yield Alarm(
        STOP,
        "oxygen",
        f"Oxygen is {_mg(now.do)}, below the {plain(rules.care_min_do)} to keep.",
        "More air or oxygen now, and no more fish in. If five minutes do not bring it back, move fish to another tank or "
        "let them go. Cylinder: open slowly, no flame, smoke, oil or grease near it.",
    )


def _warmth(now: Measured, rules: Rulebook, lake: Temperature | None) -> Iterator[Alarm]:
    if now.water is None or now.fahrenheit is None:
        return
    here, most = now.fahrenheit, float(rules.care_max_cooling_f)
    if here > HOTTEST_F:
        yield Alarm(
            STOP,
            "hot",
            f"The water is {degrees(now.water)}, above the {HOTTEST_F:.0f}{SPACE}°F that no tank may pass (Kansas, K.A.R. 115-7-8).",
            f"Take no more fish in. Cool it in steps of at most {most:g}{SPACE}°F with ice in sealed bottles, or let the "
            "fish go. Insulated gloves; no dry ice.",
        )
    if lake is None:
        return
    below = float(lake.fahrenheit) - here
    if below > most:
        yield Alarm(
            HEED,
            "cold",
            f"The tank is {_difference(below, now.water.unit)} below the lake at {degrees(lake)}; at most "
            f"{_difference(most, now.water.unit)} is allowed.",
            "No more ice. Let lake water in by and by until it is within that before fish go in or back.",
        )
    elif (
        float(lake.fahrenheit) > max(float(rules.care_warm_f), KANSAS_WARM_F)
        and below < LEAST_COOLING_F
        and here <= HOTTEST_F
    ):
        yield Alarm(
            HEED,
            "warm",
            f"With the lake at {degrees(lake)} the tank is {_beside(below, now.water.unit)}.",
            f"Kansas asks for tanks 5 to 10{SPACE}°F cooler above 75{SPACE}°F; this event allows {most:g}. Ice in sealed "
            "bottles, little by little. Insulated gloves; no dry ice.",
        )


def _load(now: Measured) -> Iterator[Alarm]:
    if now.filled is None or now.load is None or now.volume is None or now.filled < NEARLY_FULL:
        return
    tank = f"{now.load:g}{SPACE}lb of fish in {now.volume:g}{SPACE}gal"
    if now.filled >= 1:
        yield Alarm(
            STOP,
            "full",
            f"{tank}: the tank is full. One pound a gallon is the handbook’s most (Keeping Bass Alive).",
            "Hold the line and open another tank, or let fish go. A full tank is drained, never lifted: a gallon weighs 8.3 lb.",
        )
    else:
        yield Alarm(
            HEED, "filling", f"{tank}: {now.filled:.0%} full.".replace("%", f"{SPACE}%"), "Get the next tank ready."
        )


def _ammonia(now: Measured, rules: Rulebook) -> Iterator[Alarm]:
    if now.unionised is None or now.unionised < CAUTION_UNIONISED_MG_L:
        return
    yield Alarm(
        STOP,
        "ammonia",
        f"Un-ionised ammonia is {now.unionised:.2f}{SPACE}mg/L; from {CAUTION_UNIONISED_MG_L:g} on it harms fish that stay in it "
        "(UF/IFAS FA16, from memory).",
        f"Change half the water now, for lake water no more than {float(rules.care_max_cooling_f):g}{SPACE}°F apart, and read again.",
    )


def _salt(now: Measured) -> Iterator[Alarm]:
    if now.salt is None or now.salt <= BATH_OR_DIP:
        return
    yield Alarm(
        HEED,
        "salt",
        f"{now.salt:g}{SPACE}% salt is a dip, not a tank to stand in.",
        f"Kansas: {RELEASE_TANK_SALT:g}{SPACE}% in release tanks; {DIP_SALT:g}{SPACE}% only as a dip of 10 to 15 seconds. "
        "Keep brine out of the lake.",
    )


def degrees(seen: Temperature) -> str:
    """A temperature in its own unit: 78 °F."""
    return f"{seen.figure:f}{SPACE}°{seen.unit}"


def _difference(fahrenheit: float, unit: str) -> str:
    size = fahrenheit if unit == "F" else fahrenheit / 1.8
    return f"{round(size, 1):g}{SPACE}°{unit}"


def _beside(below: float, unit: str) -> str:
    if below <= 0:
        return f"{_difference(-below, unit)} warmer" if below < 0 else "no cooler"
    return f"only {_difference(below, unit)} cooler"


def _mg(figure: float) -> str:
    return f"{figure:g}{SPACE}mg/L"

"""Checks of fish care in words: what each asks for, and by how much one was not kept."""

from collections.abc import Iterable

from django.utils.translation import gettext, gettext_noop

from weighin.care.domain.checks import CHECKS
from weighin.care.queries.care import CareRow
from weighin.events.domain.measured import degrees, minutes
from weighin.events.domain.temperatures import Temperature
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain

NAMES = {
    "pump": gettext_noop("pump"),
    "thermometer": gettext_noop("thermometer"),
    "ice": gettext_noop("ice"),
    "on_board": gettext_noop("fish on board"),
    "held": gettext_noop("time held"),
    "bag": gettext_noop("time in the bag"),
    "cooling": gettext_noop("cooling"),
    "oxygen": gettext_noop("oxygen"),
}


def passed_in_words(names: Iterable[str]) -> str:
    """The checks that were kept, in their order."""
    return ", ".join(gettext(NAMES[name]) for name in names)


def failed_in_words(row: CareRow, rules: Rulebook, lake: Temperature | None) -> list[str]:
    """Each check that was not kept, with its figure beside the bound."""
    return [_failed(name, row, rules, lake) for name in row.care.failed]


def bounds_in_words(rules: Rulebook) -> list[tuple[str, str]]:
    """What each check asks for under these rules; a check without a bound says so."""
    asked = {
        "pump": gettext("It runs."),
        "thermometer": gettext("There is one, and it works."),
        "ice": gettext("Some ice in the livewell, with the lake at %(care_warm_f)s °F or warmer.")
        % {"care_warm_f": plain(rules.care_warm_f)},
        "on_board": gettext("No limit is set.")
        if rules.boat_limit is None
        else gettext("At most %(boat_limit)s fish at once.") % {"boat_limit": rules.boat_limit},
        "held": gettext("No limit is set.")
        if rules.care_max_held_minutes is None
        else gettext("At most %(care_max_held_minutes)s from the first fish to the release.")
        % {"care_max_held_minutes": minutes(rules.care_max_held_minutes)},
        "bag": gettext("At most %(care_max_bag_minutes)s from the bag’s issue until it is emptied.")
        % {"care_max_bag_minutes": minutes(rules.care_max_bag_minutes)},
        "cooling": gettext("The livewell at most %(care_max_cooling_f)s °F below the lake.")
        % {"care_max_cooling_f": plain(rules.care_max_cooling_f)},
        "oxygen": gettext("At least %(care_min_do)s mg/L dissolved in the livewell.")
        % {"care_min_do": plain(rules.care_min_do)},
    }
    return [(gettext(NAMES[name]).capitalize(), asked[name]) for name in CHECKS]


def held_in_words(row: CareRow) -> str:
    """The longest any fish can have been held; blank when an end is missing."""
    held = row.care.minutes_held
    if held is None:
        return ""
    return gettext("at most %(held)s") % {"held": minutes(held)} if row.care.held_is_upper_bound else minutes(held)


def _failed(name: str, row: CareRow, rules: Rulebook, lake: Temperature | None) -> str:
    note, care = row.note, row.care
    if name == "held":
        return gettext("held %(held_in_words)s, limit %(care_max_held_minutes)s") % {
            "held_in_words": held_in_words(row),
            "care_max_held_minutes": minutes(rules.care_max_held_minutes),
        }
    if name == "bag":
        return gettext("%(minutes_in_bag)s in the bag, limit %(care_max_bag_minutes)s") % {
            "minutes_in_bag": minutes(care.minutes_in_bag),
            "care_max_bag_minutes": minutes(rules.care_max_bag_minutes),
        }
    if note is None:
        return gettext(NAMES[name])
    if name == "ice" and lake is not None:
        return gettext("no ice, the lake at %(written)s") % {"written": degrees(lake.written())}
    if name == "on_board":
        return gettext("%(most_on_board)s on board, limit %(boat_limit)s") % {
            "most_on_board": note.most_on_board,
            "boat_limit": rules.boat_limit,
        }
    if name == "cooling":
        return gettext("livewell %(livewell_temp)s, more than %(care_max_cooling_f)s °F below the lake") % {
            "livewell_temp": degrees(note.livewell_temp),
            "care_max_cooling_f": plain(rules.care_max_cooling_f),
        }
    if name == "oxygen":
        return gettext("oxygen %(livewell_do)s mg/L, at least %(care_min_do)s") % {
            "livewell_do": note.livewell_do,
            "care_min_do": plain(rules.care_min_do),
        }
    broken = {"pump": gettext("pump not in order"), "thermometer": gettext("no working thermometer")}
    return broken.get(name) or gettext(NAMES[name])

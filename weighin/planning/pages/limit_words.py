"""What a plan passes, what would keep it within the limits, and why no fish are held, in sentences."""

from django.utils.translation import gettext, gettext_noop

from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.loading import HANDBOOK_KG_PER_L
from weighin.livewell.temperature.cooling import HOTTEST_C, ROUNDING, WALLEYE_NONE_LIVED_C
from weighin.planning.domain.degrees import step, warmth
from weighin.planning.domain.limits import passed
from weighin.planning.domain.plan import FLOORS_MG_L, Answer
from weighin.planning.domain.quantities import FISH, shown
from weighin.planning.domain.question import WALLEYE, Question
from weighin.planning.domain.species import Fish

INSTEAD = gettext_noop("Fish by measured length with immediate release, or earlier in the year.")


def passed_in_words(answer: Answer, system: str) -> list[str]:
    """Each limit that the plan passes, with its figures; empty when it passes none."""
    asked, well = answer.question, answer.temperature_c
    carbon, oxygen = answer.carbon_at_rest.stated.highest, answer.oxygen_at_rest.stated.lowest
    said = {
        "cold": gettext("The livewell cools to %(lowest)s, more than %(step_c)s below the lake.")
        % {"lowest": warmth(well.lowest, system), "step_c": step(asked.step_c, system)},
        "hot": gettext("The livewell comes to %(highest)s; no tank may be above %(hottest_c)s (Kansas).")
        % {"highest": warmth(well.highest, system), "hottest_c": warmth(HOTTEST_C, system)},
        "warm": gettext("The livewell warms to %(last)s; it should be held at %(hold_c)s.")
        % {"last": warmth(well.last, system), "hold_c": warmth(asked.hold_c, system)},
        "oxygen": gettext("Oxygen falls to %(oxygen)s mg/L at rest; the least to keep is %(floors_mg_l)s.")
        % {"oxygen": f"{oxygen:.1f}", "floors_mg_l": f"{FLOORS_MG_L[0]:.0f}"},
        "carbon": gettext(
            "Carbon dioxide comes to %(carbon)s mg/L at rest; hauling advice is under %(hauling_limit_mg_l)s."
        )
        % {"carbon": f"{carbon:.0f}", "hauling_limit_mg_l": f"{HAULING_LIMIT_MG_L:.0f}"},
        "load": gettext("%(shown)s of fish are more than the handbook’s pound a gallon (%(asked_volume_l)s).")
        % {
            "shown": shown(asked.kg * 1000, FISH, system),
            "asked_volume_l": shown(asked.volume_l * HANDBOOK_KG_PER_L * 1000, FISH, system),
        },
    }
    return [said[name] for name in passed(answer)]


def changed_in_words(blanks: dict[str, str]) -> str:
    """What a plan within the limits has otherwise: half the water every 2 h, the lid open."""
    said = {
        "ice": gettext("with ice"),
        "pump": gettext("the pump without a break"),
        "change": gettext("half the water every %(blanks)s h")
        % {"blanks": blanks.get("change", "").replace(".5", "½")},
        "lid": gettext("the lid open"),
        "fish": gettext("%(blanks)s fish at most") % {"blanks": blanks.get("fish")},
    }
    return ", ".join(words for name, words in said.items() if name in blanks)


def refusal(asked: Question, system: str) -> tuple[str, list[str]]:
    """Why no fish are held today: the finding, and its reasons."""
    finding = gettext("Do not hold fish today: the lake is at %(lake_c)s.") % {"lake_c": warmth(asked.lake_c, system)}
    cool = gettext("The livewell may be at most %(step_c)s below the lake: %(coolest_c)s.") % {
        "step_c": step(asked.step_c, system),
        "coolest_c": warmth(asked.coolest_c, system),
    }
    if asked.species == WALLEYE:
        why = gettext(
            "Above %(hottest_c)s far more walleye die (14 events; Schramm et al. 2010), and of those used to "
            "%(walleye_none_lived_c)s none lived five days after a tournament was played through (Loomis et al. 2013)."
        ) % {"hottest_c": warmth(asked.hottest_c, system), "walleye_none_lived_c": warmth(WALLEYE_NONE_LIVED_C, system)}
    else:
        why = gettext(
            "The warmest livewell of the published targets is %(hottest_c)s (Schramm), and no tank may be above %(kansas_c)s "
            "(Kansas). More ice would be a shock when the fish go back."
        ) % {"hottest_c": warmth(asked.hottest_c, system), "kansas_c": warmth(HOTTEST_C, system)}
    return finding, [f"{cool} {why}", gettext(INSTEAD)]


def heat_cautions(asked: Question, kind: Fish, system: str) -> list[tuple[str, str]]:
    """What the lake's temperature calls for: a bold sentence and the rest."""
    if asked.lake_c < min(asked.care_c, kind.heat_from_c) - ROUNDING:
        return []
    said = []
    if asked.lake_c >= asked.care_c - ROUNDING and asked.species != WALLEYE:
        said.append(
            (
                gettext("The lake is at %(lake_c)s; care steps begin at %(care_c)s.")
                % {"lake_c": warmth(asked.lake_c, system), "care_c": warmth(asked.care_c, system)},
                gettext(
                    "So Kansas’s agency rules and Mississippi’s guidance. Where it is too hot, a club may go over to measured lengths and immediate release."
                ),
            )
        )
    return (
        [*said, (gettext(kind.heat[0]), gettext(kind.heat[1]))] if asked.lake_c >= kind.heat_from_c - ROUNDING else said
    )

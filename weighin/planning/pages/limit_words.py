"""What a plan passes, what would keep it within the limits, and why no fish are held, in sentences."""

from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.loading import HANDBOOK_KG_PER_L
from weighin.livewell.temperature.cooling import HOTTEST_C, ROUNDING, WALLEYE_NONE_LIVED_C
from weighin.planning.domain.degrees import step, warmth
from weighin.planning.domain.limits import passed
from weighin.planning.domain.plan import FLOORS_MG_L, Answer
from weighin.planning.domain.quantities import FISH, shown
from weighin.planning.domain.question import WALLEYE, Question
from weighin.planning.domain.species import Fish

INSTEAD = "Fish by measured length with immediate release, or earlier in the year."


def passed_in_words(answer: Answer, system: str) -> list[str]:
    """Each limit that the plan passes, with its figures; empty when it passes none."""
    asked, well = answer.question, answer.temperature_c
    carbon, oxygen = answer.carbon_at_rest.stated.highest, answer.oxygen_at_rest.stated.lowest
    said = {
        "cold": f"The well cools to {warmth(well.lowest, system)}, more than {step(asked.step_c, system)} below the lake.",
        "hot": f"The well comes to {warmth(well.highest, system)}; no tank may be above {warmth(HOTTEST_C, system)} (Kansas).",
        "warm": f"The well warms to {warmth(well.last, system)}; it should be held at {warmth(asked.hold_c, system)}.",
        "oxygen": f"Oxygen falls to {oxygen:.1f} mg/L at rest; the least to keep is {FLOORS_MG_L[0]:.0f}.",
        "carbon": f"Carbon dioxide comes to {carbon:.0f} mg/L at rest; hauling advice is under {HAULING_LIMIT_MG_L:.0f}.",
        "load": f"{shown(asked.kg * 1000, FISH, system)} of fish are more than the handbook’s pound a gallon "
        f"({shown(asked.volume_l * HANDBOOK_KG_PER_L * 1000, FISH, system)}).",
    }
    return [said[name] for name in passed(answer)]


def changed_in_words(blanks: dict[str, str]) -> str:
    """What a plan within the limits has otherwise: half the water every 2 h, the lid open."""
    said = {
        "ice": "with ice",
        "pump": "the pump without a break",
        "change": f"half the water every {blanks.get('change', '').replace('.5', '½')} h",
        "lid": "the lid open",
        "fish": f"{blanks.get('fish')} fish at most",
    }
    return ", ".join(words for name, words in said.items() if name in blanks)


def refusal(asked: Question, system: str) -> tuple[str, list[str]]:
    """Why no fish are held today: the finding, and its reasons."""
    finding = f"Do not hold fish today: the lake is at {warmth(asked.lake_c, system)}."
    cool = f"The well may be at most {step(asked.step_c, system)} below the lake: {warmth(asked.coolest_c, system)}. "
    if asked.species == WALLEYE:
        why = (
            f"Above {warmth(asked.hottest_c, system)} far more walleye die (14 events; Schramm et al. 2010), and of those used to "
            f"{warmth(WALLEYE_NONE_LIVED_C, system)} none lived five days after a tournament was played through (Loomis et al. 2013)."
        )
    else:
        why = (
            f"The warmest well of the published targets is {warmth(asked.hottest_c, system)} (Schramm), and no tank may be above "
            f"{warmth(HOTTEST_C, system)} (Kansas). More ice would be a shock when the fish go back."
        )
    return finding, [cool + why, INSTEAD]


def heat_cautions(asked: Question, kind: Fish, system: str) -> list[tuple[str, str]]:
    """What the lake's temperature calls for: a bold sentence and the rest."""
    if asked.lake_c < min(asked.care_c, kind.heat_from_c) - ROUNDING:
        return []
    said = []
    if asked.lake_c >= asked.care_c - ROUNDING and asked.species != WALLEYE:
        said.append(
            (
                f"The lake is at {warmth(asked.lake_c, system)}; care steps begin at {warmth(asked.care_c, system)}.",
                "So Kansas’s agency rules and Mississippi’s guidance. Where it is too hot, a club may go over to measured "
                "lengths and immediate release.",
            )
        )
    return [*said, kind.heat] if asked.lake_c >= kind.heat_from_c - ROUNDING else said

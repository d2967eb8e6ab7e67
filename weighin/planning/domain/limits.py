"""Which of the limits that the planner cites a plan passes, and the mildest change that keeps within them. Pure.

Judged by the middle figures at rest; that freshly caught fish pass them sooner stands beside every figure.
"""

from dataclasses import dataclass, replace

from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.temperature.cooling import HOTTEST_C, ROUNDING
from weighin.planning.domain.plan import FLOORS_MG_L, Answer, work_out
from weighin.planning.domain.question import Question

FULL = 1.0  # the handbook's pound a gallon
CHANGES_H = ((3.0, "3"), (2.5, "2.5"), (2.0, "2"))  # half the water every so many hours, as its blank says it


@dataclass(frozen=True)
class Within:
    """A plan that passes no limit: the blanks that differ from what was asked, and its answer."""

    blanks: dict[str, str]
    answer: Answer


def passed(answer: Answer) -> tuple[str, ...]:
    """The names of the limits that a plan passes: ``cold``, ``hot``, ``warm``, ``oxygen``, ``carbon``, ``load``."""
    asked, well = answer.question, answer.temperature_c
    found = {
        "cold": asked.lake_c - well.lowest > asked.step_c + ROUNDING,
        "hot": well.highest > max(HOTTEST_C, asked.lake_c) + ROUNDING,
        "warm": not asked.ice and well.last > max(asked.hold_c, asked.care_c) + ROUNDING,
        "oxygen": answer.oxygen_at_rest.stated.lowest < FLOORS_MG_L[0],
        "carbon": answer.carbon_at_rest.stated.highest >= HAULING_LIMIT_MG_L,
        "load": answer.load > FULL + ROUNDING,
    }
    return tuple(name for name, is_passed in found.items() if is_passed)


def within(asked: Question) -> Within | None:
    """The mildest change of a plan that keeps within the limits, the fish last of all; None where none is found.

    In this order: ice, the pump without a break, more water changed, the lid open to the air, fewer fish.
    """
    blanks: dict[str, str] = {}
    if not asked.ice:
        first = _answer(asked)
        if first is None or {"hot", "warm"} & {*passed(first)}:
            asked, blanks = replace(asked, ice=True), {"ice": "yes"}
    if asked.on_timer:
        asked, blanks = replace(asked, on_timer=False), {**blanks, "pump": "on"}
    rungs = [(asked, blanks)]
    for hours, word in CHANGES_H:
        if hours < (asked.change_every_h or 24.0):
            rungs.append((replace(asked, change_every_h=hours), {**blanks, "change": word}))
    if not asked.vented:
        rungs += [(replace(each, vented=True), {**said, "lid": "open"}) for each, said in rungs[1:] or rungs]
    for each, said in rungs:
        answer = _answer(each)
        if answer is not None and not passed(answer):
            return Within(said, answer)
    last, said = rungs[-1]
    found = _fewer(last)
    return None if found is None else Within({**said, "fish": str(found.question.fish)}, found)


def _fewer(asked: Question) -> Answer | None:
    """The same plan with the most fish that keep within the limits."""
    found, low, high = None, 1, asked.fish - 1
    while low <= high:
        fish = (low + high) // 2
        answer = _answer(replace(asked, fish=fish))
        if answer is not None and not passed(answer):
            found, low = answer, fish + 1
        else:
            high = fish - 1
    return found


def _answer(asked: Question) -> Answer | None:
    try:
        return work_out(asked)
    except OutOfRange:
        return None

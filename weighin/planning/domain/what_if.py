"""The same question with one thing changed, beside the plan."""

from dataclasses import dataclass, replace

from django.utils.translation import gettext

from weighin.livewell.figures.ranges import OutOfRange
from weighin.planning.domain.plan import Answer, work_out
from weighin.planning.domain.question import Question

MANY, LIMIT = 30, 7  # common practice, no source: thirty on board take the oxygen far faster than a limit of seven


@dataclass(frozen=True)
class Alternative:
    """What is changed in words, the blanks that say so, and the answer; None when it cannot be worked out."""

    words: str
    blanks: dict[str, str]
    answer: Answer | None


def alternatives(asked: Question) -> list[Alternative]:
    """Thirty fish instead of a limit, the pump, the ice and the changes of water the other way round."""
    many = MANY if asked.fish < MANY else LIMIT
    found = [
        (
            gettext("%(many)s fish instead of %(fish)s") % {"many": many, "fish": asked.fish},
            {"fish": str(many)},
            replace(asked, fish=many),
        ),
        (gettext("pump without a break"), {"pump": "on"}, replace(asked, on_timer=False))
        if asked.on_timer
        else (gettext("pump on a timer"), {"pump": "timer"}, replace(asked, on_timer=True)),
        (gettext("no ice"), {"ice": "no"}, replace(asked, ice=False, ice_aboard_kg=None))
        if asked.ice
        else (gettext("with ice"), {"ice": "yes"}, replace(asked, ice=True)),
        (gettext("water never changed"), {"change": "never"}, replace(asked, change_every_h=None))
        if asked.change_every_h
        else (gettext("half the water every 2½ h"), {"change": "2.5"}, replace(asked, change_every_h=2.5)),
    ]
    return [Alternative(words, blanks, _answer(question)) for words, blanks, question in found]


def _answer(question: Question) -> Answer | None:
    try:
        return work_out(question)
    except OutOfRange:
        return None

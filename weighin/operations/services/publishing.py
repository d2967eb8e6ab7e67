"""Publish a result or close an event: every open question is settled first, or overruled with a reason."""

from collections.abc import Mapping, Sequence
from typing import Any

from django.utils import timezone

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.operations.domain.faults import NOT_ANSWERED, NOT_SETTLED, REASON_TOO_LONG
from weighin.operations.queries.open_questions import CLOSE, PUBLISH, Question, open_questions
from weighin.registration.queries.cash_up import cash_up_of
from weighin.rules.faults import Fault, Faults
from weighin.slips.queries.slips import ledger_head
from weighin.standings.domain.faults import NEW_VERSION_WITHOUT_REASON, NOTHING_CHANGED, POSTED_ALREADY
from weighin.standings.models import OfficialResult
from weighin.standings.queries.days import days_of, stage_to_keep
from weighin.standings.queries.document import nothing_new
from weighin.standings.queries.protests import ResultState, result_state
from weighin.standings.queries.standings import Standings, standings_of
from weighin.standings.services import post_result, publish_result, set_closed, set_public

TOO_LONG = 500


def publish(event: Event, by: str, reason: str, overruled: Mapping[str, str]) -> OfficialResult:
    """Publish the next official version. ``overruled`` maps a question's key to why it may stand.

    Raises Faults, all at once and each at its question's key, and as ``publish_result`` does.
    """
    with writing():
        held = _held(event)
        answers, faults = answered(open_questions(held, PUBLISH), overruled)
        if len(reason.strip()) > TOO_LONG:
            faults.append(REASON_TOO_LONG.at("reason", has=len(reason.strip()), most=TOO_LONG))
        last = OfficialResult.objects.filter(event=held).first()
        pots = side_pots_won(held)
        if faults and last is not None:
            if _same(last, held, pots):
                raise Faults([NOTHING_CHANGED.at("", version=last.version)])
            if not reason.strip():
                faults.append(NEW_VERSION_WITHOUT_REASON.at("reason", version=last.version))
        _refuse(faults)
        return publish_result(held, by, reason, answers, pots)


def _same(last: OfficialResult, event: Event, pots: Mapping[str, Mapping[str, str]]) -> bool:
    """Whether there is nothing to publish: then nobody is asked for reasons that would serve no version."""
    standings = standings_of(event)
    stage = stage_to_keep(days_of(standings), timezone.now())
    return nothing_new(last, standings, ledger_head(event), pots, stage)


def side_pots_won(event: Event, standings: Standings | None = None) -> dict[str, dict[str, str]]:
    """What boats win of each side pot as the standings are."""
    pots = cash_up_of(event, standings).pots
    return {
        name: {str(boat): f"{amount:.2f}" for boat, amount in sorted(split.prizes.items())}
        for name, split in pots.items()
    }


def post(event: Event, by: str) -> ResultState:
    """Post the provisional result and open its pages. What stands open is not asked: that is for the official one.

    Without a slip the pages only open; with a version they open again, and the version stands. Posted again with nothing
    changed, the first posting stands with its time. Raises Faults.
    """
    with writing():
        held = _held(event)
        state = result_state(held)
        if state.state == "official" or not held.slips.exists():
            if not held.is_public:
                set_public(held, True, by)
            return state
        try:
            post_result(held, by)
        except Faults as faults:
            if [fault.said.code for fault in faults.faults] != [POSTED_ALREADY.code]:
                raise
        return result_state(held)


def close(event: Event, by: str, overruled: Mapping[str, str]) -> None:
    """Close the event; as ``publish``."""
    with writing():
        held = _held(event)
        answers, faults = answered(open_questions(held, CLOSE), overruled)
        _refuse(faults)
        accounted = any(answer["code"] in ("nobody_kept_the_roll", "not_noted_in") for answer in answers)
        set_closed(held, True, by, accounted=accounted, overruled=answers)


def answered(questions: Sequence[Question], overruled: Mapping[str, str]) -> tuple[list[dict[str, Any]], list[Fault]]:
    """The questions with the reasons given for them, and a fault for each that has none or cannot be overruled."""
    answers, faults = [], []
    for question in questions:
        reason = " ".join(overruled.get(question.key, "").split())
        if question.must_settle:
            faults.append(NOT_SETTLED.at("", question=question.words))
        elif not reason:
            faults.append(NOT_ANSWERED.at(question.key, question=question.words))
        elif len(reason) > TOO_LONG:
            faults.append(REASON_TOO_LONG.at(question.key, has=len(reason), most=TOO_LONG))
        else:
            answers.append({"code": question.code, "day": question.day, "question": question.words, "reason": reason})
    return answers, faults


def _held(event: Event) -> Event:
    """The event, held so that nothing is written between the questions and the act."""
    return (
        Event.everyone.select_for_update(of=("self",))
        .select_related("season__club", "water", "rule_sheet")
        .get(pk=event.pk)
    )


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise Faults(faults)

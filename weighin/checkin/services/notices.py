"""A weather hold or a shortened day: every due time of a day moved in one act, with the word that went out."""

import uuid
from collections.abc import Mapping
from datetime import datetime, time
from typing import Any

from django.db.models import Max
from django.utils import timezone

from weighin.audit.services import writing
from weighin.checkin.domain.faults import (
    DAY_NOT_FISHED,
    DUE_HAD_PASSED,
    DUE_THEN_ALREADY,
    DUE_TIMES_CHANGED,
    MINUTES_AND_TIME,
    NEITHER_MINUTES_NOR_TIME,
    NOT_WHOLE_MINUTES,
    NOTICE_BY_NOBODY,
    NOTICE_KEPT_DIFFERS,
    NOTICE_WITHOUT_HOW,
    NOTICE_WITHOUT_REASON,
    TOLD_IN_FUTURE,
)
from weighin.checkin.models import DueNotice
from weighin.events.domain.calendar import Calendar, read_clock
from weighin.events.domain.clock import CLOCK_MAY_DIFFER, clock
from weighin.events.domain.faults import NOT_A_TIME
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.events.services.due_times import (
    Clocks,
    at_one_time,
    call_shortened,
    due_clocks,
    later_by,
    moments_of,
    move_due_times,
)
from weighin.events.services.revision import lock_open_event
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, Sentence, Wrong

MOST_MINUTES = 480


def seen_as(event: Event, day: int) -> str:
    """The day's due times in one text: a page sends it back, so that nobody moves times that were moved meanwhile."""
    return ", ".join(f"{flight or 'day'} {due:%H:%M:%S}" for flight, due in due_clocks(event, day).items())


def move_due(event: Event, day: int, said: Mapping[str, Any], by: str, id: uuid.UUID) -> DueNotice:
    """Move every due time of a day, and keep the notice. Sent twice, they move once. Raises Faults.

    ``said`` holds ``minutes`` (later; negative: earlier) or ``to`` (one clock for all boats), ``given`` (when the boats
    were told; blank is now), ``given_by``, ``how``, ``reason``, ``shortened`` (a bool) and ``seen``, which is ``seen_as``
    as the person saw it.
    """
    with writing():
        kept = DueNotice.objects.filter(pk=id).first()
        if kept is not None:
            return _again(kept, event, day, said)
        held = lock_open_event(event)
        calendar = calendar_of(held)
        if day not in calendar.fished:
            raise Faults([DAY_NOT_FISHED.at("", day=day)])
        told = _read(held, calendar, day, said)
        before, after = due_clocks(held, day), told.pop("clocks")
        _check_fair(held, calendar, day, before, after, told["given_at"])
        number = (DueNotice.objects.filter(event=held).aggregate(most=Max("number"))["most"] or 0) + 1
        notice = DueNotice(id=id, event=held, number=number, day=day, recorded_by=by, **told)
        notice.moved = {flight: [f"{before[flight]}", f"{due}"] for flight, due in after.items()}
        notice.save()
        at = clock(notice.given_at, calendar, day)
        sentence = f"Day {day}: {moved_said(notice)}; told at {at}, {notice.get_how_display().lower()}, by {notice.given_by}: {notice.reason}"
        move_due_times(held, day, after, by, sentence)
        if notice.shortened:
            call_shortened(held, day)
        return notice


def moved_said(notice: DueNotice) -> str:
    """``due 15:00 is now 15:30; flight 2, due 15:30, is now 16:00``: what a notice moved."""
    parts = []
    for flight, (was, now) in sorted(notice.moved.items()):
        name = f"flight {flight}, due {_short(was)}," if flight else f"due {_short(was)}"
        parts.append(f"{name} is now {_short(now)}")
    return "; ".join(parts)


def _short(written: str) -> str:
    return written.removesuffix(":00") if written.count(":") == 2 else written


def _read(event: Event, calendar: Calendar, day: int, said: Mapping[str, Any]) -> dict[str, Any]:
    """The notice's values and the ``clocks`` to move to. Raises Faults."""
    faults: list[Fault] = []
    found: dict[str, Any] = {"shortened": bool(said.get("shortened"))}
    now = timezone.now()

    def take(name: str, read: Any, blank: Sentence) -> Any:
        text = str(said.get(name) or "").strip()
        try:
            if not text:
                raise blank.wrong()
            return read(text)
        except Wrong as error:
            faults.append(error.at(name))
            return None

    found["given_by"] = take("given_by", values.line, NOTICE_BY_NOBODY)
    found["how"] = take("how", lambda text: values.choice(text, DueNotice.How.values), NOTICE_WITHOUT_HOW)
    found["reason"] = take("reason", values.lines, NOTICE_WITHOUT_REASON)
    if str(said.get("given") or "").strip():
        found["given_at"] = take("given", lambda text: calendar.read(day, text), NOT_A_TIME)
        if found["given_at"] and found["given_at"] > now + CLOCK_MAY_DIFFER:
            shown = clock(found["given_at"], calendar, day)
            faults.append(TOLD_IN_FUTURE.at("given", time=shown))
    else:
        found["given_at"] = now.replace(microsecond=0)
    try:
        found["clocks"] = _clocks(event, day, said)
    except Faults as wrong:
        faults.extend(wrong.faults)
    if said.get("seen") != seen_as(event, day):
        faults.append(DUE_TIMES_CHANGED.at("", now=seen_as(event, day)))
    if faults:
        raise Faults(faults)
    return found


def _clocks(event: Event, day: int, said: Mapping[str, Any]) -> Clocks:
    minutes, to = (str(said.get(name) or "").strip() for name in ("minutes", "to"))
    if bool(minutes) == bool(to):
        raise Faults([(MINUTES_AND_TIME if minutes else NEITHER_MINUTES_NOR_TIME).at("minutes")])
    if to:
        return at_one_time(event, day, _time(to))
    try:
        step = int(values.decimal(minutes, least=-MOST_MINUTES, most=MOST_MINUTES))
        if values.decimal(minutes) != step or step == 0:
            raise NOT_WHOLE_MINUTES.wrong()
    except Wrong as error:
        raise Faults([error.at("minutes")]) from None
    return later_by(event, day, step)


def _time(text: str) -> time:
    try:
        return read_clock(text)
    except Wrong as error:
        raise Faults([error.at("to")]) from None


def _check_fair(event: Event, calendar: Calendar, day: int, before: Clocks, after: Clocks, given: datetime) -> None:
    """A boat cannot be due before it was told: an earlier due time lies after the notice. Raises Faults."""
    try:
        now = moments_of(event, day, after)
    except ValueError:
        return  # named where it is written
    if before == after:
        raise Faults([DUE_THEN_ALREADY.at("to")])
    for flight, moment in now.items():
        if moment < calendar.at(day, before[flight]) and moment <= given:
            told, due = clock(given, calendar, day), clock(moment, calendar, day)
            raise Faults([DUE_HAD_PASSED.at("to", due=due, told=told)])


def _again(kept: DueNotice, event: Event, day: int, said: Mapping[str, Any]) -> DueNotice:
    same = kept.event_id == event.pk and kept.day == day and kept.reason == str(said.get("reason") or "").strip()
    if not same:
        raise Faults([NOTICE_KEPT_DIFFERS.at("")])
    return kept

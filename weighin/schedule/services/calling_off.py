"""Cancel an event, postpone it, or let it take place after all: its days and what the teams are told, in one act."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from weighin.audit.services import log_history, writing
from weighin.events.domain import weighed
from weighin.events.models import Event, EventDay
from weighin.events.queries.events import is_cancelled
from weighin.events.services.events import DAY_FIELDS, FIELDS, change_day, change_event
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.letters.services.queueing import queue_letter
from weighin.roster.models import Entry
from weighin.roster.queries import contacts_of
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.schedule.domain.faults import (
    CANCELLED_ALREADY,
    NOT_LATER,
    NOTICE_WITHOUT_WHY,
    SLIPS_FORBID,
    TAKES_PLACE_ALREADY,
)
from weighin.schedule.domain.words import letter_to_teams
from weighin.schedule.models import Notice
from weighin.schedule.queries.notices import standing_notice, waits_for_date
from weighin.signup.models import SignUp

LONGEST_REASON = 300
ACTS = {
    Notice.Kind.CANCELLED: "event.cancelled",
    Notice.Kind.POSTPONED: "event.postponed",
    Notice.Kind.TAKES_PLACE: "event.takes_place",
}


def cancel_event(event: Event, reason: str, by: str) -> Notice:
    """Cancel every day of an event that no boat was weighed at. Raises Faults: ``reason``, and of the whole."""
    with writing():
        held = lock_open_event(event)
        faults = _faults(held, reason)
        if is_cancelled(held):
            faults.append(CANCELLED_ALREADY.at(""))
        _refuse(faults)
        _set_days(held, EventDay.Status.CANCELLED, by)
        return _notice(held, Notice.Kind.CANCELLED, reason, held.date, None, by, f"{held.name} is cancelled")


def postpone_event(event: Event, to: date | None, reason: str, by: str) -> Notice:
    """Move an event to a later first day, its days keeping their distance; ``to`` is None while nobody knows it.

    A cancelled event is on again. Raises Faults: ``reason``, ``to``, and of the whole.
    """
    with writing():
        held = lock_open_event(event)
        was = held.date
        faults = _faults(held, reason)
        if to is not None and to <= was:
            faults.append(NOT_LATER.at("to", date=was))
        _refuse(faults)
        if is_cancelled(held):
            _set_days(held, EventDay.Status.FISHED, by)
        if to is not None:
            said: dict[str, Any] = {name: getattr(held, name) for name in FIELDS}
            try:
                change_event(held, {**said, "date": to, "days": held.event_days.count()}, by)
            except Faults as found:
                raise Faults([_at(fault, {"date": "to"}) for fault in found.faults]) from None
        sentence = f"{held.name} of {was} is postponed" + (f" to {to}" if to else ", date to follow")
        return _notice(held, Notice.Kind.POSTPONED, reason, was, to, by, sentence)


def take_back(event: Event, reason: str, by: str) -> Notice:
    """Let a cancelled event, or one postponed without a date, take place on its days. Raises Faults."""
    with writing():
        held = lock_open_event(event)
        faults = _faults(held, reason)
        if is_cancelled(held):
            _refuse(faults)
            _set_days(held, EventDay.Status.FISHED, by)
        elif not waits_for_date(standing_notice(held)):
            faults.append(TAKES_PLACE_ALREADY.at(""))
        _refuse(faults)
        return _notice(held, Notice.Kind.TAKES_PLACE, reason, held.date, None, by, f"{held.name} takes place after all")


def _faults(event: Event, reason: str) -> list[Fault]:
    faults = [SLIPS_FORBID.at("")] if weighed.count(event, current=True) else []
    if not reason.strip():
        return [*faults, NOTICE_WITHOUT_WHY.at("reason")]
    try:
        values.line(reason, LONGEST_REASON)
    except Wrong as error:
        faults.append(error.at("reason"))
    return faults


def _set_days(event: Event, status: str, by: str) -> None:
    for day in event.event_days.all():
        said = {name: getattr(day, name) for name in DAY_FIELDS} | {"status": status}
        try:
            change_day(event, day.number, said, by)
        except Faults as found:
            raise Faults([_at(fault, {}) for fault in found.faults]) from None


def _at(fault: Fault, fields: Mapping[str, str]) -> Fault:
    return Fault(fields.get(fault.field, ""), fault.said)


def _notice(event: Event, kind: Notice.Kind, reason: str, was: date, to: date | None, by: str, sentence: str) -> Notice:
    reason = " ".join(reason.split())
    event = Event.everyone.select_related("season__club", "water").get(pk=event.pk)
    notice = Notice.objects.create(event=event, kind=kind, reason=reason, was=was, to=to, by=by)
    raise_revision(event)
    log_history(
        by, ACTS[kind], f"{sentence}: {reason}", club_id=event.season.club_id, event_id=event.pk, subject=event.slug,
        details={"reason": reason, "was": str(was), "to": str(to) if to else None},
    )  # fmt: skip
    if event.rehearsal_of_id is None:  # nobody is told of what is rehearsed
        _write_letters(event, notice)
    return notice


def _write_letters(event: Event, notice: Notice) -> None:
    """An e-mail to every team that left an address, once each; none where the site sends no mail."""
    entries = Entry.everyone.filter(event=event).exclude(status=Entry.Status.WITHDRAWN).values_list("pk", flat=True)
    reached, fishing = contacts_of(event), set(entries)
    asked = SignUp.objects.filter(event=event, state=SignUp.State.ASKED).values_list("pk", "email")
    to = [(f"entry {pk}", contact.email) for pk, contact in reached.items() if pk in fishing]
    subject, text = letter_to_teams(event, notice)
    for whose, address in to + [(f"sign-up {pk}", email) for pk, email in asked]:
        queue_letter(
            f"notice {notice.pk} {whose}", address, subject, f"{text}\n",
            club_id=event.season.club_id, event_id=event.pk,
        )  # fmt: skip


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise Faults(faults)

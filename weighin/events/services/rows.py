"""Keep, change and take out rows of fish care, each with its history entry and the event's revision raised.

A row comes with the id its form or device gave it: sent twice, it is kept once. A change says which state of the row
the writer had before them, and is refused when somebody else changed it meanwhile.
"""

import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Generic, TypeVar

from django.db.models import Model, ProtectedError

from weighin.audit.domain.chain import link
from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.records.domain.faults import (
    CHANGED_MEANWHILE,
    FORM_KEPT_OTHERWISE,
    GONE_MEANWHILE,
    NO_REASON_TO_TAKE_OUT,
    OTHERS_HANG_ON_IT,
    REASON_TOO_LONG,
)
from weighin.rules.faults import Faults

Row = TypeVar("Row", bound=Model)
Read = Callable[[Event], Mapping[str, Any]]

CHANGED = (
    "somebody else changed this meanwhile: what it says now stands above, what you wrote stands below; "
    "send yours again to keep it instead"
)
GONE = "somebody else took this out meanwhile: write it anew if it is to stand"
SENT_BEFORE = "this form was kept already with other figures: open the list and change that row instead"


@dataclass(frozen=True)
class Book(Generic[Row]):
    """A kind of row: its model, how the history names it, and the fields a person writes.

    ``after_closing`` rows may be written when the event is closed: what is seen in the days after it changes no
    result. ``event`` is the way from the row to its event, ``key`` the field that holds the sender's id.
    """

    model: type[Row]
    act: str
    words: str
    fields: tuple[str, ...]
    after_closing: bool = False
    event: str = "event"
    key: str = "id"


def add(book: Book[Row], event: Event, read: Read, by: str, key: uuid.UUID) -> Row:
    """Keep a new row; ``read`` gives its values from the locked event. Raises Faults with field names."""
    with writing():
        held = _held(book, event)
        values = dict(read(held))
        before = book.model._default_manager.filter(**{book.key: key}).first()
        if before is not None:
            if said(book, before) != {name: _plain(values[name]) for name in book.fields}:
                raise Faults([FORM_KEPT_OTHERWISE.at("")])
            return before
        if book.event == "event":
            values["event"] = held
        row = book.model(**{book.key: key}, **values)
        row.save(force_insert=True)
        _note(book, held, row, "written", by, {"after": said(book, row)})
    return row


def change(book: Book[Row], event: Event, pk: Any, read: Read, by: str, seen: str) -> Row:
    """Change a row that reads as ``seen``, its ``fingerprint``. Raises Faults with field names."""
    with writing():
        held = _held(book, event)
        values = read(held)
        row = _row(book, held, pk)
        if seen != fingerprint(book, row):
            raise Faults([CHANGED_MEANWHILE.at("seen")])
        before = said(book, row)
        for name, value in values.items():
            setattr(row, name, value)
        if said(book, row) != before:
            row.save()
            _note(book, held, row, "changed", by, {"before": before, "after": said(book, row)})
    return row


def take_out(book: Book[Row], event: Event, pk: Any, reason: str, by: str) -> None:
    """Take a row out, with a reason; the history keeps what it said. Raises Faults."""
    why = reason.strip()
    if not why:
        raise Faults([NO_REASON_TO_TAKE_OUT.at("reason")])
    if len(why) > 300:
        raise Faults([REASON_TOO_LONG.at("reason", n=len(why), most=300)])
    with writing():
        held = _held(book, event)
        row = _row(book, held, pk)
        _note(book, held, row, "taken out", by, {"before": said(book, row), "reason": why}, f": {why}")
        try:
            row.delete()
        except ProtectedError:
            raise Faults([OTHERS_HANG_ON_IT.at("reason")]) from None


def fingerprint(book: Book[Row], row: Row) -> str:
    """A digest of what a row says, by which a page knows whether it changed meanwhile."""
    return link("", {name: None if value is None else str(value) for name, value in said(book, row).items()})


def said(book: Book[Row], row: Row) -> dict[str, Any]:
    """What a person wrote in a row, in plain JSON."""
    return {name: _plain(getattr(row, name)) for name in book.fields}


def _held(book: Book[Row], event: Event) -> Event:
    if not book.after_closing:
        return lock_open_event(event)
    found = Event.objects.select_for_update(of=("self",)).select_related(
        "season", "season__club", "water", "rule_sheet"
    )
    return found.get(pk=event.pk)


def _row(book: Book[Row], event: Event, pk: Any) -> Row:
    row = book.model._default_manager.filter(pk=pk, **{book.event: event}).first()
    if row is None:
        raise Faults([GONE_MEANWHILE.at("")])
    return row


def _note(
    book: Book[Row], event: Event, row: Row, done: str, by: str, details: Mapping[str, Any], more: str = ""
) -> None:
    raise_revision(event)
    log_history(
        by,
        f"{book.act}.{done.replace(' ', '_')}",
        f"{book.words} {done}: {row}{more}",
        club_id=event.season.club_id,
        event_id=event.pk,
        subject=str(row),
        details=details,
    )


def _plain(value: Any) -> Any:
    if isinstance(value, datetime):
        return value.isoformat()
    if isinstance(value, Model):
        return str(value.pk)
    return value

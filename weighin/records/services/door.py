"""The one door: every row about an event is written here, whoever brings it and whatever kind of row it is.

In one transaction: hold the event, answer what was kept before, refuse what is closed, read, check, correct or edit,
number, chain, insert, note in the history, raise the revision.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypeVar
from uuid import UUID

from django.db import IntegrityError
from django.db.models import AutoField, Max, Model, ProtectedError
from django.utils import timezone

from weighin.audit.database.statements import add, add_all, is_kept
from weighin.audit.domain.chain import START, link
from weighin.audit.models import AppendOnly
from weighin.audit.services import log_history, writing
from weighin.records.domain import faults
from weighin.records.domain.messages import Draft, Outcome, Sender, Values
from weighin.records.domain.rows import chained, fingerprint
from weighin.records.parsing.json_body import in_order, read_item
from weighin.records.parsing.reader import Reader
from weighin.records.services.record_type import End, RecordType
from weighin.rules.faults import Fault, Faults, Said

Row = TypeVar("Row", bound=Model)

MOST_OF_A_REASON = 300
MANY = 500


def receive(
    record: RecordType[Row], holder: Any, items: Sequence[Mapping[str, Any]], sender: Sender
) -> list[tuple[Draft, Outcome[Row]]]:
    """Take the items of one body in, each in a transaction of its own: what became of each, in the order of the body."""
    drafts = [read_item(item, record.item_form) for item in items]
    outcomes = {place: write(record, holder, drafts[place], sender) for place in in_order(drafts)}
    return [(draft, outcomes[place]) for place, draft in enumerate(drafts)]


def write(record: RecordType[Row], holder: Any, draft: Draft, sender: Sender) -> Outcome[Row]:
    """Write a draft: a new row, a correction, an edit or a void, as it says. ``holder`` is the key of the scope's holder.

    Nothing is raised for what is wrong with it: ``Outcome`` says what became of it.
    """
    if draft.id is None:
        return Outcome("refused", faults=tuple(draft.faults))
    try:
        return _write(record, holder, draft, sender)
    except IntegrityError:
        # Another process kept the same id between our look and our write: now it is there to be compared with.
        return _write(record, holder, draft, sender)


def write_many(record: RecordType[Row], context: Any, all_values: Iterable[Values], sender: Sender) -> list[Row]:
    """Write rows that were read already, as an import brings them, in the order given; call inside ``writing``.

    Values may hold ``id``, ``number`` and ``replaces``, the number of another of them. The import notes itself in the
    history.
    """
    rows: list[Any] = []
    end = _end(record, context)
    given = [dict(values) for values in all_values]
    position, head = end.position, end.link
    number = max([end.number, *(values.get("number") or 0 for values in given)])
    replaced = [values.pop("replaces", None) for values in given]
    for values in given:
        if record.numbered and not values.get("number"):
            number += 1
            values["number"] = number
        rows.append(_row(record, context, values, sender))
    by_number = {row.number: row for row in rows} if record.numbered else {}
    for row, of in zip(rows, replaced, strict=True):
        if of is not None:
            row.replaces_id = by_number[of].pk
        if record.chain:
            position += 1
            row.position = position
            head = row.link = link(head, chained(record.fields, row))
    if isinstance(record.model._meta.pk, AutoField):
        record.model._default_manager.bulk_create(rows, batch_size=MANY)
    else:
        add_all(rows)
    if rows:
        _changed(record, context, End(number, position, head))
    return rows


def _write(record: RecordType[Row], holder: Any, draft: Draft, sender: Sender) -> Outcome[Row]:
    try:
        with writing():
            context = record.scope.lock(holder)
            named = record.key and not _edits(record, draft)
            if named and is_kept(record.model, record.key, draft.id):
                again = record.rows().get(**{record.key: draft.id})
                return _again(record, again, draft, context, sender)
            if context.closed is not None and not record.after_closing:
                raise Faults([Fault("", context.closed)])
            if _edits(record, draft):
                return _edit(record, draft, context, sender)
            return _add(record, draft, context, sender)
    except Faults as found:
        return Outcome("refused", faults=tuple(draft.told(found.faults)))


def _again(record: RecordType[Row], row: Row, draft: Draft, context: Any, sender: Sender) -> Outcome[Row]:
    """The answer to an id that is kept already."""
    if not record.is_of(row, context):
        return Outcome("differs", faults=(faults.USED_ELSEWHERE.at("id"),))
    if not draft.faults and _replaced(record, row, draft) == draft.replaces and record.same(row, draft, context):
        return Outcome("already", row)
    return Outcome("differs", row, (record.differs(row, sender.asked),))


def _replaced(record: RecordType[Any], row: Any, draft: Draft) -> Any:
    """What the row replaces, named in the way the draft names it."""
    if "replaces" not in record.attribute_names or row.replaces is None:
        return None
    return row.replaces.number if isinstance(draft.replaces, int) else row.replaces.pk


def _add(record: RecordType[Row], draft: Draft, context: Any, sender: Sender) -> Outcome[Row]:
    """A new row: a first one, a correction or a void."""
    found: list[Fault] = []
    old: Row | None = None
    try:
        old = _corrected(record, draft, context, sender)
    except Faults as wrong:
        found.extend(wrong.faults)
    reader = record.read(draft, context, old, asked=sender.asked)
    found.extend(reader.faults)
    if old is not None and not reader.faults:
        found.extend(record.check_correction(reader, old, draft, sender.asked))
    if sender.asked and not found and not draft.void:
        record.check_asked(reader, old)
        found.extend(reader.faults)
    if found or draft.faults:
        raise Faults(found)
    if old is not None:
        record.may_replace(old, reader, draft, sender)
    elif (same := record.unchanged(reader, context)) is not None:
        return Outcome("already", same, revision=context.revision)
    return _insert(record, reader, draft, context, old, sender)


def _insert(
    record: RecordType[Row], reader: Reader, draft: Draft, context: Any, old: Row | None, sender: Sender
) -> Outcome[Row]:
    end = _end(record, context)
    values = {**reader.values, **({record.key: draft.id} if record.key else {})}
    if old is not None and draft.void and not record.of_a_void:
        values |= {one.name: record.value_of(old, one) for one in record.fields if reader[one.name] == one.blank}
    if "replaces" in record.attribute_names:
        values.update(replaces=old, void=draft.void)
    if record.numbered:
        values["number"] = draft.number or end.number + 1
        if draft.number is not None and record.rows_of(context).filter(number=draft.number).exists():
            raise Faults([faults.NUMBER_TAKEN.at(str(record.noun), noun=record.noun, number=draft.number)])
    row: Any = _row(record, context, values, sender)
    said = None
    if record.chain:
        row.position = end.position + 1
        said = chained(record.fields, row)
        row.link = link(end.link, said)
    known = record.before(row, old, context)
    second = record.is_second(row, old, context, known)
    if isinstance(row, AppendOnly):
        add(row)
    else:
        row.save(force_insert=True)
    record.after(row, old, context, known)
    done = "voided" if draft.void else "corrected" if old else "recorded"
    noted = _note(record, row, old, done, context, sender, said)
    end = End(max(end.number, getattr(row, "number", 0)), getattr(row, "position", 0), getattr(row, "link", START))
    if noted:
        revision = _changed(record, context, end)
    else:  # What was written with the row and says so in the history has raised the revision itself
        revision = context.revision + 1
        record.scope.ends_at(revision, context, {record.model._meta.label: end})
    return Outcome("second" if second else "kept", row, revision=revision)


def _row(record: RecordType[Row], context: Any, values: Values, sender: Sender) -> Row:
    own: Values = {"received_at": timezone.now(), "sent_at": sender.sent_at, "recorded_by": sender.name}
    own["version"] = record.chain
    stamp = {name: value for name, value in own.items() if name in record.attribute_names}
    return record.model(**{**stamp, **record.attributes(values, context)})


def _end(record: RecordType[Any], context: Any) -> End:
    """Where the holder's rows of this kind end."""
    known = context.ends.get(record.model._meta.label)
    if known is not None or not record.numbered:
        return known or End()
    number = record.rows_of(context).aggregate(most=Max("number"))["most"] or 0
    last = (
        record.rows_of(context).order_by("-position").values_list("position", "link").first() if record.chain else None
    )
    return End(number, *last) if last else End(number)


def _changed(record: RecordType[Any], context: Any, end: End | None = None) -> int:
    ends = {**context.ends, record.model._meta.label: end} if end else context.ends
    return record.scope.changed(context, record.leaves_context, ends)


def _corrected(record: RecordType[Row], draft: Draft, context: Any, sender: Sender) -> Row | None:
    """The row that the draft corrects or takes out; None when it is a new one.

    Raises Faults at ``replaces`` when there is no such row, or when it was replaced already; the current one is named.
    """
    if draft.replaces is None:
        if draft.void and "replaces" not in draft.wrong:
            raise _refusal(faults.VOID_NAMES_NOTHING.says(noun=record.noun))
        return None
    if record.corrects and record.corrects not in sender.cans:
        raise _refusal(faults.MAY_NOT_CORRECT.says(noun=record.noun))
    rows: Any = record.rows_of(context)
    by = {"number": draft.replaces} if record.numbered and isinstance(draft.replaces, int) else {"pk": draft.replaces}
    old: Any = rows.filter(**by).first()
    if old is None:
        raise _refusal(_unknown(record, rows, draft))
    require_current(record, old, sender.asked)
    row: Row = old
    return row


def require_current(record: RecordType[Any], old: Any, asked: bool) -> None:
    """Raises Faults at ``replaces`` when the row was replaced or taken out, or is a void itself; the current one is named.

    A person who is ``asked`` has the page before them on which it was current.
    """
    last = old
    while (after := record.rows().filter(replaces=last).first()) is not None:
        last = after
        if asked:
            break
    said = {"noun": record.noun, "old": record.named(old), "last": record.named(last)}
    if last is not old:
        taken_out = record.taken_out_meanwhile if asked else faults.TAKEN_OUT_ALREADY
        replaced = faults.REPLACED_MEANWHILE if asked else faults.REPLACED_ALREADY
        raise _refusal((taken_out if last.void else replaced).says(**said))
    if old.void:
        raise _refusal((faults.IS_A_VOID if asked else faults.TAKES_OUT_ANOTHER).says(**said))


def _unknown(record: RecordType[Any], rows: Any, draft: Draft) -> Said:
    """That no such row is kept, and which one is current."""
    by_id = isinstance(draft.replaces, UUID)
    name = faults.OF_THIS_ID.says(noun=record.noun) if by_id else f"{record.noun} {draft.replaces}"
    boat, day = (draft.texts.get(part, "") for part in ("boat", "day"))
    current = []
    if boat.isdigit() and day.isdigit() and max(len(boat), len(day)) < 10:
        current = rows.filter(entry__boat=int(boat), day=int(day), replaced_by__isnull=True, void=False)
    numbers = ", ".join(str(row.number) for row in current)
    if numbers:
        return faults.ANOTHER_IS_CURRENT.says(name=name, boat=boat, noun=record.noun, numbers=numbers)
    return faults.NOT_KEPT_HERE.says(name=name)


def _refusal(said: Said) -> Faults:
    return Faults([Fault("replaces", said)])


def _edits(record: RecordType[Any], draft: Draft) -> bool:
    return record.edited and draft.replaces is not None


def _edit(record: RecordType[Row], draft: Draft, context: Any, sender: Sender) -> Outcome[Row]:
    """Change a row in place, or take it out with a reason; the history keeps what it said."""
    row: Any = record.rows_of(context).filter(pk=draft.replaces).first()
    if row is None:
        raise Faults([record.gone_meanwhile.at("")])
    if draft.void:
        return _take_out(record, row, draft, context, sender)
    reader = record.read(draft, context, row, asked=sender.asked)
    if reader.faults or draft.faults:
        raise Faults(reader.faults)
    if draft.seen is not None and draft.seen != fingerprint(record.fields, row):
        raise Faults([Fault("seen", record.changed_meanwhile())])
    before = record.said(row)
    for name, value in record.attributes(reader.values, context).items():
        setattr(row, name, value)
    if record.said(row) == before:
        return Outcome("already", row, revision=context.revision)
    row.save()
    record.after(row, row, context, None)
    _note(record, row, None, "changed", context, sender, {"before": before, "after": record.said(row)})
    return Outcome("kept", row, revision=_changed(record, context))


def _take_out(record: RecordType[Row], row: Row, draft: Draft, context: Any, sender: Sender) -> Outcome[Row]:
    why = draft.texts.get("reason", "").strip()
    if record.says_why and not why:
        raise Faults([faults.NO_REASON_TO_TAKE_OUT.at("reason")])
    if len(why) > MOST_OF_A_REASON:
        raise Faults([faults.REASON_TOO_LONG.at("reason", n=len(why), most=MOST_OF_A_REASON)])
    record.may_take_out(row)
    details = {"before": record.said(row), **({"reason": why} if why else {})}
    _note(record, row, None, "taken_out", context, sender, details, f": {why}" if why else "")
    try:
        row.delete()
    except ProtectedError:
        raise Faults([faults.OTHERS_HANG_ON_IT.at("reason")]) from None
    return Outcome("kept", row, revision=_changed(record, context))


def _note(
    record: RecordType[Row],
    row: Row,
    old: Row | None,
    done: str,
    context: Any,
    sender: Sender,
    details: Mapping[str, Any] | None = None,
    why: str = "",
) -> bool:
    noted = record.history(row, old, done)
    if noted is None:
        return False
    log_history(
        sender.name,
        noted.act,
        noted.sentence + why,
        club_id=context.club_id,
        event_id=context.event_id,
        subject=noted.subject or str(row),
        details=details or ({"after": record.said(row)} if record.edited else {"id": str(row.pk), **record.said(row)}),
        bound=noted.bound,
    )
    return True

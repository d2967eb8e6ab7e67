"""Draw, and void a draw, through the door. The seed is on record before the order is made."""

from collections.abc import Sequence
from typing import Any, ClassVar

from django.db.models.deletion import PROTECT
from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.revision import raise_revision, raise_revision_of_due_times
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.registration.domain import draw_faults as faults
from weighin.registration.domain.draw_fields import DRAW, SHOWN
from weighin.registration.domain.drawing import BOATS, FLIGHTS, LAUNCH, LOTS, Drawn, by_hash, dealt
from weighin.registration.models import Draw, DrawsShown
from weighin.registration.queries.draws import draw_seals, drawn_from, everybody, flights_in_order, standing_draw
from weighin.registration.queries.paying_order import in_order_of_payment
from weighin.roster.models import Entry
from weighin.roster.queries import roster_seals
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Faults

# Where an entry keeps what it drew; a launch place stands in the draw alone
GIVES = {BOATS: "boat", FLIGHTS: "flight_name", LOTS: "lot"}
BY_PAYMENT = (BOATS, LAUNCH)


class DrawRecord(RecordType[Draw]):
    """A draw; only a void may replace one."""

    model = Draw
    noun = gettext_lazy("draw")
    fields = DRAW
    scope: ClassVar[Scope] = EVENT
    of_a_void = ()
    without_reason = faults.VOID_WITHOUT_REASON
    leaves_context = False

    def check(self, reader: Reader, old: Draw | None) -> None:
        event, purpose, way = reader.context.event, reader["purpose"], reader["way"]
        if way == Draw.Way.SEED and not reader["seed"] and reader.sure("seed"):
            reader.fault("seed", faults.NO_SEED)
        if not reader.sure("purpose"):
            return
        called = Draw.Purpose(purpose).label
        standing = standing_draw(event, purpose)
        if standing is not None:
            reader.fault("purpose", faults.DRAWN_ALREADY, purpose=called, number=standing.number)
        elif not drawn_from(event, purpose):
            reader.fault("purpose", faults.ALL_NUMBERED if event.entries.exists() else faults.NOBODY_TO_DRAW)
        elif purpose == FLIGHTS and not flights_in_order(event):
            reader.fault("purpose", faults.NO_FLIGHTS)
        if way == Draw.Way.PAYMENT and purpose not in BY_PAYMENT:
            reader.fault("way", faults.ONLY_BY_LOT, purpose=called)

    def may_replace(self, old: Draw, reader: Reader, draft: Draft, sender: Sender) -> None:
        if not draft.void:
            raise Faults([faults.NOT_CORRECTED.at("")])

    def before(self, row: Draw, old: Draw | None, context: EventContext) -> list[Entry]:
        if old is not None:
            return _taken_back(old, context.event)
        if row.seed:
            said = {"purpose": row.get_purpose_display(), "seed": row.seed}
            sentence = gettext("Seed for the draw, %(purpose)s: %(seed)s") % said
            _note(row, context, "draw.seed", sentence, {"purpose": row.purpose, "seed": row.seed})
        entries = drawn_from(context.event, row.purpose)
        drawn = _drawn(row, context.event, entries)
        row.order = [one.plain() for one in drawn]
        attribute = GIVES.get(row.purpose)
        if attribute is None:
            return []
        row.were = {str(entry.number): getattr(entry, attribute) for entry in entries}
        results = {one.entry: one.result for one in drawn}
        for entry in entries:
            setattr(entry, attribute, results[entry.number])
        return entries

    def after(self, row: Draw, old: Draw | None, context: EventContext, known: list[Entry]) -> None:
        event, attribute = context.event, GIVES.get(row.purpose)
        bound = draw_seals(event.pk, [row.number])
        if attribute is not None and known:
            boats = {entry.boat for entry in known}
            if row.purpose == BOATS and old is not None:
                boats = {one["result"] for one in old.order}
            Entry.everyone.bulk_update(known, [attribute], batch_size=500)
            bound |= roster_seals(event.pk, {boat for boat in boats if boat is not None})
        (raise_revision_of_due_times if row.purpose == FLIGHTS else raise_revision)(event)
        said = {"number": row.number, "purpose": row.get_purpose_display()}
        if old is not None:
            act, sentence = "draw.voided", gettext("Draw %(old)s, %(purpose)s, voided: %(reason)s")
            sentence %= {**said, "old": old.number, "reason": row.reason}
        else:
            act, n = "draw.drawn", len(row.order)
            sentence = ngettext(
                "Draw %(number)s, %(purpose)s: %(n)s team", "Draw %(number)s, %(purpose)s: %(n)s teams", n
            ) % {**said, "n": n}
        _note(row, context, act, sentence, {**self.said(row), "order": row.order}, bound)

    def history(self, row: Draw, old: Draw | None, done: str) -> Noted | None:
        return None  # ``after`` says it, and binds what the draw gave


class ShownRecord(RecordType[DrawsShown]):
    """Whether the public sees the draws; the last row counts."""

    model = DrawsShown
    noun = gettext_lazy("showing of draws")
    fields = SHOWN
    scope: ClassVar[Scope] = EVENT
    numbered = False
    key = ""
    after_closing = True

    def unchanged(self, reader: Reader, context: EventContext) -> DrawsShown | None:
        last = DrawsShown.objects.filter(event=context.event).order_by("-id").first()
        return last if last is not None and last.shown == reader["shown"] else None

    def history(self, row: DrawsShown, old: DrawsShown | None, done: str) -> Noted:
        said = gettext("Draws shown to the public") if row.shown else gettext("Draws not shown to the public anymore")
        return Noted("draw.shown", said, gettext("the draws"))


DRAWS = DrawRecord()
DRAWS_SHOWN = ShownRecord()


def draw(event: Event, purpose: str, by: str, seed: str = "", way: str = Draw.Way.SEED) -> Draw:
    """Draw by a seed, or give what is given in the order of payment.

    Raises Faults with field names: a draw of this purpose stands, nobody is in it, no seed, no flights, event closed.
    """
    texts = {"purpose": purpose, "way": way, "seed": seed if way == Draw.Way.SEED else ""}
    return write(DRAWS, event.pk, Draft(texts), Sender(by, asked=True)).kept()


def void_draw(event: Event, purpose: str, by: str, reason: str) -> Draw:
    """Void the draw of a purpose that stands, and take back what it gave. The draw that was voided.

    Raises Faults: none stands, no reason, or boats that it numbered have records by now.
    """
    with writing():
        EVENT.lock(event.pk)
        old = standing_draw(event, purpose)
        if old is None:
            raise Faults([faults.NOT_DRAWN.at("purpose", purpose=Draw.Purpose(purpose).label)])
        void = Draft({"reason": reason}, replaces=old.number, void=True)
        write(DRAWS, event.pk, void, Sender(by, asked=True)).kept()
    return old


def draw_anew(event: Event, purpose: str, by: str, reason: str, seed: str = "", way: str = Draw.Way.SEED) -> Draw:
    """Void the draw that stands and draw with another seed, both or neither. Raises Faults as these two do."""
    with writing():
        void_draw(event, purpose, by, reason)
        return draw(event, purpose, by, seed, way)


def show_draws(event: Event, shown: bool, by: str) -> DrawsShown:
    """Show the draws to the public, or not any more; said again nothing is written."""
    draft = Draft({"shown": "yes" if shown else "no"})
    return write(DRAWS_SHOWN, event.pk, draft, Sender(by, asked=True)).kept()


def _drawn(row: Draw, event: Event, entries: Sequence[Entry]) -> list[Drawn]:
    teams = [(entry.number, entry.name) for entry in entries]
    if row.way == Draw.Way.PAYMENT:
        order = [(entry.number, entry.name, "") for entry in in_order_of_payment(event, entries)]
    else:
        order = by_hash(row.seed, row.purpose, teams)
    taken = {boat for boat in everybody(event).values_list("boat", flat=True) if boat is not None}
    return dealt(row.purpose, order, taken=taken, flights=flights_in_order(event))


def _taken_back(old: Draw, event: Event) -> list[Entry]:
    """The entries that still have what a draw gave them, with what they had before. Raises Faults where it must stay."""
    attribute = GIVES.get(old.purpose)
    if attribute is None:
        return []
    called = _flights_now(old, event) if old.purpose == FLIGHTS else {}
    gave = {one["entry"]: called.get(one["result"], one["result"]) for one in old.order}
    entries = [
        entry for entry in everybody(event).filter(number__in=gave) if getattr(entry, attribute) == gave[entry.number]
    ]
    if old.purpose == BOATS and _have_records(entries):
        raise Faults([faults.BOATS_HAVE_RECORDS.at("")])
    flights = set(flights_in_order(event))
    for entry in entries:
        was = old.were[str(entry.number)]
        was = called.get(was, was)
        setattr(entry, attribute, was if old.purpose != FLIGHTS or was in flights else "")
    return entries


def _flights_now(old: Draw, event: Event) -> dict[str, str]:
    """What the flights that a draw dealt are called now, by what they were called then: one renamed since keeps its turn."""
    now = flights_in_order(event)
    dealt_then = list(dict.fromkeys(one["result"] for one in old.order))
    return {
        then: name for then, name in zip(dealt_then, now, strict=False) if then not in now and name not in dealt_then
    }


def _have_records(entries: Sequence[Entry]) -> bool:
    """Whether anything is recorded of one of the entries that keeps it from being taken out."""
    keys = [entry.pk for entry in entries]
    kept = [one for one in Entry._meta.related_objects if getattr(one, "on_delete", None) is PROTECT]
    return any(one.related_model._base_manager.filter(**{f"{one.field.name}__in": keys}).exists() for one in kept)


def _note(
    row: Draw, context: EventContext, act: str, sentence: str, details: dict[str, Any], bound: Any = None
) -> None:
    log_history(
        row.recorded_by,
        act,
        sentence,
        club_id=context.club_id,
        event_id=context.event_id,
        subject=gettext("draw %(number)s") % {"number": row.number},
        details=details,
        bound=bound,
    )

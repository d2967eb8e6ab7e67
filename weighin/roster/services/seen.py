"""Keep what was seen of a team, undo it, and say what the desk asks for; all through the door."""

from collections.abc import Iterable
from typing import Any, ClassVar

from django.db.models import QuerySet
from django.utils.translation import gettext, gettext_lazy

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.domain import faults
from weighin.roster.domain.seen_fields import ASKABLE, ASKS, SEEN
from weighin.roster.models import DeskAsks, Seen
from weighin.roster.queries import SUBJECT, WAITING
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules.faults import Fault


class SeenRecord(RecordType[Seen]):
    """Something seen of a team; said again it is the same, and only a void replaces it."""

    model = Seen
    noun = gettext_lazy("item seen")
    fields = SEEN
    scope: ClassVar[Scope] = EVENT
    of_a_void = ()

    def rows(self) -> QuerySet[Seen]:
        return Seen.objects.select_related("entry")

    def check(self, reader: Reader, old: Seen | None) -> None:
        if reader["what"] not in Seen.SAFETY:
            reader.values["day"] = None
        elif reader["day"] not in reader.context.calendar.fished:
            reader.fault("day", faults.SEEN_OF_A_DAY, day=reader["day"] or 0)

    def check_correction(self, reader: Reader, old: Any, draft: Draft, asked: bool) -> list[Fault]:
        return []  # one press undoes it, and the history says who pressed

    def unchanged(self, reader: Reader, context: EventContext) -> Seen | None:
        said = {name: reader[name] for name in ("entry", "what", "day")}
        same: Seen | None = Seen.objects.current().filter(**said).first()
        return same

    def history(self, row: Seen, old: Seen | None, done: str) -> Noted:
        said = {"team": row.entry, "what": row.get_what_display(), "day": row.day}
        if done == "voided":
            sentence = gettext("%(team)s: not seen after all: %(what)s") % said
        elif row.day:
            sentence = gettext("%(team)s: seen on day %(day)s: %(what)s") % said
        else:
            sentence = gettext("%(team)s: seen: %(what)s") % said
        return Noted(f"seen.{done}", sentence, WAITING if row.entry.waits else f"{SUBJECT}{row.entry.boat}")


class AsksRecord(RecordType[DeskAsks]):
    """What the desk asks for; the last row counts."""

    model = DeskAsks
    noun = gettext_lazy("list of what the desk asks for")
    fields = ASKS
    scope: ClassVar[Scope] = EVENT
    numbered = False
    key = ""

    def unchanged(self, reader: Reader, context: EventContext) -> DeskAsks | None:
        last = DeskAsks.objects.filter(event=context.event).order_by("-id").first()
        return last if last is not None and last.asked == reader["asked"] else None

    def history(self, row: DeskAsks, old: DeskAsks | None, done: str) -> Noted:
        labels = [str(label) for name, label in ASKABLE if name in row.asked.split(",")]
        if not labels:
            return Noted("desk.asks", gettext("The desk asks for nothing"), gettext("the desk"))
        said = {"asked": ", ".join(labels)}
        return Noted("desk.asks", gettext("The desk asks for: %(asked)s") % said, gettext("the desk"))


SEEN_RECORD = SeenRecord()
ASKS_RECORD = AsksRecord()


def mark_seen(event: Event, team: str, whats: Iterable[str], day: int | None, by: str) -> list[Seen]:
    """Keep that each of ``whats`` was seen, all or none; ``team`` as ``TeamOf`` reads it, ``day`` of the safety check.

    Said again nothing is written. Raises Faults at ``entry``, ``what`` and ``day``.
    """
    texts = {"entry": team, **({"day": str(day)} if day else {})}
    with writing():
        return [
            write(SEEN_RECORD, event.pk, Draft({**texts, "what": what}), Sender(by, asked=True)).kept()
            for what in whats
        ]


def undo_seen(row: Seen, by: str) -> Seen:
    """Say that it was not seen after all, by another row. Raises Faults, also where it was undone already."""
    draft = Draft({}, replaces=row.number, void=True, names={"replaces": ""})
    return write(SEEN_RECORD, row.event_id, draft, Sender(by, asked=True)).kept()


def ask_for(event: Event, asked: Iterable[str], by: str) -> DeskAsks:
    """Say what the desk asks every team for, by the names of ``ASKABLE``. Raises Faults."""
    return write(ASKS_RECORD, event.pk, Draft({"asked": ",".join(asked)}), Sender(by, asked=True)).kept()

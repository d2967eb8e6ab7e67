"""What is said in the line through the door: give a bag, take it back, hold, resume; and the figures it is run by.

Who says it first wins: the event is held while the line is looked at, so that of two tablets that call the same boat one
gets a sentence instead of a second bag.
"""

import uuid
from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any, ClassVar

from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.line.domain import faults
from weighin.line.domain.fields import LONGEST_NAME, MOST_OXYGEN_MINUTES, OF_A_BOAT, TERMS, WORD, Said
from weighin.line.models import LineTerms, LineWord
from weighin.line.queries import Line, Standing, line_of
from weighin.records.domain.fields import Field
from weighin.records.domain.messages import Draft, Sender, Values
from weighin.records.domain.rows import value_of
from weighin.records.parsing.reader import Reader
from weighin.records.services.door import write
from weighin.records.services.record_type import Noted, RecordType, Scope
from weighin.roster.models import Entry
from weighin.roster.services.event_scope import EVENT, EventContext
from weighin.rules import faults as rule_faults
from weighin.rules.faults import Fault
from weighin.slips.models import WeighSlip
from weighin.ui import figures


class WordRecord(RecordType[LineWord]):
    """One thing said in the line on a day."""

    model = LineWord
    noun = gettext_lazy("word of the line")
    fields = WORD
    scope: ClassVar[Scope] = EVENT
    numbered = False

    def rows(self) -> QuerySet[LineWord]:
        return LineWord.objects.select_related("entry")

    def value_of(self, row: LineWord, one: Field) -> Any:
        return (row.entry.boat if row.entry else None) if one.name == "boat" else value_of(row, one.name)

    def check(self, reader: Reader, old: LineWord | None) -> None:
        if not reader.faults:
            reader.values["at"] = _after(reader.context.event, reader["day"], reader["at"] or timezone.now())
            line = line_of(reader.context.event, reader["day"], reader["at"])
            reader.faults += (
                _wrong_of_boat(reader, line) if reader["said"] in OF_A_BOAT else _wrong_of_line(reader, line)
            )

    def same(self, row: LineWord, draft: Draft, context: EventContext) -> bool:
        reader = self.read(draft, context, whole=False)
        kept = {one.name: self.value_of(row, one) for one in self.fields}
        return all(kept[name] == reader[name] for name in ("day", "said", "boat"))

    def differs(self, row: LineWord, asked: bool) -> Fault:
        return faults.WORD_KEPT_DIFFERS.at("")

    def attributes(self, values: Values, context: EventContext) -> Values:
        others = {name: value for name, value in values.items() if name != "boat"}
        return {**others, "event": context.event, "entry": context.entries.get(values["boat"])}

    def history(self, row: LineWord, old: LineWord | None, done: str) -> Noted:
        subject = f"boat {row.entry.boat}" if row.entry else _("the line")
        return Noted(f"line.{row.said}", sentence(row), subject)


class TermsRecord(RecordType[LineTerms]):
    """The figures an event's line is run by; the last row counts."""

    model = LineTerms
    noun = gettext_lazy("terms of the line")
    fields = TERMS
    scope: ClassVar[Scope] = EVENT
    numbered = False
    key = ""

    def unchanged(self, reader: Reader, context: EventContext) -> LineTerms | None:
        last = LineTerms.objects.filter(event=context.event).order_by("-id").first()
        same = last is not None and all(getattr(last, one.name) == reader[one.name] for one in self.fields)
        return last if same else None

    def history(self, row: LineTerms, old: LineTerms | None, done: str) -> Noted:
        said = _("The line uses %(scales)s scales and %(bags)s bags, %(walk)s s to walk, %(boat)s s a boat") % {
            "scales": row.scales,
            "bags": row.bags,
            "walk": row.walk_seconds,
            "boat": row.boat_seconds,
        }
        return Noted("line.terms", said, _("the line"))


LINE_WORD = WordRecord()
LINE_TERMS = TermsRecord()


def say(
    event: Event,
    day: int,
    said: str,
    by: str,
    *,
    word_id: uuid.UUID,
    boat: int | None = None,
    person: str = "",
    oxygen_minutes: int | None = None,
    remark: str = "",
    at: datetime | None = None,
) -> LineWord:
    """Keep one word of a day's line. Sent again under its ``word_id`` the first row is returned.

    ``boat`` belongs to the words about a boat, ``person`` to a resumed line (who lets it go on, at most 80
    characters), ``oxygen_minutes`` to a held one (1 to 60). ``at`` is when it was said, for what was written on paper
    and comes later, in its order; left out it is now.

    Raises Faults with a sentence when it cannot be: the boat has a bag already, was weighed or did not check in, the
    line is held, the event is closed. Nothing is written then.
    """
    texts: Mapping[str, object] = {
        "day": day,
        "said": said,
        "boat": (boat if boat is not None else "None") if said in OF_A_BOAT else "",
        "person": person if said == Said.RESUME else "",
        "oxygen_minutes": oxygen_minutes if said == Said.HOLD and oxygen_minutes is not None else "",
        "note": remark.strip(),
        "at": at.isoformat() if at else "",
    }
    draft = Draft({name: str(text) for name, text in texts.items()}, word_id, names={"note": "remark"})
    return write(LINE_WORD, event.pk, draft, Sender(by, asked=True)).kept()


def set_terms(event: Event, by: str, *, scales: int, bags: int, walk_seconds: int, boat_seconds: int) -> LineTerms:
    """Set what the line is run by; said again with the same figures nothing is written. Raises Faults."""
    asked = {"scales": scales, "bags": bags, "walk_seconds": walk_seconds, "boat_seconds": boat_seconds}
    draft = Draft({name: str(value) for name, value in asked.items()})
    return write(LINE_TERMS, event.pk, draft, Sender(by, asked=True)).kept()


def sentence(word: LineWord) -> str:
    """What was said, for the history and the page."""
    said = {
        Said.BAG_ISSUED: _("Bag given to boat %(boat)s"),
        Said.AT_SCALES: _("Boat %(boat)s is at the scales"),
        Said.BAG_BACK: _("Bag of boat %(boat)s returned unused"),
        Said.LEFT: _("Boat %(boat)s is out of the line"),
        Said.RETURNED: _("Boat %(boat)s is back in the line"),
        Said.HOLD: _("Line held, oxygen check due in %(minutes)s min"),
        Said.OXYGEN: _("Oxygen checked while the line is held"),
        Said.RESUME: _("Line resumed by %(person)s"),
    }[Said(word.said)] % {
        "boat": word.entry.boat if word.entry else "",
        "minutes": word.oxygen_minutes,
        "person": word.person,
    }
    return f"{said}: {word.note}" if word.note else said


def _after(event: Event, day: int, now: datetime) -> datetime:
    """Now, but after the day's last word, so that words keep their order when the clock is put back."""
    last = LineWord.objects.filter(event=event, day=day).order_by("-at").values_list("at", flat=True).first()
    return now if last is None or now > last else last + timedelta(microseconds=1)


def _wrong_of_line(reader: Reader, line: Line) -> list[Fault]:
    """What is wrong with a word about the line itself."""
    event, said = reader.context.event, reader["said"]
    if said == Said.HOLD:
        if line.hold is not None:
            return [faults.LINE_HELD_ALREADY.at("", since=_clock(event, line.hold.since), by=line.hold.by)]
        within = 1 <= (reader["oxygen_minutes"] or 0) <= MOST_OXYGEN_MINUTES
        return [] if within else [faults.ODD_OXYGEN_MINUTES.at("oxygen_minutes", most=MOST_OXYGEN_MINUTES)]
    if line.hold is None:
        return [faults.LINE_NOT_HELD.at("")]
    if said == Said.RESUME and not 0 < len(reader["person"]) <= LONGEST_NAME:
        return [faults.LINE_LET_GO_BY_NOBODY.at("person", most=LONGEST_NAME)]
    return []


def _wrong_of_boat(reader: Reader, line: Line) -> list[Fault]:
    """What is wrong with a word about a boat."""
    event, said = reader.context.event, reader["said"]
    wrong = _why_not(event, line, said, reader.context.entries[reader["boat"]])
    return [Fault("", wrong)] if wrong else []


def _why_not(event: Event, line: Line, said: str, entry: Entry) -> rule_faults.Said | None:
    boat = entry.boat
    where = next((one for one in (*line.with_bag, *line.waiting, *line.out) if one.boat == boat), None)
    if where is None:
        return _why_not_in_line(event, line.day, entry)
    has_bag = where.bag_issued is not None
    if said == Said.BAG_ISSUED:
        if has_bag:
            return _has_bag(event, where)
        if line.hold is not None:
            return faults.LINE_IS_HELD.says(since=_clock(event, line.hold.since))
    elif said in (Said.AT_SCALES, Said.BAG_BACK) and not has_bag:
        return faults.NO_BAG_ANY_MORE.says(boat=boat)
    elif said == Said.AT_SCALES and where.at_scales is not None:
        return faults.AT_SCALES_ALREADY.says(boat=boat, since=_clock(event, where.at_scales))
    elif said == Said.LEFT and has_bag:
        return faults.BAG_TO_TAKE_BACK.says(has_bag=_has_bag(event, where))
    if said in (Said.BAG_ISSUED, Said.LEFT) and where.place == "out":
        return faults.OUT_OF_LINE.says(boat=boat)
    if said == Said.RETURNED and where.place != "out":
        return faults.IN_LINE_ALREADY.says(boat=boat)
    return None


def _has_bag(event: Event, where: Standing) -> rule_faults.Said:
    assert where.bag_issued is not None
    return faults.HAS_BAG.says(boat=where.boat, since=_clock(event, where.bag_issued), by=where.issued_by)


def _why_not_in_line(event: Event, day: int, entry: Entry) -> rule_faults.Said:
    slip = WeighSlip.objects.current().filter(event=event, entry=entry, day=day).order_by("number").first()
    if slip is not None:
        return faults.WEIGHED_ALREADY.says(boat=entry.boat, slip=slip.number)
    if entry.status != Entry.Status.ENTERED:
        return faults.WEIGHS_NO_FISH.says(boat=entry.boat, status=entry.get_status_display().lower())
    return faults.NOT_CHECKED_IN.says(boat=entry.boat, day=day)


def _clock(event: Event, moment: datetime) -> str:
    return figures.exact_clock(moment, calendar_of(event).zone)

"""Say things in the line: give a bag, take it back, hold, resume; and set the figures it is run by.

Who says it first wins: the event's row is held while the line is looked at, so that of two tablets that call the same
boat one gets a sentence instead of a second bag.
"""

import uuid
from datetime import datetime, timedelta

from django.utils import timezone

from weighin.audit.database.statements import add
from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.line.domain.faults import (
    AT_SCALES_ALREADY,
    BAG_TO_TAKE_BACK,
    HAS_BAG,
    IN_LINE_ALREADY,
    LINE_HELD_ALREADY,
    LINE_IS_HELD,
    LINE_LET_GO_BY_NOBODY,
    LINE_NOT_HELD,
    NO_BAG_ANY_MORE,
    NO_BOAT_IN_LINE,
    NO_SUCH_WORD_IN_LINE,
    NOT_CHECKED_IN,
    ODD_OXYGEN_MINUTES,
    OUT_OF_LINE,
    WEIGHED_ALREADY,
    WEIGHS_NO_FISH,
    WORD_KEPT_DIFFERS,
    WRITE_BETWEEN,
)
from weighin.line.models import LineTerms, LineWord
from weighin.line.queries import Line, Standing, line_of
from weighin.roster.models import Entry
from weighin.rules import faults, values
from weighin.rules.faults import Fault, Faults, Wrong
from weighin.slips.models import WeighSlip

Said = LineWord.Said
OF_A_BOAT = (Said.BAG_ISSUED, Said.AT_SCALES, Said.BAG_BACK, Said.LEFT, Said.RETURNED)
OXYGEN_MINUTES = 10
MOST_OXYGEN_MINUTES = 60
LONGEST_NAME, LONGEST_NOTE = 80, 500


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
    if said not in Said.values:
        raise Faults([NO_SUCH_WORD_IN_LINE.at("said", word=said[:20])])
    with writing():
        held = lock_open_event(event)
        before = LineWord.objects.filter(pk=word_id).select_related("entry").first()
        if before is not None:
            return _same(before, held, day, said, boat)
        now = _after(held, day, at or timezone.now())
        line = line_of(held, day, now)
        entry = _entry(held, boat) if said in OF_A_BOAT else None
        person, remark = person.strip(), remark.strip()
        _check(held, line, said, entry, person, oxygen_minutes, remark)
        word = LineWord(
            id=word_id,
            event=held,
            entry=entry,
            day=day,
            said=said,
            at=now,
            person=person if said == Said.RESUME else "",
            oxygen_minutes=oxygen_minutes if said == Said.HOLD else None,
            note=remark,
            recorded_by=by,
        )
        add(word)
        raise_revision(held)
        log_history(
            by,
            f"line.{said}",
            sentence(word),
            club_id=held.season.club_id,
            event_id=held.pk,
            subject=f"boat {entry.boat}" if entry else "the line",
            details={"id": str(word.pk), "day": day, "note": remark},
        )
    return word


def set_terms(event: Event, by: str, *, scales: int, bags: int, walk_seconds: int, boat_seconds: int) -> LineTerms:
    """Set what the line is run by; said again with the same figures nothing is written. Raises Faults."""
    asked = {
        "scales": (scales, 1, 10),
        "bags": (bags, 1, 500),
        "walk_seconds": (walk_seconds, 0, 3600),
        "boat_seconds": (boat_seconds, 10, 3600),
    }
    wrong = [
        WRITE_BETWEEN.at(name, least=least, most=most, value=value)
        for name, (value, least, most) in asked.items()
        if not least <= value <= most
    ]
    if wrong:
        raise Faults(wrong)
    with writing():
        held = lock_open_event(event)
        figures = {name: value for name, (value, _, _) in asked.items()}
        last: LineTerms | None = LineTerms.objects.filter(event=held).order_by("-id").first()
        if last is not None and all(getattr(last, name) == value for name, value in figures.items()):
            return last
        terms = LineTerms(event=held, recorded_by=by, **figures)
        terms.save()
        raise_revision(held)
        log_history(
            by,
            "line.terms",
            f"The line is run with {scales} scales and {bags} bags, {walk_seconds} s to walk, {boat_seconds} s a boat",
            club_id=held.season.club_id,
            event_id=held.pk,
            subject="the line",
            details=figures,
        )
    return terms


def sentence(word: LineWord) -> str:
    """What was said, for the history and the page."""
    boat = f"boat {word.entry.boat}" if word.entry else ""
    added = f": {word.note}" if word.note else ""
    return {
        Said.BAG_ISSUED: f"Bag given to {boat}{added}",
        Said.AT_SCALES: f"{boat.capitalize()} is at the scales{added}",
        Said.BAG_BACK: f"Bag of {boat} taken back unused{added}",
        Said.LEFT: f"{boat.capitalize()} is out of the line{added}",
        Said.RETURNED: f"{boat.capitalize()} is back in the line{added}",
        Said.HOLD: f"Line held, oxygen check due in {word.oxygen_minutes} min{added}",
        Said.OXYGEN: f"Oxygen checked while the line is held{added}",
        Said.RESUME: f"Line goes on, let go by {word.person}{added}",
    }[Said(word.said)]


def _same(before: LineWord, event: Event, day: int, said: str, boat: int | None) -> LineWord:
    kept = (before.event_id, before.day, before.said, before.entry.boat if before.entry else None)
    if kept == (event.pk, day, said, boat if said in OF_A_BOAT else None):
        return before
    raise Faults([WORD_KEPT_DIFFERS.at("")])


def _after(event: Event, day: int, now: datetime) -> datetime:
    """Now, but after the day's last word, so that words keep their order when the clock is put back."""
    last = LineWord.objects.filter(event=event, day=day).order_by("-at").values_list("at", flat=True).first()
    return now if last is None or now > last else last + timedelta(microseconds=1)


def _entry(event: Event, boat: int | None) -> Entry:
    found = None if boat is None else Entry.objects.filter(event=event, boat=boat).first()
    if found is None:
        raise Faults([NO_BOAT_IN_LINE.at("boat", boat=boat, event=event.name)])
    return found


def _check(
    event: Event, line: Line, said: str, entry: Entry | None, person: str, oxygen_minutes: int | None, remark: str
) -> None:
    for name, text, read in (("remark", remark, values.lines), ("person", person[:LONGEST_NAME], values.line)):
        try:
            read(text, LONGEST_NOTE)
        except Wrong as error:
            raise Faults([error.at(name)]) from None
    if entry is not None:
        wrong = _wrong_of_boat(event, line, said, entry)
        if wrong:
            raise Faults([Fault("", wrong)])
        return
    if said == Said.HOLD:
        if line.hold is not None:
            raise Faults([LINE_HELD_ALREADY.at("", since=_clock(event, line.hold.since), by=line.hold.by)])
        if oxygen_minutes is None or not 1 <= oxygen_minutes <= MOST_OXYGEN_MINUTES:
            raise Faults([ODD_OXYGEN_MINUTES.at("oxygen_minutes", most=MOST_OXYGEN_MINUTES)])
        return
    if line.hold is None:
        raise Faults([LINE_NOT_HELD.at("")])
    if said == Said.RESUME and not 0 < len(person) <= LONGEST_NAME:
        raise Faults([LINE_LET_GO_BY_NOBODY.at("person", most=LONGEST_NAME)])


def _wrong_of_boat(event: Event, line: Line, said: str, entry: Entry) -> faults.Said | None:
    boat = entry.boat
    where = next((one for one in (*line.with_bag, *line.waiting, *line.out) if one.boat == boat), None)
    if where is None:
        return _why_not_in_line(event, line.day, entry)
    has_bag = where.bag_issued is not None
    if said == Said.BAG_ISSUED:
        if has_bag:
            return _has_bag(event, where)
        if line.hold is not None:
            return LINE_IS_HELD.says(since=_clock(event, line.hold.since))
    elif said in (Said.AT_SCALES, Said.BAG_BACK) and not has_bag:
        return NO_BAG_ANY_MORE.says(boat=boat)
    elif said == Said.AT_SCALES and where.at_scales is not None:
        return AT_SCALES_ALREADY.says(boat=boat, since=_clock(event, where.at_scales))
    elif said == Said.LEFT and has_bag:
        return BAG_TO_TAKE_BACK.says(has_bag=_has_bag(event, where))
    if said in (Said.BAG_ISSUED, Said.LEFT) and where.place == "out":
        return OUT_OF_LINE.says(boat=boat)
    if said == Said.RETURNED and where.place != "out":
        return IN_LINE_ALREADY.says(boat=boat)
    return None


def _has_bag(event: Event, where: Standing) -> faults.Said:
    assert where.bag_issued is not None
    return HAS_BAG.says(boat=where.boat, since=_clock(event, where.bag_issued), by=where.issued_by)


def _why_not_in_line(event: Event, day: int, entry: Entry) -> faults.Said:
    slip = WeighSlip.objects.current().filter(event=event, entry=entry, day=day).order_by("number").first()
    if slip is not None:
        return WEIGHED_ALREADY.says(boat=entry.boat, slip=slip.number)
    if entry.status != Entry.Status.ENTERED:
        return WEIGHS_NO_FISH.says(boat=entry.boat, status=entry.get_status_display().lower())
    return NOT_CHECKED_IN.says(boat=entry.boat, day=day)


def _clock(event: Event, moment: datetime) -> str:
    return f"{moment.astimezone(calendar_of(event).zone):%H:%M:%S}"

"""The roll as its page shows it: flights with how near they are, boats with the last word, times to the second."""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from django.utils.translation import gettext

from weighin.checkin.models import CheckIn, DueNotice
from weighin.checkin.pages.words import WHERE, flight_said, left, named, shortened_said
from weighin.checkin.queries.roll import BoatOnRoll, FlightOnRoll, Roll, told
from weighin.checkin.services.notices import moved_said
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock
from weighin.events.models import Event
from weighin.roster.domain.contacts import ContactValues
from weighin.rules import values, weights
from weighin.rules.faults import Together
from weighin.rules.rulebook import Rulebook
from weighin.ui import figures
from weighin.ui.nouns import recorder

OVER = timedelta(hours=24)


@dataclass(frozen=True)
class Row:
    """One boat in words. ``key`` is the id of the line that its button would write; ``contact`` is known of a boat that
    is out, to those who may call it."""

    boat: int
    team: str
    state: str
    missing: bool
    word: str
    told: str
    came: str
    late: str
    day_lost: bool
    excused: str
    doubts: tuple[str, ...]
    differs: int | None
    key: str
    contact: ContactValues | None = None

    @property
    def in_now(self) -> str:
        """What the button says that notes the boat as in; kept here, since 250 rows have one."""
        return gettext("Boat %(boat)s is in now") % {"boat": self.boat}

    @property
    def other_word(self) -> str:
        """What the way to the boat's page says."""
        return gettext("Add a report on boat %(boat)s") % {"boat": self.boat}


@dataclass(frozen=True)
class Group:
    """One flight: ``urgency`` is in, say, heed, stop, ring or past; ``left`` says how near its due time is; ``named`` are
    the ``ring`` boats to ring."""

    name: str
    title: str
    due: str
    moment: datetime
    urgency: str
    left: str
    named: str
    ring: int
    boats: int
    out: tuple[Row, ...]
    came: tuple[Row, ...]
    unheard: int


@dataclass(frozen=True)
class Notice:
    """A notice that moved the due times, in words."""

    number: int
    at: str
    how: str
    by: str
    moved: str
    reason: str
    hours: tuple[str, ...]


@dataclass(frozen=True)
class RollPage:
    """The whole page."""

    day: int
    groups: tuple[Group, ...]
    notices: tuple[Notice, ...]
    boats: int
    out: int
    past: bool
    kept: bool
    now: datetime
    costs: str


def shown(event: Event, roll: Roll, now: datetime, contacts: Mapping[int, ContactValues] | None = None) -> RollPage:
    """The roll at ``now``, with the ``contacts`` by entry of the boats that are out. Nothing is loud once the event is closed, or where nobody kept a roll and the day is over
    or cancelled."""
    calendar = roll.table.calendar
    over = now > calendar.start(roll.day) + OVER or calendar.days[roll.day].cancelled
    past = event.closed_at is not None or (not roll.kept and over)
    alone = len(roll.flights) == 1
    return RollPage(
        day=roll.day,
        groups=tuple(
            _group(flight, calendar, now, past, alone, {} if past else contacts or {}) for flight in roll.flights
        ),
        notices=tuple(_notice(notice, calendar) for notice in reversed(roll.notices)),
        boats=len(roll.boats),
        out=len(roll.out),
        past=past,
        kept=roll.kept,
        now=now,
        costs=costs(roll.table.rules),
    )


def day_to_show(calendar: Calendar, asked: str, now: datetime) -> int | None:
    """The day asked for; else the one going on, the last that has begun, or the first. None: there is no such day."""
    if asked:
        day = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 5 else 0
        return day if day in calendar.days else None
    begun = [number for number in sorted(calendar.days) if calendar.start(number) <= now]
    if begun and (now - calendar.start(begun[-1]) < OVER or begun[-1] in calendar.fished):
        return begun[-1]
    of_begun = [number for number in begun if number in calendar.fished]
    return of_begun[-1] if of_begun else next(iter(calendar.fished or sorted(calendar.days)), None)


def row(boat: BoatOnRoll, contact: ContactValues | None = None) -> Row:
    """One boat in words."""
    last = boat.last
    differs = boat.slip_differs
    return Row(
        boat=boat.entry.boat,
        team=boat.entry.name,
        state=str(WHERE[boat.where]),
        missing=boat.where == CheckIn.Whereabouts.UNACCOUNTED,
        word=last.word if last else "",
        told=_told(boat),
        came=_came(boat),
        late=_late(boat),
        day_lost=bool(boat.late and boat.late.day_lost),
        excused=gettext("%(minutes)s min excused") % {"minutes": values.plain(Decimal(boat.excused))}
        if boat.excused and Decimal(boat.excused)
        else "",
        doubts=tuple(_doubts(boat)),
        differs=differs.number if differs else None,
        key=str(uuid.uuid4()),
        contact=None if boat.is_in else contact,
    )


def costs(rules: Rulebook) -> str:
    """What coming in late costs by the rule sheet, in one sentence."""
    each, grace, limit = rules.late_penalty_per_minute, rules.late_grace_minutes, rules.late_disqualify_after_minutes
    if each and grace and limit is not None:
        said = gettext(
            "Late costs %(each)s for every minute begun after %(grace)s minutes of grace; "
            "after %(limit)s minutes the day is lost."
        )
    elif each and limit is not None:
        said = gettext("Late costs %(each)s for every minute begun; after %(limit)s minutes the day is lost.")
    elif each and grace:
        said = gettext("Late costs %(each)s for every minute begun after %(grace)s minutes of grace.")
    elif each:
        said = gettext("Late costs %(each)s for every minute begun.")
    elif limit is not None:
        said = gettext("After %(limit)s minutes the day is lost.")
    else:
        return ""
    return said % {
        "each": weights.spoken(each, rules.unit),
        "grace": values.plain(grace),
        "limit": "" if limit is None else values.plain(limit),
    }


def _group(
    flight: FlightOnRoll,
    calendar: Calendar,
    now: datetime,
    past: bool,
    alone: bool,
    contacts: Mapping[int, ContactValues],
) -> Group:
    return Group(
        name=flight.name,
        title=flight_said(flight.name, alone),
        due=clock(flight.due, calendar, flight.boats[0].day),
        moment=flight.due,
        urgency="past" if past and flight.out else flight.urgency(now),
        left=left(flight.due, now),
        named=named(flight.to_ring) if flight.to_ring else "",
        ring=len(flight.to_ring),
        boats=len(flight.boats),
        out=tuple(row(boat, contacts.get(boat.entry.pk)) for boat in flight.out),
        came=tuple(map(row, flight.came)),
        unheard=len(flight.unheard),
    )


def _told(boat: BoatOnRoll) -> str:
    calendar, last = boat.table.calendar, boat.last
    if last is not None:
        return f"{last.official or recorder(last.recorded_by)}, {clock(told(last), calendar, boat.day)}"
    if boat.where == CheckIn.Whereabouts.LAUNCHED and boat.launched:
        return gettext("by its boat check, %(time)s") % {"time": clock(boat.launched, calendar, boat.day)}
    return ""


def _came(boat: BoatOnRoll) -> str:
    if boat.came is None:
        return ""
    local = boat.came.astimezone(boat.table.calendar.zone)
    same = local.date() == boat.table.calendar.days[boat.day].date
    if same:
        return figures.exact_clock(local)
    return figures.exact_moment(local)


def _late(boat: BoatOnRoll) -> str:
    late = boat.late
    if late is None:
        return gettext("time not noted") if boat.is_in else ""
    if late.minutes == 0:
        return gettext("on time")
    if late.day_lost:
        return gettext("%(said)s late: the day is lost") % {"said": late.said}
    return (
        gettext("%(said)s late, counts %(begun)s min") % {"said": late.said, "begun": late.begun}
        if late.begun
        else gettext("%(said)s late, within the grace") % {"said": late.said}
    )


def _doubts(boat: BoatOnRoll) -> Iterable[str]:
    if len(boat.times) > 1:
        numbers = Together(tuple(line.number for line in boat.times)).shown()
        yield gettext("Two check-in times, entries %(numbers)s: the first counts. Void one.") % {"numbers": numbers}
    for line in boat.lines:
        if line.clock_off is not None:
            minutes = round(abs(line.clock_off.total_seconds()) / 60)
            said = gettext("The clock that sent entry %(line)s was %(minutes)s min behind the site’s.")
            if line.clock_off > timedelta():
                said = gettext("The clock that sent entry %(line)s was %(minutes)s min ahead of the site’s.")
            yield said % {"line": line.number, "minutes": minutes}


def _notice(notice: DueNotice, calendar: Calendar) -> Notice:
    moved = moved_said(notice)
    return Notice(
        number=notice.number,
        at=clock(notice.given_at, calendar, notice.day),
        how=notice.get_how_display().lower(),
        by=notice.given_by,
        moved=moved[:1].upper() + moved[1:],
        reason=notice.reason,
        hours=tuple(shortened_said(notice, calendar, notice.day)),
    )

"""The roll of a day: every boat with its last word, by flight, and who is still out."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property
from typing import Any, TypeVar

from django.utils import timezone

from weighin.checkin.domain import care_times
from weighin.checkin.domain.arrival import Arrival, Late, arrival_counted, arrival_of, late
from weighin.checkin.domain.evidence import Weighed, current_slips, fish_no_more
from weighin.checkin.models import CheckIn, DueNotice
from weighin.checkin.queries.arrivals import table_of
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.roster.models import Entry

Row = TypeVar("Row", CheckIn, Weighed)
Kept = dict[int, dict[int, list[Row]]]
IN = frozenset({CheckIn.Whereabouts.IN_BY_WATER, CheckIn.Whereabouts.IN_BY_ROAD})
HEED_BEFORE = timedelta(minutes=10)
RING_AFTER = timedelta(minutes=15)  # common practice, no source


@dataclass(frozen=True)
class BoatOnRoll:
    """One boat on one day: its current lines in the order they were kept, its current slips, and the time of its
    launch by its boat check."""

    entry: Entry
    day: int
    lines: tuple[CheckIn, ...]
    slips: tuple[Weighed, ...]
    table: Table
    launched: datetime | None = None

    @cached_property
    def last(self) -> CheckIn | None:
        """The last line that says where the boat is. By the moment it tells of: a tablet may send its words late."""
        telling = [line for line in self.lines if line.whereabouts or line.word or came_in(line)]
        return max(telling, key=lambda line: (told(line), line.number), default=None)

    @property
    def where(self) -> str:
        """A value of ``Whereabouts``, ``in`` (a time alone), ``heard`` (words alone), ``weighed`` (a slip and no word),
        or empty: not heard of. Without a line a launch stands by the boat check at the ramp."""
        if self.last is None:
            return "weighed" if self.slips else CheckIn.Whereabouts.LAUNCHED if self.launched else ""
        return self.last.whereabouts or ("in" if came_in(self.last) else "heard")

    @property
    def is_in(self) -> bool:
        """Whether somebody saw the boat in, or noted who reported it. A weigh slip does not prove that it is in."""
        return self.where in IN or self.where == "in"

    @cached_property
    def arrival(self) -> Arrival | None:
        """When it came in and what was excused, by its lines; of a boat without any word, by its slip."""
        if self.where == "weighed" and len(self.slips) == 1 and not self.lines:
            slip = self.slips[0]
            return Arrival(self.day, slip.checked_in, slip.minutes_late, slip.excused_minutes)
        return arrival_of(self.day, self.lines)

    @property
    def came(self) -> datetime | None:
        """The moment it came in."""
        return self.arrival.checked_in if self.arrival else None

    @cached_property
    def late(self) -> Late | None:
        """How late it came, when a time is noted."""
        return late(self.arrival, self.table, self.entry.flight_name) if self.arrival else None

    @property
    def excused(self) -> str:
        """Minutes excused, as written."""
        return self.arrival.excused_minutes if self.arrival else ""

    @property
    def times(self) -> list[CheckIn]:
        """The lines that hold a time of coming in; more than one must be put right."""
        return [line for line in self.lines if came_in(line)]

    @property
    def slip_differs(self) -> Weighed | None:
        """The boat's slip when it counts other minutes late than the roll tells; only where a time is noted."""
        if self.late is None or self.arrival is None or len(self.slips) != 1:
            return None
        slip = self.slips[0]
        counted = late(arrival_counted(slip, self.arrival), self.table, self.entry.flight_name)
        same = counted.begun == self.late.begun if counted else self.late.begun == 0
        return None if same else slip


@dataclass(frozen=True)
class FlightOnRoll:
    """The boats of one flight on one day; an empty name holds those of none."""

    name: str
    due: datetime
    boats: tuple[BoatOnRoll, ...]

    @cached_property
    def out(self) -> list[BoatOnRoll]:
        """Boats that nobody has accounted for, those marked unaccounted first."""
        missing = CheckIn.Whereabouts.UNACCOUNTED
        return sorted(
            (boat for boat in self.boats if not boat.is_in), key=lambda boat: (boat.where != missing, boat.entry.boat)
        )

    @cached_property
    def came(self) -> list[BoatOnRoll]:
        """Boats that are in, the last one first."""
        return sorted(
            (boat for boat in self.boats if boat.is_in),
            key=lambda boat: (boat.came is not None, boat.came or self.due, boat.entry.boat),
            reverse=True,
        )

    @property
    def unheard(self) -> list[BoatOnRoll]:
        """Boats of which there is no word at all: those a launch may be noted for."""
        return [boat for boat in self.out if not boat.lines and not boat.where]

    @property
    def to_ring(self) -> list[BoatOnRoll]:
        """Those of the boats out that were not at the scales either: a team that was weighed is looked for on shore first."""
        return [boat for boat in self.out if boat.where != "weighed"]

    def urgency(self, now: datetime) -> str:
        """``in`` (all boats), ``say`` (also when all the rest was weighed), ``heed`` (ten minutes before the due time),
        ``stop`` (it has passed), ``ring`` (by fifteen minutes)."""
        if not self.out:
            return "in"
        if not self.to_ring:
            return "say"
        left = self.due - now
        if left <= -RING_AFTER:
            return "ring"
        if left <= timedelta(0):
            return "stop"
        return "heed" if left <= HEED_BEFORE else "say"


@dataclass(frozen=True)
class Roll:
    """The roll of one day: flights by due time, and the notices that moved those."""

    day: int
    table: Table
    flights: tuple[FlightOnRoll, ...]
    notices: tuple[DueNotice, ...]

    @cached_property
    def out(self) -> list[BoatOnRoll]:
        """Boats still out."""
        return [boat for flight in self.flights for boat in flight.out]

    @cached_property
    def boats(self) -> list[BoatOnRoll]:
        """Every boat, by flight."""
        return [boat for flight in self.flights for boat in flight.boats]

    @property
    def kept(self) -> bool:
        """Whether anybody wrote a line for this day."""
        return any(boat.lines for boat in self.boats)


def came_in(line: CheckIn) -> bool:
    """Whether a line says when the boat came in."""
    return line.checked_in is not None or line.minutes_late is not None


def told(line: CheckIn) -> datetime:
    """The moment a line tells of, as near as it is known."""
    return line.told_at or line.checked_in or line.received_at


def roll_of(event: Event, day: int) -> Roll:
    """The roll of ``day``."""
    entries = list(Entry.objects.filter(event=event))
    table = table_of(event, entries)
    lines, slips = _lines(event, day=day), _slips(event, day=day)
    return Roll(
        day,
        table,
        _flights(_boats(event, day, table, entries, lines.get(day, {}), slips.get(day, {}))),
        tuple(DueNotice.objects.filter(event=event, day=day)),
    )


def still_out(event: Event) -> list[BoatOnRoll]:
    """The boats that are out by the roll, by day: on a day whose roll was kept all that nobody noted in, weighed or not.

    A day that was called off counts like any other. Those not ``weighed`` keep the event from closing.
    """
    entries = list(Entry.objects.filter(event=event))
    table = table_of(event, entries)
    lines, slips = _lines(event), _slips(event)
    found = []
    for day in sorted(table.calendar.days):
        if day in lines:
            boats = _boats(event, day, table, entries, lines[day], slips.get(day, {}))
            found += [boat for boat in boats if not boat.is_in]
    return found


def unheard(event: Event) -> list[BoatOnRoll]:
    """Boats of yesterday or today of which somebody must say that they came back: with neither a word nor a slip
    where nobody kept the roll, with a slip and no word where somebody did.

    An older day is history, as when it comes from a workbook.
    """
    entries = list(Entry.objects.filter(event=event))
    table = table_of(event, entries)
    lines, slips = _lines(event), _slips(event)
    today = timezone.now().astimezone(table.calendar.zone).date()
    found: list[BoatOnRoll] = []
    for day in table.calendar.fished:
        if timedelta(0) <= today - table.calendar.days[day].date <= timedelta(days=1):
            boats = _boats(event, day, table, entries, lines.get(day, {}), slips.get(day, {}))
            found += [boat for boat in boats if (boat.where == "weighed" if day in lines else not boat.slips)]
    return found


def in_doubt(event: Event) -> list[BoatOnRoll]:
    """The boats whose slip counts other minutes late than the roll tells, by day."""
    days = sorted(set(CheckIn.objects.filter(event=event).values_list("day", flat=True)))
    return [boat for day in days for boat in roll_of(event, day).boats if boat.slip_differs is not None]


def boat_on_roll(event: Event, day: int, boat: int) -> BoatOnRoll | None:
    """One boat on one day, whatever its status; None when there is no such boat or day."""
    entries = list(Entry.objects.filter(event=event))
    table = table_of(event, entries)
    entry = next((entry for entry in entries if entry.boat == boat), None)
    if entry is None or day not in table.calendar.days:
        return None
    lines, slips = _lines(event, day=day, entry=entry), _slips(event, day=day, entry=entry)
    mine, weighed = lines.get(day, {}).get(entry.pk, ()), slips.get(day, {}).get(entry.pk, ())
    launched = _launches(event, day=day, entry=entry).get((day, entry.pk))
    return BoatOnRoll(entry, day, tuple(mine), tuple(weighed), table, launched)


def lines_of(event: Event, day: int, entry: Entry) -> list[CheckIn]:
    """Every line of a boat and day, replaced ones and those taken out too, in the order they were kept."""
    found = CheckIn.objects.filter(event=event, day=day, entry=entry)
    return list(found.select_related("entry", "replaces", "replaced_by"))


def _lines(event: Event, **only: Any) -> Kept[CheckIn]:
    """Current lines by day and entry, in the order they were kept."""
    return _by_day_and_entry(CheckIn.objects.current().filter(event=event, **only).order_by("number"))


def _slips(event: Event, **only: Any) -> Kept[Weighed]:
    """Current slips by day and entry."""
    return _by_day_and_entry(current_slips(event, **only))


def _launches(event: Event, **only: Any) -> dict[tuple[int, int], datetime]:
    """When boats launched by their boat checks, by day and entry."""
    return {key: told["launched"] for key, told in care_times.of_event(event, **only).items() if "launched" in told}


def _by_day_and_entry(rows: Iterable[Row]) -> Kept[Row]:
    found: Kept[Row] = {}
    for row in rows:
        found.setdefault(row.day, {}).setdefault(row.entry_id, []).append(row)
    return found


def _boats(
    event: Event,
    day: int,
    table: Table,
    entries: Iterable[Entry],
    lines: Mapping[int, list[CheckIn]],
    slips: Mapping[int, list[Weighed]],
) -> list[BoatOnRoll]:
    """The boats that are awaited on a day: a disqualified one too, and any of which there is a word."""
    cut = table.rules.cut_after_day
    gone = fish_no_more(event, table) if cut is not None and day > cut else frozenset()
    awaited = (Entry.Status.ENTERED, Entry.Status.DISQUALIFIED)
    launches = _launches(event, day=day)
    return [
        BoatOnRoll(
            entry,
            day,
            tuple(lines.get(entry.pk, ())),
            tuple(slips.get(entry.pk, ())),
            table,
            launches.get((day, entry.pk)),
        )
        for entry in entries
        if entry.pk in lines or (entry.status in awaited and entry.boat not in gone)
    ]


def _flights(boats: Iterable[BoatOnRoll]) -> tuple[FlightOnRoll, ...]:
    by_name = defaultdict(list)
    for boat in boats:
        by_name[boat.entry.flight_name].append(boat)
    flights = [
        FlightOnRoll(name, found[0].table.calendar.due(found[0].day, name), tuple(found))
        for name, found in by_name.items()
    ]
    return tuple(sorted(flights, key=lambda flight: (flight.due, flight.name)))

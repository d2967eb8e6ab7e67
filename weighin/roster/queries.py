"""Teams of an event: found, counted, and the next free boat number."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.db.models import Count, F, Max, Q, QuerySet

from weighin.audit.domain.lines import seal
from weighin.audit.models import HistoryEntry
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, flight_names, rules_of
from weighin.events.queries.seals import Seals
from weighin.records.models import end_of
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.team_list import Beside
from weighin.roster.models import Angler, Contact, Entry
from weighin.roster.parsing.entries import FIELDS, EntryValues
from weighin.rules.look_alikes import folded_name, look_of

# Of the history: a team that was changed, by its boat, or one that has no number yet
CHANGED, SUBJECT, WAITING = "entry.changed", "boat ", "waiting team"


def reading_table(event: Event, entries: Iterable[Entry] | None = None, as_of: datetime | None = None) -> Table:
    """As ``table_of`` without the check-in table's lines: enough to read slips, not to score them."""
    known = Entry.objects.filter(event=event) if entries is None else entries
    return Table(calendar_of(event), rules_of(event, as_of), {entry.boat: entry.flight_name for entry in known})


def entries_of(event: Event, search: str = "", unpaid: bool = False) -> QuerySet[Entry]:
    """The event's entries with their anglers, by boat, those without a number first; those whose boat, team or an angler
    holds the words."""
    found = Entry.everyone.filter(event=event).select_related("event").prefetch_related("anglers")
    found = found.order_by(F("boat").asc(nulls_first=True), "number")
    words = " ".join(search.split())
    if words:
        hit = Q(name__icontains=words) | Q(anglers__name__icontains=words) | Q(flight_name__iexact=words)
        if words.isascii() and words.isdigit() and len(words) <= 9:
            hit |= Q(boat=int(words))
        found = found.filter(hit).distinct()
    return found.filter(paid=False, status=Entry.Status.ENTERED) if unpaid else found


def entries_at(event: Event, as_of: datetime | None = None) -> list[Entry]:
    """The event's entries with their teams, by boat; with ``as_of`` their status is that of then."""
    entries = list(event.entries.select_related("team"))
    was = {} if as_of is None else _statuses_at(event, as_of)
    for entry in entries:
        entry.status = was.get(entry.boat, entry.status)
    return entries


def _statuses_at(event: Event, moment: datetime) -> dict[int, str]:
    """The status of then, by boat, of those whose status was changed since."""
    last = end_of(moment, HistoryEntry._meta.label)
    later = Q(at__gt=moment) if last is None else Q(at__gt=moment) | Q(id__gt=last)
    found: dict[int, str] = {}
    notes = HistoryEntry.objects.filter(later, event_id=event.pk, act=CHANGED).exclude(subject=WAITING).order_by("-id")
    for subject, details in notes.values_list("subject", "details"):
        if "status" in details["changed"]:
            found[int(subject.removeprefix(SUBJECT))] = details["changed"]["status"][0]
    return found


@dataclass(frozen=True)
class RosterCount:
    """How the roster stands. ``unpaid`` are entered teams that have not paid; ``fees`` what the paid ones paid,
    ``waiting`` teams without a boat number."""

    teams: int
    waiting: int
    entered: int
    paid: int
    unpaid: int
    in_pot: int
    fees: Decimal


def roster_count(event: Event) -> RosterCount:
    """The teams of an event counted."""
    fishes, has_paid = Q(status=Entry.Status.ENTERED), Q(paid=True)
    found = Entry.everyone.filter(event=event).aggregate(
        waiting=Count("pk", filter=Q(boat=None)),
        count=Count("pk"),
        count_entered=Count("pk", filter=fishes),
        count_paid=Count("pk", filter=has_paid),
        count_unpaid=Count("pk", filter=fishes & ~has_paid),
        count_pot=Count("pk", filter=has_paid & Q(big_fish_pot=True)),
    )
    return RosterCount(
        teams=found["count"],
        waiting=found["waiting"],
        entered=found["count_entered"],
        paid=found["count_paid"],
        unpaid=found["count_unpaid"],
        in_pot=found["count_pot"],
        fees=found["count_paid"] * Decimal(event.entry_fee),
    )


def teams_of(event: Event, flight: str | None = None) -> int:
    """How many teams are entered in an event, or in one ``flight`` of it."""
    return Entry.everyone.filter(event=event, **({} if flight is None else {"flight_name": flight})).count()


def teams_of_events(events: Iterable[int]) -> dict[int, int]:
    """The teams of many events, by primary key."""
    found = Entry.everyone.filter(event__in=list(events)).order_by().values_list("event").annotate(Count("pk"))
    return dict(found)


def next_boat(event: Event) -> int:
    """The number after the largest."""
    return (event.entries.aggregate(most=Max("boat"))["most"] or 0) + 1


def next_number(event: Event) -> int:
    """The number of the team that is entered next."""
    return (Entry.everyone.filter(event=event).aggregate(most=Max("number"))["most"] or 0) + 1


BOAT = "boat "
SEALED = ("boat", "name", "youth", "flight_name", "paid", "big_fish_pot", "status", "lot")


def roster_seals(event_id: int, boats: Iterable[int] | None = None) -> Seals:
    """The seal of each team as it is kept now, with its anglers, for the history; of all, or of these ``boats``.

    A boat that is not entered is bound as gone. An angler is sealed by the mark, and the note, which may tell of a person
    and decides nothing, not at all.
    """
    entries = Entry.objects.filter(event=event_id)
    if boats is not None:
        boats = list(boats)
        entries = entries.filter(boat__in=boats)
    found: Seals = {f"{BOAT}{boat}": None for boat in boats or ()}
    for entry in entries.prefetch_related("anglers"):
        anglers = [[angler.position, angler.mark] for angler in entry.anglers.all()]
        found[f"{BOAT}{entry.boat}"] = seal({**{name: getattr(entry, name) for name in SEALED}, "anglers": anglers})
    return found


def names_erased(event: Event) -> int:
    """How many anglers of an event have had their names erased."""
    return Angler.objects.filter(entry__event=event).exclude(erased_on=None).count()


UNNAMED_CREW = 2  # anglers of a boat that names none; common practice, no source: crappie teams fish in pairs


def named_anglers(event: Event, fishing: bool = False) -> dict[int, int]:
    """How many anglers each boat names, 0 where it names none; with ``fishing`` of the boats that are entered only."""
    entries = event.entries.filter(status=Entry.Status.ENTERED) if fishing else event.entries.all()
    return dict(entries.annotate(named=Count("anglers")).values_list("boat", "named"))


def crew_of(named: int) -> int:
    """The anglers a boat is counted as: those it names; without a name their number is unknown, and two are counted.

    The one rule for plans, reports and rates; whoever shows such a figure says for how many boats it was used.
    """
    return named or UNNAMED_CREW


def contact_of(entry: Entry) -> ContactValues:
    """How the people of an entry are reached."""
    return contacts_of(entry.event, entry=entry).get(entry.pk, ContactValues())


def contacts_of(event: Event, **only: Entry) -> dict[int, ContactValues]:
    """How the people of each entry are reached, by the entry's key, of those of whom anything is written."""
    return _reached(Contact.objects.filter(entry__event=event, **only))


def contacts_of_entries(entries: Iterable[int]) -> dict[int, ContactValues]:
    """As ``contacts_of``, of entries of any event by their keys."""
    return _reached(Contact.objects.filter(entry__in=list(entries)))


def _reached(rows: QuerySet[Contact]) -> dict[int, ContactValues]:
    return {row.entry_id: ContactValues(row.phone, row.emergency, row.email) for row in rows}


def entry_values_of(entry: Entry) -> EntryValues:
    """A team as it is kept; a blank line between two anglers stays blank."""
    names = {angler.position: angler.name for angler in entry.anglers.all()}
    anglers = tuple(names.get(position, "") for position in range(1, max(names, default=0) + 1))
    return EntryValues(anglers=anglers, **{name: getattr(entry, name) for name in FIELDS})


def looks_of_teams(event: Event) -> set[str]:
    """The names of an event's teams as a reader sees them, for a name that no other may look like."""
    return {look_of(name) for name in Entry.everyone.filter(event=event).values_list("name", flat=True)}


def waiting_teams(event: Event) -> list[Entry]:
    """Entries that have no boat number yet, in the order in which they were entered."""
    return list(Entry.everyone.filter(event=event, boat=None).order_by("number"))


def beside_of(event: Event) -> Beside:
    """What a list of teams for the event is read beside."""
    entries = list(Entry.everyone.filter(event=event))
    people = Angler.objects.filter(entry__event=event).values_list("name", "entry__name")
    return Beside(
        fee=event.entry_fee,
        pot_fee=rules_of(event).big_fish_pot_fee,
        flights=flight_names(event),
        boats={entry.boat: entry.name for entry in entries if not entry.waits},
        teams={look_of(entry.name): entry.name for entry in entries},
        people={folded_name(name): team for name, team in people},
        season={
            look_of(name): (folded, name) for folded, name in event.season.teams.values_list("folded_name", "name")
        },
    )

"""The boats of an event as the desk sees them: what was seen, what is owed, what is missing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from weighin.events.models import Event
from weighin.registration.queries.till import till_of
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.seen_fields import ASKABLE
from weighin.roster.models import DeskAsks, Entry, Seen
from weighin.roster.queries import contacts_of, entries_of

NONE = Decimal(0)


@dataclass(frozen=True)
class BoatAtDesk:
    """A team at the desk: the rows of what was seen by what it is, what it owes, and the names of what is asked for and
    missing; of a team that does not fish nothing is."""

    entry: Entry
    seen: Mapping[str, Seen]
    owes: Decimal = NONE
    contact: ContactValues = field(default_factory=ContactValues)
    missing: tuple[str, ...] = ()

    @property
    def lacks(self) -> bool:
        """Whether something is missing, money too."""
        return bool(self.missing) or (self.owes > 0 and self.fishes)

    @property
    def fishes(self) -> bool:
        """Whether the team is entered."""
        return self.entry.status == Entry.Status.ENTERED


def asked_of(event: Event) -> tuple[str, ...]:
    """What the desk asks every team for, by the names of ``ASKABLE``: all of it until somebody says otherwise."""
    last = DeskAsks.objects.filter(event=event).order_by("-id").first()
    names = tuple(name for name, _label in ASKABLE)
    return names if last is None else tuple(name for name in names if name in last.asked.split(","))


def boats_at_desk(event: Event, day: int | None) -> list[BoatAtDesk]:
    """Every team by boat, with the safety check of ``day``; the same number of queries for any number of teams."""
    seen: dict[int, dict[str, Seen]] = {}
    for row in seen_of(event, day):
        seen.setdefault(row.entry_id, {})[row.what] = row
    owed: dict[int, Decimal] = {}
    for one in till_of(event).cash.owed:
        owed[one.entry] = owed.get(one.entry, NONE) + one.amount
    reached, asked = contacts_of(event), asked_of(event)
    found = []
    for entry in entries_of(event):
        mine, contact = seen.get(entry.pk, {}), reached.get(entry.pk, ContactValues())
        missing = _missing(asked, mine, contact) if entry.status == Entry.Status.ENTERED else ()
        found.append(BoatAtDesk(entry, mine, owed.get(entry.pk, NONE), contact, missing))
    return found


def seen_of(event: Event, day: int | None) -> list[Seen]:
    """The rows that count: those of no day, and the safety check of ``day``."""
    rows = Seen.objects.current().filter(event=event).order_by("number")
    return [row for row in rows if row.day is None or row.day == day]


def _missing(asked: Sequence[str], seen: Mapping[str, Seen], contact: ContactValues) -> tuple[str, ...]:
    has = {*seen, *([DeskAsks.CONTACT] if contact.emergency else [])}
    return tuple(name for name in asked if name not in has)

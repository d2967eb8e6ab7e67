"""Teams of an event: found, counted, and the next free boat number."""

from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Count, Max, Q, QuerySet

from weighin.events.models import Event
from weighin.roster.models import Entry


def entries_of(event: Event, search: str = "", unpaid: bool = False) -> QuerySet[Entry]:
    """The event's entries with their anglers, by boat; those whose boat, team or an angler holds the words."""
    found = event.entries.select_related("event").prefetch_related("anglers").order_by("boat")
    words = " ".join(search.split())
    if words:
        hit = Q(name__icontains=words) | Q(anglers__name__icontains=words) | Q(flight_name__iexact=words)
        if words.isascii() and words.isdigit() and len(words) <= 9:
            hit |= Q(boat=int(words))
        found = found.filter(hit).distinct()
    return found.filter(paid=False, status=Entry.Status.ENTERED) if unpaid else found


@dataclass(frozen=True)
class RosterCount:
    """How the roster stands. ``unpaid`` are entered teams that have not paid; ``fees`` what the paid ones paid."""

    teams: int
    entered: int
    paid: int
    unpaid: int
    in_pot: int
    fees: Decimal


def roster_count(event: Event) -> RosterCount:
    """The teams of an event counted."""
    entered = Q(status=Entry.Status.ENTERED)
    found = event.entries.aggregate(
        teams=Count("pk"),
        entered=Count("pk", filter=entered),
        paid=Count("pk", filter=Q(paid=True)),
        unpaid=Count("pk", filter=entered & Q(paid=False)),
        in_pot=Count("pk", filter=Q(paid=True, big_fish_pot=True)),
    )
    return RosterCount(**found, fees=found["paid"] * Decimal(event.entry_fee))


def next_boat(event: Event) -> int:
    """The number after the largest."""
    return (event.entries.aggregate(most=Max("boat"))["most"] or 0) + 1

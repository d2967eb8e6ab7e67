"""Slips of an event: current ones, doubled ones, histories, and the ledger's head."""

from collections import Counter
from collections.abc import Iterable
from datetime import datetime

from django.db.models import QuerySet
from django.utils.translation import gettext

from weighin.audit.domain.chain import START
from weighin.events.models import Event
from weighin.records.models import CurrentQuerySet
from weighin.roster.models import Entry
from weighin.slips.models import WeighSlip


def first_readings(event: Event, through: int, as_of: datetime | None = None) -> list[WeighSlip]:
    """Of each boat and day up to ``through`` the slip of the lowest number, whatever became of it later."""
    written = _received(event, as_of).filter(day__lte=through, void=False)
    return first_of_each(written.select_related("entry").order_by("number"))


def first_of_each(written: Iterable[WeighSlip]) -> list[WeighSlip]:
    """The first of each boat and day."""
    found: dict[tuple[int, int], WeighSlip] = {}
    for slip in written:
        found.setdefault((slip.entry.boat, slip.day), slip)
    return list(found.values())


def slips(event: Event) -> CurrentQuerySet:
    """Every slip of the event in the order they were kept."""
    return WeighSlip.objects.filter(event=event).select_related("entry", "replaces", "replaced_by")


def current_slips(
    event: Event, as_of: datetime | None = None, entries: Iterable[Entry] | None = None
) -> list[WeighSlip]:
    """The slips that nothing replaces and that are no voids, both of a doubled day, by day and boat.

    With ``as_of`` those that were current then: of slips received later nothing shows, not even what they replace.
    ``entries`` are the event's, where they are there already.
    """
    objects = WeighSlip.objects
    found = (objects.current() if as_of is None else objects.current_at(as_of)).filter(event=event)
    if entries is None:
        found = found.select_related("entry")
    else:
        there = {entry.pk: entry for entry in entries}
        for slip in found:
            if slip.entry_id in there:  # else it was entered since, and is read with its slip
                slip.entry = there[slip.entry_id]
    return sorted(found, key=lambda slip: (slip.day, slip.entry.boat, slip.number))


def doubled(found: Iterable[WeighSlip]) -> set[tuple[int, int]]:
    """(boat, day) of which there are two current slips or more: they wait for the director."""
    seen = Counter((slip.entry.boat, slip.day) for slip in found)
    return {key for key, count in seen.items() if count > 1}


def waiting_of(event: Event) -> list[tuple[int, int]]:
    """(boat, day) of every doubled day of the event, by day and boat."""
    return sorted(doubled(current_slips(event)), key=lambda key: (key[1], key[0]))


def current_of(event: Event, boat: int, day: int) -> list[WeighSlip]:
    """The current slips of one boat and day, in order of number."""
    found = WeighSlip.objects.current().filter(event=event, entry__boat=boat, day=day)
    return list(found.select_related("entry").order_by("number"))


def beside(slip: WeighSlip) -> list[WeighSlip]:
    """The current slips of the slip's boat and day, itself among them when it is current, in order of number."""
    return current_of(slip.event, slip.entry.boat, slip.day)


def replaced_by(slip: WeighSlip) -> WeighSlip | None:
    """The slip that corrects or voids this one, if there is one."""
    found: WeighSlip | None = getattr(slip, "replaced_by", None)
    return found


def state_in_words(slip: WeighSlip, waiting: bool) -> str:
    """What a slip is worth now: current, waiting, replaced, taken out, or a void itself."""
    after = replaced_by(slip)
    if slip.void:
        return (
            gettext("voids slip %(number)s") % {"number": slip.replaces.number} if slip.replaces else gettext("a void")
        )
    if after is not None:
        return (
            gettext("voided by slip %(number)s") % {"number": after.number}
            if after.void
            else gettext("replaced by slip %(number)s") % {"number": after.number}
        )
    return gettext("waits: two slips for one day") if waiting else gettext("current")


def counting_slips(event: Event) -> list[WeighSlip]:
    """The current slips that count: those of a doubled day are left out until it is settled."""
    found = current_slips(event)
    waiting = doubled(found)
    return [slip for slip in found if (slip.entry.boat, slip.day) not in waiting]


def history_of(slip: WeighSlip) -> list[WeighSlip]:
    """The slip's whole chain of corrections, first to last, whichever of them is asked for; all are of one boat."""
    others = {s.pk: s for s in slips(slip.event).filter(entry=slip.entry_id)}
    first = others.get(slip.pk, slip)
    while first.replaces_id in others:
        first = others[first.replaces_id]
    chain = [first]
    after = {s.replaces_id: s for s in others.values() if s.replaces_id}
    while chain[-1].pk in after:
        chain.append(after[chain[-1].pk])
    return chain


def ledger_head(event: Event, as_of: datetime | None = None) -> tuple[int, str]:
    """How many slips the event's ledger holds (or held ``as_of`` then), replaced ones too, and the last one's digest."""
    last = _received(event, as_of).order_by("-position").values_list("position", "link").first()
    return last or (0, START)


def last_number(event: Event, as_of: datetime | None = None) -> int | None:
    """The number of the slip that was kept last (``as_of`` then), whatever it says; None before the first."""
    return _received(event, as_of).order_by("-position").values_list("number", flat=True).first()


def _received(event: Event, as_of: datetime | None) -> QuerySet[WeighSlip]:
    found: CurrentQuerySet = WeighSlip.objects.filter(event=event)
    return found if as_of is None else found.received_by(as_of)

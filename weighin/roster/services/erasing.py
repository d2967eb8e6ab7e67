"""Erase what is kept of anglers: results, slips and money stay, and so does how many fished in a boat."""

from collections.abc import Callable, Iterable

from django.utils import timezone
from django.utils.translation import gettext, ngettext

from weighin.audit.domain.aside import fresh_salt
from weighin.audit.models import KeptAside
from weighin.audit.services import log_history
from weighin.events.models import Event
from weighin.events.services.revision import raise_revision
from weighin.roster.models import Angler, Contact, Entry
from weighin.roster.queries import roster_seals

# Why names go: a person asked for it, or the club keeps them no longer
ASKED, KEPT_LONG_ENOUGH = "asked", "kept long enough"


def erase_anglers(
    event: Event, anglers: Iterable[Angler], tells_of: Callable[[str], bool], by: str, why: str = ASKED
) -> int:
    """Put a name that tells nobody in the place of each of the ``anglers`` of ``event``; how many it were.

    With them go how their teams are reached, and of the event's other contacts, its teams' notes and the words kept
    beside its history those of which ``tells_of`` says that they tell of the person. An event that is closed or published is no hindrance. Call it inside ``writing``; the
    event's history then says which boats it were.
    """
    held = Event.everyone.select_for_update(of=("self",)).select_related("season").get(pk=event.pk)
    gone = list(anglers)
    entries = Entry.everyone.filter(event=held)
    boats: dict[int, int | None] = dict(entries.values_list("pk", "boat"))
    today = timezone.now().date()
    for angler in gone:
        said = {"angler": angler.position, "boat": boats[angler.entry_id], "entry": angler.entry_id}
        waits = boats[angler.entry_id] is None
        angler.name = (
            gettext("Angler %(angler)s of entry %(entry)s") if waits else gettext("Angler %(angler)s of boat %(boat)s")
        ) % said
        angler.salt, angler.erased_on = fresh_salt(), today
    Angler.objects.bulk_update(gone, ["name", "salt", "erased_on"], batch_size=500)
    theirs = {angler.entry_id for angler in gone}
    reached = [
        contact
        for contact in Contact.objects.filter(entry__event=held)
        if contact.entry_id in theirs or any(map(tells_of, (contact.phone, contact.emergency, contact.email)))
    ]
    Contact.objects.filter(pk__in=[contact.pk for contact in reached]).delete()
    noted = [entry for entry in entries.exclude(note="") if tells_of(entry.note)]
    for entry in noted:
        entry.note = ""
    Entry.objects.bulk_update(noted, ["note"], batch_size=500)
    aside = [row.pk for row in KeptAside.objects.filter(event_id=held.pk) if tells_of(row.words)]
    KeptAside.objects.filter(pk__in=aside).delete()
    keys = {*theirs, *(entry.pk for entry in noted), *(contact.entry_id for contact in reached)}
    touched = sorted(boat for key in keys if (boat := boats[key]) is not None)
    if keys or aside:
        raise_revision(held)
        _note(held, touched, len(gone), by, why)
    return len(gone)


def _note(event: Event, boats: list[int], names: int, by: str, why: str) -> None:
    sentence = ngettext("%(n)s angler’s name erased", "%(n)s anglers' names erased", names) % {"n": names}
    if boats:
        listed = ", ".join(map(str, boats))
        sentence += ", " + ngettext("boat %(boats)s", "boats %(boats)s", len(boats)) % {"boats": listed}
    if why == KEPT_LONG_ENOUGH:
        sentence += ": " + gettext("the club keeps names no longer")
    else:
        sentence += ": " + gettext("a person asked for it")
    log_history(
        by,
        "names.erased",
        sentence,
        club_id=event.season.club_id,
        event_id=event.pk,
        details={"boats": boats, "names": names, "why": why},
        bound=roster_seals(event.pk, boats),
    )

"""Keep how the people of a team are reached."""

from weighin.audit.services import log_history, writing
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Contact, Entry
from weighin.roster.parsing.contacts import contact_faults
from weighin.roster.queries import SUBJECT, WAITING, contact_of
from weighin.rules.faults import Faults


def keep_contact(entry: Entry, said: ContactValues, by: str) -> None:
    """Keep or change the contact of an entry; the history says that it changed, never what it says. Raises Faults."""
    faults = contact_faults(said)
    if faults:
        raise Faults(faults)
    with writing():
        held = lock_open_event(entry.event)
        if contact_of(entry) == said:
            return
        if said.known:
            Contact.objects.update_or_create(entry_id=entry.pk, defaults=vars(said))
        else:
            Contact.objects.filter(entry_id=entry.pk).delete()
        raise_revision(held)
        log_history(
            by,
            "contact.changed",
            f"{entry}: how the team is reached was changed",
            club_id=held.season.club_id,
            event_id=held.pk,
            subject=WAITING if entry.waits else f"{SUBJECT}{entry.boat}",
        )

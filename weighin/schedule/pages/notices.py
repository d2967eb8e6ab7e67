"""What teams are told of an event that is called off, in words: on pages, and as a text to copy."""

from dataclasses import dataclass

from django.utils.dateformat import format as date_format
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.roster.queries import contacts_of
from weighin.schedule.models import Notice
from weighin.schedule.queries.notices import standing_notice

LONG, SHORT = "l, F j, Y", "D, M j"


@dataclass(frozen=True)
class Reached:
    """A team with its phone number and e-mail address, empty where none is written."""

    team: str
    boat: int | None
    phone: str
    email: str


def said_of(event: Event, notice: Notice) -> str:
    """One sentence for the event's own pages."""
    names = {"was": date_format(notice.was, SHORT), "reason": notice.reason}
    if notice.kind == Notice.Kind.CANCELLED:
        return gettext("Cancelled: %(reason)s") % names
    if notice.to is None:
        return gettext("Postponed, the new date follows: %(reason)s") % names
    return gettext("Postponed from %(was)s to %(to)s: %(reason)s") % {**names, "to": date_format(event.date, SHORT)}


def told_of(event: Event) -> str:
    """The sentence of the notice that stands; empty while the event takes place."""
    notice = standing_notice(event)
    return said_of(event, notice) if notice else ""


def text_for_teams(event: Event, notice: Notice) -> str:
    """The text that a director sends to the teams."""
    said = {
        "event": event.name,
        "water": event.water.name,
        "was": date_format(notice.was, LONG),
        "to": date_format(event.date, LONG),
        "start": date_format(event.start_time, "g:i A"),
        "reason": notice.reason,
        "club": event.club.name,
    }
    if notice.kind == Notice.Kind.TAKES_PLACE:
        first = gettext("%(event)s takes place after all: %(to)s on %(water)s, start %(start)s.")
    elif notice.kind == Notice.Kind.CANCELLED:
        first = gettext("%(event)s on %(water)s, %(was)s, is cancelled.")
    elif notice.to is None:
        first = gettext("%(event)s on %(water)s, %(was)s, is postponed. We will tell you the new date.")
    else:
        first = gettext("%(event)s on %(water)s moves from %(was)s to %(to)s, start %(start)s.")
    return "\n".join([first % said, gettext("Reason: %(reason)s") % said, str(said["club"])])


def reached(event: Event) -> list[Reached]:
    """The teams that fish, by boat, those without a number last; only for those who may see contacts."""
    contacts = contacts_of(event)
    entries = Entry.everyone.filter(event=event).exclude(status=Entry.Status.WITHDRAWN)
    found = []
    for entry in sorted(entries, key=lambda one: (one.waits, one.boat or 0, one.number)):
        contact = contacts.get(entry.pk)
        found.append(
            Reached(
                entry.name,
                None if entry.waits else entry.boat,
                contact.phone if contact else "",
                contact.email if contact else "",
            )
        )
    return found

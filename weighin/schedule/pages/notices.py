"""How each team is reached when an event is called off."""

from dataclasses import dataclass

from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.roster.queries import contacts_of
from weighin.signup.models import SignUp


@dataclass(frozen=True)
class Reached:
    """A team with its phone number and e-mail address, empty where none is written.

    ``who`` is the number of its ``entry``, or of a sign-up that has none yet: it names the team in the event for good.
    """

    team: str
    boat: int | None
    phone: str
    email: str
    who: str
    entry: Entry | None = None


def reached(event: Event) -> list[Reached]:
    """The teams that fish, by boat, those without a number and those that only signed up last; only for those who may
    see contacts."""
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
                f"{entry.number}",
                entry,
            )
        )
    asked = SignUp.objects.filter(event=event, state=SignUp.State.ASKED).order_by("number")
    return found + [Reached(one.name, None, one.phone, one.email, f"sign-up {one.number}") for one in asked]

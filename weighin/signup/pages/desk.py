"""The sign-ups of an event as the desk sees them."""

from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.events.queries.events import is_cancelled
from weighin.letters.queries import letter_of, mail_is_set
from weighin.registration.queries.draws import entries_closed
from weighin.roster.models import Entry
from weighin.rules.faults import Fault
from weighin.signup.domain.opening import Door, Opening
from weighin.signup.models import SignUp, SignUpTerms
from weighin.signup.queries.places import Places
from weighin.signup.queries.sign_ups import sign_ups_of


@dataclass(frozen=True)
class Row:
    """A sign-up in the list: what became of it, and its place where it waits for one."""

    sign_up: SignUp
    team: str
    state: str
    place: str


def rows_of(event: Event, places: Places) -> list[Row]:
    """Those that wait for the desk first, then by number, what is over last."""
    order = {SignUp.State.ASKED.value: 0, SignUp.State.APPROVED.value: 1}
    found = sorted(sign_ups_of(event), key=lambda one: (order.get(one.state, 2), one.number))
    waits = {entry.pk: place for place, entry in enumerate(places.waiting, start=1)}
    inside = {entry.pk for entry in places.inside}
    return [
        Row(one, one.entry.name if one.entry else one.name, _state(one), _place(one, waits, inside)) for one in found
    ]


def _state(one: SignUp) -> str:
    if one.state != SignUp.State.APPROVED:
        return str(one.get_state_display())
    if one.entry is None:
        return gettext("Approved, then removed")
    return str(one.entry.get_status_display())


def _place(one: SignUp, waits: dict[int, int], inside: set[int]) -> str:
    if one.entry is None:
        return ""
    if one.entry.pk in waits:
        return gettext("waiting list, place %(place)s") % {"place": waits[one.entry.pk]}
    if one.entry.pk in inside:
        return gettext("in, paid") if one.entry.paid else gettext("in, not paid")
    if one.entry.status == Entry.Status.WITHDRAWN and one.entry.paid:
        return gettext("paid: give the money back")
    return ""


def why_shut(event: Event, terms: SignUpTerms, opening: Opening) -> str:
    """Why nobody can sign up although the director opened it; blank where that is not so."""
    if opening.door is not Door.OVER or not terms.is_open:
        return ""
    if event.closed_at:
        return gettext("The event is closed.")
    if is_cancelled(event):
        return gettext("The event is cancelled.")
    if entries_closed(event):
        return gettext("The entries are closed by a draw. Voiding the draw opens them again.")
    return gettext("Its time is over. Teams can still be entered at the desk.")


def doubts_said(doubts: list[Fault]) -> list[str]:
    """The doubts as sentences."""
    return [fault.message for fault in doubts]


def letters_said(sign_up: SignUp) -> str:
    """What became of the letter that told the team of its sign-up; blank where the site sends none."""
    if not mail_is_set():
        return ""
    for what in ("refused", "entered", "waits", "came_in"):
        letter = letter_of(f"sign-up {sign_up.pk} {what}")
        if letter is None:
            continue
        if letter.sent_at:
            return gettext("The team was sent an e-mail.")
        if letter.given_up_at:
            return gettext("No e-mail reached the team: call it.")
        return gettext("An e-mail to the team waits to be sent.")
    return gettext("No e-mail was written to the team: call it.")

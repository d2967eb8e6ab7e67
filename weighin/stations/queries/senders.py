"""What members of the event's club may send, by their role."""

from typing import Any

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import cans_in
from weighin.events.models import Event
from weighin.records.domain.messages import RULES, Sender

OF_A_MEMBER = {
    "weigh": Can.RECORD_SLIP,
    "correct": Can.CORRECT_SLIP,
    "checkin": Can.RECORD_SLIP,
    "care": Can.RECORD_CARE,
    RULES: Can.MANAGE_EVENT,
}


def sender_of(user: Any, event: Event) -> Sender:
    """A member of the event's club as a sender."""
    cans = cans_in(user, event.club)
    return Sender(user.get_username(), frozenset(one for one, asked in OF_A_MEMBER.items() if asked in cans))

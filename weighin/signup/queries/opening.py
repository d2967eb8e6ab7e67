"""The terms of an event's sign-up, and how its door stands now."""

from datetime import datetime

from django.utils import timezone

from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, is_cancelled
from weighin.registration.queries.draws import entries_closed
from weighin.signup.domain.opening import Opening, door_at
from weighin.signup.models import SignUpTerms


def terms_of(event: Event) -> SignUpTerms:
    """The terms of the event; where nobody has set any, terms that are closed and not kept."""
    return SignUpTerms.objects.filter(event=event).first() or SignUpTerms(event=event)


def begins(event: Event) -> datetime:
    """When the event's first day that is not called off starts."""
    calendar = calendar_of(event)
    return min(calendar.start(number) for number in calendar.fished or calendar.days)


def opening_of(event: Event, terms: SignUpTerms) -> Opening:
    """How the door of the sign-up stands now."""
    begin = begins(event)
    until = min(terms.closes, begin) if terms.closes else begin
    taken = event.closed_at is not None or is_cancelled(event) or entries_closed(event) is not None
    door = door_at(
        timezone.now(), is_open=terms.is_open, was_open=terms.was_open, opens=terms.opens, until=until, taken=taken
    )
    return Opening(door, terms.opens, until)

"""What the desk offers for the next team: what the last one paid, by the same hand."""

from weighin.events.models import Event
from weighin.registration.domain.cash import FEE, What
from weighin.registration.models import Means, Payment
from weighin.roster.models import Entry
from weighin.roster.queries import next_boat


def last_taken(event: Event, by: str) -> tuple[list[What], str]:
    """The fees that ``by`` took of the last team, the entry fee always among them, and by which means; at first cash."""
    mine = Payment.objects.current().filter(event=event, recorded_by=by, amount__gte=0)
    last = mine.exclude(means=Means.NOT_RECORDED).order_by("-number").first()
    if last is None:
        return [FEE], Means.CASH
    taken = [(row.kind, row.pot) for row in mine.filter(entry=last.entry_id, means=last.means).order_by("number")]
    return list(dict.fromkeys([FEE, *taken])), last.means


def boat_offered(event: Event) -> int | None:
    """The next free boat number; None where the last team was entered without one, to be drawn later."""
    last = Entry.everyone.filter(event=event).order_by("-number").first()
    return None if last is not None and last.waits else next_boat(event)

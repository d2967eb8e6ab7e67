"""What is to be seen of a rehearsal: which one an event has, and the boats that were weighed in it so far."""

from datetime import UTC, datetime, time, timedelta

from weighin.checkin.queries.arrivals import arrivals_of
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.rehearsal.domain.line import Way
from weighin.rehearsal.models import Rehearsal
from weighin.slips.models import WeighSlip


def rehearsal_of(event: Event) -> Rehearsal | None:
    """The event's rehearsal with its copy, if there is one."""
    found = Rehearsal.objects.filter(event__rehearsal_of=event)
    return found.select_related("event", "event__season__club", "event__rule_sheet", "event__water").first()


def weighed_so_far(rehearsal: Rehearsal) -> list[Way]:
    """Each boat that checked in and was weighed, by its first slip, in minutes of the day's clock; people's boats too."""
    event, day = rehearsal.event, rehearsal.day
    calendar = calendar_of(event)
    midnight = calendar.days[day].date
    begins = datetime.combine(midnight, time(0), calendar.zone).astimezone(UTC)
    came = arrivals_of(event)
    slips = WeighSlip.objects.filter(event=event, day=day, bag_issued__isnull=False, weighed__isnull=False)
    found: dict[int, Way] = {}
    for boat, bag, done in slips.order_by("position").values_list("entry__boat", "bag_issued", "weighed"):
        arrival = came.get((boat, day))
        if boat not in found and arrival is not None and arrival.checked_in is not None:
            checked_in, issued, weighed = (
                (at - begins) / timedelta(minutes=1) for at in (arrival.checked_in, bag, done)
            )
            found[boat] = Way(boat, checked_in, issued, weighed, late=False)
    return sorted(found.values(), key=lambda way: way.weighed)

"""What is to be seen of a rehearsal: which one an event has, and the boats that were weighed in it so far."""

from weighin.events.models import Event
from weighin.line.domain.day import Way
from weighin.line.queries import line_of
from weighin.rehearsal.models import Rehearsal


def rehearsal_of(event: Event) -> Rehearsal | None:
    """The event's rehearsal with its copy, if there is one."""
    found = Rehearsal.objects.filter(event__rehearsal_of=event)
    return found.select_related("event", "event__season__club", "event__rule_sheet", "event__water").first()


def weighed_so_far(rehearsal: Rehearsal) -> list[Way]:
    """Each boat that checked in and was weighed, by its first slip, in minutes of the day's clock; people's boats too."""
    return list(line_of(rehearsal.event, rehearsal.day).ways)

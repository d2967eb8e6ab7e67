"""What teams are told of an event that is called off, in words."""

from django.utils.dateformat import format as date_format
from django.utils.dateformat import time_format
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.schedule.models import Notice

LONG, SHORT = "l, F j, Y", "D, M j"


def said_of(event: Event, notice: Notice) -> str:
    """One sentence for the event's own pages."""
    names = {"was": date_format(notice.was, SHORT), "reason": notice.reason}
    if notice.kind == Notice.Kind.CANCELLED:
        return gettext("Cancelled: %(reason)s") % names
    if notice.to is None:
        return gettext("Postponed, the new date follows: %(reason)s") % names
    return gettext("Postponed from %(was)s to %(to)s: %(reason)s") % {**names, "to": date_format(event.date, SHORT)}


def text_for_teams(event: Event, notice: Notice) -> str:
    """The text that a director sends to the teams."""
    said = {
        "event": event.name,
        "water": event.water.name,
        "was": date_format(notice.was, LONG),
        "to": date_format(event.date, LONG),
        "start": time_format(event.start_time, "g:i A"),
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

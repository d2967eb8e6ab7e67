"""What teams are told of an event that is called off, in words."""

from django.utils import translation
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.schedule.models import Notice
from weighin.ui import figures


def said_of(event: Event, notice: Notice) -> str:
    """One sentence for the event's own pages."""
    names = {"was": figures.short_day(notice.was), "reason": notice.reason}
    if notice.kind == Notice.Kind.CANCELLED:
        return gettext("Cancelled: %(reason)s") % names
    if notice.to is None:
        return gettext("Postponed, the new date follows: %(reason)s") % names
    return gettext("Postponed from %(was)s to %(to)s: %(reason)s") % {**names, "to": figures.short_day(event.date)}


def letter_to_teams(event: Event, notice: Notice) -> tuple[str, str]:
    """The subject and the text that teams are sent, in the club's language whoever sends them."""
    with translation.override(event.club.language):
        subjects = {
            Notice.Kind.CANCELLED: gettext("Cancelled: %(event)s"),
            Notice.Kind.POSTPONED: gettext("Postponed: %(event)s"),
            Notice.Kind.TAKES_PLACE: gettext("It takes place after all: %(event)s"),
        }
        return subjects[Notice.Kind(notice.kind)] % {"event": event.name}, _text(event, notice)


def _text(event: Event, notice: Notice) -> str:
    said = {
        "event": event.name,
        "water": event.water.name,
        "was": figures.day(notice.was),
        "to": figures.day(event.date),
        "start": figures.clock(event.start_time),
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

"""The permit checklist of an event, and what of it is due next."""

from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from django.utils import timezone
from django.utils.translation import gettext, ngettext

from weighin.events.models import Event
from weighin.schedule.models import PermitLine
from weighin.ui import figures


@dataclass(frozen=True)
class Listed:
    """A line of the checklist as it stands on a day."""

    line: PermitLine
    today: date

    @property
    def is_late(self) -> bool:
        """Whether it is open and its date is past."""
        return self.line.done_on is None and self.line.due < self.today

    @property
    def said(self) -> str:
        """How it stands, in words."""
        if self.line.done_on is not None:
            return gettext("done %(date)s by %(person)s") % {
                "date": figures.short_day(self.line.done_on),
                "person": self.line.done_by,
            }
        left = (self.line.due - self.today).days
        if left < 0:
            return ngettext("%(n)s day late", "%(n)s days late", -left) % {"n": -left}
        if left == 0:
            return gettext("due today")
        return ngettext("due in %(n)s day", "due in %(n)s days", left) % {"n": left}


def checklist_of(event: Event) -> list[Listed]:
    """The lines of an event in the order in which they are due."""
    today = timezone.now().astimezone(ZoneInfo(event.time_zone)).date()
    lines = list(PermitLine.objects.filter(event=event))
    for line in lines:
        line.event = event
    return [Listed(line, today) for line in lines]


def next_due(event: Event) -> str:
    """What of the checklist is due next, in a sentence; empty when nothing is open."""
    still = [one for one in checklist_of(event) if one.line.done_on is None]
    if not still:
        return ""
    return gettext("%(what)s: %(said)s, %(date)s.") % {
        "what": still[0].line.what,
        "said": still[0].said,
        "date": figures.short_day(still[0].line.due),
    }

"""The line on every page of an event of several days: which day is today, and how each day stands."""

from zoneinfo import ZoneInfo

from django import template
from django.template import Context
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.events.models import Event
from weighin.standings.queries.days import DayCount, days_of, days_said
from weighin.standings.queries.embargo import embargo_start
from weighin.standings.queries.standings import standings_of
from weighin.ui.kept import KEEPER, State

register = template.Library()
COUNTS_BYTES = 1000  # about


@register.simple_tag(takes_context=True)
def days_line(context: Context, crowd: bool = False) -> SafeString | str:
    """``{% days_line %}``: the line of the page's ``event``, empty without one or for one of a single day.

    A page of the ``crowd`` is shared and kept, so its line holds until the next write, and of the state it may see.
    """
    event = context.get("event")
    if not isinstance(event, Event) or event.pk is None:
        return ""
    said = days_said(_counts(event, crowd), ZoneInfo(event.time_zone), None if crowd else timezone.now())
    return format_html('<p class="days-line no-print">{}</p>', said) if said else ""


def _counts(event: Event, crowd: bool) -> list[DayCount]:
    """The days counted, once a revision."""
    held = embargo_start(event) if crowd else None
    state = State((event.revision, held))

    def counted() -> list[DayCount]:
        return days_of(standings_of(event, held)) if event.event_days.count() > 1 else []

    found: list[DayCount] = KEEPER.shown(("days", event.pk, crowd), lambda: state, counted, COUNTS_BYTES)
    return found

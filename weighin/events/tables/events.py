"""Events of a club as a ruled table."""

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.events.queries.events import Listed
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable

STATUS = {
    "planned": ("open", "planned"),
    "open": ("going", "going on"),
    "closed": ("done", "closed"),
    "published": ("done", "published"),
    "cancelled": ("none", "cancelled"),
}
OVER = ("going", "not published yet")


class EventsTable(RuledTable):
    """One row an event, newest first."""

    name = NameColumn(
        accessor="event__name",
        verbose_name="Event",
        linkify=("operations:day", {"event_slug": tables.A("event__slug")}),
    )
    date = tables.Column(accessor="event__date", verbose_name="First day")
    days = FigureColumn()
    water = tables.Column(accessor="event__water__name")
    teams = FigureColumn()
    status = tables.Column(verbose_name="State")

    caption = "Events"
    named_by = "name"

    class Meta:
        order_by_field = "sort"

    def render_date(self, record: Listed) -> str:
        return f"{record.event.date:%a} {record.event.date.day} {record.event.date:%B %Y}"

    def render_status(self, value: str, record: Listed) -> SafeString:
        kind, words = OVER if record.over else STATUS[value]
        return format_html('<span class="state is-{}">{}</span>', kind, words)

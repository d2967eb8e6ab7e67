"""Events of a club as a ruled table."""

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy

from weighin.events.queries.events import Listed
from weighin.ui import figures
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable


class EventsTable(RuledTable):
    """One row an event, newest first."""

    name = NameColumn(
        accessor="event__name",
        verbose_name=gettext_lazy("Event"),
        linkify=("operations:day", {"event_slug": tables.A("event__slug")}),
    )
    date = tables.Column(accessor="event__date", verbose_name=gettext_lazy("First day"))
    days = FigureColumn(verbose_name=gettext_lazy("Days"))
    water = tables.Column(accessor="event__water__name", verbose_name=gettext_lazy("Lake"))
    teams = FigureColumn(verbose_name=gettext_lazy("Teams"))
    state = tables.Column(accessor="said", verbose_name=gettext_lazy("State"))

    caption = gettext_lazy("Events")
    named_by = "name"

    class Meta:
        order_by_field = "sort"

    def render_date(self, record: Listed) -> str:
        return figures.short_day(record.event.date)

    def render_state(self, value: str, record: Listed) -> SafeString:
        return format_html('<span class="state is-{}">{}</span>', record.state.look, value)

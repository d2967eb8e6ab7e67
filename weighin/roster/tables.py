"""The teams of an event as a ruled table."""

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.roster.models import Entry
from weighin.rules.words.scores import status_in_words
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable


class TeamsTable(RuledTable):
    """One row a team. Members who manage teams get the way to change it."""

    boat = FigureColumn(verbose_name=gettext_lazy("Boat"))
    name = NameColumn(verbose_name=gettext_lazy("Team"))
    flight = tables.Column(
        accessor="flight_name", verbose_name=gettext_lazy("Flight"), order_by=("flight_name", "boat")
    )
    paid = tables.Column(verbose_name=gettext_lazy("Entry fee"), order_by=("paid", "boat"))
    pot = tables.Column(
        accessor="big_fish_pot", verbose_name=gettext_lazy("Big fish pot"), order_by=("-big_fish_pot", "boat")
    )
    status = tables.Column(verbose_name=gettext_lazy("Status"), order_by=("status", "boat"))
    change = tables.Column(
        empty_values=(),
        verbose_name="",
        orderable=False,
        linkify=lambda record: address_of(record),
        attrs={"td": {"class": "do"}},
    )

    caption = gettext_lazy("Teams of the event")
    named_by = "name"
    look = "packs early"

    class Meta:
        order_by_field = "sort"

    def render_name(self, record: Entry) -> SafeString:
        anglers = ", ".join(angler.name for angler in record.anglers.all())
        youth = " · " + gettext("youth team") if record.youth else ""
        return format_html('{} <span class="small quiet">{}{}</span>', record.name, anglers, youth)

    def render_paid(self, value: bool) -> str:
        return gettext("paid") if value else gettext("not paid")

    def render_pot(self, value: bool) -> str:
        return gettext("in") if value else ""

    def render_status(self, record: Entry) -> str:
        """Words for what is not as usual; an entered team's cell stays blank."""
        return "" if record.status == Entry.Status.ENTERED else status_in_words(record.status)

    def render_change(self, record: Entry) -> SafeString:
        return format_html(
            '{}<span class="for-ears"> {}</span>',
            gettext("Edit"),
            record.name
            if record.waits
            else gettext("boat %(boat)s, %(name)s") % {"boat": record.boat, "name": record.name},
        )


def address_of(entry: Entry) -> str:
    """Where a team is changed."""
    if entry.waits:
        return reverse("roster:waiting_team", args=[entry.event.slug, entry.pk])
    return reverse("roster:team", args=[entry.event.slug, entry.boat])

"""Releases, places, walks and kept fish in rows."""

from collections.abc import Iterable
from typing import Any

import django_tables2 as tables
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.clock import clock
from weighin.events.domain.measured import degrees
from weighin.events.tables.rows import RowsTable, with_note
from weighin.tanks.models import FloaterWalk, KeptFish, Release
from weighin.tanks.queries.releases import Site
from weighin.tanks.tables.words import span, too_far_apart
from weighin.ui import figures
from weighin.ui.figures import SPACE
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable


class ReleasesTable(RowsTable):
    """Every batch and boat trip."""

    place = NameColumn(verbose_name=gettext_lazy("Place"))
    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    time = tables.Column(verbose_name=gettext_lazy("At"))
    by = tables.Column(accessor="get_by_display", verbose_name=gettext_lazy("How"))
    fish = FigureColumn(verbose_name=gettext_lazy("Fish"))
    dead = FigureColumn(verbose_name=gettext_lazy("Dead"))
    depth_ft = FigureColumn(verbose_name=gettext_lazy("Depth, ft"))
    distance_mi = FigureColumn(verbose_name=gettext_lazy("Ramp, miles"))
    water_temp = FigureColumn(verbose_name=gettext_lazy("Lake"))
    tank_temp = FigureColumn(verbose_name=gettext_lazy("Fish’s water"))

    caption = gettext_lazy("Releases by batch and boat trip")
    named_by = "place"
    address = "tanks:release"

    class Meta(RowsTable.Meta):
        prefix = "release-"
        sequence = ("...", "do_it")
        empty_text = gettext_lazy("No release yet. Add a batch or boat trip, and it appears here.")

    def render_time(self, record: Release) -> str:
        return clock(record.time, self.care_context.calendar, record.day)

    def render_water_temp(self, value: str) -> str:
        return degrees(value)

    def render_tank_temp(self, value: str) -> str:
        return degrees(value)

    def render_place(self, record: Release) -> SafeString:
        apart = too_far_apart(record, self.care_context)
        more = "; ".join(
            filter(None, (gettext("fish’s water %(apart)s") % {"apart": apart} if apart else "", record.note))
        )
        return with_note(record.place, more)


class WalksTable(RowsTable):
    """Walks for floaters."""

    shore = NameColumn(verbose_name=gettext_lazy("Shore"))
    hours = FigureColumn(accessor="get_hours_display", verbose_name=gettext_lazy("After"))
    walked = tables.Column(verbose_name=gettext_lazy("Walked"))
    length_mi = FigureColumn(verbose_name=gettext_lazy("Miles"))
    dead = FigureColumn(verbose_name=gettext_lazy("Dead fish found"))

    caption = gettext_lazy("Counts of floating fish")
    named_by = "shore"
    address = "tanks:walk"

    class Meta(RowsTable.Meta):
        prefix = "walk-"
        sequence = ("...", "do_it")
        empty_text = gettext_lazy(
            "No count of floating fish yet. Due 24, 48 and 72 hours after release; none found counts too."
        )

    def render_shore(self, record: FloaterWalk) -> SafeString:
        return with_note(record.shore, record.note)

    def render_walked(self, record: FloaterWalk) -> str:
        local = record.walked.astimezone(self.care_context.calendar.zone)
        return figures.moment(local)


class KeptTable(RowsTable):
    """Fish that did not go back."""

    went = NameColumn(verbose_name=gettext_lazy("What became of them"))
    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    fish = FigureColumn(verbose_name=gettext_lazy("Fish"))
    alive = tables.Column(verbose_name=gettext_lazy("At the table"))
    boat = FigureColumn(verbose_name=gettext_lazy("Boat"))
    receiver = tables.Column(verbose_name=gettext_lazy("Who took them"))
    came_back = FigureColumn(verbose_name=gettext_lazy("Came back"))

    caption = gettext_lazy("Fish that did not go back")
    named_by = "went"
    address = "tanks:kept_fish"

    class Meta(RowsTable.Meta):
        prefix = "kept-"
        sequence = ("...", "do_it")
        empty_text = gettext_lazy("Not recorded: fish kept, given away or disposed of.")

    def render_went(self, record: KeptFish) -> SafeString:
        return with_note(record.get_went_display(), record.note)

    def render_alive(self, value: bool) -> str:
        return "alive" if value else "dead"

    def render_came_back(self, record: KeptFish) -> str:
        return str(record.came_back) if record.went == KeptFish.Went.LENT else ""


class SitesTable(RuledTable):
    """Places of release."""

    place = NameColumn(verbose_name=gettext_lazy("Place"))
    water = tables.Column(verbose_name=gettext_lazy("Water"))
    events = FigureColumn(verbose_name=gettext_lazy("Events"), accessor="events", order_by="place")
    trips = FigureColumn(verbose_name=gettext_lazy("Boat trips"))
    batches = FigureColumn(verbose_name=gettext_lazy("Batches"))
    fish = FigureColumn(verbose_name=gettext_lazy("Fish"))
    share = FigureColumn(empty_values=(), verbose_name=gettext_lazy("Of all"), order_by="fish")
    dead = FigureColumn(verbose_name=gettext_lazy("Dead when let go"))
    depth = FigureColumn(verbose_name=gettext_lazy("Depth"), empty_values=(), orderable=False)
    distance = FigureColumn(empty_values=(), verbose_name=gettext_lazy("From the ramp"), orderable=False)

    caption = gettext_lazy("Places of release")
    named_by = "place"
    look = "dense packs"

    class Meta:
        order_by_field = "sort"
        empty_text = gettext_lazy("No place yet. The first release appears here.")

    def __init__(self, sites: Iterable[Site], *, of_event: bool, **kwargs: Any):
        rows = list(sites)
        super().__init__(rows, exclude=("water", "events") if of_event else (), **kwargs)
        self.total = sum(site.fish for site in rows)

    def render_events(self, value: set[int]) -> str:
        return str(len(value))

    def render_share(self, record: Site) -> str:
        return f"{100 * record.fish / self.total:.0f}{SPACE}%" if self.total else ""

    def render_depth(self, record: Site) -> str:
        return span(record.depths, "ft")

    def render_distance(self, record: Site) -> str:
        return span(record.distances, "mi")

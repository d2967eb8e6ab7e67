"""Releases, places, walks and kept fish in rows."""

from collections.abc import Iterable
from typing import Any

import django_tables2 as tables
from django.utils.safestring import SafeString

from weighin.events.domain.clock import clock
from weighin.events.domain.measured import degrees
from weighin.events.tables.rows import RowsTable, with_note
from weighin.tanks.models import FloaterWalk, KeptFish, Release
from weighin.tanks.queries.releases import Site
from weighin.tanks.tables.words import span, too_far_apart
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable
from weighin.ui.templatetags.ui import SPACE


class ReleasesTable(RowsTable):
    """Every batch and boat trip."""

    place = NameColumn()
    day = FigureColumn()
    time = tables.Column(verbose_name="At")
    by = tables.Column(accessor="get_by_display", verbose_name="How")
    fish = FigureColumn()
    dead = FigureColumn(verbose_name="Dead")
    depth_ft = FigureColumn(verbose_name="Depth, ft")
    distance_mi = FigureColumn(verbose_name="Ramp, miles")
    water_temp = FigureColumn(verbose_name="Lake")
    tank_temp = FigureColumn(verbose_name="Fish’s water")

    caption = "Releases by batch and boat trip"
    named_by = "place"
    address = "tanks:release"

    class Meta(RowsTable.Meta):
        prefix = "release-"
        sequence = ("...", "do_it")
        empty_text = "No release is written down. A batch or boat trip stands here as soon as one is kept."

    def render_time(self, record: Release) -> str:
        return clock(record.time, self.care_context.calendar, record.day)

    def render_water_temp(self, value: str) -> str:
        return degrees(value)

    def render_tank_temp(self, value: str) -> str:
        return degrees(value)

    def render_place(self, record: Release) -> SafeString:
        apart = too_far_apart(record, self.care_context)
        more = "; ".join(filter(None, (f"fish’s water {apart}" if apart else "", record.note)))
        return with_note(record.place, more)


class WalksTable(RowsTable):
    """Walks for floaters."""

    shore = NameColumn()
    hours = FigureColumn(accessor="get_hours_display", verbose_name="After")
    walked = tables.Column()
    length_mi = FigureColumn(verbose_name="Miles")
    dead = FigureColumn(verbose_name="Dead fish found")

    caption = "Walks for floaters"
    named_by = "shore"
    address = "tanks:walk"

    class Meta(RowsTable.Meta):
        prefix = "walk-"
        sequence = ("...", "do_it")
        empty_text = "No walk is written down. They are due 24, 48 and 72 hours after the release; one that finds nothing counts too."

    def render_shore(self, record: FloaterWalk) -> SafeString:
        return with_note(record.shore, record.note)

    def render_walked(self, record: FloaterWalk) -> str:
        local = record.walked.astimezone(self.care_context.calendar.zone)
        return f"{local.day} {local:%B}, {local:%H:%M}"


class KeptTable(RowsTable):
    """Fish that did not go back."""

    went = NameColumn(verbose_name="What became of them")
    day = FigureColumn()
    fish = FigureColumn()
    alive = tables.Column(verbose_name="At the table")
    boat = FigureColumn()
    receiver = tables.Column(verbose_name="Who took them")
    came_back = FigureColumn(verbose_name="Came back")

    caption = "Fish that did not go back"
    named_by = "went"
    address = "tanks:kept_fish"

    class Meta(RowsTable.Meta):
        prefix = "kept-"
        sequence = ("...", "do_it")
        empty_text = "Nothing is written of fish that were kept, given away or disposed of."

    def render_went(self, record: KeptFish) -> SafeString:
        return with_note(record.get_went_display(), record.note)

    def render_alive(self, value: bool) -> str:
        return "alive" if value else "dead"

    def render_came_back(self, record: KeptFish) -> str:
        return str(record.came_back) if record.went == KeptFish.Went.LENT else ""


class SitesTable(RuledTable):
    """Places of release."""

    place = NameColumn()
    water = tables.Column()
    events = FigureColumn(accessor="events", order_by="place")
    trips = FigureColumn(verbose_name="Boat trips")
    batches = FigureColumn(verbose_name="Batches")
    fish = FigureColumn()
    share = FigureColumn(empty_values=(), verbose_name="Of all", order_by="fish")
    dead = FigureColumn(verbose_name="Dead when let go")
    depth = FigureColumn(empty_values=(), orderable=False)
    distance = FigureColumn(empty_values=(), verbose_name="From the ramp", orderable=False)

    caption = "Places of release"
    named_by = "place"
    look = "dense packs"

    class Meta:
        order_by_field = "sort"
        empty_text = "No place yet. The first release that is written down stands here."

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

"""Pens, their checks and finished rows in rows."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.events.domain.care_context import CareContext
from weighin.events.domain.measured import degrees
from weighin.holding.models import HoldingPen, PenCheck
from weighin.holding.queries import PenSoFar
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable


def moment_said(moment: datetime, care_context: CareContext) -> str:
    """A moment as day and time: Sunday 21 June, 07:30."""
    local = moment.astimezone(care_context.calendar.zone)
    return f"{local:%A} {local.day} {local:%B}, {local:%H:%M}"


class PensTable(RuledTable):
    """The pens of a holding study."""

    group = NameColumn()
    kind = tables.Column(accessor="get_kind_display")
    pen = tables.Column()
    species = tables.Column()
    started = tables.Column()
    hours = FigureColumn()
    held = FigureColumn()
    dead = FigureColumn()
    missing = FigureColumn()
    water_temp = FigureColumn(verbose_name="Water")
    source = tables.Column(verbose_name="Where from", attrs={"td": {"class": "small"}})

    caption = "Pens of the holding study"
    named_by = "group"
    look = "dense packs early"

    class Meta:
        orderable = False

    def __init__(self, pens: Iterable[HoldingPen], **kwargs: Any):
        super().__init__(list(pens), **kwargs)

    def render_water_temp(self, value: str) -> str:
        return degrees(value)


class UnderWayTable(RuledTable):
    """Pens under way, with what was found so far and when the next look is due."""

    pen = NameColumn(accessor="row__pen")
    kind = tables.Column(accessor="row__get_kind_display", verbose_name="Which fish")
    held = FigureColumn()
    dead = FigureColumn()
    missing = FigureColumn(verbose_name="Missing or escaped")
    left = FigureColumn(verbose_name="Still in it")
    hours = FigureColumn(verbose_name="Hours so far")
    due = tables.Column(empty_values=(), verbose_name="Next look", attrs={"td": {"class": "small whole"}})
    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})

    caption = "Pens under way"
    named_by = "pen"
    look = "dense packs"

    class Meta:
        orderable = False
        empty_text = "No pen is under way. A pen stands here from the moment fish are put in."

    def __init__(self, pens: Iterable[PenSoFar], care_context: CareContext, **kwargs: Any):
        super().__init__(list(pens), **kwargs)
        self.care_context = care_context

    def render_pen(self, record: PenSoFar) -> SafeString:
        url = reverse("holding:pen", args=[self.care_context.event.slug, record.row.pk])
        return format_html('<a class="nowrap" href="{}">Pen {}</a>', url, record.row.pen)

    def render_due(self, record: PenSoFar) -> str:
        if record.may_end:
            return "watched as long as planned: end it"
        when = moment_said(record.next_check, self.care_context)
        return f"late, was due {when}" if record.is_late(self.care_context.now) else when

    def render_do_it(self, record: PenSoFar) -> SafeString:
        url = reverse("holding:checks_new", args=[self.care_context.event.slug, record.row.pk])
        return format_html('<a href="{}">look<span class="for-ears"> into pen {}</span></a>', url, record.row.pen)


class RecordsTable(PensTable):
    """Finished pens."""

    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})

    caption = "Finished pens"

    class Meta:
        orderable = False
        sequence = ("...", "do_it")
        empty_text = "No pen is ended yet."

    def __init__(self, records: Iterable[HoldingPen], care_context: CareContext, may_write: bool, **kwargs: Any):
        super().__init__(records, exclude=() if may_write else ("do_it",), **kwargs)
        self.care_context = care_context

    def render_do_it(self, record: HoldingPen) -> SafeString:
        url = reverse("holding:holding_record", args=[self.care_context.event.slug, record.pk])
        return format_html('<a href="{}">change<span class="for-ears"> {}</span></a>', url, record)


class ChecksTable(RuledTable):
    """The looks into one pen."""

    at = NameColumn(verbose_name="Looked at")
    dead = FigureColumn()
    missing = FigureColumn()
    escaped = FigureColumn()
    water_temp = FigureColumn(verbose_name="Water")
    do = FigureColumn(verbose_name="Oxygen, mg/L")
    note = tables.Column(attrs={"td": {"class": "small whole"}})
    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})

    caption = "Looks into the pen"
    named_by = "at"
    look = "dense packs"

    class Meta:
        orderable = False
        empty_text = (
            "Nobody has looked into this pen yet. The first look is due twelve hours after the fish were put in."
        )

    def __init__(self, checks: Iterable[PenCheck], care_context: CareContext, may_write: bool, **kwargs: Any):
        super().__init__(list(checks), exclude=() if may_write else ("do_it",), **kwargs)
        self.care_context = care_context

    def render_at(self, record: PenCheck) -> str:
        return moment_said(record.at, self.care_context)

    def render_water_temp(self, value: str) -> str:
        return degrees(value)

    def render_do_it(self, record: PenCheck) -> SafeString:
        url = reverse("holding:check", args=[self.care_context.event.slug, record.pk])
        return format_html(
            '<a href="{}">change<span class="for-ears"> the look of {}</span></a>',
            url,
            moment_said(record.at, self.care_context),
        )

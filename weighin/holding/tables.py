"""Pens, their checks and finished rows in rows."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.care_context import CareContext
from weighin.events.domain.measured import degrees
from weighin.holding.models import HoldingPen, PenCheck
from weighin.holding.queries import PenSoFar
from weighin.ui import figures
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, row_link


def moment_said(moment: datetime, care_context: CareContext) -> str:
    """A moment as day and time: Jun 21, 7:30 AM."""
    return figures.moment(moment, care_context.calendar.zone)


class PensTable(RuledTable):
    """The pens of a holding study."""

    group = NameColumn(verbose_name=gettext_lazy("Group"))
    kind = tables.Column(verbose_name=gettext_lazy("Kind"), accessor="get_kind_display")
    pen = tables.Column(verbose_name=gettext_lazy("Pen"))
    species = tables.Column(verbose_name=gettext_lazy("Species"))
    started = tables.Column(verbose_name=gettext_lazy("Started"))
    hours = FigureColumn(verbose_name=gettext_lazy("Hours"))
    held = FigureColumn(verbose_name=gettext_lazy("Held"))
    dead = FigureColumn(verbose_name=gettext_lazy("Dead"))
    missing = FigureColumn(verbose_name=gettext_lazy("Missing"))
    water_temp = FigureColumn(verbose_name=gettext_lazy("Water"))
    source = tables.Column(verbose_name=gettext_lazy("Where from"), attrs={"td": {"class": "small"}})

    caption = gettext_lazy("Pens of the holding study")
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

    pen = NameColumn(verbose_name=gettext_lazy("Pen"), accessor="row__pen")
    kind = tables.Column(accessor="row__get_kind_display", verbose_name=gettext_lazy("Which fish"))
    held = FigureColumn(verbose_name=gettext_lazy("Held"))
    dead = FigureColumn(verbose_name=gettext_lazy("Dead"))
    missing = FigureColumn(verbose_name=gettext_lazy("Missing or escaped"))
    left = FigureColumn(verbose_name=gettext_lazy("Still in it"))
    hours = FigureColumn(verbose_name=gettext_lazy("Hours so far"))
    due = tables.Column(
        empty_values=(), verbose_name=gettext_lazy("Next check"), attrs={"td": {"class": "small whole"}}
    )
    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})

    caption = gettext_lazy("Pens under way")
    named_by = "pen"
    look = "dense packs"

    class Meta:
        orderable = False
        empty_text = gettext_lazy("No pen is under way. A pen appears once fish are in it.")

    def __init__(self, pens: Iterable[PenSoFar], care_context: CareContext, **kwargs: Any):
        super().__init__(list(pens), **kwargs)
        self.care_context = care_context

    def render_pen(self, record: PenSoFar) -> SafeString:
        url = reverse("holding:pen", args=[self.care_context.event.slug, record.row.pk])
        return format_html('<a class="nowrap" href="{}">{}</a>', url, gettext("Pen %(pen)s") % {"pen": record.row.pen})

    def render_due(self, record: PenSoFar) -> str:
        if record.may_end:
            return gettext("watched as long as planned: end it")
        when = moment_said(record.next_check, self.care_context)
        return gettext("late, was due %(when)s") % {"when": when} if record.is_late(self.care_context.now) else when

    def render_do_it(self, record: PenSoFar) -> SafeString:
        url = reverse("holding:checks_new", args=[self.care_context.event.slug, record.row.pk])
        return row_link(url, gettext("look"), gettext("of pen %(pen)s") % {"pen": record.row.pen})


class RecordsTable(PensTable):
    """Finished pens."""

    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})

    caption = gettext_lazy("Finished pens")

    class Meta:
        orderable = False
        sequence = ("...", "do_it")
        empty_text = gettext_lazy("No pen is ended yet.")

    def __init__(self, records: Iterable[HoldingPen], care_context: CareContext, may_write: bool, **kwargs: Any):
        super().__init__(records, exclude=() if may_write else ("do_it",), **kwargs)
        self.care_context = care_context

    def render_do_it(self, record: HoldingPen) -> SafeString:
        url = reverse("holding:holding_record", args=[self.care_context.event.slug, record.pk])
        return row_link(url, gettext("edit"), str(record))


class ChecksTable(RuledTable):
    """The looks into one pen."""

    at = NameColumn(verbose_name=gettext_lazy("Checked at"))
    dead = FigureColumn(verbose_name=gettext_lazy("Dead"))
    missing = FigureColumn(verbose_name=gettext_lazy("Missing"))
    escaped = FigureColumn(verbose_name=gettext_lazy("Escaped"))
    water_temp = FigureColumn(verbose_name=gettext_lazy("Water"))
    do = FigureColumn(verbose_name=gettext_lazy("Oxygen, mg/L"))
    note = tables.Column(verbose_name=gettext_lazy("Note"), attrs={"td": {"class": "small whole"}})
    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})

    caption = gettext_lazy("Checks of the pen")
    named_by = "at"
    look = "dense packs"

    class Meta:
        orderable = False
        empty_text = gettext_lazy("No check yet. The first is due twelve hours after the fish went in.")

    def __init__(self, checks: Iterable[PenCheck], care_context: CareContext, may_write: bool, **kwargs: Any):
        super().__init__(list(checks), exclude=() if may_write else ("do_it",), **kwargs)
        self.care_context = care_context

    def render_at(self, record: PenCheck) -> str:
        return moment_said(record.at, self.care_context)

    def render_water_temp(self, value: str) -> str:
        return degrees(value)

    def render_do_it(self, record: PenCheck) -> SafeString:
        url = reverse("holding:check", args=[self.care_context.event.slug, record.pk])
        of = gettext("the check of %(moment)s") % {"moment": moment_said(record.at, self.care_context)}
        return row_link(url, gettext("edit"), of)

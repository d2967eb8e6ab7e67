"""Readings and treatments in rows."""

from collections.abc import Iterable
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.care_context import CareContext
from weighin.events.domain.clock import clock
from weighin.events.domain.measured import degrees
from weighin.events.tables.rows import RowsTable, with_note
from weighin.tanks.domain.measured import measured
from weighin.tanks.models import TankReading, Treatment
from weighin.ui.figures import SPACE
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, row_link


class TanksTable(RuledTable):
    """Readings of the holding tanks, as measured."""

    tank = NameColumn(verbose_name=gettext_lazy("Tank"))
    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    time = tables.Column(verbose_name=gettext_lazy("At"))
    temp = FigureColumn(verbose_name=gettext_lazy("Water"))
    do = FigureColumn(verbose_name=gettext_lazy("Oxygen, mg/L"))
    ph = FigureColumn(verbose_name="pH")
    total_ammonia = FigureColumn(verbose_name=gettext_lazy("Total ammonia, mg/L"))
    salt_percent = FigureColumn(verbose_name=gettext_lazy("Salt, %"))
    fish_lb = FigureColumn(verbose_name=gettext_lazy("Fish, lb"))
    volume_gal = FigureColumn(verbose_name=gettext_lazy("Tank, gal"))
    note = tables.Column(verbose_name=gettext_lazy("Note"), attrs={"td": {"class": "small"}})

    caption = gettext_lazy("Readings of the holding tanks")
    named_by = "tank"
    look = "dense packs early"

    class Meta:
        orderable = False

    def __init__(self, readings: Iterable[TankReading], calendar: Calendar, **kwargs: Any):
        super().__init__(list(readings), exclude=("day",) if len(calendar.days) == 1 else (), **kwargs)
        self.calendar = calendar

    def render_time(self, record: TankReading) -> str:
        return clock(record.time, self.calendar, record.day)

    def render_temp(self, value: str) -> str:
        return degrees(value)


class ReadingsTable(TanksTable):
    """Every reading, the newest first, with how full of oxygen the water was."""

    do = FigureColumn(verbose_name=gettext_lazy("Oxygen, mg/L"))
    saturation = FigureColumn(empty_values=(), verbose_name=gettext_lazy("of full"))
    total_ammonia = FigureColumn(verbose_name=gettext_lazy("Ammonia, mg/L"))
    unionised = FigureColumn(empty_values=(), verbose_name=gettext_lazy("un-ionised"))
    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})

    class Meta:
        orderable = False
        exclude = ("note", "volume_gal")
        sequence = (
            "tank",
            "day",
            "time",
            "temp",
            "do",
            "saturation",
            "ph",
            "total_ammonia",
            "unionised",
            "...",
            "do_it",
        )
        empty_text = gettext_lazy("No tank is read yet. Add a reading, and it appears here.")

    def __init__(self, readings: Iterable[TankReading], care_context: CareContext, may_write: bool, **kwargs: Any):
        super().__init__(readings, care_context.calendar, **kwargs)
        self.care_context = care_context
        if not may_write:
            self.columns.hide("do_it")

    def render_tank(self, record: TankReading) -> SafeString:
        return with_note(record.tank, record.note)

    def render_saturation(self, record: TankReading) -> str:
        found = measured(record, self.care_context).saturation
        return "" if found is None else f"{100 * found:.0f}{SPACE}%"

    def render_unionised(self, record: TankReading) -> str:
        found = measured(record, self.care_context).unionised
        return "" if found is None else f"{found:.3f}"

    def render_do_it(self, record: TankReading) -> SafeString:
        url = reverse("tanks:tank_reading", args=[self.care_context.event.slug, record.pk])
        at = clock(record.time, self.calendar, record.day)
        return row_link(
            url, gettext("edit"), gettext("the reading of %(tank)s at %(time)s") % {"tank": record.tank, "time": at}
        )


class TreatmentsTable(RowsTable):
    """What was put into the tanks, the newest first."""

    tank = NameColumn(verbose_name=gettext_lazy("Tank"))
    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    started = tables.Column(verbose_name=gettext_lazy("From"))
    ended = tables.Column(verbose_name=gettext_lazy("Until"))
    what = tables.Column(accessor="named", verbose_name=gettext_lazy("What"))
    dose = tables.Column(verbose_name=gettext_lazy("How much"))
    label_seen = tables.Column(verbose_name=gettext_lazy("Label"), empty_values=())

    caption = gettext_lazy("Treatments of the tanks")
    named_by = "tank"
    address = "tanks:treatment"

    class Meta(RowsTable.Meta):
        prefix = "put-in-"
        sequence = ("...", "do_it")
        empty_text = gettext_lazy("No treatment yet: salt, ice, oxygen, products and changes of water appear here.")

    def render_tank(self, record: Treatment) -> SafeString:
        return with_note(record.tank, record.note)

    def render_started(self, record: Treatment) -> str:
        return clock(record.started, self.care_context.calendar, record.day)

    def render_ended(self, record: Treatment) -> str:
        return clock(record.ended, self.care_context.calendar, record.day) if record.ended else ""

    def render_label_seen(self, record: Treatment) -> str:
        if not record.is_product:
            return ""
        return {True: "seen", False: gettext("not seen"), None: gettext("not said")}[record.label_seen]


def newest_first(readings: Iterable[TankReading], calendar: Calendar) -> list[TankReading]:
    """Readings by day and time, the newest first."""
    return sorted(readings, key=lambda r: (r.day, r.time, r.pk), reverse=True)

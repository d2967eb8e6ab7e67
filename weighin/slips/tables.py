"""The list of slips: one row a slip, newest first, replaced ones and voids among them."""

from collections.abc import Container, Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain.clock import clock
from weighin.events.domain.table import Table
from weighin.slips.domain.explaining import scored
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import doubled, replaced_by, state_in_words
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, TotalColumn
from weighin.ui.templatetags.ui import taken_off, weight

STATES = {
    "": gettext_lazy("all slips"),
    "current": gettext_lazy("those that count"),
    "waiting": gettext_lazy("those that wait"),
    "replaced": gettext_lazy("replaced or voided"),
}
LOWEST = Decimal(-1_000_000)


@dataclass(frozen=True)
class SlipRow:
    """A slip in the words and figures of the list."""

    number: int
    day: int
    boat: int
    team: str
    fish: int
    fish_note: str
    net: Decimal | None
    penalty: Decimal | None
    total: Decimal | None
    time: datetime
    weighed: str
    official: str
    kind: str
    state: str
    note: str
    void: bool

    # What is not known sorts below everything that is
    @property
    def net_sort(self) -> Decimal:
        return LOWEST if self.net is None else self.net

    @property
    def penalty_sort(self) -> Decimal:
        return LOWEST if self.penalty is None else self.penalty

    @property
    def total_sort(self) -> Decimal:
        return LOWEST if self.total is None else self.total


class SlipsTable(RuledTable):
    """Slips with what was weighed, what was taken off and what each is worth now."""

    number = tables.Column(verbose_name=gettext_lazy("Slip"))
    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    boat = FigureColumn(verbose_name=gettext_lazy("Boat"))
    team = NameColumn(verbose_name=gettext_lazy("Team"))
    fish = tables.Column(verbose_name=gettext_lazy("Fish"))
    net = FigureColumn(verbose_name=gettext_lazy("Net weight"), order_by="net_sort")
    penalty = FigureColumn(verbose_name=gettext_lazy("Penalty"), order_by="penalty_sort")
    total = TotalColumn(order_by="total_sort")
    time = tables.Column(verbose_name=gettext_lazy("Time"))
    state = tables.Column(verbose_name=gettext_lazy("State"))

    caption = gettext_lazy("Weigh slips")
    named_by = "team"
    look = "packs early"

    class Meta:
        order_by_field = "sort"
        order_by = "-number"
        row_attrs = {"class": lambda record: {"waiting": "current", "replaced": "quiet"}.get(record.kind, "")}
        empty_text = gettext_lazy("No slip is saved yet. The first one saved at the scales shows here.")

    def __init__(self, rows: Iterable[SlipRow], *, slug: str, unit: str, days: int, **kwargs: Any):
        super().__init__(list(rows), exclude=("day",) if days == 1 else (), **kwargs)
        self.slug, self.unit = slug, unit
        self.columns["total"].column.verbose_name = gettext("Total, %(unit)s") % {"unit": unit}

    def render_number(self, value: int) -> SafeString:
        return format_html('<a class="strong" href="{}">{}</a>', reverse("slips:slip", args=[self.slug, value]), value)

    def render_fish(self, record: SlipRow) -> SafeString | str:
        if record.void:
            return ""
        if not record.fish_note:
            return str(record.fish)
        return format_html('{}, <span class="quiet">{}</span>', record.fish, record.fish_note)

    def render_net(self, value: Decimal) -> str:
        return weight(value, self.unit)

    def render_penalty(self, value: Decimal) -> str:
        return taken_off(value, self.unit)

    def render_total(self, value: Decimal) -> str:
        return weight(value, self.unit)

    def render_time(self, record: SlipRow) -> str:
        return record.weighed

    def render_state(self, record: SlipRow) -> SafeString | str:
        return format_html("<b>{}</b>", record.state) if record.kind == "waiting" else record.state


def slip_rows(slips: Iterable[WeighSlip], table: Table, doubted: Container[UUID] = ()) -> list[SlipRow]:
    """A row for every slip, newest first; ``doubted`` are those that were weighed on a scale that failed its test."""
    found = list(slips)
    waiting = doubled(slip for slip in found if not slip.void and replaced_by(slip) is None)
    rows = [_row(slip, table, (slip.entry.boat, slip.day) in waiting) for slip in reversed(found)]
    return [
        replace(row, state=gettext("%(state)s, scale in doubt") % {"state": row.state}) if slip.pk in doubted else row
        for slip, row in zip(reversed(found), rows, strict=True)
    ]


def chosen(rows: Iterable[SlipRow], search: str, day: str, boat: str, kind: str) -> list[SlipRow]:
    """The rows that a search, a day, a boat and a state leave."""
    wanted = search.strip().casefold()
    return [
        row
        for row in rows
        if (not day or str(row.day) == day)
        and (not boat.strip() or str(row.boat) == boat.strip())
        and (not kind or row.kind == kind)
        and (not wanted or wanted == str(row.number) or wanted in f"{row.team} {row.official} {row.note}".casefold())
    ]


def _row(slip: WeighSlip, table: Table, waiting: bool) -> SlipRow:
    is_current = not slip.void and replaced_by(slip) is None
    made = scored(slip, table)
    moment = slip.weighed or slip.received_at
    row = SlipRow(
        number=slip.number,
        day=slip.day,
        boat=slip.entry.boat,
        team=slip.entry.name,
        fish=slip.fish,
        fish_note=_fish_note(slip),
        net=made.score.net if made else None,
        penalty=made.taken_off if made else None,
        total=made.score.total if made else None,
        time=moment,
        weighed=clock(moment, table.calendar, slip.day) if slip.weighed else "",
        official=slip.official,
        kind="waiting" if waiting and is_current else "current" if is_current else "replaced",
        state=state_in_words(slip, waiting)
        + (gettext(", day lost") if is_current and made and made.score.lost else ""),
        note=" ".join((slip.note, slip.reason, slip.disqualified_reason)),
        void=slip.void,
    )
    return row if is_current else replace(row, penalty=None, total=None)


def _fish_note(slip: WeighSlip) -> str:
    if slip.void or not slip.fish:
        return ""
    notes = [gettext("%(dead)s dead") % {"dead": slip.dead} if slip.dead else gettext("all alive")]
    return ", ".join([*notes, gettext("%(short)s short") % {"short": slip.short}] if slip.short else notes)

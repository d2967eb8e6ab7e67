"""Fish care in rows, a boat and day each."""

from collections import Counter
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.care.queries.care import CareRow
from weighin.care.tables.marks import ATTRS, PassedColumn, mark_column
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, ordered_by, row_link

LOWEST = Decimal(-1)
WHICH = {
    "": gettext_lazy("all boats"),
    "failed": gettext_lazy("those with a failed check"),
    "missing": gettext_lazy("those without a note"),
}


class CareTable(RuledTable):
    """One row a boat and day."""

    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    boat = FigureColumn(verbose_name=gettext_lazy("Boat"))
    team = NameColumn(verbose_name=gettext_lazy("Team"), accessor="entry__name")
    alive = FigureColumn(verbose_name=gettext_lazy("Alive"), accessor="slip__alive")
    dead = FigureColumn(verbose_name=gettext_lazy("Dead"), accessor="slip__dead")
    pump = mark_column("pump", orderable=False)
    thermometer = mark_column("thermometer", orderable=False)
    ice = mark_column("ice", orderable=False)
    on_board = mark_column("on_board", orderable=False)
    held = mark_column("held", accessor="care__minutes_held")
    bag = mark_column("bag", accessor="care__minutes_in_bag")
    cooling = mark_column("cooling", orderable=False)
    oxygen = mark_column("oxygen", orderable=False)
    passed = PassedColumn(verbose_name=gettext_lazy("Passed"), accessor="care__passed", empty_values=())
    has_note = tables.Column(
        verbose_name=gettext_lazy("Note"), accessor="note", empty_values=(), attrs={"td": {"class": "do"}}
    )

    caption = gettext_lazy("Fish care by boat and day")
    named_by = "team"

    class Meta:
        order_by_field = "sort"
        empty_text = gettext_lazy("Not recorded yet. A boat appears with its first care note or slip.")

    def __init__(
        self,
        rows: Iterable[CareRow],
        *,
        slug: str,
        days: int,
        may_write: bool,
        **kwargs: Any,
    ):
        super().__init__(list(rows), exclude=("day",) if days == 1 else (), attrs=ATTRS, **kwargs)
        self.slug, self.may_write = slug, may_write

    order_alive = ordered_by(lambda row: row.slip.alive if row.slip else -1)
    order_dead = ordered_by(lambda row: row.slip.dead if row.slip else -1)
    order_held = ordered_by(lambda row: LOWEST if row.care.minutes_held is None else row.care.minutes_held)
    order_bag = ordered_by(lambda row: LOWEST if row.care.minutes_in_bag is None else row.care.minutes_in_bag)
    order_passed = ordered_by(lambda row: (len(row.care.passed) - len(row.care.failed), len(row.care.passed)))
    order_has_note = ordered_by(lambda row: row.note is not None)

    def render_has_note(self, record: CareRow) -> SafeString | str:
        if record.note is None and not self.may_write:
            return gettext("no note")
        url = reverse("care:note", args=[self.slug, record.day, record.entry.boat])
        words = gettext("add") if record.note is None else gettext("read")
        return row_link(url, words, gettext("the note of boat %(boat)s") % {"boat": record.entry.boat})


def chosen(rows: Iterable[CareRow], search: str, day: str, boat: str, which: str) -> list[CareRow]:
    """The rows that a search, a day, a boat and a state leave."""
    wanted = search.strip().casefold()
    return [
        row
        for row in rows
        if (not day or str(row.day) == day)
        and (not boat.strip() or str(row.entry.boat) == boat.strip())
        and (which != "failed" or row.care.failed)
        and (which != "missing" or row.note is None)
        and (not wanted or wanted in row.entry.name.casefold())
    ]


def failures(rows: Iterable[CareRow]) -> list[tuple[str, int]]:
    """How many boats did not keep each check, the most first."""
    return Counter(name for row in rows for name in row.care.failed).most_common()

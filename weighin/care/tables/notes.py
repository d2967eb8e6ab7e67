"""Fish care in rows, a boat and day each."""

from collections import Counter
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.care.queries.care import CareRow
from weighin.care.tables.words import failed_in_words, held_in_words, passed_in_words
from weighin.events.domain.measured import minutes
from weighin.events.domain.temperatures import Temperature
from weighin.rules.rulebook import Rulebook
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, ordered_by, row_link

LOWEST = Decimal(-1)
WHICH = {
    "": gettext_lazy("all boats"),
    "failed": gettext_lazy("those with a check not kept"),
    "missing": gettext_lazy("those without a note"),
}


class CareTable(RuledTable):
    """One row a boat and day."""

    day = FigureColumn(verbose_name=gettext_lazy("Day"))
    boat = FigureColumn(verbose_name=gettext_lazy("Boat"))
    team = NameColumn(verbose_name=gettext_lazy("Team"), accessor="entry__name")
    alive = FigureColumn(verbose_name=gettext_lazy("Alive"), accessor="slip__alive")
    dead = FigureColumn(verbose_name=gettext_lazy("Dead"), accessor="slip__dead")
    held = tables.Column(
        verbose_name=gettext_lazy("Held"),
        accessor="care__minutes_held",
        empty_values=(),
        attrs={"td": {"class": "held"}, "th": {"class": "held"}},
    )
    in_bag = FigureColumn(verbose_name=gettext_lazy("In the bag"), accessor="care__minutes_in_bag", empty_values=())
    passed = tables.Column(
        verbose_name=gettext_lazy("Checks kept"),
        accessor="care__passed",
        orderable=False,
        attrs={"td": {"class": "small quiet whole"}},
    )
    failed = tables.Column(
        verbose_name=gettext_lazy("Not kept"), accessor="care__failed", attrs={"td": {"class": "small whole"}}
    )
    has_note = tables.Column(
        verbose_name=gettext_lazy("Note"), accessor="note", empty_values=(), attrs={"td": {"class": "small"}}
    )

    caption = gettext_lazy("Fish care by boat and day")
    named_by = "team"
    look = "packs early"

    class Meta:
        order_by_field = "sort"
        empty_text = gettext_lazy(
            "Nothing is written yet. A boat stands here from its first care note or its first slip on."
        )

    def __init__(
        self,
        rows: Iterable[CareRow],
        rules: Rulebook,
        lakes: Mapping[int, Temperature | None],
        *,
        slug: str,
        days: int,
        may_write: bool,
        **kwargs: Any,
    ):
        super().__init__(list(rows), exclude=("day",) if days == 1 else (), **kwargs)
        self.rules, self.lakes, self.slug, self.may_write = rules, lakes, slug, may_write

    order_alive = ordered_by(lambda row: row.slip.alive if row.slip else -1)
    order_dead = ordered_by(lambda row: row.slip.dead if row.slip else -1)
    order_held = ordered_by(lambda row: LOWEST if row.care.minutes_held is None else row.care.minutes_held)
    order_in_bag = ordered_by(lambda row: LOWEST if row.care.minutes_in_bag is None else row.care.minutes_in_bag)
    order_has_note = ordered_by(lambda row: row.note is not None)

    def render_held(self, record: CareRow) -> str:
        return held_in_words(record)

    def render_in_bag(self, record: CareRow) -> str:
        return minutes(record.care.minutes_in_bag)

    def render_passed(self, value: tuple[str, ...]) -> str:
        return passed_in_words(value)

    def render_failed(self, record: CareRow) -> str:
        return "; ".join(failed_in_words(record, self.rules, self.lakes.get(record.day)))

    def render_has_note(self, record: CareRow) -> SafeString | str:
        if record.note is None and not self.may_write:
            return gettext("none yet")
        url = reverse("care:note", args=[self.slug, record.day, record.entry.boat])
        words = gettext("write") if record.note is None else gettext("read")
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

"""Fish care in rows, a boat and day each."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.care.queries.care import CareRow
from weighin.care.tables.words import failed_in_words, held_in_words, passed_in_words
from weighin.events.domain.measured import minutes
from weighin.events.domain.temperatures import Temperature
from weighin.rules.rulebook import Rulebook
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable

LOWEST = Decimal(-1)
WHICH = {"": "all boats", "failed": "those with a check not kept", "missing": "those without a note"}


@dataclass(frozen=True)
class CareLine:
    """A boat's fish care of a day in the words and figures of the list."""

    day: int
    boat: int
    team: str
    alive: int | None
    dead: int | None
    held: str
    held_sort: Decimal
    in_bag: str
    in_bag_sort: Decimal
    passed: str
    failed: tuple[str, ...]
    failed_names: tuple[str, ...]
    has_note: bool

    @property
    def checked(self) -> bool:
        """Whether any check is recorded."""
        return bool(self.passed or self.failed)

    @property
    def alive_sort(self) -> int:
        return -1 if self.alive is None else self.alive

    @property
    def dead_sort(self) -> int:
        return -1 if self.dead is None else self.dead


class CareTable(RuledTable):
    """One row a boat and day."""

    day = FigureColumn()
    boat = FigureColumn()
    team = NameColumn()
    alive = FigureColumn(order_by="alive_sort")
    dead = FigureColumn(order_by="dead_sort")
    held = tables.Column(order_by="held_sort", attrs={"td": {"class": "held"}, "th": {"class": "held"}})
    in_bag = FigureColumn(verbose_name="In the bag", order_by="in_bag_sort")
    passed = tables.Column(verbose_name="Checks kept", orderable=False, attrs={"td": {"class": "small quiet whole"}})
    failed = tables.Column(verbose_name="Not kept", order_by="failed_names", attrs={"td": {"class": "small whole"}})
    has_note = tables.Column(verbose_name="Note", attrs={"td": {"class": "small"}})

    caption = "Fish care by boat and day"
    named_by = "team"
    look = "packs early"

    class Meta:
        order_by_field = "sort"
        empty_text = "Nothing is written yet. A boat stands here from its first care note or its first slip on."

    def __init__(self, lines: Iterable[CareLine], *, slug: str, days: int, may_write: bool, **kwargs: Any):
        super().__init__(list(lines), exclude=("day",) if days == 1 else (), **kwargs)
        self.slug, self.may_write = slug, may_write

    def render_failed(self, value: tuple[str, ...]) -> str:
        return "; ".join(value)

    def render_has_note(self, record: CareLine) -> SafeString | str:
        if not record.has_note and not self.may_write:
            return "none yet"
        url = reverse("care:note", args=[self.slug, record.day, record.boat])
        words = "read" if record.has_note else "write"
        return format_html(
            '<a href="{}">{}<span class="for-ears"> the note of boat {}</span></a>', url, words, record.boat
        )


def care_lines(rows: Iterable[CareRow], rules: Rulebook, lakes: Mapping[int, Temperature | None]) -> list[CareLine]:
    """The rows by day, then boat."""
    return [
        CareLine(
            day=row.day,
            boat=row.entry.boat,
            team=row.entry.name,
            alive=row.slip.alive if row.slip else None,
            dead=row.slip.dead if row.slip else None,
            held=held_in_words(row),
            held_sort=LOWEST if row.care.minutes_held is None else row.care.minutes_held,
            in_bag=minutes(row.care.minutes_in_bag),
            in_bag_sort=LOWEST if row.care.minutes_in_bag is None else row.care.minutes_in_bag,
            passed=passed_in_words(row.care.passed),
            failed=tuple(failed_in_words(row, rules, lakes.get(row.day))),
            failed_names=row.care.failed,
            has_note=row.note is not None,
        )
        for row in rows
    ]


def chosen(lines: Iterable[CareLine], search: str, day: str, boat: str, which: str) -> list[CareLine]:
    """The lines that a search, a day, a boat and a state leave."""
    wanted = search.strip().casefold()
    return [
        line
        for line in lines
        if (not day or str(line.day) == day)
        and (not boat.strip() or str(line.boat) == boat.strip())
        and (which != "failed" or line.failed)
        and (which != "missing" or not line.has_note)
        and (not wanted or wanted in line.team.casefold())
    ]


def failures(lines: Iterable[CareLine]) -> list[tuple[str, int]]:
    """How many boats did not keep each check, the most first."""
    return Counter(name for line in lines for name in line.failed_names).most_common()

"""Fish care in rows: a boat and day each, the tanks' readings, the pens of a holding study."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.events.calendar import Calendar
from weighin.events.temperatures import Temperature
from weighin.fishcare.models import HoldingPen, TankReading
from weighin.fishcare.queries import CareRow
from weighin.fishcare.words import degrees, failed_in_words, held_in_words, minutes, passed_in_words
from weighin.rules.rulebook import Rulebook
from weighin.scale.fields import clock
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
        url = reverse("fishcare:note", args=[self.slug, record.day, record.boat])
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


class TanksTable(RuledTable):
    """Readings of the holding tanks, as measured."""

    tank = NameColumn()
    day = FigureColumn()
    time = tables.Column(verbose_name="At")
    temp = FigureColumn(verbose_name="Water")
    do = FigureColumn(verbose_name="Oxygen, mg/L")
    ph = FigureColumn(verbose_name="pH")
    total_ammonia = FigureColumn(verbose_name="Total ammonia, mg/L")
    salt_percent = FigureColumn(verbose_name="Salt, %")
    fish_lb = FigureColumn(verbose_name="Fish, lb")
    volume_gal = FigureColumn(verbose_name="Tank, gal")
    note = tables.Column(attrs={"td": {"class": "small"}})

    caption = "Readings of the holding tanks"
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

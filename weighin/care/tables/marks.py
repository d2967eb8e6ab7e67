"""Checks of fish care as columns: a mark, a word and the figure of each, and how many passed."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext, gettext_lazy

from weighin.care.domain.checks import Care, Observed
from weighin.events.domain.measured import minutes
from weighin.rules.values import plain
from weighin.ui.figures import MINUS, SPACE, writing
from weighin.ui.tables import TotalColumn

ATTRS = {"class": "ruled dense marks"}  # two lines a row on a narrow page
HEADS = {
    "pump": gettext_lazy("Pump"),
    "thermometer": gettext_lazy("Thermometer"),
    "ice": gettext_lazy("Ice"),
    "on_board": gettext_lazy("On board"),
    "held": gettext_lazy("Held"),
    "bag": gettext_lazy("In the bag"),
    "cooling": gettext_lazy("Cooled by"),
    "oxygen": gettext_lazy("Oxygen, mg/L"),
}


@dataclass(frozen=True)
class Mark:
    """One check of a boat's day: ``passed`` (None: not judged) and the figure or word that was recorded."""

    passed: bool | None
    figure: str

    def cell(self) -> SafeString:
        """For a cell of a table; empty where nothing is recorded."""
        if self.passed is None:
            return format_html("{}", self.figure)
        sign, word = ("✓", gettext("passed")) if self.passed else ("✕", gettext("failed"))
        return format_html(
            '<span class="sign" aria-hidden="true">{}</span><span class="for-ears">{} </span> {}',
            sign,
            word,
            self.figure,
        )


def mark(name: str, care: Care, seen: Observed) -> Mark:
    """A check of a boat's day by its name, one of ``CHECKS``."""
    passed = True if name in care.passed else False if name in care.failed else None
    return Mark(passed, _FIGURES[name](care, seen))


def _ice(_: Care, seen: Observed) -> str:
    return "" if seen.ice_lb is None else f"{plain(seen.ice_lb)}{SPACE}lb" if seen.ice_lb else gettext("none")


def _held(care: Care, _: Observed) -> str:
    held = minutes(care.minutes_held)
    return gettext("at most %(held)s") % {"held": held} if held and care.held_is_upper_bound else held


def _word(ok: bool | None, good: str, bad: str) -> str:
    return "" if ok is None else good if ok else bad


def _cooled(_: Care, seen: Observed) -> str:
    if seen.lake is None or seen.livewell is None:
        return ""
    below, unit = seen.lake.fahrenheit - seen.livewell.fahrenheit, writing().degrees or seen.livewell.unit
    shown = (below * 5 / 9 if unit == "C" else below).quantize(Decimal("0.1"))
    return f"{plain(shown)}{SPACE}°{unit}".replace("-", MINUS)


_FIGURES: Mapping[str, Callable[[Care, Observed], str]] = {
    "pump": lambda _, seen: _word(seen.pump_ok, gettext("runs"), gettext("no")),
    "thermometer": lambda _, seen: _word(seen.thermometer_ok, gettext("works"), gettext("none")),
    "ice": _ice,
    "on_board": lambda _, seen: "" if seen.most_on_board is None else str(seen.most_on_board),
    "held": _held,
    "bag": lambda care, _: minutes(care.minutes_in_bag),
    "cooling": _cooled,
    "oxygen": lambda _, seen: "" if seen.livewell_do is None else plain(seen.livewell_do),
}


def _state(record: Any, bound_column: Any) -> str:
    passed = mark(bound_column.name, record.care, record.seen).passed
    return "check" if passed is None else "check passed" if passed else "check failed"


class MarkColumn(tables.Column):  # type: ignore[misc]
    """One check: the rows have ``care`` and what was ``seen``."""

    attrs = {"td": {"class": _state}, "th": {"class": "check"}}

    def render(self, record: Any, bound_column: Any) -> SafeString:
        return mark(bound_column.name, record.care, record.seen).cell()


class PassedColumn(TotalColumn):
    """How many of the recorded checks passed: the figure that sums the row."""

    def render(self, record: Any) -> str:
        care: Care = record.care
        recorded = len(care.passed) + len(care.failed)
        if not recorded:
            return ""
        return gettext("%(kept)s of %(recorded)s") % {"kept": len(care.passed), "recorded": recorded}


def mark_column(name: str, **kwargs: Any) -> MarkColumn:
    """The column of one check."""
    return MarkColumn(verbose_name=HEADS[name], empty_values=(), **kwargs)

"""Spanish as it is read: dates and clocks in its own form, and figures as on every other tablet."""

from collections.abc import Iterator
from datetime import date, datetime, time
from decimal import Decimal

import pytest
from django.template import Context, Template
from django.utils import translation

from weighin.ui import figures
from weighin.ui.nouns import counted, in_words
from weighin.ui.parsing import typed

DAY = date(2026, 7, 18)


@pytest.fixture(autouse=True)
def _spanish() -> Iterator[None]:
    with translation.override("es"):
        yield


def test_days_and_clocks() -> None:
    assert figures.day(DAY) == "sáb, 18 de julio de 2026"
    assert figures.short_day(DAY) == "18 jul"
    assert figures.clock(time(15, 5)) == "3:05 PM" and figures.clock(time(0, 5)) == "12:05 AM"
    assert figures.moment(datetime(2026, 7, 18, 15, 5)) == "18 jul, 3:05 PM"


def test_a_clock_that_is_shown_can_be_typed() -> None:
    assert typed.clock(figures.clock(time(15, 5))) == "15:05"
    assert typed.clock(figures.exact_clock(time(9, 5, 21))) == "09:05:21"


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("{{ weight|weight:'lb' }}", "9.47"),
        ("{{ sum|money }}", "$1,396.00"),
        ("{{ half|floatformat:1 }}", "0.5"),
        ("{{ half }}", "0.5"),
        ("{{ share|percent }}", "19.1\u00a0%"),
    ],
)
def test_figures_are_written_as_in_english(written: str, said: str) -> None:
    values = {"weight": Decimal("9.47"), "sum": Decimal("1396"), "half": 0.5, "share": 0.191}
    page = Template("{% load ui %}" + written)
    assert page.render(Context(values)) == said
    with translation.override("en"):
        assert page.render(Context(values)) == said


def test_counted_nouns_agree_with_their_number() -> None:
    assert [counted(n, "fish") for n in (0, 1, 2)] == ["0 peces", "1 pez", "2 peces"]
    assert [counted(n, "boat", in_words(n)) for n in (0, 1, 5)] == ["0 lanchas", "1 lancha", "5 lanchas"]

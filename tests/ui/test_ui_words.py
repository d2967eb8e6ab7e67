"""Template tags: figures as the book writes them."""

import sys
import types
from decimal import Decimal

import pytest
from django.http import HttpResponse
from django.template import Context, Template
from django.test import RequestFactory
from django.urls import path as route

from weighin.ui.templatetags import ui

NB = "\u00a0"
MINUS = "\u2212"


@pytest.mark.parametrize(
    "said,expected",
    [
        (ui.weight(Decimal("9.4"), "lb"), "9.40"),
        (ui.weight(Decimal("9.46875"), "lb-oz"), "9-07.5"),
        (ui.weight(Decimal("4.295"), "kg"), "4.295"),
        (ui.weight(Decimal("-1.5"), "lb"), f"{MINUS}1.50"),
        (ui.weight(Decimal("-1.5"), "lb-oz"), f"{MINUS}1-08"),
        (ui.weight(None, "lb"), ""),
        (ui.taken_off(Decimal("0.25"), "lb"), f"{MINUS}{NB}0.25"),
        (ui.taken_off(Decimal(0), "lb"), ""),
        (ui.minutes(8), f"8{NB}min"),
        (ui.minutes(Decimal("12.5")), f"12.5{NB}min"),
        (ui.minutes(Decimal("119.96")), f"120{NB}min"),
        (ui.minutes(125), f"2{NB}h 5{NB}min"),
        (ui.minutes(None), ""),
        (ui.percent(Decimal("0.0604")), f"6.0{NB}%"),
        (ui.percent(0.125, 0), f"13{NB}%"),
        (ui.percent(0), f"0.0{NB}%"),
        (ui.percent(-0.02), f"{MINUS}2.0{NB}%"),
        (ui.percent(None), ""),
        (ui.temperature(Decimal("26.4")), f"79.5{NB}°F"),
        (ui.temperature(0), f"32{NB}°F"),
        (ui.temperature(Decimal("26.44"), "C"), f"26.4{NB}°C"),
        (ui.temperature(-40, "C"), f"{MINUS}40{NB}°C"),
        (ui.temperature(None), ""),
        (ui.in_words(2), "two"),
        (ui.in_words(0), "no"),
        (ui.in_words(1479), "1,479"),
        (ui.counted(1, "boat"), "1 boat"),
        (ui.counted(24, "boat"), "24 boats"),
        (ui.counted(2, "fish"), "2 fish"),
    ],
)
def test_figures_are_written_as_the_book_writes_them(said, expected):
    assert said == expected


def test_state_says_it_in_words_and_refuses_unknown_kinds():
    assert ui.state("going", "<3 slips") == '<span class="state is-going">&lt;3 slips</span>'
    with pytest.raises(ValueError, match="choose done"):
        ui.state("green", "fine")


def test_reading_sets_the_unit_apart():
    template = Template('{% load ui %}{% reading total "lb" "big" %}')
    assert (
        template.render(Context({"total": Decimal("9.59")})) == '<span class="figure big">9.59<small>lb</small></span>'
    )
    assert template.render(Context({"total": None})) == ""


@pytest.mark.urls("tests_ui_urls")
@pytest.mark.parametrize("path,mark", [("/s/", ' aria-current="page"'), ("/s/7/", ' aria-current="true"'), ("/r/", "")])
def test_a_way_is_marked_on_its_own_page(path, mark, monkeypatch):
    urls = types.ModuleType("tests_ui_urls")
    urls.urlpatterns = [route("s/", lambda request: HttpResponse(), name="standings")]
    monkeypatch.setitem(sys.modules, "tests_ui_urls", urls)
    template = Template('{% load ui %}{% way "Standings" "standings" under=True %}')
    context = Context({"request": RequestFactory().get(path)})
    assert template.render(context) == f'<a href="/s/"{mark}>Standings</a>'

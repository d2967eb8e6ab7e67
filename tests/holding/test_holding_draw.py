"""How large a study is to be, and which boats' fish it draws."""

from collections import Counter

import pytest
from django.test import Client
from tanks.shore import page, text

from weighin.events.models import Event
from weighin.holding.domain.draw import draw


def test_the_size_is_worked_out_and_its_faults_said(event: Event, carer: Client) -> None:
    asked = {"delayed": "20", "reference": "5", "width": "30", "fish": "20", "correlation": "0.05"}
    assert "Seven pens of each kind, 140 fish of each." in text(page(carer, event, "holding:holding", **asked))
    for wrong in (
        {"width": "0"},
        {"fish": "0"},
        {"correlation": "2"},
        {"delayed": "95"},
        {"reference": ""},
        {"width": "2", "fish": "1"},
    ):
        answer = page(carer, event, "holding:holding", **{**asked, **wrong})
        name = next(iter(wrong))
        assert answer.status_code == 200 and set(answer.context["size"].errors) == {name}, wrong
        assert answer.context["size"][name].value() == wrong[name]


def test_the_draw_can_be_drawn_again_and_favours_nobody() -> None:
    boats = [3, 7, 12, 19, 25]
    first = draw(boats, pens=3, fish_per_pen=4, number=1234)
    assert (
        first
        == draw(list(reversed(boats)), pens=3, fish_per_pen=4, number=1234)
        != draw(boats, pens=3, fish_per_pen=4, number=1235)
    )
    assert Counter(one.pen for one in first) == {1: 4, 2: 4, 3: 4} and [one.place for one in first] == list(
        range(1, 13)
    )
    # Nobody gives a second fish before everyone gave one
    assert sorted(one.boat for one in first[:5]) == boats and set(Counter(one.boat for one in first).values()) <= {2, 3}
    called_first = Counter(draw(boats, pens=1, fish_per_pen=1, number=n)[0].boat for n in range(2000))
    assert all(330 < called_first[boat] < 470 for boat in boats), called_first
    for bad in ({"pens": 0, "fish_per_pen": 1}, {"pens": 1, "fish_per_pen": 0}):
        with pytest.raises(ValueError):
            draw(boats, number=1, **bad)
    with pytest.raises(ValueError, match="enter the teams first"):
        draw([], pens=1, fish_per_pen=1, number=1)


def test_the_draw_is_among_the_boats_that_fish(event: Event, carer: Client) -> None:
    event.entries.filter(boat=2).update(status="withdrawn")
    answer = page(carer, event, "holding:holding", number="77")
    assert {one.boat for one in answer.context["drawn"]} == {1, 3, 4} and "Drawn with the number 77" in text(answer)
    assert "drawn" not in page(carer, event, "holding:holding", number="seventy").context

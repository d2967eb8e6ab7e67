"""Whatever is typed into a form is understood or goes on as it was typed; nothing breaks on it."""

from collections.abc import Callable
from contextlib import suppress

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from weighin.rules import values, weights
from weighin.ui.parsing import typed

SIGNS = "0123456789 .,:-+/$€%°lbozkgFCcapmhrsin½²٣e()\u2212\u200b\u00a0\n\x00"
TYPED = st.one_of(st.text(alphabet=SIGNS, max_size=14), st.text(max_size=12))
TURNS: tuple[Callable[[str], str], ...] = (
    typed.clock,
    typed.minutes,
    typed.percent,
    typed.ties,
    lambda text: typed.degrees(text, "F"),
    lambda text: typed.without_unit(text, "gal"),
)
READERS: tuple[Callable[[str], object], ...] = (
    values.whole,
    values.decimal,
    values.money,
    values.yes_no,
    values.lines,
    lambda text: weights.read(text, "lb"),
    lambda text: weights.read(text, "lb-oz"),
    lambda text: weights.read(text, "kg"),
)


@pytest.mark.parametrize("turn", range(len(TURNS)))
@settings(max_examples=300, database=None)
@given(text=TYPED)
@example(text="9" * 4301 + " h")  # more digits than Python turns into a number
@example(text="1 h " + "9" * 4301 + " min")
@example(text="9" * 4400)
@example(text="²")
@example(text="٣ pm")
@example(text="9-7 1/0")
@example(text="1.2.3 min")
@example(text="NaN")
@example(text="1e999999")
def test_what_is_typed_breaks_no_reader(turn: int, text: str) -> None:
    found = TURNS[turn](text)
    for read in READERS:
        with suppress(ValueError):  # the sentence that stands beside the field
            read(found)


@settings(max_examples=300, database=None)
@given(text=TYPED)
@example(text="9" * 4400)
def test_an_amount_of_money_breaks_nothing(text: str) -> None:
    with suppress(ValueError):  # an amount with a sign is refused there
        values.money(typed.money(text))

"""The table of what was measured, and its place in README."""

import pytest

from bench.measured import Measure, Measured, table
from bench.readme import BEGIN, END, README, written


def test_a_measure_past_its_bar_fails_and_is_in_the_table() -> None:
    rows: list[Measure] = []
    measured = Measured(rows)
    measured("Quick", 11.7, "ms", 3.25, "a bare insert", at_most=4)
    measured("Polls", 2500.0, "a second", 5000.0, "a bare 204", at_least=0.45)
    with pytest.raises(AssertionError, match="Slow"):
        measured("Slow", 250.0, "ms", at_most=200)
    assert table(rows).splitlines()[2:] == [
        "| Quick | 11.7 ms | 3.25 ms, a bare insert | 3.6 | at most 4 |",
        "| Polls | 2,500 a second | 5,000 a second, a bare 204 | 0.50 | at least 0.45 |",
        "| Slow | 250 ms |  |  | at most 200 ms |",
    ]


def test_readme_has_one_place_for_it() -> None:
    text = README.read_text(encoding="utf-8")
    again = written(written(text, "| old |", "Then."), "| new |", "Now.")
    assert "| old |" not in again and f"{BEGIN}\n\nNow.\n\n| new |\n\n{END}" in again
    with pytest.raises(ValueError, match="once each"):
        written(text.replace(END, ""), "| new |", "Now.")

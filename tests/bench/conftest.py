"""Every measure of a run is a row of one table, printed at its end, and written to the file that WEIGHIN_MEASURED names."""

import os
from pathlib import Path
from typing import Any

import pytest

from bench.measured import Measure, Measured, table

ROWS: list[Measure] = []


@pytest.fixture(scope="session")
def measured() -> Measured:
    """``measured(name, ours, unit, floor, floor_name, at_most=...)``: note it, and fail past the bar."""
    return Measured(ROWS)


def pytest_terminal_summary(terminalreporter: Any) -> None:
    if not ROWS:
        return
    terminalreporter.write_line("")
    terminalreporter.write_line(table(ROWS))
    file = os.environ.get("WEIGHIN_MEASURED")
    if file:
        Path(file).write_text(table(ROWS), encoding="utf-8")

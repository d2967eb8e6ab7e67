"""Turn a cell's value into the text a person would have written, or say what is wrong with it."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

from weighin.workbooks.domain.faults import (
    DATE_WITH_TIME,
    DATE_WITHOUT_TIME,
    FORMULA_WITHOUT_VALUE,
    NOT_A_TIME_OF_DAY,
    ROUNDS_TO_MIDNIGHT,
    SPREADSHEET_ERROR,
    TURNED_INTO_A_DATE,
)
from weighin.workbooks.parsing.book import Cell, Shown

ERRORS = ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#SPILL!", "#CALC!", "#GETTING_DATA")


def as_text(cell: Cell) -> str:
    """A figure, word or yes/no as text. Raises ValueError for a date, an error, a formula without its value."""
    value = _sound(cell)
    if isinstance(value, (date, time, timedelta)):
        raise TURNED_INTO_A_DATE.wrong()
    return _plain(value)


def as_time(cell: Cell) -> str:
    """A time of day or date-time as text: ``HH:MM:SS``, ISO, or what was written. Raises ValueError as ``as_text``."""
    value = _sound(cell)
    if isinstance(value, datetime):
        return _whole_second(value).isoformat(sep=" ")
    if isinstance(value, time):
        moment = _whole_second(datetime.combine(date(2000, 1, 1), value))
        if moment.date() != date(2000, 1, 1):
            raise ROUNDS_TO_MIDNIGHT.wrong()
        return f"{moment:%H:%M:%S}"
    if isinstance(value, timedelta):
        return _clock(value)
    if isinstance(value, float) and 0 <= value < 1:
        return _clock(timedelta(days=value))
    if isinstance(value, date):
        raise DATE_WITHOUT_TIME.wrong(date=value.isoformat())
    return _plain(value)


def as_date(cell: Cell) -> str:
    """A date as ISO text, or what was written. Raises ValueError as ``as_text``."""
    value = _sound(cell)
    if isinstance(value, datetime):
        if value.time() != time(0):
            raise DATE_WITH_TIME.wrong(value=f"{value:%Y-%m-%d %H:%M}")
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    return _plain(value)


def as_words(cell: Cell) -> str:
    """Free text; a date in it is written out. Raises ValueError for an error or a formula without its value."""
    value = _sound(cell)
    if isinstance(value, str):
        return value.strip()
    return value.isoformat() if isinstance(value, (date, time)) else _plain(value)


def _sound(cell: Cell) -> Any:
    if cell.uncached:
        raise FORMULA_WITHOUT_VALUE.wrong()
    if isinstance(cell.value, str) and cell.value.strip() in ERRORS:
        raise SPREADSHEET_ERROR.wrong(value=cell.value.strip())
    return cell.value


def _plain(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        # Fifteen digits, as a spreadsheet shows a number: 9.47 and not 9.4700000000000006.
        figures = _trim(format(Decimal(format(value, ".15g")), "f"))
        return _filled(figures, value.decimals) if isinstance(value, Shown) else figures
    return str(value).replace("\u00a0", " ").strip()


def _trim(figures: str) -> str:
    return figures.rstrip("0").rstrip(".") if "." in figures else figures


def _filled(figures: str, decimals: int) -> str:
    """With the zeros that its cell shows after the last digit."""
    whole, _, parts = figures.partition(".")
    return f"{whole}.{parts.ljust(decimals, '0')}"


def _whole_second(moment: datetime) -> datetime:
    return (moment + timedelta(microseconds=500_000)).replace(microsecond=0)


def _clock(span: timedelta) -> str:
    seconds = round(span.total_seconds())
    if not 0 <= seconds < 86400:
        raise NOT_A_TIME_OF_DAY.wrong()
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"

"""Turn a cell's value into the text a person would have written, or say what is wrong with it."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

from weighin.operations.parsing.workbook.book import Cell

ERRORS = ("#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#SPILL!", "#CALC!", "#GETTING_DATA")
DATE_SAID = "Excel turned this into a date: format the column as text and write it again"


def as_text(cell: Cell) -> str:
    """A figure, word or yes/no as text. Raises ValueError for a date, an error, a formula without its value."""
    value = _sound(cell)
    if isinstance(value, (date, time, timedelta)):
        raise ValueError(DATE_SAID)
    return _plain(value)


def as_time(cell: Cell) -> str:
    """A time of day or date-time as text: ``HH:MM:SS``, ISO, or what was written. Raises ValueError as ``as_text``."""
    value = _sound(cell)
    if isinstance(value, datetime):
        return _whole_second(value).isoformat(sep=" ")
    if isinstance(value, time):
        moment = _whole_second(datetime.combine(date(2000, 1, 1), value))
        if moment.date() != date(2000, 1, 1):
            raise ValueError("this time rounds to 24:00: write it as text, such as 23:59:59")
        return f"{moment:%H:%M:%S}"
    if isinstance(value, timedelta):
        return _clock(value)
    if isinstance(value, float) and 0 <= value < 1:
        return _clock(timedelta(days=value))
    if isinstance(value, date):
        raise ValueError(f"{value.isoformat()} is a date without a time: write HH:MM, such as 14:42")
    return _plain(value)


def as_date(cell: Cell) -> str:
    """A date as ISO text, or what was written. Raises ValueError as ``as_text``."""
    value = _sound(cell)
    if isinstance(value, datetime):
        if value.time() != time(0):
            raise ValueError(f"{value:%Y-%m-%d %H:%M} has a time in it: write the date only, such as 2026-06-20")
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
        raise ValueError(
            "this formula has no value kept with it: open the workbook in a spreadsheet, save it, or write the value"
        )
    if isinstance(cell.value, str) and cell.value.strip() in ERRORS:
        raise ValueError(f"the spreadsheet shows {cell.value.strip()} here: correct the formula or write the value")
    return cell.value


def _plain(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        # Fifteen digits, as a spreadsheet shows a number: 9.47 and not 9.4700000000000006.
        return _trim(format(Decimal(format(value, ".15g")), "f"))
    return str(value).replace("\u00a0", " ").strip()


def _trim(figures: str) -> str:
    return figures.rstrip("0").rstrip(".") if "." in figures else figures


def _whole_second(moment: datetime) -> datetime:
    return (moment + timedelta(microseconds=500_000)).replace(microsecond=0)


def _clock(span: timedelta) -> str:
    seconds = round(span.total_seconds())
    if not 0 <= seconds < 86400:
        raise ValueError("this is not a time of day: write HH:MM between 00:00 and 23:59")
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"

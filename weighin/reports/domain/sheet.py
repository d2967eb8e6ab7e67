"""One table of a report, written by the CSV, XLSX and PDF writers alike."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal

from django.utils.functional import Promise

Value = str | int | float | bool | Decimal | date | datetime | None


@dataclass(frozen=True)
class SheetColumn:
    """A column: its head, whether its cells are figures (set right), and its share of a page's width.

    ``percent``: numbers in it are shares, which a spreadsheet shows in percent. ``choices`` are what a spreadsheet
    offers in it, ``prompt`` what it says there, where the file is one to write in.
    """

    head: str | Promise
    figures: bool = False
    width: float = 1.0
    percent: bool = False
    choices: Sequence[str] = ()
    prompt: str | Promise = ""


@dataclass(frozen=True)
class Sheet:
    """A titled table. ``before`` and ``after`` are sentences above and below it.

    In a workbook ``above`` are rows over its head, and ``choices`` what is offered in the second cell of a row.
    """

    title: str
    columns: Sequence[SheetColumn]
    rows: Sequence[Sequence[Value]]
    before: Sequence[str] = ()
    after: Sequence[str] = ()
    above: Sequence[Sequence[Value]] = ()
    choices: Mapping[int, Sequence[str]] = field(default_factory=dict)


RISKY = ("=", "+", "-", "@", "\t", "\r")


def as_written(value: Value) -> str:
    """A cell as text; None is empty."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return format(value, "f")
    if isinstance(value, (date, datetime)):
        return value.isoformat(sep=" ") if isinstance(value, datetime) else value.isoformat()
    return str(value)


def is_risky(value: Value) -> bool:
    """Whether a spreadsheet would take a text for a formula: it begins with = + - @ or a tab."""
    return isinstance(value, str) and value.startswith(RISKY)

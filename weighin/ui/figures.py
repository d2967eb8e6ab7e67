"""How dates, clocks, degrees and money are written: one form each, by the settings of the club whose page it is.

Files that other programs read keep their ISO forms; all that people read comes from here.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import date, datetime, time, tzinfo
from decimal import ROUND_HALF_UP, Decimal

from django.utils.dateformat import format as date_format
from django.utils.dateformat import time_format
from django.utils.translation import gettext_noop, pgettext

MINUS = "\u2212"
SPACE = "\u00a0"


@dataclass(frozen=True)
class Writing:
    """A club's settings: 12 or 24 hours, ``F`` or ``C`` (blank: as an event's temperatures are written), its money.

    ``iso``: days as files have them, whoever reads them.
    """

    hours: int = 12
    degrees: str = ""
    currency: str = "$"
    iso: bool = False


# Django looks these up for the half of a day: here they go into the catalogue. Spanish keeps them, as people type them:
# a sentence that ends with "p. m." would end in two periods
HALVES = gettext_noop("AM"), gettext_noop("PM")
USUAL = Writing()
FILED = Writing(hours=24, iso=True)  # of files that programs read: 2026-07-18, 15:05
_now: ContextVar[Writing] = ContextVar("writing", default=USUAL)


def writing() -> Writing:
    """The settings that go here and now."""
    return _now.get()


@contextmanager
def written_as(settings: Writing) -> Iterator[None]:
    """Write all figures by these settings."""
    before = _now.set(settings)
    try:
        yield
    finally:
        _now.reset(before)


def day(value: date | None) -> str:
    """A day in sentences: Sat, July 18, 2026."""
    return _day(value, pgettext("date in full", "D, F j, Y"))


def short_day(value: date | None) -> str:
    """A day in tables: Jul 18."""
    return _day(value, pgettext("date in a table", "M j"))


def dated(value: date | None) -> str:
    """A day that may be of any year, as lines to write on show it: Jul 18, 2026."""
    return _day(value, pgettext("date with its year", "M j, Y"))


def dated_moment(value: datetime) -> str:
    """A day of any year and its time: Jul 18, 2026, 3:05 PM; seconds where there are some."""
    at = exact_clock(value) if value.second else clock(value)
    return pgettext("a moment", "%(date)s, %(time)s") % {"date": dated(value), "time": at}


def clock(value: datetime | time | None, zone: tzinfo | None = None) -> str:
    """A time of day: 3:05 PM, or 15:05 by a club's clock of 24 hours; a moment as ``zone`` has it."""
    return _clock(value, zone, "g:i A", "H:i")


def exact_clock(value: datetime | time | None, zone: tzinfo | None = None) -> str:
    """A time of day to the second, where seconds decide: 3:05:21 PM."""
    return _clock(value, zone, "g:i:s A", "H:i:s")


def moment(value: datetime | None, zone: tzinfo | None = None) -> str:
    """A day and its time: Jul 18, 3:05 PM."""
    return _moment(value, zone, clock)


def exact_moment(value: datetime | None, zone: tzinfo | None = None) -> str:
    """A day and its time to the second: Jul 18, 3:05:21 PM."""
    return _moment(value, zone, exact_clock)


def zoned(value: datetime | None) -> str:
    """A moment with the name of its clock: Jul 18, 3:05 PM CDT."""
    return f"{moment(value)}{SPACE}{value:%Z}" if value else ""


def degrees(figure: Decimal | float | int, unit: str, usual: str = "") -> str:
    """A figure in ``unit`` as the club writes temperatures, else in the ``usual`` unit: 86 °F, 79.6 °F."""
    value, shown = Decimal(str(figure)), writing().degrees or usual or unit
    if shown != unit:
        value = value * 9 / 5 + 32 if shown == "F" else (value - 32) * 5 / 9
    said = f"{value.quantize(Decimal('0.1'), ROUND_HALF_UP)}".removesuffix(".0")
    return f"{said}{SPACE}°{shown}".replace("-", MINUS)


def written_degrees(text: str) -> str:
    """What a thermometer showed, kept as ``86 F``, as the club writes temperatures: 86 °F."""
    figure, _space, unit = text.strip().rpartition(" ")
    return degrees(Decimal(figure), unit) if figure else text


def money(value: Decimal | float | int | None) -> str:
    """An amount with the club's sign: $1,354.00; one that is owed or given back with its minus."""
    if value is None:
        return ""
    amount = Decimal(str(value)).quantize(Decimal("0.01"), ROUND_HALF_UP)
    return f"{MINUS if amount < 0 else ''}{writing().currency}{abs(amount):,}"


def _day(value: date | None, form: str) -> str:
    if value is None:
        return ""
    return f"{value:%Y-%m-%d}" if writing().iso else date_format(value, form)


def _clock(value: datetime | time | None, zone: tzinfo | None, half: str, whole: str) -> str:
    if value is None:
        return ""
    local = value.astimezone(zone) if zone and isinstance(value, datetime) else value
    return time_format(local, whole if writing().hours == 24 else half)


def _moment(value: datetime | None, zone: tzinfo | None, clock_of: Callable[[datetime], str]) -> str:
    if value is None:
        return ""
    local = value.astimezone(zone) if zone else value
    said = {"date": short_day(local), "time": clock_of(local)}
    return pgettext("a moment", "%(date)s, %(time)s") % said

"""Calendars as RFC 5545 writes them: an event on each day, in UTC, in lines of at most 75 octets."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from unicodedata import category

OCTETS = 75  # RFC 5545, 3.1: a line without its end
REFRESH = "REFRESH-INTERVAL;VALUE=DURATION:PT1H"  # RFC 7986, 5.7; NAME is of 5.1 there
PRODUCT = "-//weighin//calendar//EN"
_ESCAPED = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}  # RFC 5545, 3.3.11


@dataclass(frozen=True)
class DayOfEvent:
    """One day of an event as a calendar shows it. ``uid`` stays for good, ``sequence`` goes up with every change.

    ``stamp`` is when it was changed last.
    """

    uid: str
    sequence: int
    stamp: datetime
    start: datetime
    end: datetime
    summary: str
    location: str
    description: str
    cancelled: bool


def calendar_text(name: str, days: Iterable[DayOfEvent]) -> str:
    """A calendar with a VEVENT a day; lines end in CRLF and are folded."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}", "CALSCALE:GREGORIAN", REFRESH]
    lines += [f"NAME:{escaped(name)}", f"X-WR-CALNAME:{escaped(name)}"]
    for day in days:
        lines += _day(day)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in _folded(line))


def escaped(text: str) -> str:
    r"""A text with what a calendar reads as marks escaped; other control characters are left out.

    >>> escaped("Alder, Birch; one\\two\nthree")
    'Alder\\, Birch\\; one\\\\two\\nthree'
    """
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(_ESCAPED.get(sign, sign) for sign in plain if sign in "\n\t" or category(sign) != "Cc")


def _day(day: DayOfEvent) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(day.uid)}"
    yield f"DTSTAMP:{_moment(day.stamp)}"
    yield f"LAST-MODIFIED:{_moment(day.stamp)}"
    yield f"SEQUENCE:{day.sequence}"
    yield f"DTSTART:{_moment(day.start)}"
    yield f"DTEND:{_moment(day.end)}"
    yield f"SUMMARY:{escaped(day.summary)}"
    yield f"LOCATION:{escaped(day.location)}"
    yield f"DESCRIPTION:{escaped(day.description)}"
    yield f"STATUS:{'CANCELLED' if day.cancelled else 'CONFIRMED'}"
    yield "END:VEVENT"


def _moment(moment: datetime) -> str:
    return f"{moment.astimezone(UTC):%Y%m%dT%H%M%SZ}"


def _folded(line: str) -> Iterator[str]:
    """A line in pieces of at most 75 octets, none of which cuts a character; those after the first begin with a space."""
    piece, room = "", OCTETS
    for sign in line:
        size = len(sign.encode())
        if size > room:
            yield piece
            piece, room = " ", OCTETS - 1
        piece += sign
        room -= size
    yield piece

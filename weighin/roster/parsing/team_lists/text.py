"""Bytes or pasted text as records: encodings, delimiters and quotes (RFC 4180)."""

import codecs
import csv
import io
from collections.abc import Sequence

from weighin.roster.domain.list_faults import NOT_A_TEXT, OLD_SPREADSHEET, QUOTE_NOT_CLOSED, TOO_MANY_RECORDS
from weighin.roster.domain.team_list import Grid, Matching
from weighin.roster.parsing.team_lists.headings import find_headings

DELIMITERS = (",", ";", "\t", "|")
MOST_RECORDS = 50_000  # ten times what comes in at once: titles, sums and empty lines are left out
UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
OTHER_FILES = (b"\xd0\xcf\x11\xe0", b"%PDF", b"PK")
# Stands behind the last record while it is read, to tell whether a quotation mark is still open there
END = "end\ufffe"


def text_of(content: bytes) -> str:
    """The text of a file: UTF-8 with or without a byte-order mark, UTF-16 with one, else Windows-1252.

    Raises Wrong for anything else.
    """
    if content.startswith(OTHER_FILES):
        raise OLD_SPREADSHEET.wrong()
    try:
        if content.startswith(UTF_16):
            text = content.decode("utf-16")
        elif content.startswith(codecs.BOM_UTF8):
            text = content.decode("utf-8-sig")
        else:
            text = _utf_8_or_windows(content)
    except UnicodeDecodeError:
        raise NOT_A_TEXT.wrong() from None
    if "\0" in text:
        raise NOT_A_TEXT.wrong()
    return text


def grid_of(text: str, matching: Matching) -> Grid:
    """The records of a text, split by the delimiter under which its headings are found. Raises Wrong."""
    found = [(delimiter, _records(text, delimiter)) for delimiter in DELIMITERS if delimiter in text] or [
        (",", _records(text, ","))
    ]
    best = max(found, key=lambda one: _fit(one[1], matching))
    records = best[1]
    if records and records[-1][1][-1:] != (END,):
        raise QUOTE_NOT_CLOSED.wrong(row=records[-1][0])
    return Grid([record for record in records[:-1] if any(cell.strip() for cell in record[1])])


def _utf_8_or_windows(content: bytes) -> str:
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError:
        return content.decode("cp1252")


def _records(text: str, delimiter: str) -> list[tuple[int, Sequence[str]]]:
    last = "" if text.endswith(("\n", "\r")) or not text else "\r\n"
    lines = io.StringIO(f"{text}{last}{END}", newline="")
    found: list[tuple[int, Sequence[str]]] = []
    try:
        for number, cells in enumerate(csv.reader(lines, delimiter=delimiter), start=1):
            if number > MOST_RECORDS:
                raise TOO_MANY_RECORDS.wrong(most=f"{MOST_RECORDS:,}")
            found.append((number, tuple(_unguarded(cell) for cell in cells)))
    except csv.Error:
        # A cell longer than any spreadsheet's: a quotation mark that is never closed
        found.append((len(found) + 1, ("",)))
    return found


def _unguarded(cell: str) -> str:
    """A text without the apostrophe that keeps spreadsheets from taking it for a formula."""
    return cell[1:] if cell[:1] == "'" and cell[1:2] in ("=", "+", "-", "@", "\t") else cell


def _fit(records: list[tuple[int, Sequence[str]]], matching: Matching) -> tuple[bool, int, int]:
    closed = bool(records) and records[-1][1][-1:] == (END,)
    headings = find_headings(records, matching)
    known = len(headings.fields) if headings else 0
    return closed, known, max((len(cells) for _, cells in records), default=0)

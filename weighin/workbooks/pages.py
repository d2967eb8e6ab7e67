"""A list of teams as its page shows it: the text that was read, what each column means, teams, faults."""

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.roster.domain.list_faults import TOO_LARGE_A_FILE
from weighin.roster.domain.team_list import FIELDS, Column, Grid, ListFault, ListRow, Matching, TeamList
from weighin.roster.parsing.team_lists.headings import field_of, key_of
from weighin.roster.parsing.team_lists.reading import read_list
from weighin.roster.queries import beside_of
from weighin.rules.words.scores import status_in_words
from weighin.workbooks.parsing.team_lists import ListRefused, open_list

MOST_TEXT = 1_500_000
MOST_SHOWN = 500
OPEN = 12  # teams that stand open before the others are folded

ShownRow = tuple[ListRow, bool, str]


@dataclass
class Preview:
    """What was read; ``text`` is the list to go on from, None where a mended file must be chosen."""

    found: TeamList
    grid: Grid = field(default_factory=lambda: Grid([]))
    matching: Matching = field(default_factory=Matching)
    text: str | None = None
    columns: Sequence[Column] = ()
    heading_row: int | None = None

    @property
    def headings(self) -> str:
        """The headings that the choices of the page belong to."""
        return _digest([key_of(column.heading) for column in self.columns])

    @property
    def seen(self) -> str:
        """What stands on this page: another list is looked at before it comes in."""
        return _digest([self.text or "", *(f"{column.index} {column.field}" for column in self.columns)])

    @property
    def ready(self) -> bool:
        """Whether its teams can come in."""
        return bool(self.found.rows) and not self.found.faults and self.text is not None

    @property
    def open(self) -> list[ShownRow]:
        """The first teams and those to correct, each with whether something is wrong with it, and what it is if not entered."""
        return [one for n, one in enumerate(self._rows()) if n < OPEN or one[1]]

    @property
    def folded(self) -> list[ShownRow]:
        """The other teams that are shown."""
        return [one for one in self._rows()[OPEN:] if not one[1]]

    def _rows(self) -> list[ShownRow]:
        return [(row, row.row in self.found.faulty_rows, _status(row)) for row in self.found.rows[:MOST_SHOWN]]

    @property
    def more(self) -> int:
        """How many teams are not shown."""
        return max(0, len(self.found.rows) - MOST_SHOWN)

    @property
    def faults(self) -> Sequence[ListFault]:
        """The first faults."""
        return self.found.faults[:MOST_SHOWN]

    @property
    def choices(self) -> list[tuple[Column, list[tuple[str, str, bool]]]]:
        """Each column with what it can mean: field, label, whether it does."""
        labels = {"": gettext("left out"), **field_labels()}
        return [
            (column, [(name, label, name == column.field) for name, label in labels.items()]) for column in self.columns
        ]


def preview_of(event: Event, said: Mapping[str, Any], asked: Mapping[str, str]) -> Preview:
    """Read what a valid form says; ``asked`` is the whole request, with what its columns mean."""
    file = said["file"]
    content = file.read() if file else said["text"].encode("utf-8")
    try:
        grid = open_list(content, file.name if file else gettext("The list"), Matching())
    except ListRefused as refused:
        return Preview(TeamList(faults=[refused.fault]), text=None if file else said["text"])
    preview = _read(event, grid, Matching(), said)
    if not file and asked.get("headings") == preview.headings:
        row = asked.get("heading_row", "")
        at = {column.index: asked.get(f"column_{column.index}", "") for column in preview.columns}
        known = {index: name if name in FIELDS else "" for index, name in at.items()}
        preview = _read(event, grid, Matching(at=known, row=int(row) if row.isdigit() else None), said)
    return preview


def _read(event: Event, grid: Grid, matching: Matching, said: Mapping[str, Any]) -> Preview:
    found = read_list(grid, beside_of(event), matching, said["namesakes"])
    number, words = found.heading, [column.heading for column in found.columns]
    columns: Sequence[Column] = found.columns
    if number is None and grid.rows:
        # No headings were found: the first row that is filled may be told what it holds
        number, words = grid.rows[0][0], list(grid.rows[0][1])
        columns = [
            Column(index, word.strip(), matching.at.get(index, field_of(word))) for index, word in enumerate(words)
        ]
    # What a text cannot say, merged cells and formulas, would be lost without a word
    plain = not grid.wrong and not any(fault.code == "merged" for fault in found.faults)
    text = _text(grid) if plain else None
    if text is not None and len(text) > MOST_TEXT:
        found.faults.append(ListFault(None, None, "too_large", TOO_LARGE_A_FILE.says()))
        text = None
    return Preview(found, grid, matching, text, columns, number)


def pots_without_fee(event: Event, preview: Preview | None) -> int:
    """How many teams of a list are marked in a big fish pot that the event's rules do not have."""
    if preview is None or rules_of(event).big_fish_pot_fee:
        return 0
    return sum(row.big_fish_pot for row in preview.found.rows)


def _text(grid: Grid) -> str:
    """The list with tabs, each row at its number."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter="\t", lineterminator="\n")
    at = 1
    for number, cells in grid.rows:
        out.write("\n" * (number - at))
        writer.writerow(cells)
        at = number + 1
    return out.getvalue()


def _status(row: ListRow) -> str:
    return "" if row.status == "entered" else status_in_words(row.status)


def _digest(parts: Sequence[str]) -> str:
    return sha256("\n".join(parts).replace("\r", "").encode()).hexdigest()[:16]


def field_labels() -> dict[str, str]:
    """What a column can hold, in words."""
    return {
        "boat": gettext("boat"),
        "team": gettext("team"),
        "angler_1": gettext("first angler"),
        "angler_2": gettext("second angler"),
        "angler_3": gettext("third angler"),
        "anglers": gettext("all anglers"),
        "phone": gettext("phone"),
        "emergency": gettext("emergency contact"),
        "email": gettext("e-mail"),
        "paid": gettext("entry fee paid"),
        "big_fish_pot": gettext("in the big fish pot"),
        "flight": gettext("flight"),
        "youth": gettext("youth team"),
        "status": gettext("status"),
        "note": gettext("note"),
    }

"""The one list of places: standings, official results, season points, a team's events. What a page fills it with.

The place stands in the margin and the total is the largest in its row; on a narrow page a row is two lines.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from django.utils.safestring import SafeString

Cell = SafeString | str
LEAST_FOLDED = 5  # a fold that hides fewer rows than these would take more room than it saves


def written(template: str, *parts: object) -> SafeString:
    """``template`` with the parts in it, escaped where they are no markup yet: ``format_html`` for nothing lazy.

    It takes a sixth of the time, and a list of 300 teams has 1,600 of them.
    """
    return SafeString(template.format(*map(_escaped, parts)))


def _escaped(part: object) -> str:
    return part if isinstance(part, SafeString) else escape(str(part))


@dataclass(frozen=True)
class Column:
    """``look`` are the classes of its cells, of which ``team`` names the row; ``label`` is said before its figure on a phone.

    ``order`` is the address that sorts by it, ``sorted`` how the list is sorted by it now: ascending, descending.
    """

    look: str
    words: Cell
    label: str = ""
    order: str = ""
    sorted: str = ""


@dataclass(frozen=True)
class Row:
    """The cells in the order of the columns, and ``after`` them the lines of the sum where they are open."""

    cells: Sequence[Cell]
    key: str = ""
    current: bool = False
    after: Cell = ""


@dataclass(frozen=True)
class Places:
    """A list with its ``caption``; of more than ``first`` rows those beyond them are folded under ``all_said``."""

    caption: str
    columns: Sequence[Column]
    rows: Sequence[Row]
    empty: str
    first: int = 0
    all_said: str = ""
    look: str = ""

    @property
    def folds(self) -> bool:
        """Whether some rows are folded."""
        return 0 < self.first <= len(self.rows) - LEAST_FOLDED

    @property
    def body(self) -> SafeString:
        """Every row, put together in one piece: a page of 300 teams has too many cells for one tag each."""
        marks = [
            written(
                '<{} class="{}"{}>',
                SafeString('th role="rowheader" scope="row"')
                if column.look == "team"
                else SafeString('td role="cell"'),
                column.look,
                written(' data-label="{}"', column.label) if column.label else "",
            )
            for column in self.columns
        ]
        ends = ["</th>" if column.look == "team" else "</td>" for column in self.columns]
        return SafeString("\n".join(self._row(number, row, marks, ends) for number, row in enumerate(self.rows)))

    def _row(self, number: int, row: Row, marks: Sequence[str], ends: Sequence[str]) -> SafeString:
        looks = [("current", row.current), ("beyond", self.folds and number >= self.first)]
        look = " ".join(look for look, is_so in looks if is_so)
        cells = (f"{m}{_escaped(cell)}{e}" for m, cell, e in zip(marks, row.cells, ends, strict=True))
        return written(
            '<tr role="row"{}{}>{}</tr>{}',
            written(' id="{}"', row.key) if row.key else "",
            written(' class="{}"', look) if look else "",
            SafeString("".join(cells)),
            row.after,
        )


def place_said(place: int | None, words: str) -> Cell:
    """What stands in the margin: the place, with a word under it (tied), or the word alone (withdrawn)."""
    if place is None:
        return written('<span class="word label">{}</span>', words) if words else ""
    return written('{}<span class="label">{}</span>', place, words) if words else str(place)

"""A field of a kind of row: declared once, it gives the form, the message, the column, the chained content and the JSON."""

from collections.abc import Sequence
from dataclasses import KW_ONLY, dataclass
from typing import Any

from weighin.records.domain.kinds import Kind
from weighin.rules.faults import Sentence

Text = Any  # a text, or one that is looked up when it is shown
AS_NAMED = "*"
_KINDS_OWN = object()


@dataclass(frozen=True)
class Field:
    """One written value of a row.

    ``name`` is the row's attribute, ``label`` what a page calls it, ``meaning`` what programs and workbooks are told of
    it, ``help`` what stands beside it on a page. ``wire`` is its name in messages, ``object.name`` inside an object of the message, empty when stations do not
    send it. ``column`` is its heading in the workbook, empty when it has none there. ``missing`` is said where it is
    ``required`` and nothing is written; ``by_stations`` it is required of stations alone. ``since`` is the version of
    the chained content from which it is bound in; 0 = it is not chained.
    """

    name: str
    kind: Kind
    label: Text = ""
    meaning: Text = ""
    _: KW_ONLY
    help: Text = ""
    unit: Text = ""
    required: bool = False
    by_stations: bool = False
    missing: Sentence | None = None
    wire: str = AS_NAMED
    column: str = AS_NAMED
    since: int = 1
    default: Any = _KINDS_OWN

    @property
    def blank(self) -> Any:
        """What the row holds when nothing is written."""
        return self.kind.blank if self.default is _KINDS_OWN else self.default

    @property
    def sent_as(self) -> str:
        """Its name in messages; empty when stations do not send it."""
        return self.name if self.wire == AS_NAMED else self.wire

    @property
    def heading(self) -> str:
        """Its heading in the workbook; empty when it has none there."""
        return self.name if self.column == AS_NAMED else self.column


def named(fields: Sequence[Field]) -> dict[str, Field]:
    """The fields by name."""
    return {field.name: field for field in fields}

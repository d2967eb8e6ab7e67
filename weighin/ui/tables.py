"""The ruled table every list page starts from."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import django_tables2 as tables
from django.utils.html import format_html
from django.utils.safestring import SafeString

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

MOST_PER_PAGE = 500


class RuledTable(tables.Table):  # type: ignore[misc]
    """Ruled lines, sortable heads, an empty-state sentence; on a phone each row becomes a short paragraph.

    Subclasses set ``caption`` (said to screen readers), ``named_by`` (the column that names its row),
    ``look`` (further classes of the table) and, in Meta, ``empty_text`` in words that say what will be here
    and when. ``stacks = False`` keeps the columns on a phone and lets the table scroll by itself.
    """

    caption: "StrOrPromise" = ""
    named_by = ""
    look = ""
    stacks = True

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("template_name", "ui/ruled_table.html")
        kwargs.setdefault("default", "")
        classes = ("ruled", self.look, "stacks" if self.stacks else "")
        kwargs.setdefault("attrs", {**self._meta.attrs, "class": " ".join(filter(None, classes))})
        super().__init__(*args, **kwargs)

    def paginate(self, *args: Any, per_page: int | None = None, **kwargs: Any) -> None:
        """Cut the rows into pages; readers may ask for other pages than the list's own, within bounds."""
        super().paginate(*args, per_page=per_page and min(max(per_page, 1), MOST_PER_PAGE), **kwargs)


def ordered_by(key: Callable[[Any], Any]) -> Callable[[Any, list[Any], bool], tuple[list[Any], bool]]:
    """``order_held = ordered_by(lambda row: ...)``: the rows of a table's list by what is not in a cell itself."""

    def order(table: Any, rows: list[Any], is_descending: bool) -> tuple[list[Any], bool]:
        rows.sort(key=key, reverse=is_descending)
        return rows, True

    return order


class FigureColumn(tables.Column):  # type: ignore[misc]
    """Figures: set to the right, all of one width."""

    attrs = {"cell": {"class": "num"}, "tf": {"class": "num"}}


class TotalColumn(tables.Column):  # type: ignore[misc]
    """The figure a row is read for: the largest in it."""

    attrs = {"cell": {"class": "total"}, "tf": {"class": "total"}}


class NameColumn(tables.Column):  # type: ignore[misc]
    """The name of the row, in the words type."""

    attrs = {"td": {"class": "name"}}


def row_link(url: str, words: str, of_which: str) -> SafeString:
    """A link in a row: its words, and after them for screen readers what of."""
    return format_html('<a href="{}">{}<span class="for-ears"> {}</span></a>', url, words, of_which)

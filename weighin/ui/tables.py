"""The ruled table every list page starts from."""

from typing import TYPE_CHECKING, Any

import django_tables2 as tables

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


class FigureColumn(tables.Column):  # type: ignore[misc]
    """Figures: set to the right, all of one width."""

    attrs = {"cell": {"class": "num"}, "tf": {"class": "num"}}


class TotalColumn(tables.Column):  # type: ignore[misc]
    """The figure a row is read for: the largest in it."""

    attrs = {"cell": {"class": "total"}, "tf": {"class": "total"}}


class NameColumn(tables.Column):  # type: ignore[misc]
    """The name of the row, in the words type."""

    attrs = {"td": {"class": "name"}}

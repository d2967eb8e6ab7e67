"""Tables of rows that may be changed: the way to do so stands last, a note under the row's name."""

from collections.abc import Iterable
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext

from weighin.events.domain.care_context import CareContext
from weighin.ui.tables import RuledTable, row_link


def with_note(name: str, note: str) -> SafeString:
    """A row's name with its note under it, small."""
    return format_html('{}<span class="small quiet">{}</span>', name, note) if note else format_html("{}", name)


class RowsTable(RuledTable):
    """Rows of an event that may be changed: the way to do so stands last."""

    do_it = tables.Column(empty_values=(), verbose_name="", attrs={"cell": {"class": "do"}})
    address = ""
    look = "dense packs"

    class Meta:
        orderable = False

    def __init__(self, rows: Iterable[Any], care_context: CareContext, may_write: bool, **kwargs: Any):
        hidden = [] if may_write else ["do_it"]
        if len(care_context.days) == 1 and "day" in self.base_columns:
            hidden.append("day")
        super().__init__(list(rows), exclude=hidden, **kwargs)
        self.care_context = care_context

    def render_do_it(self, record: Any) -> SafeString:
        url = reverse(self.address, args=[self.care_context.event.slug, record.pk])
        return row_link(url, gettext("edit"), str(record))

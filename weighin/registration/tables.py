"""Draws, and the launch order, in rows."""

from typing import Any

import django_tables2 as tables
from django.utils.translation import gettext_lazy

from weighin.ui.tables import FigureColumn, NameColumn, RuledTable


class DrawnTable(RuledTable):
    """What each team drew."""

    result = FigureColumn()
    team = NameColumn(verbose_name=gettext_lazy("Team"))
    entry = FigureColumn(verbose_name=gettext_lazy("Entry"))

    caption = gettext_lazy("What each team drew")
    named_by = "team"
    look = "dense"

    class Meta:
        orderable = False

    def __init__(self, rows: list[dict[str, Any]], head: str):
        super().__init__(rows)
        self.columns["result"].column.verbose_name = head


class ProofTable(RuledTable):
    """What the recipe comes to for each team."""

    entry = FigureColumn(verbose_name=gettext_lazy("Entry"))
    team = NameColumn(verbose_name=gettext_lazy("Team"))
    hash = tables.Column(verbose_name="SHA-256", attrs={"td": {"class": "figure small as-text"}})

    caption = gettext_lazy("The recipe worked out for each team")
    named_by = "team"
    look = "dense"

    class Meta:
        orderable = False


class LaunchTable(RuledTable):
    """The launch order."""

    place = FigureColumn(verbose_name=gettext_lazy("Launches"))
    boat = FigureColumn(verbose_name=gettext_lazy("Boat"))
    team = NameColumn(verbose_name=gettext_lazy("Team"))
    flight = tables.Column(verbose_name=gettext_lazy("Flight"))
    status = tables.Column(verbose_name=gettext_lazy("Status"))

    caption = gettext_lazy("Launch order")
    named_by = "team"

    class Meta:
        orderable = False

"""The sheets that are written on in the morning: who launches when, what every livewell was like."""

from collections.abc import Sequence

from django.utils.translation import gettext, gettext_lazy

from weighin.planning.pages.boat_cards import BoatTimes
from weighin.reports.domain.sheet import Sheet, SheetColumn, Value
from weighin.ui import figures

BOX = "□"
BOAT, TEAM = SheetColumn(gettext_lazy("Boat"), figures=True, width=0.6), SheetColumn(gettext_lazy("Team"), width=2.6)
LAUNCH = (
    SheetColumn(gettext_lazy("Place"), figures=True, width=0.6),
    SheetColumn(gettext_lazy("Launch"), figures=True, width=0.9),
    BOAT,
    TEAM,
    SheetColumn(gettext_lazy("Flight"), width=1.2),
    SheetColumn(gettext_lazy("Due"), figures=True, width=0.9),
    SheetColumn(gettext_lazy("Launched at"), width=1.6),
    SheetColumn(gettext_lazy("In at"), width=1.6),
)
CHECKS = (
    gettext_lazy("Pump runs"),
    gettext_lazy("Lid shuts"),
    gettext_lazy("No fish"),
    gettext_lazy("Ice"),
    gettext_lazy("Jackets"),
    gettext_lazy("Kill switch"),
)
LIVEWELLS = (
    BOAT,
    TEAM,
    *(SheetColumn(words, width=0.8) for words in CHECKS),
    SheetColumn(gettext_lazy("Water"), width=1),
    SheetColumn(gettext_lazy("By"), width=1),
)


def ramp_sheet(boats: Sequence[BoatTimes]) -> Sheet:
    """The boats as they launch, with room for the time of each."""
    rows = [
        (
            place,
            figures.clock(boat.launch),
            boat.entry.boat,
            boat.entry.name,
            boat.flight,
            figures.clock(boat.due),
            "",
            "",
        )
        for place, boat in enumerate(boats, 1)
    ]
    return Sheet(gettext("Launch order"), LAUNCH, rows)


def livewell_sheet(boats: Sequence[BoatTimes]) -> Sheet:
    """What is seen to on every boat before it launches."""
    rows: list[list[Value]] = [[boat.entry.boat, boat.entry.name, *(BOX for _ in CHECKS), "", ""] for boat in boats]
    return Sheet(gettext("Livewell checklist"), LIVEWELLS, rows)

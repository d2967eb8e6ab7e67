"""The launch order and what each draw gave as sheets."""

from django.utils.translation import gettext, gettext_lazy

from weighin.registration.pages.draw_words import head_of
from weighin.registration.pages.draws import LaunchSheet, Shown
from weighin.reports.domain.sheet import Sheet, SheetColumn

LAUNCH = (
    SheetColumn(gettext_lazy("Launches"), figures=True, width=0.6),
    SheetColumn(gettext_lazy("Boat"), figures=True, width=0.6),
    SheetColumn(gettext_lazy("Team"), width=3),
    SheetColumn(gettext_lazy("Flight"), width=1.2),
    SheetColumn(gettext_lazy("Status"), width=1),
)


def launch_order_sheet(sheet: LaunchSheet) -> Sheet:
    """Who launches when."""
    rows = [(row["place"], row["boat"], row["team"], row["flight"], row["status"]) for row in sheet.rows]
    return Sheet(gettext("Launch order"), LAUNCH, rows)


def draw_sheet(shown: Shown) -> Sheet:
    """What each team drew, with the recipe worked out."""
    columns = [
        SheetColumn(head_of(shown.draw), figures=shown.draw.purpose != "flights", width=0.7),
        SheetColumn(gettext("Team"), width=2),
        SheetColumn(gettext("Entry"), figures=True, width=0.5),
    ]
    rows: list[list[object]] = [[row["result"], row["team"], row["entry"]] for row in shown.draw.order]
    if shown.draw.seed:
        columns.append(SheetColumn("SHA-256", width=2.4))
        rows = [
            [*row, f"{one['hash'][:32]}\n{one['hash'][32:]}"] for row, one in zip(rows, shown.draw.order, strict=True)
        ]
    return Sheet(str(shown.draw.get_purpose_display()), columns, rows)  # type: ignore[arg-type]

"""The prizes of an event as a sheet to read out and sign."""

from django.utils.translation import gettext, gettext_lazy

from weighin.registration.forms.money import due_named
from weighin.registration.queries.cash_up import CashUp
from weighin.reports.domain.sheet import Sheet, SheetColumn

COLUMNS = (
    SheetColumn(gettext_lazy("Boat"), figures=True, width=0.7),
    SheetColumn(gettext_lazy("Team"), width=2.6),
    SheetColumn(gettext_lazy("For"), width=1.8),
    SheetColumn(gettext_lazy("Prize"), figures=True, width=1.3),
    SheetColumn(gettext_lazy("Received, signature"), width=3),
)


def pay_out_sheet(cash_up: CashUp) -> Sheet:
    """Every prize by the standings as they are, with room for a signature."""
    sign = cash_up.till.event.club.currency
    rows = [
        (one.boat, cash_up.standings.entries[one.boat].name, due_named(one), f"{sign}{one.amount:,.2f}", "")
        for one in cash_up.due
    ]
    return Sheet(
        gettext("Pay-outs"),
        COLUMNS,
        rows,
        after=(gettext("Prizes may carry tax duties, for the club and for who wins: ask someone qualified."),),
    )

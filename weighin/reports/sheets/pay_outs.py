"""The prizes of an event as a sheet to read out and sign."""

from django.utils.translation import gettext, gettext_lazy

from weighin.registration.pages.pay_outs import payees_said, to_read_out
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
    """Every prize in the order of reading out, with room for a signature where it is to be paid."""
    duties = gettext("Prizes may carry tax duties, for the club and for who wins: ask someone qualified.")
    return Sheet(gettext("Pay-outs"), COLUMNS, to_read_out(cash_up), after=(duties, *payees_said(cash_up)))

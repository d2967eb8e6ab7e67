"""Kinds of written values about money: how much, which pot."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from weighin.records.domain.kinds import Beside, Kind, Line
from weighin.registration.domain import faults
from weighin.registration.models import SidePot
from weighin.rules import values
from weighin.rules.faults import Listed
from weighin.rules.look_alikes import folded_name
from weighin.ui.parsing import typed

CENT = Decimal("0.01")
MOST = Decimal(1_000_000)
MINUSES = "-\u2212"


@dataclass(frozen=True)
class Amount(Kind):
    """An amount of money in whole cents; a minus says that it is given back, where that is possible (``signed``)."""

    signed: bool = False

    def read(self, text: str, beside: Beside) -> Decimal:
        return amount_of(text, self.signed)

    def text(self, value: Any) -> str:
        return "" if value is None else f"{value:.2f}"

    def plain(self, value: Any) -> Any:
        return None if value is None else f"{value:.2f}"

    def compared(self, value: Any, beside: Beside) -> Any:
        return value


def amount_of(text: str, signed: bool = False) -> Decimal:
    """``60``, ``$60``, ``1,396.00``; ``signed`` also ``-60``. Raises Wrong."""
    written = text.strip()
    less = signed and written[:1] in MINUSES and written != ""
    figure = typed.money(written[1:] if less else written)
    amount = values.decimal(figure, least=0, most=MOST)
    if amount != amount.quantize(CENT):
        raise values.PARTS_OF_A_CENT.wrong(written=figure)
    return (-amount if less and amount else amount).quantize(CENT)


@dataclass(frozen=True)
class PotName(Line):
    """A side pot that the event has, without regard to case and spaces."""

    def read(self, text: str, beside: Beside) -> str:
        names = list(SidePot.objects.filter(event=beside.context.event_id).values_list("name", flat=True))
        written = values.line(text, 60)
        for name in names:
            if folded_name(name) == folded_name(written):
                return name
        raise faults.NO_SUCH_POT.wrong(pot=written, pots=pots_listed(names))


def pots_listed(names: list[str]) -> Any:
    """The side pots that there are, for a sentence."""
    return Listed(tuple(names)) if names else faults.NO_POT_YET.says()


@dataclass(frozen=True)
class Shares(Kind):
    """Shares between the first, second and so on of a pot, kept as they were written; none given: all to the first."""

    blank = ""

    def read(self, text: str, beside: Beside) -> str:
        if not any(shares_of(text)):
            raise faults.SHARES_ZERO.wrong()
        return ", ".join(map(str, shares_of(text)))


def shares_of(text: str) -> tuple[Decimal, ...]:
    """The shares of a pot. Raises Wrong.

    >>> shares_of("60, 40")
    (Decimal('60'), Decimal('40'))
    """
    if not text.strip():
        return (Decimal(100),)
    found: tuple[Decimal, ...] = values.items(text, lambda part: values.decimal(part, least=0, most=MOST))
    return found

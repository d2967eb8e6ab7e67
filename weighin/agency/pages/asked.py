"""Which layout is asked for, and what counts as a large fish."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from weighin.agency.pages.layouts import BY_KEY, LAYOUTS, Layout
from weighin.agency.queries.catch import LARGE_LB
from weighin.rules.values import decimal


@dataclass(frozen=True)
class Asked:
    """The layout, the size of a large fish in pounds, that size as written, and why it was not used (or nothing)."""

    layout: Layout
    large: Decimal
    written: str
    fault: str = ""


def asked_for(words: Mapping[str, str]) -> Asked:
    """Read ``layout`` and ``large``; an unknown layout means everything, a faulty size is said and not used."""
    layout = BY_KEY.get(words.get("layout", ""), LAYOUTS[0])
    written = words.get("large", "").strip()[:20] or f"{LARGE_LB}"
    try:
        return Asked(layout, decimal(written, least=Decimal("0.01"), most=100), written)
    except ValueError as error:
        return Asked(layout, LARGE_LB, written, f"{str(error)[:1].upper()}{str(error)[1:]}.")

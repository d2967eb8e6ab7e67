"""How far a scale of accuracy class III may be off: NIST Handbook 44, section 2.20, table 6.

Maintenance tolerance by the number of divisions that the test weight makes: up to 500 one division, to 2000 two, to
4000 three, above five. Acceptance tolerance, for a scale that is new or was just repaired, is half of it.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

STEPS = ((500, 1), (2000, 2), (4000, 3))
ABOVE = 5


@dataclass(frozen=True)
class Verdict:
    """A test: ``error`` is shown minus test weight, ``tolerance`` how far it may be off, both in the event's unit."""

    test_weight: Decimal
    shown: Decimal
    divisions: Decimal
    tolerance: Decimal

    @property
    def error(self) -> Decimal:
        """Shown minus laid on: positive when the scale reads heavy."""
        return self.shown - self.test_weight

    @property
    def passed(self) -> bool:
        """Whether the error is within the tolerance; equal is within."""
        return abs(self.error) <= self.tolerance


def maintenance_divisions(divisions: Decimal | Fraction) -> int:
    """The maintenance tolerance in divisions for a test weight of ``divisions``. Raises ValueError below zero.

    >>> maintenance_divisions(Decimal(700))
    2
    """
    if divisions < 0:
        raise ValueError("a test weight makes no divisions below zero")
    return next((allowed for most, allowed in STEPS if divisions <= most), ABOVE)


def judged(test_weight: Decimal, shown: Decimal, division: Decimal, new: bool = False) -> Verdict:
    """Judge one test weight. All three in one unit; ``new`` asks for the acceptance tolerance.

    Raises ValueError when the division or the test weight is not above zero.

    >>> judged(Decimal("7.00"), Decimal("7.02"), Decimal("0.01")).passed
    True
    """
    if division <= 0:
        raise ValueError("a division is more than nothing")
    if test_weight <= 0:
        raise ValueError("a test weight is more than nothing")
    allowed = maintenance_divisions(Fraction(test_weight) / Fraction(division))
    tolerance = division * allowed
    return Verdict(test_weight, shown, test_weight / division, tolerance / 2 if new else tolerance)

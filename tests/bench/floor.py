"""A fixed piece of the interpreter's own work, so that bars are multiples of what this machine does now.

A bar in milliseconds fails on a slow or busy machine and says nothing of the code; a multiple of this floor, taken in
the same run, does.
"""

from collections.abc import Callable
from decimal import Decimal
from time import process_time

ROWS = 2000
FLOOR = "2,000 rows of exact weights"


def best(act: Callable[[], object], times: int = 5) -> float:
    """The shortest of several runs, in milliseconds of this process's work: what else the machine does is left out."""
    spent = []
    for _ in range(times):
        start = process_time()
        act()
        spent.append(process_time() - start)
    return min(spent) * 1000


def floor() -> float:
    """Milliseconds for 2,000 rows of exact weights that are read, added up, written and put in order."""
    return best(_rows, 7)


def _rows() -> list[dict[str, object]]:
    rows: list[dict[str, object]] = []
    totals: list[tuple[Decimal, int]] = []
    for number in range(ROWS):
        weights = [Decimal(number % 97) / 100 + Decimal("9.47") - Decimal("0.32") for _ in range(3)]
        total = sum(weights, Decimal(0))
        totals.append((-total, number))
        rows.append({"boat": number, "weights": weights, "total": total, "text": f"boat {number}: {weights[0]:.2f}"})
    return [rows[number] for _, number in sorted(totals)]

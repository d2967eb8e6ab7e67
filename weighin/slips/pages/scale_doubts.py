"""Why a slip is in doubt, in words."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from weighin.slips.queries.scale_doubts import Mark
from weighin.scales.domain.words import size_in_words


def mark_in_words(mark: "Mark", unit: str) -> str:
    """Why a slip is in doubt, in one sentence."""
    names = " and ".join(dict.fromkeys(one.scale.name for one in mark.failures))
    size = size_in_words(mark.error, unit)
    if mark.sure:
        return f"It was weighed on scale {names} between good checks: the scale was up to {size} off."
    return f"It may have been weighed on scale {names}, which was up to {size} off; which scale it was is not recorded."

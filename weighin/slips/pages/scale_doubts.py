"""Why a slip is in doubt, in words."""

from typing import TYPE_CHECKING

from django.utils.translation import gettext

from weighin.rules.faults import Together

if TYPE_CHECKING:
    from weighin.slips.queries.scale_doubts import Mark
from weighin.scales.domain.words import size_in_words


def mark_in_words(mark: "Mark", unit: str) -> str:
    """Why a slip is in doubt, in one sentence."""
    names = Together(tuple(dict.fromkeys(one.scale.name for one in mark.failures))).shown()
    size = size_in_words(mark.error, unit)
    if mark.sure:
        return gettext("It was weighed on scale %(names)s between good checks: the scale was up to %(size)s off.") % {
            "names": names,
            "size": size,
        }
    return gettext(
        "It may have been weighed on scale %(names)s, which was up to %(size)s off; which scale it was is not recorded."
    ) % {"names": names, "size": size}

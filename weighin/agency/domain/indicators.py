"""Five figures by which an agency compares a tournament fishery from year to year. Pure."""

from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import gettext

ANGLER_DAY_HOURS = Decimal(10)


@dataclass(frozen=True)
class Indicators:
    """Percent success, mean weight, catch per angler-day, and hours per large fish; None where nothing can be divided.

    An angler-day is ten hours, as Alabama's tournament reports count it. Weights are pounds.
    """

    percent_success: Decimal | None
    mean_weight: Decimal | None
    fish_per_day: Decimal | None
    pounds_per_day: Decimal | None
    hours_per_large: Decimal | None


def indicators(
    *, angler_hours: Decimal, fished: int, successful: int, fish: int, weighed: int, pounds: Decimal, large: int
) -> Indicators:
    """Work the five figures out.

    Of ``fished`` anglers (boats, where a boat's fish are not told apart by angler) ``successful`` had at least one fish
    weighed. ``fish`` were registered, ``weighed`` of them lay on the scale and make up ``pounds``; ``large`` fish are
    those of the size the club sets (Alabama: bass of 5 lb or more). Raises ValueError for a negative figure and for more
    that succeeded than fished.

    >>> found = indicators(
    ...     angler_hours=Decimal(80799), fished=1, successful=1, fish=19526, weighed=19526, pounds=Decimal(34921), large=252
    ... )
    >>> round(found.hours_per_large), round(found.fish_per_day, 2), round(found.pounds_per_day, 2)
    (321, Decimal('2.42'), Decimal('4.32'))
    """
    if min(angler_hours, pounds) < 0 or min(fished, successful, fish, weighed, large) < 0 or successful > fished:
        raise ValueError(gettext("a count is negative, or more succeeded than fished: check the figures"))
    days = angler_hours / ANGLER_DAY_HOURS
    return Indicators(
        percent_success=Decimal(100) * successful / fished if fished else None,
        mean_weight=pounds / weighed if weighed else None,
        fish_per_day=fish / days if days else None,
        pounds_per_day=pounds / days if days else None,
        hours_per_large=angler_hours / large if large else None,
    )

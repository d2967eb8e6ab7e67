"""Minutes held and in the bag, and the checks of fish care that passed or failed.

All pure; the bounds are the rule sheet's and the meanings the project's scoring contract's.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from weighin.events.domain.temperatures import Temperature
from weighin.rules.rulebook import Rulebook

CHECKS = ("pump", "thermometer", "ice", "on_board", "held", "bag", "cooling", "oxygen")
TENTH = Decimal("0.1")


@dataclass(frozen=True)
class Times:
    """The moments that bound how long fish were held: of the care note, the slip, and the day's start."""

    start: datetime
    launched: datetime | None = None
    first_fish: datetime | None = None
    bag_issued: datetime | None = None
    weighed: datetime | None = None
    bag_emptied: datetime | None = None
    released: datetime | None = None


@dataclass(frozen=True)
class Observed:
    """What a care note says; None is "not recorded". ``lake`` is the day's lake temperature, else the event's."""

    pump_ok: bool | None = None
    thermometer_ok: bool | None = None
    ice_lb: Decimal | None = None
    most_on_board: int | None = None
    livewell: Temperature | None = None
    livewell_do: Decimal | None = None
    lake: Temperature | None = None


@dataclass(frozen=True)
class Care:
    """A team's fish care of one day in figures: minutes with one decimal, and the names of checks passed and failed."""

    minutes_held: Decimal | None
    held_is_upper_bound: bool | None
    minutes_in_bag: Decimal | None
    passed: tuple[str, ...]
    failed: tuple[str, ...]


def care(rulebook: Rulebook, times: Times, observed: Observed) -> Care:
    """Work out the care of a team and day; what is not recorded neither passes nor fails."""
    held, upper = minutes_held(times)
    bag = minutes_in_bag(times)
    verdicts = _verdicts(rulebook, observed, held, bag)
    return Care(
        minutes_held=held,
        held_is_upper_bound=upper,
        minutes_in_bag=bag,
        passed=tuple(name for name in CHECKS if verdicts[name] is True),
        failed=tuple(name for name in CHECKS if verdicts[name] is False),
    )


def minutes_held(times: Times) -> tuple[Decimal | None, bool | None]:
    """The longest any fish can have been held, and whether that is an upper bound (no first fish noted)."""
    end = times.released or times.weighed
    if end is None:
        return None, None
    return _minutes(times.first_fish or times.launched or times.start, end), times.first_fish is None


def minutes_in_bag(times: Times) -> Decimal | None:
    """From bag issued to bag emptied, else to weighed; None when an end is missing."""
    end = times.bag_emptied or times.weighed
    return None if end is None or times.bag_issued is None else _minutes(times.bag_issued, end)


def _minutes(start: datetime, end: datetime) -> Decimal:
    """Real minutes with one decimal, half up."""
    # In UTC: two times of one zone would be subtracted by the clock on the wall, also where it was put forward
    span = end.astimezone(UTC) - start.astimezone(UTC)
    seconds = Fraction(span.days * 86400 + span.seconds) + Fraction(span.microseconds, 1_000_000)
    tenths = seconds / 6
    return (Decimal(tenths.numerator) / Decimal(tenths.denominator)).quantize(Decimal(1), ROUND_HALF_UP) * TENTH


def _verdicts(
    rulebook: Rulebook, seen: Observed, held: Decimal | None, bag: Decimal | None
) -> Mapping[str, bool | None]:
    warm = seen.lake is not None and seen.lake.fahrenheit >= rulebook.care_warm_f
    cooling = None if seen.lake is None or seen.livewell is None else seen.lake.fahrenheit - seen.livewell.fahrenheit
    return {
        "pump": seen.pump_ok,
        "thermometer": seen.thermometer_ok,
        "ice": seen.ice_lb > 0 if warm and seen.ice_lb is not None else None,
        "on_board": _at_most(seen.most_on_board, rulebook.boat_limit),
        "held": _at_most(held, rulebook.care_max_held_minutes),
        "bag": _at_most(bag, rulebook.care_max_bag_minutes),
        "cooling": _at_most(cooling, rulebook.care_max_cooling_f),
        "oxygen": None if seen.livewell_do is None else seen.livewell_do >= rulebook.care_min_do,
    }


def _at_most(figure: Decimal | int | None, most: Decimal | int | None) -> bool | None:
    return None if figure is None or most is None else figure <= most

"""A team's figures of the season in words."""

from decimal import Decimal

from django.utils.translation import gettext

from weighin.care.queries.season import MeanTime, TeamRecord
from weighin.events.domain.measured import minutes
from weighin.survival.clusters import Clustered
from weighin.ui.figures import SPACE

SHORT = 10  # minutes, below which a tenth is shown


def live_share(rate: Clustered | None) -> str:
    """The share alive by release: 96.4 %; 100 % only where every fish was."""
    return "" if rate is None else f"{_share(1 - rate.rate)}{SPACE}%"


def live_range(rate: Clustered | None) -> str:
    """Its 95 % range: 92.6 to 100 %."""
    return (
        ""
        if rate is None
        else gettext("%(low)s to %(high)s %%") % {"low": _share(1 - rate.high), "high": _share(1 - rate.low)}
    )


def time_said(found: MeanTime | None, at_most: bool = False) -> str:
    """A mean time: 6 h 10 min; ``at_most`` where it may have been shorter."""
    if found is None:
        return ""
    mean = _minutes(found.mean)
    return gettext("at most %(minutes)s") % {"minutes": mean} if at_most else mean


def time_range(found: MeanTime | None) -> str:
    """The 95 % range of a mean time, or that there is but one day."""
    if found is None:
        return ""
    if found.low is None or found.high is None:
        return gettext("one day")
    low, high = _minutes(found.low), _minutes(found.high)
    unit = f"{SPACE}min"
    return gettext("%(low)s to %(high)s") % {
        "low": low.removesuffix(unit) if high.endswith(unit) else low,
        "high": high,
    }


def checks_said(team: TeamRecord) -> str:
    """How many of the recorded checks were kept: 21 of 24."""
    kept, recorded = team.checks
    return gettext("%(kept)s of %(recorded)s") % {"kept": kept, "recorded": recorded} if recorded else ""


def _share(share: float) -> str:
    """Per cent with a decimal; what is not quite all or none is never rounded to it."""
    if share in (0.0, 1.0):
        return f"{100 * share:.0f}"
    return f"{min(max(100 * share, 0.1), 99.9):.1f}"


def _minutes(value: float) -> str:
    return minutes(Decimal(repr(round(value) if value >= SHORT else round(value, 1))))

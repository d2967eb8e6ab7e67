"""A season of fish care in words."""

from decimal import Decimal

from weighin.fishcare.season.honours import Honours
from weighin.fishcare.season.queries import CareRecord, MeanTime, TeamRecord
from weighin.fishcare.words import minutes
from weighin.survival.clusters import Clustered
from weighin.ui.templatetags.ui import SPACE, counted, in_words, percent

FISH = "fish,fish"
SHORT = 10  # minutes, below which a tenth is shown
FIRST = 3  # teams told by their place when none is named


def headline(record: CareRecord) -> str:
    """The finding."""
    if not record.fish:
        return "No fish is on a slip of this season yet."
    found = record.honours
    if found is None:
        return f"{counted(record.fish - record.lost, FISH)} of {record.fish:,} alive by release."
    teams = names(record)
    won = [teams[standing.team] for standing in found.honoured]
    if not won:
        return "No team stands out beyond chance."
    if len(won) == 1:
        return f"{won[0]} lost fewer fish than chance explains."
    return f"{in_words(len(won)).capitalize()} teams lost fewer fish than chance explains."


def honours_said(record: CareRecord, found: Honours) -> str:
    """Who is named for care, or who stands first in the order without being named."""
    teams = names(record)
    if found.honoured:
        return f"Named for care: {_listed([teams[one.team] for one in found.honoured])}."
    first = [f"{teams[one.team]} ({percent(one.shrunk.rate)})" for one in found.standings[:FIRST]]
    return (
        f"Fewest dead, adjusted for small numbers: {_listed(first)}. The upper limit of each reaches the club’s "
        f"{percent(found.club)}, so no team is named this season."
    )


def names(record: CareRecord) -> dict[object, str]:
    """The teams' names by their key."""
    return {team.key: team.team for team in record.teams}


def live_share(rate: Clustered | None) -> str:
    """The share alive by release: 96.4 %; 100 % only where every fish was."""
    return "" if rate is None else f"{_share(1 - rate.rate)}{SPACE}%"


def live_range(rate: Clustered | None) -> str:
    """Its 95 % range: 92.6 to 100 %."""
    return "" if rate is None else f"{_share(1 - rate.high)} to {_share(1 - rate.low)}{SPACE}%"


def time_said(found: MeanTime | None, at_most: bool = False) -> str:
    """A mean time: 6 h 10 min; ``at_most`` where it may have been shorter."""
    if found is None:
        return ""
    return f"{'at most ' if at_most else ''}{_minutes(found.mean)}"


def time_range(found: MeanTime | None) -> str:
    """The 95 % range of a mean time, or that there is but one day."""
    if found is None:
        return ""
    if found.low is None or found.high is None:
        return "one day"
    low, high = _minutes(found.low), _minutes(found.high)
    unit = f"{SPACE}min"
    return f"{low.removesuffix(unit) if high.endswith(unit) else low} to {high}"


def checks_said(team: TeamRecord) -> str:
    """How many of the recorded checks were kept: 21 of 24."""
    kept, recorded = team.checks
    return f"{kept} of {recorded}" if recorded else ""


def _share(share: float) -> str:
    """Per cent with a decimal; what is not quite all or none is never rounded to it."""
    if share in (0.0, 1.0):
        return f"{100 * share:.0f}"
    return f"{min(max(100 * share, 0.1), 99.9):.1f}"


def _minutes(value: float) -> str:
    return minutes(Decimal(repr(round(value) if value >= SHORT else round(value, 1))))


def _listed(found: list[str]) -> str:
    return found[0] if len(found) == 1 else f"{', '.join(found[:-1])} and {found[-1]}"

"""A season of fish care in words."""

from weighin.care.domain.honours import Honours
from weighin.care.queries.season import CareRecord
from weighin.care.tables.season_words import FISH
from weighin.ui.templatetags.ui import counted, in_words, percent

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


def _listed(found: list[str]) -> str:
    return found[0] if len(found) == 1 else f"{', '.join(found[:-1])} and {found[-1]}"

"""A season of fish care in words."""

from django.utils.translation import gettext, ngettext

from weighin.care.domain.honours import Honours
from weighin.care.queries.season import CareRecord
from weighin.rules.faults import Together
from weighin.ui.templatetags.ui import counted, in_words, percent

FIRST = 3  # teams told by their place when none is named


def headline(record: CareRecord) -> str:
    """The finding."""
    if not record.fish:
        return gettext("No fish is on a slip of this season yet.")
    found = record.honours
    if found is None:
        return gettext("%(fish)s of %(every)s alive by release.") % {
            "fish": counted(record.fish - record.lost, "fish"),
            "every": f"{record.fish:,}",
        }
    teams = names(record)
    won = [teams[standing.team] for standing in found.honoured]
    if not won:
        return gettext("No team is clearly better than chance.")
    return ngettext(
        "%(team)s lost fewer fish than chance explains.",
        "%(teams)s teams lost fewer fish than chance explains.",
        len(won),
    ) % {"team": won[0], "teams": in_words(len(won)).capitalize()}


def honours_said(record: CareRecord, found: Honours) -> str:
    """Who is named for care, or who stands first in the order without being named."""
    teams = names(record)
    if found.honoured:
        return gettext("Named for care: %(teams)s.") % {
            "teams": Together(tuple(teams[one.team] for one in found.honoured))
        }
    first = [f"{teams[one.team]} ({percent(one.shrunk.rate)})" for one in found.standings[:FIRST]]
    return gettext(
        "Fewest dead, adjusted for small numbers: %(first)s. The range of each reaches the club’s %(club)s, so no team is named."
    ) % {"first": Together(tuple(first)), "club": percent(found.club)}


def names(record: CareRecord) -> dict[object, str]:
    """The teams' names by their key."""
    return {team.key: team.team for team in record.teams}

"""What can be wrong with the boat that a row is about."""

from weighin.rules.faults import Sentence, gettext_noop

NO_SUCH_BOAT = Sentence(
    "no_such_boat",
    gettext_noop("there is no boat %(boat)s in this event: correct the number or add the team first"),
)
BOAT_MISSING = Sentence("boat_missing", gettext_noop("the boat is missing: write its number"))
DAY_MISSING = Sentence("day_missing", gettext_noop("the day is missing: write its number, such as 1"))
NO_SUCH_TEAM = Sentence(
    "no_such_team", gettext_noop("there is no team %(team)s in this event: correct the number or add the team first")
)
TEAM_MISSING = Sentence("team_missing", gettext_noop("the boat is missing: write its number"))

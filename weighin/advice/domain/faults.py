"""What can be wrong with a change of rules."""

from weighin.rules.faults import Sentence, gettext_noop, ngettext_noop

CHANGE_WITHOUT_REASON = Sentence(
    "change_without_reason", gettext_noop("this is blank: say why the rules change, it stands with the change")
)
NOT_OF_SEASON = Sentence(
    "not_of_season",
    gettext_noop("%(key)s is a rule of each event: a season says its points, count_best and season_ties"),
)
NO_RULE_CHANGED = Sentence("no_rule_changed", gettext_noop("no rule is changed: change one, then look at it"))
NOT_WEIGHED_YET = Sentence(
    "not_weighed_yet", gettext_noop("no slip is saved yet: change the rule sheet itself, nobody was scored by it")
)
CHANGED_SINCE_LOOK = Sentence(
    "changed_since_look",
    gettext_noop("something was written in the event since you looked: look again at what the change does, then save"),
)
NOT_REPLAYED = Sentence("not_replayed", gettext_noop("%(why)s The rules stay as they are."))
NO_LATER_DAY = Sentence(
    "no_later_day", gettext_noop("no day is still to come: a mistake in the sheet is corrected for the whole event")
)
DAY_GOING_ON = Sentence(
    "day_going_on",
    gettext_noop(
        "day %(day)s is not over, %(weighed)s of %(boats)s boats are weighed: change the rules for the next day once they "
        "are, or correct them for the whole event"
    ),
)
RULES_OF_WHOLE_EVENT = Sentence(
    "rules_of_whole_event",
    gettext_noop("%(keys)s cannot differ by day: correct the whole event, or leave that as it is"),
)
CHANGES_DAYS_WEIGHED = Sentence(
    "changes_days_weighed",
    ngettext_noop(
        "it would score a slip of a day already fished otherwise, of boat %(boats)s, and a result is worked out by one "
        "rule sheet: correct the whole event, or leave that rule as it is",
        "it would score %(n)s slips of days already fished otherwise, of boats %(boats)s, and a result is worked out by "
        "one rule sheet: correct the whole event, or leave that rule as it is",
    ),
)
CHANGES_CHECKS = Sentence(
    "changes_checks",
    gettext_noop(
        "it would change the fish care checks of days already fished, of these boats: %(boats)s. Correct the whole event, "
        "or leave that rule as it is"
    ),
)

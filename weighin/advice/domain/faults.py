"""What can be wrong with a change of rules."""

from weighin.rules.faults import Sentence, gettext_noop

CHANGE_WITHOUT_REASON = Sentence(
    "change_without_reason", gettext_noop("this is blank: say why the rules change, it stands with the change")
)
NOT_OF_SEASON = Sentence(
    "not_of_season",
    gettext_noop("%(key)s is a rule of each event: a season says its points, count_best and season_ties"),
)

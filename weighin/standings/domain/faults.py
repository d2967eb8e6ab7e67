"""What keeps a result from being published, and an event from being closed or opened."""

from weighin.rules.faults import Sentence, gettext_noop

REOPENED_WITHOUT_REASON = Sentence("reopened_without_reason", gettext_noop("write why the event is reopened"))
DOUBLED_DAY = Sentence(
    "doubled_day", gettext_noop("boat %(boats)s has two slips for one day: pick the one that counts first")
)
NOTHING_TO_PUBLISH = Sentence("nothing_to_publish", gettext_noop("no slip is saved yet: there is no result to publish"))
NOTHING_CHANGED = Sentence(
    "nothing_changed", gettext_noop("nothing changed since version %(version)s: there is nothing new to publish")
)
NEW_VERSION_WITHOUT_REASON = Sentence(
    "new_version_without_reason", gettext_noop("version %(version)s is published: write why there is a new one")
)
NO_MOMENT = Sentence(
    "no_moment", gettext_noop("'%(written)s' is not a time: write it as 4:20 PM, or as Jun 20, 2026, 4:20 PM")
)
NOT_COME_YET = Sentence("moment_not_come_yet", gettext_noop("%(written)s is in the future: write when it was"))
POSTED_ALREADY = Sentence(
    "posted_already", gettext_noop("this result is posted already: publish it to make it official")
)
OFFICIAL_ALREADY = Sentence(
    "official_already",
    gettext_noop("version %(version)s is official: publish a correction as the next version instead"),
)
WHO_PROTESTS = Sentence("who_protests_missing", gettext_noop("this is blank: write which team or person protests"))
NO_MATTER = Sentence("protest_without_words", gettext_noop("this is blank: write what the protest says"))
COULD_MISSING = Sentence("could_missing", gettext_noop("choose what it could change: other prizes can then be paid"))
NO_SUCH_SLIP = Sentence("protest_of_no_slip", gettext_noop("there is no slip %(slip)s in this event"))
SLIP_OF_ANOTHER = Sentence(
    "protest_slip_of_another", gettext_noop("slip %(slip)s belongs to boat %(boat)s: correct one of the two")
)
NO_SUCH_PROTEST = Sentence("no_such_protest", gettext_noop("there is no protest %(case)s"))
RULED_ALREADY = Sentence(
    "ruled_already", gettext_noop("protest %(case)s has a ruling already: correct that ruling instead")
)
OUTCOME_MISSING = Sentence("outcome_missing", gettext_noop("choose how the protest was ruled"))
NO_RULING_WORDS = Sentence("ruling_without_words", gettext_noop("this is blank: write what was ruled, and why"))
RULED_BY_MISSING = Sentence("ruled_by_missing", gettext_noop("this is blank: write who ruled"))
MINUTES_MISSING = Sentence("protest_minutes_missing", gettext_noop("this is blank: write the minutes, 0 for none"))

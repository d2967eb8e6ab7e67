"""What can be wrong with a care note."""

from weighin.rules.faults import Sentence, gettext_noop

DAY_WAS_CANCELLED = Sentence("note_of_a_cancelled_day", gettext_noop("day %(day)s was cancelled: it has no care notes"))
MORE_ABSENT_THAN_CHECKED = Sentence(
    "more_reflexes_absent_than_checked",
    gettext_noop("more reflexes are absent than were checked: count again"),
)
AFTER_THE_WEIGHING = Sentence(
    "time_after_the_weighing",
    gettext_noop("%(field)s is after the fish were weighed or released: correct the time"),
)
LAUNCH_MISSING = Sentence(
    "launch_missing",
    gettext_noop("the fish were weighed or released before the day started: add when the boat launched"),
)
CHANGED_ON_THE_PAGE = Sentence(
    "note_changed_on_the_page",
    gettext_noop("the boat’s care note was changed on the page since: correct it there"),
)
NOTE_STANDS = Sentence(
    "sent_note_stands",
    gettext_noop("care note %(number)s stands in the boat’s care note: correct it instead"),
)
NOTE_CHANGED_MEANWHILE = Sentence(
    "note_changed_meanwhile",
    gettext_noop("somebody else saved this note meanwhile: theirs stands above, yours below; save again to replace it"),
)
NEITHER_HOLDS = Sentence(
    "neither_note_holds", gettext_noop("choose which of the two is right: use one of the two buttons")
)
NO_REASON_TO_SETTLE = Sentence(
    "no_reason_to_settle", gettext_noop("add the reason, in a few words: the history shows it")
)
REASON_TO_SETTLE_TOO_LONG = Sentence("reason_to_settle_too_long", gettext_noop("write %(most)s characters or fewer"))
SETTLED_MEANWHILE = Sentence(
    "note_settled_meanwhile",
    gettext_noop("somebody else has settled this note meanwhile"),
)

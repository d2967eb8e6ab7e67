"""What keeps a result from being published, and an event from being closed or opened."""

from weighin.rules.faults import Sentence, gettext_noop

REOPENED_WITHOUT_REASON = Sentence("reopened_without_reason", gettext_noop("write why the event is opened again"))
DOUBLED_DAY = Sentence(
    "doubled_day", gettext_noop("boat %(boats)s has two slips for one day: settle which one counts first")
)
NOTHING_TO_PUBLISH = Sentence("nothing_to_publish", gettext_noop("no slip is kept yet: there is no result to publish"))
NOTHING_CHANGED = Sentence(
    "nothing_changed", gettext_noop("nothing changed since version %(version)s: there is nothing new to publish")
)
NEW_VERSION_WITHOUT_REASON = Sentence(
    "new_version_without_reason", gettext_noop("version %(version)s is out: write why there is a new one")
)

"""What can be wrong with a series."""

from weighin.rules.faults import Sentence, gettext_noop

SERIES_WITHOUT_NAME = Sentence("series_without_name", gettext_noop("a series needs a name, such as Night series"))
SERIES_TAKEN = Sentence(
    "series_taken",
    gettext_noop("%(season)s has a series called %(name)s already: choose another name or edit that one"),
)
SERIES_WITHOUT_EVENTS = Sentence(
    "series_without_events", gettext_noop("a series needs at least one event: choose some")
)
EVENT_NOT_OF_SEASON = Sentence(
    "event_not_of_season",
    gettext_noop("%(event)s is not an event of %(season)s: choose from %(there)s"),
)
EVENT_TWICE_IN_SERIES = Sentence(
    "event_twice_in_series", gettext_noop("%(event)s is named twice: name each event once")
)
CLASS_MISSING = Sentence("class_missing", gettext_noop("the class is missing: choose one"))

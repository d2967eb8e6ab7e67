"""What can be wrong with values that an event reads."""

from weighin.rules.faults import Sentence, gettext_noop, ngettext_noop

DAYS = Sentence("days", ngettext_noop("%(n)s day", "%(n)s days"))
NO_SUCH_DAY = Sentence("day_not_in_event", gettext_noop("there is no day %(day)s in this event: it has %(days)s"))
NOT_OF_THIS_TIME = Sentence(
    "not_of_this_time",
    gettext_noop("%(date)s is not in the time of this event (%(first)s and the weeks after): check it"),
)
WEIGHT_IS_NO_TEXT = Sentence(
    "weight_is_no_text",
    gettext_noop('this is not a text: write the weight in quotation marks, as the scale showed it, such as "9.47"'),
)
NO_PLAIN_WEIGHT = Sentence(
    "no_plain_weight",
    gettext_noop("%(shown)s is not a weight: write plain figures and one point, as the scale showed them"),
)
NO_LIST_OF_WEIGHTS = Sentence(
    "no_list_of_weights", gettext_noop('this is not a list: write the weights as ["1.71", "1.66"]')
)
EMPTY_WEIGHT = Sentence("empty_weight", gettext_noop("one of the weights is empty: leave it out, or write it"))
TOO_MANY_WEIGHTS = Sentence(
    "too_many_weights", gettext_noop("these are too many: write only the largest that the rules take")
)
TEMPERATURE_TOO_LONG = Sentence(
    "temperature_too_long",
    gettext_noop("this is too long for a temperature: write it with its unit, such as 82 °F or 27.8 °C"),
)
EVENT_IS_CLOSED = Sentence(
    "event_is_closed",
    gettext_noop("%(event)s is closed: a director must reopen it before anything can be saved"),
)

"""What can be wrong with what a scale says."""

from weighin.rules.faults import Sentence, gettext_noop

NO_SUCH_PART = Sentence("no_such_part", gettext_noop("a slip has no such weight: write %(parts)s and so on"))
ANOTHER_UNIT = Sentence(
    "reading_in_another_unit",
    gettext_noop("the reading is in %(unit)s, the event weighs in %(event)s: set the scale, and weigh again"),
)
LINE_TOO_LONG = Sentence("scale_line_too_long", gettext_noop("this line is too long: send %(most)s signs or fewer"))
NO_SUCH_SCALE = Sentence(
    "no_such_scale",
    gettext_noop(
        "this event has no scale %(name)s: its scales are %(names)s. Write it down on the page of scales first"
    ),
)
NO_SCALES = Sentence("no_scales", gettext_noop("none"))
NO_SUCH_STATE = Sentence("no_such_state", gettext_noop("a scale does not stand so: write %(states)s"))
TOO_LONG = Sentence("scale_word_too_long", gettext_noop("this is too long"))
NO_WEIGHT = Sentence("scale_says_no_weight", gettext_noop("this is no weight: write plain figures and one point"))
READING_KEPT_OTHERWISE = Sentence(
    "reading_kept_otherwise",
    gettext_noop("this id was kept already with other values: nothing was written, send it again under a new id"),
)

"""What can be wrong with what a scale says."""

from weighin.rules.faults import Sentence, gettext_noop

NO_SUCH_PART = Sentence("no_such_part", gettext_noop("a slip has no such weight: write %(parts)s and so on"))
ANOTHER_UNIT = Sentence(
    "reading_in_another_unit",
    gettext_noop("the reading is in %(unit)s, the event weighs in %(event)s: set the scale, and weigh again"),
)
LINE_TOO_LONG = Sentence("scale_line_too_long", gettext_noop("this text is too long: send %(most)s signs or fewer"))
NO_SUCH_SCALE = Sentence(
    "no_such_scale",
    gettext_noop("this event has no scale %(name)s: its scales are %(names)s. Add it on the page of scales first"),
)
NO_SCALES = Sentence("no_scales", gettext_noop("none"))
NO_SUCH_STATE = Sentence("no_such_state", gettext_noop("a scale has no such state: write %(states)s"))
TOO_LONG = Sentence("scale_word_too_long", gettext_noop("this is too long"))
NO_WEIGHT = Sentence("scale_says_no_weight", gettext_noop("this is no weight: write plain figures and one point"))
READING_KEPT_OTHERWISE = Sentence(
    "reading_kept_otherwise",
    gettext_noop("this id was saved already with other values: nothing was written, send it again under a new id"),
)
NO_SUCH_LAYOUT = Sentence("no_such_layout", gettext_noop("'%(name)s' is no layout: choose %(layouts)s"))
NOT_A_DIVISION = Sentence(
    "not_a_division",
    gettext_noop("%(written)s is no division of such a scale: its plate says one as d or e, such as %(example)s"),
)
ODD_COMMAND = Sentence("odd_command", gettext_noop("a command has plain letters and figures only, such as S or P"))
NONE_OF_THESE = Sentence(
    "none_of_these", gettext_noop("%(found)s is none of %(choices)s: the indicator’s manual says which")
)
TEST_FAR_FROM_EVENT = Sentence(
    "test_far_from_event",
    gettext_noop("%(day)s is more than a week from the event (%(first)s): write the day on which the scale was tested"),
)
TEST_WITHOUT_TIME = Sentence("test_without_time", gettext_noop("write at what time the scale was tested"))
TEST_TO_COME = Sentence("test_to_come", gettext_noop("%(clock)s on %(day)s has not come yet: write when it was tested"))
PATTERN_TOO_LONG = Sentence("pattern_too_long", gettext_noop("this pattern is too long: write 200 signs or fewer"))
TEST_WEIGHT_OF_NOTHING = Sentence(
    "test_weight_of_nothing", gettext_noop("a test weight is more than nothing: write what it is marked with")
)
CHECK_TAKEN_OUT_WITHOUT_REASON = Sentence(
    "check_taken_out_without_reason", gettext_noop("write why it is voided: the record shows it")
)
SCALE_TAKEN = Sentence("scale_taken", gettext_noop("there is a scale %(name)s already: give this one another name"))
CHECK_GONE = Sentence("check_gone", gettext_noop("this check is void already"))
CHECK_KEPT_DIFFERS = Sentence(
    "check_kept_differs",
    gettext_noop("this form was saved already with other figures: look at the list, and add the check anew"),
)
PATTERN_BLANK = Sentence("pattern_blank", gettext_noop("write what it sends, such as {state},{figures} {unit}"))
PATTERN_NOT_PLAIN = Sentence("pattern_not_plain", gettext_noop("write the pattern in plain letters, figures and signs"))
PATTERN_BRACE_ALONE = Sentence("pattern_brace_alone", gettext_noop("a brace stands alone: write pieces as {figures}"))
PATTERN_NO_SUCH_PIECE = Sentence(
    "pattern_no_such_piece", gettext_noop("{%(piece)s} is no piece of a pattern: use %(pieces)s")
)
PATTERN_PIECE_TWICE = Sentence("pattern_piece_twice", gettext_noop("{%(piece)s} stands twice: write each piece once"))
PATTERN_STATE_AND_REST = Sentence(
    "pattern_state_and_rest", gettext_noop("{state} and {rest} both give the scale’s state: use one of them")
)
PATTERN_ONE_WEIGHT = Sentence(
    "pattern_one_weight", gettext_noop("it sends one weight: write {figures}, or {pounds} and {ounces}")
)
PATTERN_UNIT_BESIDE_OUNCES = Sentence(
    "pattern_unit_beside_ounces",
    gettext_noop("{unit} goes with {figures}: write the words beside {pounds} and {ounces} out, such as lb and oz"),
)
PATTERN_WITHOUT_UNIT = Sentence(
    "pattern_without_unit", gettext_noop("the pattern must have a unit: write {unit}, or lb or kg as the scale does")
)
SCALE_WITHOUT_NAME = Sentence("scale_without_name", gettext_noop("the scale has no name: write one, as Table 1"))
SCALE_WITHOUT_DIVISION = Sentence(
    "scale_without_division", gettext_noop("write the scale’s division: its plate says it as d or e")
)
TEST_WITHOUT_MOMENT = Sentence("test_without_moment", gettext_noop("choose whether it was before, during or after"))
TEST_BY_NOBODY = Sentence("test_by_nobody", gettext_noop("write who put the weight on and read the scale"))
TEST_WEIGHT_MISSING = Sentence("test_weight_missing", gettext_noop("write what the test weight is marked with"))
SHOWN_MISSING = Sentence("shown_missing", gettext_noop("write the scale reading"))
SCALE_IN_OTHER_UNIT = Sentence(
    "scale_in_other_unit",
    gettext_noop("the event weighs in %(unit)s now, the scale is in %(written)s: write its division again first"),
)

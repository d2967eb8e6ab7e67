"""What can be wrong with a row on its way through the door, whatever kind of row it is."""

from weighin.rules.faults import Sentence, gettext_noop

# Types of a JSON body
NO_WHOLE_NUMBER = Sentence(
    "no_whole_number_sent",
    gettext_noop("this is not a number: write a whole number without quotation marks, such as 7"),
)
NO_FLAG = Sentence(
    "no_flag_sent", gettext_noop("this is neither true nor false: write one of them without quotation marks")
)
NO_TEXT = Sentence("no_text_sent", gettext_noop("this is not a text: write it in quotation marks"))
TEXT_TOO_LONG = Sentence("text_sent_too_long", gettext_noop("this text has %(n)s characters: write %(most)s or fewer"))
CONTROL_SIGNS = Sentence(
    "control_signs_sent", gettext_noop("this text has control characters in it: type it again on one line")
)
BLANK_NAME = Sentence("blank_name_sent", gettext_noop("this is blank: write a name"))
NO_FIGURE = Sentence(
    "no_figure_sent", gettext_noop("this is not a number: write figures with a decimal point, such as 4.5")
)
NO_UUID = Sentence("no_uuid_sent", gettext_noop("this is not a UUID: write it as 8-4-4-4-12 hexadecimal figures"))
NO_REFERENCE = Sentence(
    "no_reference_sent",
    gettext_noop("this names nothing that is saved here: write its number, or its id in quotation marks"),
)
NO_OBJECT = Sentence("no_object_sent", gettext_noop("this is not an object: write it as %(example)s"))
UNKNOWN_FIELD = Sentence(
    "unknown_field_sent", gettext_noop("this field is not known: leave it out, or correct its name")
)
MISSING = Sentence("missing", gettext_noop("%(field)s is missing: write it"))

# Corrections and voids
VOID_NAMES_NOTHING = Sentence(
    "void_names_nothing", gettext_noop("a void names the %(noun)s it voids: write its number or id")
)
MAY_NOT_CORRECT = Sentence(
    "may_not_correct",
    gettext_noop("your role cannot correct or void a %(noun)s: ask a director of the club"),
)
REPLACED_ALREADY = Sentence(
    "replaced_already",
    gettext_noop("%(noun)s %(old)s was replaced already: the current one is %(noun)s %(last)s, correct that one"),
)
TAKES_OUT_ANOTHER = Sentence(
    "takes_out_another", gettext_noop("%(noun)s %(old)s voids another: send a new %(noun)s instead")
)
TAKEN_OUT_ALREADY = Sentence(
    "taken_out_already",
    gettext_noop("%(noun)s %(old)s was voided by %(noun)s %(last)s: send a new %(noun)s instead"),
)
REPLACED_MEANWHILE = Sentence(
    "replaced_meanwhile",
    gettext_noop("%(noun)s %(old)s was replaced by %(noun)s %(last)s meanwhile: correct that one"),
)
IS_A_VOID = Sentence("is_a_void", gettext_noop("%(noun)s %(old)s is a void: write a new %(noun)s for the boat instead"))
ANOTHER_IS_CURRENT = Sentence(
    "another_is_current",
    gettext_noop("%(name)s is not saved here; the current one of boat %(boat)s is %(noun)s %(numbers)s"),
)
NOT_KEPT_HERE = Sentence(
    "not_kept_here", gettext_noop("%(name)s is not saved here: send that one first, then this again")
)
OF_THIS_ID = Sentence("row_of_this_id", gettext_noop("the %(noun)s of this id"))
NO_REASON = Sentence(
    "correction_without_reason", gettext_noop("a correction needs a reason: write why, in a few words")
)
OF_ANOTHER_BOAT_OR_DAY = Sentence(
    "row_of_another_boat_or_day",
    gettext_noop("%(noun)s %(number)s is of boat %(boat)s, day %(day)s: correct boat, day or number"),
)

# Replays
USED_ELSEWHERE = Sentence(
    "id_used_elsewhere",
    gettext_noop("this id was used already for something else: nothing was written, send it again under a new id"),
)
KEPT_OTHERWISE = Sentence(
    "id_kept_otherwise",
    gettext_noop("this id was saved as %(noun)s %(number)s with other values: correct that one, or use a new id"),
)
FORM_KEPT_OTHERWISE = Sentence(
    "form_kept_otherwise",
    gettext_noop("this form was saved already with other figures: open the list and change that row instead"),
)

# Rows that are edited in place
CHANGED_MEANWHILE = Sentence(
    "changed_meanwhile",
    gettext_noop(
        "somebody else changed this meanwhile: what it says now stands above, what you wrote stands below; "
        "send yours again to save it instead"
    ),
)
GONE_MEANWHILE = Sentence(
    "gone_meanwhile", gettext_noop("somebody else voided this meanwhile: add it again if it is to stand")
)
NO_REASON_TO_TAKE_OUT = Sentence("no_reason_to_take_out", gettext_noop("write why it is void: the history keeps it"))
REASON_TOO_LONG = Sentence("reason_too_long", gettext_noop("this has %(n)s characters: write %(most)s or fewer"))
OTHERS_HANG_ON_IT = Sentence("others_hang_on_it", gettext_noop("other rows depend on this one: void them first"))
NUMBER_TAKEN = Sentence(
    "number_taken", gettext_noop("there is a %(noun)s %(number)s already: write another number, or none")
)

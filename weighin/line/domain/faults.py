"""What cannot be said in the line of bags."""

from weighin.rules.faults import Sentence, gettext_noop

WRITE_BETWEEN = Sentence("write_between", gettext_noop("write %(least)s to %(most)s, not %(value)s"))
WORD_KEPT_DIFFERS = Sentence(
    "word_kept_differs",
    gettext_noop("this was saved already with other values: load the page again, then enter it anew"),
)
NO_SUCH_WORD_IN_LINE = Sentence(
    "no_such_word_in_line", gettext_noop("'%(word)s' is no entry of the line: load the page again")
)
NO_BOAT_IN_LINE = Sentence("no_boat_in_line", gettext_noop("there is no boat %(boat)s in %(event)s: check the number"))
LINE_NOT_HELD = Sentence("line_not_held", gettext_noop("the line is not held anymore: somebody resumed it meanwhile"))
LINE_LET_GO_BY_NOBODY = Sentence(
    "line_let_go_by_nobody", gettext_noop("write the name of whoever resumes the line, at most %(most)s characters")
)
LINE_HELD_ALREADY = Sentence("line_held_already", gettext_noop("the line is held already, since %(since)s, by %(by)s"))
ODD_OXYGEN_MINUTES = Sentence(
    "odd_oxygen_minutes", gettext_noop("write in how many minutes oxygen is checked, 1 to %(most)s")
)
LINE_IS_HELD = Sentence(
    "line_is_held", gettext_noop("the line is held since %(since)s: no bag goes out until somebody resumes it")
)
NO_BAG_ANY_MORE = Sentence(
    "no_bag_any_more", gettext_noop("boat %(boat)s has no bag anymore: it was taken back meanwhile")
)
AT_SCALES_ALREADY = Sentence(
    "at_scales_already", gettext_noop("boat %(boat)s is at the scales already, since %(since)s")
)
BAG_TO_TAKE_BACK = Sentence("bag_to_take_back", gettext_noop("%(has_bag)s; take it back first"))
OUT_OF_LINE = Sentence("out_of_line", gettext_noop("boat %(boat)s left the line: return it to the line first"))
IN_LINE_ALREADY = Sentence("in_line_already", gettext_noop("boat %(boat)s is in the line already"))
HAS_BAG = Sentence("has_bag", gettext_noop("boat %(boat)s has had a bag since %(since)s, given by %(by)s"))
WEIGHED_ALREADY = Sentence("weighed_already", gettext_noop("boat %(boat)s is weighed already, on slip %(slip)s"))
WEIGHS_NO_FISH = Sentence("weighs_no_fish", gettext_noop("boat %(boat)s is %(status)s: it weighs no fish"))
NOT_CHECKED_IN = Sentence(
    "not_checked_in", gettext_noop("boat %(boat)s is not checked in for day %(day)s: check it in first, then call it")
)

"""What is wrong with a holding study, its pens and the looks into them."""

from weighin.rules.faults import Sentence, gettext_noop

STUDY_FIGURE_MISSING = Sentence("study_figure_missing", gettext_noop("this is blank: add it here"))
TOO_MANY_PENS = Sentence(
    "too_many_pens",
    gettext_noop("it would take more than %(most)s pens of each kind: allow a wider range, or more fish in a pen"),
)
PEN_TAKEN = Sentence(
    "pen_taken", gettext_noop("there is a pen %(pen)s in this group already: give this one another name")
)
LOOK_BEFORE_START = Sentence("look_before_start", gettext_noop("this is before the fish went in: correct the time"))
MORE_THAN_IN_PEN = Sentence(
    "more_than_in_pen", gettext_noop("%(here)s fish are more than the %(left)s that were still in the pen: count again")
)
FEWER_HELD_THAN_GONE = Sentence(
    "fewer_held_than_gone",
    gettext_noop("the checks count %(gone)s dead, missing or escaped: as many were held at least"),
)
LOOK_BEFORE_PEN = Sentence(
    "look_before_pen", gettext_noop("a check of this pen is before that: correct one of the two")
)
HELD_NO_TIME = Sentence(
    "held_no_time", gettext_noop("fish held for 0 hours show nothing: add how long they were watched")
)
NEITHER_DATE_NOR_TIME = Sentence(
    "neither_date_nor_time",
    gettext_noop("'%(written)s' is neither a date nor a time: write it as Jun 20, 2026 or Jun 20, 2026, 3:30 PM"),
)
NO_SUCH_PEN = Sentence("no_such_pen", gettext_noop("there is no such pen in this event: it may be void"))
PEN_GONE = Sentence("pen_gone", gettext_noop("this pen is ended already, or void"))
MORE_GONE_THAN_HELD = Sentence(
    "more_gone_than_held",
    gettext_noop("%(dead)s dead and %(missing)s missing are more than the %(held)s held: count again"),
)
NO_CHECK = Sentence("no_check", gettext_noop("this pen has no check yet: add one first, also when no fish was dead"))
PEN_IS_ENDED = Sentence(
    "pen_is_ended", gettext_noop("this pen is ended: void its finished row first, then its checks can be edited")
)

"""What is wrong with a line of the roll, a notice or a tow; which boats keep an event open."""

from weighin.rules.faults import Sentence, gettext_noop, ngettext_noop

BOTH_GIVEN = Sentence("both_given", gettext_noop("both %(one)s and %(other)s are given: keep one of them"))
EXCUSE_BESIDE_MINUTES = Sentence(
    "excuse_beside_minutes",
    gettext_noop(
        "%(excused)s stand beside %(late)s, which take no excuse: write the minutes less the excuse, or %(time)s"
    ),
)
SAYS_NOTHING = Sentence("check_in_says_nothing", gettext_noop("this says nothing of boat %(boat)s: write %(fields)s"))
NOT_COME_YET = Sentence(
    "time_not_come_yet",
    gettext_noop("%(time)s has not come yet: it is %(now)s by the site’s clock, write the time again"),
)
BEFORE_THE_START = Sentence(
    "time_before_the_start",
    gettext_noop("%(time)s is before the day started at %(start)s: write the time again"),
)
IN_ALREADY = Sentence(
    "in_already",
    gettext_noop("boat %(boat)s is in already, by %(by)s: correct that entry if it is wrong"),
)
IN_ALREADY_AT = Sentence(
    "in_already_at",
    gettext_noop("boat %(boat)s is in already at %(time)s, by %(by)s: correct that entry if it is wrong"),
)
LINE_KEPT_OTHERWISE = Sentence(
    "roll_line_kept_otherwise",
    gettext_noop("this was saved before as check-in %(number)s, with other values: correct it on the check-in page"),
)
NOTICE_BY_NOBODY = Sentence("notice_by_nobody", gettext_noop("write who gave the notice"))
NOTICE_WITHOUT_HOW = Sentence("notice_without_how", gettext_noop("choose how the boats were told"))
NOTICE_WITHOUT_REASON = Sentence("notice_without_reason", gettext_noop("write why, in a few words"))
MINUTES_AND_TIME = Sentence("minutes_and_time", gettext_noop("both are written: keep the minutes or the time"))
NEITHER_MINUTES_NOR_TIME = Sentence(
    "neither_minutes_nor_time", gettext_noop("write by how many minutes, or the new time")
)
TOWED_BOAT_MISSING = Sentence("towed_boat_missing", gettext_noop("the boat is missing: write its number"))
STILL_OUT = Sentence(
    "still_out", gettext_noop("%(boats)s: check each one in, or mark a team absent that never launched")
)
UNACCOUNTED_THAT_DAY = Sentence(
    "unaccounted_that_day",
    ngettext_noop("%(boats)s is unaccounted for on day %(day)s", "%(boats)s are unaccounted for on day %(day)s"),
)
OUT_THAT_DAY = Sentence(
    "out_that_day",
    ngettext_noop("%(boats)s is still out on day %(day)s", "%(boats)s are still out on day %(day)s"),
)
NOT_HEARD_OF = Sentence(
    "not_heard_of",
    gettext_noop(
        "%(what)s: check them in, mark teams absent that never launched, or confirm here that every boat is accounted for"
    ),
)
NO_ROLL_KEPT = Sentence("no_roll_kept", gettext_noop("there is no check-in and no slip of %(boats)s"))
WEIGHED_ONLY = Sentence("weighed_only", gettext_noop("%(weighed)s, and a slip does not prove that a boat is in"))
WEIGHED_NOT_IN = Sentence(
    "weighed_not_in",
    ngettext_noop("%(boats)s was weighed but not checked in", "%(boats)s were weighed but not checked in"),
)
DUE_TIMES_CHANGED = Sentence(
    "due_times_changed", gettext_noop("the due times were changed meanwhile: %(now)s. Look again, then send this")
)
NOT_WHOLE_MINUTES = Sentence(
    "not_whole_minutes", gettext_noop("write whole minutes, such as 30, or -60 for an hour earlier")
)
TOLD_IN_FUTURE = Sentence("told_in_future", gettext_noop("%(time)s has not come yet: write when the boats were told"))
DUE_THEN_ALREADY = Sentence(
    "due_then_already", gettext_noop("every boat is due at that time already: there is nothing to move")
)
NOTICE_KEPT_DIFFERS = Sentence(
    "notice_kept_differs",
    gettext_noop("this notice was saved already with other words: look at the check-in page before you send another"),
)
DAY_NOT_FISHED = Sentence("day_not_fished", gettext_noop("day %(day)s is not fished: there is no due time to move"))
DUE_HAD_PASSED = Sentence(
    "due_had_passed", gettext_noop("%(due)s had passed when the boats were told at %(told)s: write a later time")
)
TOWS_ITSELF = Sentence("tows_itself", gettext_noop("a boat cannot tow itself in: write the other boat’s number"))
NOBODY_EXCUSED = Sentence("nobody_excused", gettext_noop("choose who is excused"))
NO_MINUTES_EXCUSED = Sentence("no_minutes_excused", gettext_noop("write how many minutes are excused, such as 20"))
EXCUSE_WITHOUT_REASON = Sentence("excuse_without_reason", gettext_noop("write why, in a few words"))
NO_WHEREABOUTS = Sentence("no_whereabouts", gettext_noop("choose where the boat is, as far as you know"))
NO_SUCH_BOAT_TO_TOW = Sentence(
    "no_such_boat_to_tow", gettext_noop("there is no boat %(boat)s in this event: correct the number")
)
NO_SUCH_DAY_ON_ROLL = Sentence("no_such_day_on_roll", gettext_noop("there is no day %(day)s in this event"))
MINUTES_LATE_ON_LINE = Sentence(
    "minutes_late_on_line",
    gettext_noop(
        "boat %(boat)s has an entry of %(minutes)s minutes late, which leave out what is excused: correct that entry instead"
    ),
)

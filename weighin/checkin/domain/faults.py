"""What can be wrong with a line of the roll."""

from weighin.rules.faults import Sentence, gettext_noop

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
    gettext_noop("boat %(boat)s is in already, by %(by)s: correct that line if it is wrong"),
)
IN_ALREADY_AT = Sentence(
    "in_already_at",
    gettext_noop("boat %(boat)s is in already at %(time)s, by %(by)s: correct that line if it is wrong"),
)
LINE_KEPT_OTHERWISE = Sentence(
    "roll_line_kept_otherwise",
    gettext_noop(
        "this was kept before as check-in %(number)s, with other values: look at the roll, and correct it there"
    ),
)

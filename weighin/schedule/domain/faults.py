"""What can be wrong with notices, the permit checklist, and a season written down at once."""

from weighin.rules.faults import Sentence, gettext_noop

NOTICE_WITHOUT_WHY = Sentence(
    "notice_without_why", gettext_noop("the reason is missing: write it, since the teams read it")
)
CANCELLED_ALREADY = Sentence("cancelled_already", gettext_noop("this event is cancelled already"))
TAKES_PLACE_ALREADY = Sentence(
    "takes_place_already", gettext_noop("this event is not called off: there is nothing to undo")
)
SLIPS_FORBID = Sentence(
    "slips_forbid",
    gettext_noop(
        "boats have been weighed, so the event cannot be called off as a whole: cancel the days that are left under Set up"
    ),
)
NOT_LATER = Sentence(
    "not_later",
    gettext_noop("the new first day must be after %(date)s: write a later date, or none if nobody knows it"),
)
LINE_WITHOUT_WHAT = Sentence("permit_line_without_what", gettext_noop("this is blank: write what is to be settled"))
LINE_WITHOUT_DAYS = Sentence(
    "permit_line_without_days", gettext_noop("write how many days before the event it is due, 0 for its first day")
)
DONE_WITHOUT_WHOM = Sentence("done_without_whom", gettext_noop("write who did it"))
DONE_WITHOUT_DATE = Sentence("done_without_date", gettext_noop("write the date on which it was done"))
NO_LINES = Sentence("no_season_lines", gettext_noop("no event is written: write one on each line"))
TOO_MANY_LINES = Sentence(
    "too_many_season_lines", gettext_noop("these are %(n)s events: write at most %(most)s at once")
)
SEASON_ROW = Sentence("season_row", gettext_noop("line %(row)s: %(wrong)s"))
ROW_NEEDS_DATE_AND_NAME = Sentence(
    "row_needs_date_and_name",
    gettext_noop("write the date, the name and the water, with a tab or a comma between them"),
)
ROW_TOO_LONG = Sentence(
    "row_too_long", gettext_noop("this has more than a date, a name and a water: remove what follows %(water)s")
)
ROW_NOT_A_DATE = Sentence("row_not_a_date", gettext_noop("%(written)s is not a date: write it as Jun 20, 2026"))
ROW_WITHOUT_WATER = Sentence("row_without_water", gettext_noop("the water is missing: write its name"))
ROW_NEW_WATER = Sentence(
    "row_new_water",
    gettext_noop("the club has no water %(water)s: correct the name, or check the box for new waters"),
)
NO_SUCH_SOURCE = Sentence("no_such_source", gettext_noop("choose one of the list"))
NEXT_OF_A_REHEARSAL = Sentence(
    "next_of_a_rehearsal",
    gettext_noop("no event is added from a rehearsal, which has practice boats: add it from %(event)s itself"),
)

"""What is wrong with an event, its days, flights and rule sheet."""

from weighin.rules.faults import Sentence, gettext_noop, ngettext_noop

NO_SUCH_YEAR = Sentence(
    "no_such_year", gettext_noop("%(day)s is not in the years %(earliest)s to %(latest)s: check the year")
)
TIME_SKIPPED = Sentence(
    "time_skipped",
    gettext_noop("%(time)s does not exist on %(day)s: the clocks go forward over it, write the time shown"),
)
DATE_WITHOUT_TIME = Sentence(
    "date_without_time",
    gettext_noop("'%(written)s' is a date without a time: write HH:MM, such as 14:42"),
    on_pages=gettext_noop("'%(written)s' is a date without a time: write the time, such as 2:42 PM"),
)
NOT_A_DATE = Sentence(
    "not_a_date",
    gettext_noop("'%(written)s' is not a date: write it as 2026-06-20"),
    on_pages=gettext_noop("'%(written)s' is not a date: write it as Jun 20, 2026"),
)
NOT_A_TIME_OF_DAY = Sentence(
    "not_a_time_of_day",
    gettext_noop("'%(written)s' is not a time of day: write HH:MM, such as 06:00 or 14:42"),
    on_pages=gettext_noop("'%(written)s' is not a time of day: write it as 6:00 AM or 2:42 PM"),
)
NOT_A_TIME = Sentence(
    "not_a_time",
    gettext_noop("'%(written)s' is not a time: write HH:MM or HH:MM:SS, such as 14:42"),
    on_pages=gettext_noop("'%(written)s' is not a time: write it as 2:42 PM or 2:42:10 PM"),
)
ELEVATION_TOO_LONG = Sentence(
    "elevation_too_long", gettext_noop("write %(most)s figures or fewer, such as 620 or 620.5")
)
EVENT_WITHOUT_NAME = Sentence("event_without_name", gettext_noop("this is blank: write the event’s name"))
NAME_OF_REHEARSALS = Sentence(
    "name_of_rehearsals",
    gettext_noop("only rehearsals are named %(mark)s, so that nobody mistakes them for an event: write another name"),
)
REHEARSAL_STAYS_PRIVATE = Sentence(
    "rehearsal_stays_private",
    gettext_noop("%(event)s is a rehearsal: only members see it, and nothing of it is public"),
)
HAS_A_REHEARSAL = Sentence("has_a_rehearsal", gettext_noop("a rehearsal, to be wiped first"))
ODD_NUMBER_OF_DAYS = Sentence("odd_number_of_days", gettext_noop("write 1 to %(most)s days"))
NOT_A_TIME_ZONE = Sentence(
    "not_a_time_zone", gettext_noop("'%(written)s' is not a time zone: write a name such as America/Chicago")
)
WEIGHED_BEFORE_START = Sentence(
    "weighed_before_start",
    gettext_noop("slip %(slip)s of day %(day)s was weighed or released at %(at)s, before that: write an earlier start"),
)
NO_SUCH_DAY = Sentence(
    "no_such_day_of_event", gettext_noop("there is no day %(day)s in this event: choose one of its %(days)s")
)
FLIGHT_WITHOUT_NAME = Sentence(
    "flight_without_name", gettext_noop("this is blank: write the flight’s name, such as 1 or A")
)
FLIGHT_GONE = Sentence("flight_gone", gettext_noop("flight %(flight)s was removed meanwhile"))
FLIGHT_TAKEN = Sentence("flight_taken", gettext_noop("there is a flight %(flight)s already: write another name"))
DEAD_FISH_WITHOUT_WORDS = Sentence(
    "dead_fish_without_words", gettext_noop("write what became of the dead fish, in a few words")
)
EVENT_HOLDS_RECORDS = Sentence(
    "event_holds_records", gettext_noop("%(event)s has %(holds)s: what was recorded stays, and the event with it")
)
EVENT_PUBLISHED = Sentence("event_published", gettext_noop("%(event)s is published: it cannot be removed"))
NAME_NOT_TYPED = Sentence("name_not_typed", gettext_noop("write the name of the event, %(event)s, to remove it"))
REMOVAL_WITHOUT_REASON = Sentence(
    "removal_without_reason", gettext_noop("write why, in a few words: it stands in the club’s history")
)
RECORDED_MEANWHILE = Sentence(
    "recorded_meanwhile",
    gettext_noop("something was recorded of %(event)s meanwhile: check its pages, and try again"),
)
EVENT_TAKEN = Sentence(
    "event_taken", gettext_noop("%(season)s has an event %(event)s already: write another name, such as %(event)s 2")
)
BEFORE_FIRST_DAY = Sentence(
    "before_first_day", gettext_noop("this is before the event’s first day, %(first)s: write a later date")
)
FEE_WITHOUT_REASON = Sentence(
    "fee_without_reason",
    gettext_noop("teams have paid already: write why the fee changes, then see on the money page who owes"),
)
EVENT_CLOSED = Sentence(
    "event_closed", gettext_noop("%(event)s is closed: reopen it on its results page first, with a reason")
)
FAR_FROM_DAY = Sentence(
    "far_from_day", gettext_noop("%(written)s is more than two days from day %(day)s: check the date")
)
NO_UNIT = Sentence(
    "temperature_without_unit",
    gettext_noop("'%(written)s' has no unit: write it with its unit, such as 82 °F or 27.8 °C"),
)
NOT_A_TEMPERATURE = Sentence(
    "not_a_temperature",
    gettext_noop("'%(written)s' is not a temperature: write it with its unit, such as 82 °F or 27.8 °C"),
)
WATER_OUTSIDE_RANGE = Sentence(
    "water_outside_range",
    gettext_noop(
        "%(written)s is outside the range of water, %(least)s to %(most)s °C (%(least_f)s to %(most_f)s °F): check the figure and its unit"
    ),
)
AIR_OUTSIDE_RANGE = Sentence(
    "air_outside_range",
    gettext_noop(
        "%(written)s is outside the range of air, %(least)s to %(most)s °C (%(least_f)s to %(most_f)s °F): check the figure and its unit"
    ),
)
DAY_OTHER_MOMENT = Sentence(
    "day_other_moment",
    gettext_noop(
        "%(clock)s for the day would be read as another moment, because midnight or a change of the clocks lies between: write one time for all boats instead"
    ),
)
FLIGHT_OTHER_MOMENT = Sentence(
    "flight_other_moment",
    gettext_noop(
        "%(clock)s for flight %(flight)s would be read as another moment, because midnight or a change of the clocks lies between: write one time for all boats instead"
    ),
)
DAY_MOVED_FAR = Sentence(
    "day_moved_far", gettext_noop("%(clock)s is more than eight hours from when the day is due: write another time")
)
FLIGHT_MOVED_FAR = Sentence(
    "flight_moved_far",
    gettext_noop("%(clock)s is more than eight hours from when flight %(flight)s is due: write another time"),
)
FLIGHT_DUE_ALREADY = Sentence(
    "flight_due_already", gettext_noop("flight %(flight)s has a due time already: change that one")
)
FLIGHT_DUE_THAT_DAY = Sentence(
    "flight_due_that_day", gettext_noop("flight %(flight)s has a due time on day %(day)s already: change that one")
)
TEAMS_IN_FLIGHT = Sentence(
    "teams_in_flight",
    ngettext_noop(
        "%(n)s team is in flight %(flight)s: put them into another flight first",
        "%(n)s teams are in flight %(flight)s: put them into another flight first",
    ),
)
RULES_LOCKED = Sentence(
    "rules_locked",
    gettext_noop(
        "The rule sheet is locked since slip %(slip)s: all teams of an event are scored by the same rules. A ruling on one team is written on its slip, as an extra penalty or a lost day, with its reason."
    ),
)
OWN_WEIGHTS = Sentence(
    "own_weights",
    gettext_noop(
        "the rule sheet has weights of its own in %(unit)s (%(keys)s): write them back to their defaults first, then change the unit"
    ),
)
NOT_OF_CLUB = Sentence("not_of_club", gettext_noop("%(place)s is not of %(club)s: choose one of the list"))
UNIT_STAYS = Sentence(
    "unit_stays",
    ngettext_noop(
        "%(n)s slip of this event is saved: the weight unit stays",
        "%(n)s slips of this event are saved: the weight unit stays",
    ),
)
FIRST_DAY_STAYS = Sentence(
    "first_day_stays",
    ngettext_noop(
        "%(n)s slip of this event is saved: the first day stays",
        "%(n)s slips of this event are saved: the first day stays",
    ),
)
TIME_ZONE_STAYS = Sentence(
    "time_zone_stays",
    ngettext_noop(
        "%(n)s slip of this event is saved: the time zone stays",
        "%(n)s slips of this event are saved: the time zone stays",
    ),
)
DATE_STAYS = Sentence(
    "date_stays",
    ngettext_noop(
        "%(n)s slip of this day is saved with their times: the date stays",
        "%(n)s slips of this day are saved with their times: the date stays",
    ),
)
SLIPS_COUNT = Sentence(
    "slips_count",
    ngettext_noop(
        "%(n)s slip of this day count: void them first, or call the day shortened",
        "%(n)s slips of this day count: void them first, or call the day shortened",
    ),
)
DAY_HAS_RECORDS = Sentence(
    "day_has_records",
    gettext_noop("there are %(what)s for day %(day)s: the event has at least %(day)s days, or remove them first"),
)
WEIGH_SLIPS = Sentence("weigh_slips", gettext_noop("weigh slips"))
CHECK_INS = Sentence("check_ins", gettext_noop("check-ins"))
DUE_NOTICES = Sentence("due_notices", gettext_noop("notices of due times"))
CARE_NOTES = Sentence("care_notes", gettext_noop("care notes"))
TANK_READINGS = Sentence("tank_readings", gettext_noop("tank readings"))
TREATMENTS = Sentence("treatments", gettext_noop("treatments"))
RELEASES = Sentence("releases", gettext_noop("releases"))
KEPT_FISH = Sentence("kept_fish", gettext_noop("kept fish"))
FLIGHTS = Sentence("flights", gettext_noop("flights"))
SHEET_WITHOUT_NAME = Sentence(
    "sheet_without_name", gettext_noop("this is blank: write the sheet’s name, such as Team crappie")
)
SHEET_TAKEN = Sentence(
    "sheet_taken", gettext_noop("%(club)s has a rule sheet %(name)s already: write another name, or change that one")
)
SHEET_CHANGED_MEANWHILE = Sentence(
    "sheet_changed_meanwhile",
    gettext_noop(
        "somebody saved version %(version)s of this sheet meanwhile: open it in another window and write here what should stay, then send this again"
    ),
)
SHEET_IN_OTHER_UNIT = Sentence(
    "sheet_in_other_unit",
    gettext_noop(
        "%(sheet)s has weights of its own in %(unit)s (%(keys)s), which would have to be rounded here: copy a sheet in this event’s unit"
    ),
)

"""What is wrong with a team entered in an event."""

from weighin.rules.faults import Sentence, gettext_noop

NOT_A_BOAT_NUMBER = Sentence(
    "not_a_boat_number", gettext_noop("%(boat)s is no boat number: write a whole number from 1 on")
)
NO_SUCH_STATUS = Sentence("no_such_status", gettext_noop("choose one of %(statuses)s"))
ODD_LOT = Sentence("odd_lot", gettext_noop("write a whole number from 0 to %(most)s"))
TOO_MANY_ANGLERS = Sentence("too_many_anglers", gettext_noop("a team has %(most)s anglers at most"))
TEAM_WITHOUT_ANGLER = Sentence("team_without_angler", gettext_noop("this is blank: write at least one angler"))
BOAT_TAKEN = Sentence("boat_taken", gettext_noop("boat %(boat)s is %(team)s: give this team another number"))
ANGLER_TAKEN = Sentence(
    "angler_taken", gettext_noop("%(name)s fishes in boat %(boat)s already: an angler fishes in one team")
)
ANGLER_TAKEN_WAITING = Sentence(
    "angler_taken_waiting", gettext_noop("%(name)s fishes in %(team)s already: an angler fishes in one team")
)
ANGLER_TWICE = Sentence("angler_twice", gettext_noop("%(name)s stands twice in this team: write each angler once"))
TEAM_TAKEN = Sentence(
    "team_taken",
    gettext_noop("boat %(boat)s is %(team)s already: write this team so that the season can tell them apart"),
)
TEAM_TAKEN_WAITING = Sentence(
    "team_taken_waiting",
    gettext_noop("%(team)s is entered already: write this team so that the season can tell them apart"),
)
TEAM_LOOKS_LIKE_WAITING = Sentence(
    "team_looks_like_waiting",
    gettext_noop(
        "%(name)s looks like the season’s team %(team)s, but has other letters: write that team the same way, or this one so that nobody mixes them up"
    ),
)
TEAM_LOOKS_LIKE = Sentence(
    "team_looks_like",
    gettext_noop(
        "boat %(boat)s looks like the season’s team %(team)s, but has other letters: write that team the same way, or this one so that nobody mixes them up"
    ),
)
BOAT_ON_SLIPS = Sentence(
    "boat_on_slips", gettext_noop("boat %(boat)s stands on weigh slips, which are never altered: the number stays")
)
BOAT_HAS_RECORDS = Sentence(
    "boat_has_records",
    gettext_noop("boat %(boat)s has slips or care notes: set it to withdrawn or disqualified instead"),
)
NO_SUCH_FLIGHT = Sentence(
    "no_such_flight", gettext_noop("there is no flight %(flight)s (%(listed)s): choose one, or set it up")
)
NO_FLIGHT_YET = Sentence("no_flight_yet", gettext_noop("none is set up yet"))
TEAM_WITHOUT_NAME = Sentence("team_without_name", gettext_noop("this is blank: write the team’s name"))
ANGLER_WITHOUT_NAME = Sentence("angler_without_name", gettext_noop("this is blank: write the angler’s name"))
OF_BOAT = Sentence("of_boat", gettext_noop("boat %(boat)s: %(wrong)s"))
OF_TEAM = Sentence("of_team", gettext_noop("%(team)s: %(wrong)s"))
ODD_EMAIL = Sentence("odd_email", gettext_noop("'%(email)s' is no e-mail address: there is no @ in it"))
WHAT_MISSING = Sentence("seen_what_missing", gettext_noop("choose what was seen"))
SEEN_OF_A_DAY = Sentence(
    "seen_of_a_day", gettext_noop("the safety check is of a day: %(day)s is none that is fished, choose one")
)
SUBSTITUTE_WITHOUT_REASON = Sentence(
    "substitute_without_reason", gettext_noop("write why: the history keeps it with who fished before")
)
NOT_IN_THE_TEAM = Sentence("not_in_the_team", gettext_noop("choose the angler who does not fish"))

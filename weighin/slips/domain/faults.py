"""What can be wrong with a weigh slip."""

from weighin.rules.faults import Sentence, gettext_noop

DAY_WAS_CANCELLED = Sentence("slip_of_a_cancelled_day", gettext_noop("day %(day)s was cancelled: it has no slips"))
FISH_MISSING = Sentence(
    "fish_missing", gettext_noop("the number of fish (%(field)s) is missing: write it, 0 if there are none")
)
MORE_GONE_THAN_ALIVE = Sentence(
    "more_gone_than_alive",
    gettext_noop("%(dead)s dead at release and %(kept)s kept are more than the %(alive)s alive: count again"),
)
MORE_SPECIES_THAN_FISH = Sentence(
    "more_species_than_fish", gettext_noop("the species add up to %(counted)s of %(fish)s fish: count again")
)
TIMES_OUT_OF_ORDER = Sentence(
    "times_out_of_order", gettext_noop("%(later)s is before %(earlier)s: correct one of the two times")
)
BEFORE_THE_DAY = Sentence(
    "fish_before_the_day",
    gettext_noop("%(field)s is before the day started: the fish cannot have been held, correct the time"),
)
OF_AN_EARLIER_DAY = Sentence(
    "fish_of_an_earlier_day",
    gettext_noop("day %(day)s begins on %(begins)s, after these fish were weighed: choose day %(other)s"),
)
SLIP_OF_ANOTHER_BOAT = Sentence(
    "slip_of_another_boat",
    gettext_noop("slip %(number)s is boat %(boat)s's: take it out and write a new slip for boat %(other)s"),
)
SLIP_OF_ANOTHER_DAY = Sentence(
    "slip_of_another_day",
    gettext_noop("slip %(number)s is of day %(day)s: write the day of the slip that is meant"),
)
SLIP_KEPT_OTHERWISE = Sentence(
    "slip_kept_otherwise",
    gettext_noop(
        "this was kept as slip %(number)s already, with other values: correct that slip, or send this again as a new one"
    ),
)
CORRECTION_ELSEWHERE = Sentence(
    "correction_as_a_new_slip",
    gettext_noop("this is a correction: open the slip it corrects and correct it there"),
)
SWAP_OF_ONE_DAY = Sentence(
    "swap_of_one_day",
    gettext_noop("a swap is between the slips of two boats of one day: choose another slip"),
)

"""What can be wrong with a weigh slip or a pad of paper slips."""

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
    gettext_noop("slip %(number)s is boat %(boat)s’s: void it and add a new slip for boat %(other)s"),
)
SLIP_OF_ANOTHER_DAY = Sentence(
    "slip_of_another_day",
    gettext_noop("slip %(number)s is of day %(day)s: write the day of the slip that is meant"),
)
SLIP_KEPT_OTHERWISE = Sentence(
    "slip_kept_otherwise",
    gettext_noop(
        "this was saved as slip %(number)s already, with other values: correct that slip, or send this again as a new one"
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
ODD_FIRST_NUMBER = Sentence("odd_first_number", gettext_noop("write the first number, 1 to %(most)s"))
ODD_LAST_NUMBER = Sentence(
    "odd_last_number", gettext_noop("write the last number: not below the first, at most %(most)s numbers a set")
)
PAPER_WITHOUT_WORD = Sentence("paper_without_word", gettext_noop("choose whether it was spoiled or came back blank"))
NOT_ON_A_PAD = Sentence(
    "not_on_a_pad",
    gettext_noop("%(number)s is no number of this event’s paper slips: check the paper, or add its set"),
)
NUMBERS_ON_OTHER_PAD = Sentence(
    "numbers_on_other_pad",
    gettext_noop("set %(pad)s has the numbers %(first)s to %(last)s: a number is on one paper only"),
)
LAST_BELOW_FIRST = Sentence("last_below_first", gettext_noop("the last number is not below the first"))
NOTHING_SAID_OF_PAPER = Sentence("nothing_said_of_paper", gettext_noop("nothing is recorded for paper slip %(number)s"))
PAD_WITHOUT_NAME = Sentence("pad_without_name", gettext_noop("name the set by its color or mark"))
PAD_WITH_NOBODY = Sentence("pad_with_nobody", gettext_noop("write who has the paper slips"))
SPOILED_WITHOUT_REASON = Sentence("spoiled_without_reason", gettext_noop("write why it was spoiled, in a few words"))
TAKEN_BACK_WITHOUT_REASON = Sentence("taken_back_without_reason", gettext_noop("write why, in a few words"))
PAPER_ENTERED_AS = Sentence("paper_entered_as", gettext_noop("entered as slip %(slip)s"))
PAPER_SPOKEN_FOR = Sentence(
    "paper_spoken_for", gettext_noop("paper slip %(number)s is %(what)s already: look at the number again")
)
DOUBLED_DAY_SETTLED = Sentence(
    "doubled_day_settled",
    gettext_noop("boat %(boat)s has two slips for day %(day)s: only a director decides which one counts"),
)
FISH_RELEASED = Sentence(
    "fish_released",
    gettext_noop("the fish of slip %(slip)s are released: only a director may correct or void it"),
)
SLIP_AND_CHECK_IN_AGREE = Sentence(
    "slip_and_check_in_agree",
    gettext_noop("slip and check-in of boat %(boat)s agree by now: there is nothing to settle"),
)
NOT_SAID_WHICH = Sentence("not_said_which", gettext_noop("choose which of the two counts"))
SETTLED_WITHOUT_REASON = Sentence("settled_without_reason", gettext_noop("write why, in a few words"))
NOT_SCORED_ANY_MORE = Sentence(
    "not_scored_any_more",
    gettext_noop(
        "slip %(slip)s of boat %(boat)s, day %(day)s, would no longer be lost for lateness with these due times, and it could not be scored: %(wrong)s. Correct that slip first"
    ),
)
RELEASED_NOT_WEIGHED_AGAIN = Sentence(
    "released_not_weighed_again",
    gettext_noop(
        "the fish of slip %(slip)s are released and cannot be weighed again: only a director may change their weight or void the slip"
    ),
)
TURNS_OUT_BOAT = Sentence(
    "turns_out_boat",
    gettext_noop("with this, boat %(boats)s would have missed the cut, but has a slip after it: void that slip first"),
)
MISSED_CUT = Sentence(
    "missed_cut",
    gettext_noop(
        "boat %(boat)s missed the cut after day %(day)s: it has no slips after that day, correct the boat or the day"
    ),
)
HARD_TO_BELIEVE = Sentence("hard_to_believe", gettext_noop("%(doubt)s"))
OFFICIAL_IS_NO_NAME = Sentence(
    "official_is_no_name", gettext_noop("write a name, not %(official)s: who reads the scale")
)

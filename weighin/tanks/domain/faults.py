"""What is wrong with a tank, a treatment, a release or a bag on its way back to the water."""

from weighin.rules.faults import Sentence, gettext_noop

MORE_DEAD_THAN_BROUGHT = Sentence(
    "more_dead_than_brought", gettext_noop("%(dead)s dead are more than the %(fish)s fish brought: count again")
)
NO_BOAT_KEPT_FROM = Sentence(
    "no_boat_kept_from", gettext_noop("there is no boat %(boat)s in this event: correct the number or leave it blank")
)
NOT_LENT = Sentence("not_lent", gettext_noop("only fish that were lent come back: leave it blank, or choose lent"))
ODD_WALK_HOURS = Sentence("odd_walk_hours", gettext_noop("%(hours)s is not one of the hours: choose 24, 48 or 72"))
MORE_BACK_THAN_LENT = Sentence("more_back_than_lent", gettext_noop("%(back)s came back of %(fish)s: count again"))
TREATMENT_ENDS_FIRST = Sentence(
    "treatment_ends_first", gettext_noop("it ends before it starts: correct one of the two times")
)
PRODUCT_WITHOUT_NAME = Sentence("product_without_name", gettext_noop("add the name on the label"))
LABEL_NOT_SAID = Sentence(
    "label_not_said", gettext_noop("choose whether the label was seen: dose and use are as it says")
)
OXYGEN_TOO_FULL = Sentence(
    "oxygen_too_full",
    gettext_noop(
        "this is %(share)s %% of what such water holds (%(full)s mg/L): check the meter, its unit and the temperature"
    ),
)
BOAT_WITHOUT_SLIP = Sentence(
    "boat_without_slip", gettext_noop("boat %(boat)s has no slip that counts on day %(day)s: weigh it first")
)
FISH_BACK_ALREADY = Sentence(
    "fish_back_already", gettext_noop("slip %(slip)s says that boat %(boat)s’s fish are back in the water already")
)
NO_FISH_TO_HAND_OVER = Sentence(
    "no_fish_to_hand_over", gettext_noop("boat %(boat)s has no live fish that go back: none can go into the tank")
)
BAG_GONE = Sentence("bag_gone", gettext_noop("that bag is void already"))
BAG_WENT_BACK = Sentence(
    "bag_went_back", gettext_noop("the %(bag)s went back with the batch at %(place)s: void that release first")
)
BAGS_CHANGED = Sentence(
    "bags_changed", gettext_noop("the bags in the tank changed meanwhile: go back and choose them again")
)
BAGS_OF_OTHER_DAY = Sentence(
    "bags_of_other_day", gettext_noop("these bags are of another day: release each day’s fish by themselves")
)
NO_SUCH_FIGURE = Sentence("no_such_figure", gettext_noop("%(why)s"))
NO_VOLUME = Sentence("no_volume", gettext_noop("a tank of 0 gal holds no fish: add its size, or leave this blank"))
NOTHING_READ = Sentence("nothing_read", gettext_noop("nothing is read yet: add at least the temperature or the oxygen"))

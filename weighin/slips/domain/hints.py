"""What the rule sheet asks of the table, said at the field where it matters."""

from django.utils.translation import gettext, ngettext

from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import on_scale
from weighin.rules.slips import Slip
from weighin.rules.values import plain
from weighin.rules.words.amounts import weight_said
from weighin.rules.words.sheet import dead_fish_rules, late_rules, over_limit_rule, short_fish_rule

EXAMPLES = {"lb": "9.47", "lb-oz": "9-07.5", "kg": "4.295"}


def hints(rules: Rulebook) -> dict[str, str]:
    """A sentence for each field that the event's rules speak of."""
    return {
        "gross": gettext("Bag and all, such as %(example)s. Empty when nothing goes on the scale.")
        % {"example": EXAMPLES[rules.unit]},
        "tare": gettext("Blank is the rule sheet’s: %(weight)s.") % {"weight": weight_said(rules.bag_tare, rules)},
        "largest_weights": gettext(
            "The rules can take the largest away: write them largest first, separated by commas."
        ),
        "big_fish_alive": gettext("Needed when some fish are dead. A dead fish may be it.")
        if rules.dead_are_weighed and rules.dead_fish_big_fish
        else gettext("Needed when some fish are dead. A dead fish cannot be it."),
    }


def table_rules(rules: Rulebook) -> list[tuple[str, str]]:
    """What the officials at the table go by while they count: the case, and what the rules say of it."""
    length = rules.minimum_length_in
    short = [short_fish_rule(rules)]
    if length is not None:
        under = gettext("Under %(length)s in, mouth closed, flat on the board.") % {"length": plain(length)}
        short = [under, *short]
    return [
        (
            gettext("Alive"),
            gettext(
                "Upright unaided, a regular gill beat, tries to swim off when touched. Judged before the fish leaves sight."
            ),
        ),
        (gettext("Dead"), " ".join(dead_fish_rules(rules))),
        (gettext("Short"), " ".join(short)),
        (
            gettext("Over %(limit)s") % {"limit": rules.fish_limit},
            " ".join((gettext("Everything on the table counts, short and dead fish too."), over_limit_rule(rules))),
        ),
    ]


def clock_rules(rules: Rulebook) -> str:
    """What coming in late costs."""
    return " ".join(late_rules(rules))


def takes_largest(rules: Rulebook) -> bool:
    """Whether these rules can take the largest fish off a team."""
    return rules.over_limit == "remove_largest" or rules.short_fish == "lose_largest"


def goes_on_scale(rules: Rulebook, alive: int, dead: int, short: int) -> str:
    """How many fish the official weighs, in words, and why not all."""
    slip = Slip(fish=alive + dead, alive=alive, dead=dead, short=min(short, alive + dead))
    number = on_scale(rules, slip)
    left = slip.fish - number
    if not slip.fish:
        return gettext("No fish: nothing goes on the scale.")
    if not left:
        all_of_them = ngettext("%(n)s fish goes on the scale.", "%(n)s fish go on the scale.", number)
        return all_of_them % {"n": number}
    stay = {"n": number, "left": left, "which": _which_stay(rules, slip)}
    if number == 0:
        return (
            ngettext(
                "Nothing goes on the scale, %(left)s %(which)s does not.",
                "Nothing goes on the scale, %(left)s %(which)s do not.",
                left,
            )
            % stay
        )
    if left == 1:
        some = ngettext(
            "%(n)s fish goes on the scale, %(left)s %(which)s does not.",
            "%(n)s fish go on the scale, %(left)s %(which)s does not.",
            number,
        )
    else:
        some = ngettext(
            "%(n)s fish goes on the scale, %(left)s %(which)s do not.",
            "%(n)s fish go on the scale, %(left)s %(which)s do not.",
            number,
        )
    return some % stay


def _which_stay(rules: Rulebook, slip: Slip) -> str:
    """``short``, ``short or dead``: the fish that do not go on the scale."""
    which = []
    if slip.short:
        which.append(gettext("short"))
    if slip.dead and not rules.dead_are_weighed:
        which.append(gettext("dead"))
    if rules.over_limit == "penalty" and slip.fish > rules.fish_limit:
        which.append(gettext("smallest, over the limit,"))
    found = which[0] if which else ""
    for one in which[1:]:
        found = gettext("%(most)s or %(last)s") % {"most": found, "last": one}
    return found

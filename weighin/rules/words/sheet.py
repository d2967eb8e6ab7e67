"""The rule sheet in words: plain sentences for members, no mark-up, in the reader's language."""

from collections.abc import Callable, Sequence

from weighin.rules.faults import gettext_noop
from weighin.rules.language import gettext as _
from weighin.rules.language import ngettext
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet import care_keys, keys
from weighin.rules.values import plain
from weighin.rules.words.amounts import (
    cost,
    count_of_fish,
    count_of_teams,
    minutes_said,
    numbers,
    ordinal,
    points_said,
    steps,
)
from weighin.rules.words.amounts import weight_said as weight

UNITS = {
    "lb": gettext_noop("Weights are in pounds."),
    "lb-oz": gettext_noop("Weights are in pounds and ounces: 9-07.5 is 9 lb 7.5 oz."),
    "kg": gettext_noop("Weights are in kilograms."),
}
TIE_RULES = {
    "big_fish": gettext_noop("the larger big fish"),
    "live_fish": gettext_noop("more live fish on days not lost"),
    "fish_count": gettext_noop("more fish weighed"),
    "fewest_deductions": gettext_noop("smaller penalties"),
    "first_day": gettext_noop("the better first day"),
    "last_day": gettext_noop("the better last day"),
    "lot": gettext_noop("lot, the lower number first"),
    "total_weight": gettext_noop("more weight over the season"),
}


def sheet_in_words(rulebook: Rulebook) -> list[tuple[str, list[str]]]:
    """The whole rule sheet: sections in the order of the keys, each with its sentences.

    Every key that matters under the others is in the words, so two sheets that read alike score alike.
    """
    return [(_(section), said(rulebook)) for section, said in SECTIONS.items()]


def sections_in_words(rulebook: Rulebook, sections: Sequence[str]) -> list[tuple[str, list[str]]]:
    """Those sections of the rule sheet; each is named by its constant in ``keys``, KeyError otherwise."""
    return [(_(section), SECTIONS[section](rulebook)) for section in sections]


def dead_fish_rules(rules: Rulebook) -> list[str]:
    """Whether dead fish are weighed, and what they cost."""
    sentences = [_("Dead fish are weighed.") if rules.dead_are_weighed else _("Dead fish are not weighed.")]
    return [*sentences, _dead_cost(rules)] if rules.dead_cost_weight else sentences


def short_fish_rule(rules: Rulebook) -> str:
    """What short fish cost."""
    if rules.short_fish == "lose_day":
        return _("A short fish on the table loses the day.")
    if rules.short_fish == "lose_largest":
        return _("Short fish are not weighed, and each also takes away the largest fish still on the scale.")
    each = cost(rules.short_fish_penalty, rules)
    return _("Short fish are not weighed, and each costs %(cost)s.") % {"cost": each}


def over_limit_rule(rules: Rulebook) -> str:
    """What fish over the limit cost."""
    if rules.over_limit == "disqualify_day":
        return _("A fish over the limit loses the day.")
    if rules.over_limit == "remove_largest":
        return _("Each fish over the limit takes away the largest fish still on the scale.")
    return _(
        "The smallest come off until no more than %(limit)s are weighed, and each fish over the limit costs %(cost)s."
    ) % {"limit": count_of_fish(rules.fish_limit), "cost": cost(rules.over_limit_penalty, rules)}


def late_rules(rules: Rulebook) -> list[str]:
    """What coming in late costs, and when it loses the day."""
    last = rules.late_disqualify_after_minutes
    if last is None:
        return [_late_cost(rules), _("However late a team comes in, it keeps its day.")]
    over = _("A team more than %(minutes)s past its due time, seconds included, loses the day.")
    return [_late_cost(rules), over % {"minutes": minutes_said(last)}]


def _fish_section(rules: Rulebook) -> list[str]:
    length = rules.minimum_length_in
    at_most = _(
        "A team may present at most %(limit)s a day. "
        "Everything laid on the table counts toward that, short and dead fish too."
    )
    on_board = _("No limit is set for the fish kept on board.")
    if rules.boat_limit is not None:
        on_board = _("At most %(limit)s may be kept on board at once; fish care checks it, it costs no weight.") % {
            "limit": count_of_fish(rules.boat_limit)
        }
    shortest = _("No minimum length is set.")
    if length is not None:
        shortest = _("A fish under %(length)s in, mouth closed and flat on the board, is short.") % {
            "length": plain(length)
        }
    return [
        _(UNITS[rules.unit]),
        _("The fish that count: %(species)s.") % {"species": rules.species},
        at_most % {"limit": count_of_fish(rules.fish_limit)},
        _("Where a slip gives no tare, the empty bag weighs %(weight)s.") % {"weight": cost(rules.bag_tare, rules)},
        on_board,
        shortest,
    ]


def _dead_section(rules: Rulebook) -> list[str]:
    big = rules.dead_are_weighed and rules.dead_fish_big_fish
    return [
        *dead_fish_rules(rules),
        _("A dead fish may be the big fish.") if big else _("A dead fish cannot be the big fish."),
        _("A fish that dies after the table costs nothing; it counts among the dead of the event."),
    ]


def _dead_cost(rules: Rulebook) -> str:
    each = steps(rules)
    if len(each) == 1:
        return _("Each dead fish, short or not, costs %(cost)s.") % {"cost": cost(each[0], rules)}
    one, last = _("the %(place)s %(cost)s"), _("the %(place)s and each further one %(cost)s")
    parts = [
        (last if place == len(each) else one) % {"place": ordinal(place), "cost": cost(step, rules)}
        for place, step in enumerate(each, start=1)
    ]
    return _("Dead fish, short or not, cost by their number in the day: %(costs)s.") % {"costs": ", ".join(parts)}


def _late_section(rules: Rulebook) -> list[str]:
    return [*late_rules(rules), _("Minutes a team is excused for do not count.")]


def _late_cost(rules: Rulebook) -> str:
    penalty, grace = rules.late_penalty_per_minute, rules.late_grace_minutes
    if not penalty:
        return _("Coming in late costs no weight.")
    if grace and rules.late_reduces_big_fish:
        said = _("Each minute begun after %(grace)s of grace costs %(cost)s; the big fish loses as much.")
    elif grace:
        said = _("Each minute begun after %(grace)s of grace costs %(cost)s; the big fish keeps its weight.")
    elif rules.late_reduces_big_fish:
        said = _("Each minute begun past the due time costs %(cost)s; the big fish loses as much.")
    else:
        said = _("Each minute begun past the due time costs %(cost)s; the big fish keeps its weight.")
    return said % {"grace": minutes_said(grace), "cost": cost(penalty, rules)}


def _total_section(rules: Rulebook) -> list[str]:
    bonus, cut = rules.live_fish_bonus, rules.cut_after_day
    adds = _("Live fish add no bonus.")
    if bonus:
        adds = _("Each legal live fish adds %(bonus)s, for up to %(limit)s.") % {
            "bonus": weight(bonus, rules),
            "limit": count_of_fish(rules.fish_limit),
        }
    fish_on = _("Every team may fish every day: there is no cut.")
    if cut is not None and rules.cut_keep is not None:
        fish_on = _(
            "After day %(day)s the best %(teams)s and all that are level with the last of them fish on; "
            "the others rank below them."
        ) % {"day": cut, "teams": count_of_teams(rules.cut_keep)}
    floor = rules.negative_totals == "floor"
    return [
        adds,
        _("A day’s total is never below 0.") if floor else _("A day’s total may be below 0 and counts as it is."),
        _("A lost day counts 0; its fish still count in fish care and among the dead of the event."),
        _ties(
            rules.ties,
            _("Equal totals share the place and the prizes."),
            _("Equal totals are separated by %(ties)s; what is still equal shares the place and the prizes."),
        ),
        fish_on,
    ]


def _ties(tie_keys: Sequence[str], shared: str, separated: str) -> str:
    names = [_(TIE_RULES[key]) for key in dict.fromkeys(tie_keys) if key != "share"]
    if not names:
        return shared
    listed = names[0]
    for name in names[1:]:
        listed = _("%(ties)s, then by %(tie)s") % {"ties": listed, "tie": name}
    return separated % {"ties": listed}


def _money_section(rules: Rulebook) -> list[str]:
    shares = rules.place_shares
    divided = _("Paid places share n : n − 1 : ... : 1, such as 5 : 4 : 3 : 2 : 1 with five places paid.")
    if shares is not None:
        divided = _("Paid places share %(shares)s.") % {"shares": " : ".join(plain(share) for share in shares)}
    into = _("%(percent)s %% of the paid entry fees goes into the purse, and all added money.")
    down = _("Each prize is rounded down to %(step)s; what is left goes to first place.")
    return [
        into % {"percent": plain(rules.payback_percent)},
        _places(rules),
        divided,
        down % {"step": f"{rules.rounding:.2f}"},
        _("Teams that tie split the prizes of the places they cover."),
        _("A team that has not paid keeps its place; its prize passes to the next that has."),
        *_pot_rules(rules),
    ]


def _places(rules: Rulebook) -> str:
    places, most = rules.places_paid, None if rules.place_shares is None else len(rules.place_shares)
    if places.number is not None:
        number = places.number
        said = ngettext("%(n)s place is paid.", "%(n)s places are paid.", number)
        if most is not None:
            said = ngettext(
                "%(n)s place is paid, at most %(most)s.", "%(n)s places are paid, at most %(most)s.", number
            )
        return said % {"n": number, "most": most}
    each = places.one_per or 1
    said = ngettext(
        "One place is paid for every %(n)s paid entry, at least one.",
        "One place is paid for every %(n)s paid entries, at least one.",
        each,
    )
    if most is not None:
        said = ngettext(
            "One place is paid for every %(n)s paid entry, at least one, at most %(most)s.",
            "One place is paid for every %(n)s paid entries, at least one, at most %(most)s.",
            each,
        )
    return said % {"n": each, "most": most}


def _pot_rules(rules: Rulebook) -> list[str]:
    if not rules.big_fish_pot_fee:
        return [_("There is no big fish pot.")]
    costs = _("The big fish pot costs a team %(fee)s and is paid out whole.") % {"fee": f"{rules.big_fish_pot_fee:.2f}"}
    if len(rules.big_fish_shares) == 1:
        return [costs, _("The largest big fish of the ranked teams in it wins it.")]
    shares = _("Its shares, from the largest big fish on, one a team: %(shares)s.")
    return [costs, shares % {"shares": numbers(rules.big_fish_shares)}]


def _points_section(rules: Rulebook) -> list[str]:
    below, no_fish = rules.points_absent_below_last, rules.points_no_fish
    nothing = _("A team that presented no fish gets the fewest a ranked team got before additions.")
    if no_fish is not None:
        nothing = _("A team that presented no fish gets %(points)s.") % {"points": points_said(no_fish)}
    absent = _("An absent, disqualified or withdrawn team gets 0 points.")
    if below is not None:
        absent = _(
            "An absent team gets %(step)s fewer than the fewest a ranked team got before additions, never below 0; "
            "a disqualified or withdrawn team gets 0 points."
        ) % {"step": plain(below)}
    counted = _("All events of the season count.")
    if rules.count_best is not None:
        counted = ngettext(
            "A team’s best %(n)s event of the season count; one it was disqualified in is among them and cannot be dropped.",
            "A team’s best %(n)s events of the season count; one it was disqualified in is among them and cannot be dropped.",
            rules.count_best,
        ) % {"n": rules.count_best}
    never = _("A team that never came to the table gets %(points)s.")
    return [
        _places_points(rules),
        nothing,
        never % {"points": points_said(rules.points_not_weighed)},
        absent,
        *_additions(rules),
        counted,
        _ties(
            rules.season_ties,
            _("Equal points over the season share the place."),
            _("Equal points over the season are separated by %(ties)s; what is still equal shares the place."),
        ),
    ]


def _places_points(rules: Rulebook) -> str:
    table, step = rules.points_table, rules.points_step
    if table is None and step:
        said = _(
            "First place gets %(points)s, each further place %(step)s fewer; "
            "a ranked team never gets fewer than %(floor)s."
        )
    elif table is None:
        said = _(
            "First place gets %(points)s, each further place as many; a ranked team never gets fewer than %(floor)s."
        )
    elif step:
        said = _(
            "The points of the places, from first on: %(points)s; each further place %(step)s fewer; "
            "a ranked team never gets fewer than %(floor)s."
        )
    else:
        said = _(
            "The points of the places, from first on: %(points)s; each further place as many; "
            "a ranked team never gets fewer than %(floor)s."
        )
    points = points_said(rules.points_first) if table is None else numbers(table)
    return said % {"points": points, "step": plain(step), "floor": plain(rules.points_floor)}


def _additions(rules: Rulebook) -> list[str]:
    sentences = []
    if rules.points_per_pound:
        pound = _("Each whole pound of a ranked team’s total adds %(points)s.")
        sentences.append(pound % {"points": points_said(rules.points_per_pound)})
    if rules.points_big_fish:
        big_fish = _("The largest big fish of the ranked teams adds %(points)s.")
        sentences.append(big_fish % {"points": points_said(rules.points_big_fish)})
    return sentences or [_("Nothing is added for weight or for the big fish.")]


def _care_section(rules: Rulebook) -> list[str]:
    held, deep, hot = rules.care_max_held_minutes, rules.deep_fish_kept_ft, rules.measured_lengths_above
    ice = _("With the lake at %(lake)s °F or warmer, a livewell has ice.")
    cooling = _("A livewell is at most %(cooling)s °F cooler than the lake.")
    oxygen = _("A livewell has at least %(oxygen)s mg/L of dissolved oxygen.")
    stop = _("When %(percent)s %% of the fish are dead, the director decides whether to go on.")
    sentences = [
        _("Fish care is checked and costs no weight."),
        ice % {"lake": plain(rules.care_warm_f)},
        cooling % {"cooling": plain(rules.care_max_cooling_f)},
        oxygen % {"oxygen": plain(rules.care_min_do)},
        _("Fish are at most %(minutes)s in the bag.") % {"minutes": minutes_said(rules.care_max_bag_minutes)},
        _("No limit is set for the time from first fish to release.")
        if held is None
        else _("From first fish to release pass at most %(minutes)s.") % {"minutes": minutes_said(held)},
        stop % {"percent": plain(rules.care_stop_percent)},
    ]
    if deep is not None:
        kept = _("Fish from %(depth)s ft or deeper are kept where the law allows it, not released.")
        sentences.append(kept % {"depth": plain(deep)})
    if hot is not None:
        measured = _("With the lake at %(lake)s °F or warmer, fish are measured and released at once.")
        sentences.append(measured % {"lake": plain(hot)})
    return sentences


SECTIONS: dict[str, Callable[[Rulebook], list[str]]] = {
    keys.FISH: _fish_section,
    keys.DEAD_FISH: _dead_section,
    keys.SHORT_FISH: lambda rules: [short_fish_rule(rules)],
    keys.OVER_THE_LIMIT: lambda rules: [over_limit_rule(rules)],
    keys.LATE: _late_section,
    keys.TOTALS: _total_section,
    keys.MONEY: _money_section,
    keys.POINTS: _points_section,
    care_keys.FISH_CARE: _care_section,
}

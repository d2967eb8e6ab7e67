"""What the rule sheet asks of the table, said at the field where it matters."""

from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import on_scale
from weighin.rules.slips import Slip
from weighin.rules.values import plain
from weighin.rules.weights import show, word
from weighin.rules.words import sheet_in_words

EXAMPLES = {"lb": "9.47", "lb-oz": "9-07.5", "kg": "4.295"}


def hints(rules: Rulebook) -> dict[str, str]:
    """A sentence for each field that the event's rules speak of."""
    return {
        "gross": f"Bag and all, such as {EXAMPLES[rules.unit]}. Empty when nothing goes on the scale.",
        "tare": f"Blank is the rule sheet’s: {show(rules.bag_tare, rules.unit)} {word(rules.unit)}.",
        "largest_weights": "The rules can take the largest away: write them largest first, separated by commas.",
        "big_fish_alive": f"Needed when some fish are dead. A dead fish {'may' if rules.dead_are_weighed and rules.dead_fish_big_fish else 'cannot'} be it.",
    }


def table_rules(rules: Rulebook) -> list[tuple[str, str]]:
    """What the officials at the table go by while they count: the case, and what the rules say of it."""
    said = dict(sheet_in_words(rules))
    length = rules.minimum_length_in
    short = "" if length is None else f"Under {plain(length)} in, mouth closed, flat on the board. "
    return [
        (
            "Alive",
            "Upright unaided, a regular gill beat, tries to swim off when touched. Judged before the fish leaves sight.",
        ),
        ("Dead", " ".join(said["Dead fish"][:-2])),
        ("Short", short + " ".join(said["Short fish"])),
        (
            f"Over {rules.fish_limit}",
            f"Everything laid on the table counts, short and dead fish too. {' '.join(said['Over the limit'])}",
        ),
    ]


def clock_rules(rules: Rulebook) -> str:
    """What coming in late costs."""
    return " ".join(dict(sheet_in_words(rules))["Late"][:2])


def takes_largest(rules: Rulebook) -> bool:
    """Whether these rules can take the largest fish off a team."""
    return rules.over_limit == "remove_largest" or rules.short_fish == "lose_largest"


def goes_on_scale(rules: Rulebook, alive: int, dead: int, short: int) -> str:
    """How many fish the official weighs, in words, and why not all."""
    slip = Slip(fish=alive + dead, alive=alive, dead=dead, short=min(short, alive + dead))
    number = on_scale(rules, slip)
    left = slip.fish - number
    if not slip.fish:
        return "No fish: nothing goes on the scale."
    fish = "Nothing goes" if number == 0 else "1 fish goes" if number == 1 else f"{number} fish go"
    return f"{fish} on the scale." if not left else f"{fish} on the scale, {left} {_why_not(rules, slip)} not."


def _why_not(rules: Rulebook, slip: Slip) -> str:
    why = []
    if slip.short:
        why.append("short")
    if slip.dead and not rules.dead_are_weighed:
        why.append("dead")
    if rules.over_limit == "penalty" and slip.fish > rules.fish_limit:
        why.append("smallest, over the limit,")
    return "or ".join(f"{word_} " for word_ in why).strip() + (
        " do" if slip.fish - on_scale(rules, slip) > 1 else " does"
    )

"""Rates of dead fish in words: never a rate without its fish and its range, and none dead is never 'no mortality'."""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

from weighin.survival.clusters import CORRELATION, PRIOR_FISH
from weighin.survival.estimates import Estimate, Rated

SPACE = "\u00a0"
NUMBERS = [
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
]


def number(count: int) -> str:
    """A whole number: in words to twenty, in figures beyond.

    >>> number(12), number(1479)
    ('twelve', '1,479')
    """
    return NUMBERS[count] if 0 <= count < len(NUMBERS) else f"{count:,}"


def counted(count: int, one: str, many: str = "") -> str:
    """A count in figures with its noun.

    >>> counted(1, "livewell"), counted(0, "boat"), counted(412, "fish", "fish")
    ('1 livewell', '0 boats', '412 fish')
    """
    return f"{count:,} {one if count == 1 else many or one + 's'}"


def figures(share: float) -> str:
    """A share from 0 to 1 as per cent, one decimal; what is not quite none or all is never rounded to it.

    >>> [figures(share) for share in (0.0267, 0.00002, 0.99999, 1.0)]
    ['2.7', 'under 0.1', 'over 99.9', '100']
    """
    if share in (0.0, 1.0):
        return f"{100 * share:.0f}"
    rounded = (Decimal(repr(share)) * 100).quantize(Decimal("0.1"), ROUND_HALF_UP)
    if abs(rounded) < Decimal("0.1"):
        return "under 0.1" if share > 0 else "0"
    if share < 1 and rounded >= 100:
        return "over 99.9"
    return f"{rounded}".replace("-", "\u2212")


def percent(share: float) -> str:
    """``figures`` with the sign.

    >>> percent(0.0267)
    '2.7\\xa0%'
    """
    return f"{figures(share)}{SPACE}%"


def whole_percent(share: float) -> str:
    """A level someone has set, without needless decimals.

    >>> whole_percent(0.1), whole_percent(0.125)
    ('10\\xa0%', '12.5\\xa0%')
    """
    return f"{round(100 * share, 6):g}{SPACE}%"


def between(low: float, high: float) -> str:
    """Both limits of a range.

    >>> between(0.0141, 0.0498)
    'between 1.4\\xa0% and 5.0\\xa0%'
    """
    return f"between {percent(low)} and {percent(high)}"


def limits(rate: Rated) -> str:
    """The range of a rate in a table: two limits, or the one that speaks where none or all are dead.

    >>> from weighin.survival.estimates import Estimate
    >>> limits(Estimate(0.0, 0.0, 0.0, 0.0876)), limits(Estimate(0.05, 0.01, 0.02, 0.09))
    ('up to 8.8\\xa0%', '2.0 to 9.0\\xa0%')
    """
    if rate.rate == 0.0:
        return f"up to {percent(rate.high)}"
    if rate.rate == 1.0:
        return f"{percent(rate.low)} and more"
    return f"{figures(rate.low)} to {percent(rate.high)}"


def about(share: float) -> str:
    """A share as a fraction of the fish, with its verb: for the head of a page.

    >>> about(0.0602)
    'About one fish in seventeen was'
    >>> about(0.41)
    'About four fish in ten were'
    """
    if share >= 0.95:
        return "Nearly every fish was"
    if share >= 0.25:
        return f"About {number(round(10 * share))} fish in ten were"
    return f"About one fish in {number(round(1 / share))} was"


def one_in(share: float) -> str:
    """A limit as a fraction: one fish in 22; from a quarter on so many in ten.

    >>> one_in(0.045), one_in(0.63)
    ('one fish in 22', 'six fish in ten')
    """
    if share >= 0.25:
        return f"{number(round(10 * share))} fish in ten"
    return f"one fish in {round(1 / share):,}"


def dead_of(dead: int, fish: int, where: str = "brought to the scales") -> str:
    """The count with its verb, to begin a sentence.

    >>> [dead_of(*pair) for pair in ((11, 412), (1, 412), (0, 40), (7, 7), (0, 1), (1, 1))]  # doctest: +NORMALIZE_WHITESPACE
    ['11 of 412 fish brought to the scales were dead', '1 of 412 fish brought to the scales was dead',
     'None of 40 fish brought to the scales was dead', 'All 7 fish brought to the scales were dead',
     'The one fish brought to the scales was alive', 'The one fish brought to the scales was dead']
    """
    if fish == 1:
        return f"The one fish {where} was {'dead' if dead else 'alive'}"
    if dead == 0:
        return f"None of {fish:,} fish {where} was dead"
    if dead == fish:
        return f"All {fish:,} fish {where} were dead"
    return f"{dead:,} of {fish:,} fish {where} {'was' if dead == 1 else 'were'} dead"


def finding(rate: Rated, dead: int, fish: int) -> str:
    """The head of an event: the count and, where it says anything, the rate seen.

    >>> from weighin.survival.clusters import clustered
    >>> finding(clustered([2, 1], [20, 20]), 3, 40)
    '3 of 40 fish brought to the scales were dead: 7.5\\xa0% seen'
    """
    said = dead_of(dead, fish)
    return said if dead in (0, fish) else f"{said}: {percent(rate.rate)} seen"


def rate_said(dead: int, fish: int, low: float, high: float) -> str:
    """An event's count, rate and range in one sentence, where there is room for no more.

    >>> rate_said(11, 412, 0.0141, 0.0498).replace(SPACE, " ")
    '11 of 412 fish brought to the scales were dead: 2.7 % seen (95 % range 1.4 to 5.0 %, by livewell)'
    >>> rate_said(0, 40, 0.0, 0.0876).replace(SPACE, " ")
    'None of 40 fish brought to the scales was dead, which leaves open anything up to 8.8 %'
    """
    said = dead_of(dead, fish)
    if dead == 0:
        return f"{said}, which leaves open anything up to {percent(high)}"
    if dead == fish:
        return f"{said}, which leaves open anything from {percent(low)} upwards"
    return f"{said}: {percent(dead / fish)} seen (95{SPACE}% range {figures(low)} to {percent(high)}, by livewell)"


def not_none(fish: int) -> str:
    """To begin the sentence that gives the upper limit where no fish was dead."""
    return f"That is not the same as no mortality: with {'one' if fish == 1 else f'{fish:,}'} fish"


def range_said(rate: Rated, dead: int, fish: int, livewells: int) -> str:
    """What the count leaves open, allowing for whole livewells dying together."""
    if dead == 0:
        return f"{not_none(fish)} the true rate may still be anything up to {percent(rate.high)}."
    if dead == fish:
        return f"The true rate may be anything from {percent(rate.low)} upwards."
    return (
        f"95{SPACE}% range {figures(rate.low)} to {percent(rate.high)}, by livewell, whose fish tend to die together. Fish that died "
        "unseen are not in it."
    )


def clusters_said(fish: int, livewells: int, design_effect: float | None, dead: int) -> str:
    """The design effect without its name: how many fish caught one by one would tell as much."""
    wells = counted(livewells, "livewell")
    start = f"The {counted(fish, 'fish', 'fish')} came from {wells}."
    if design_effect is None:
        return ""
    said = (
        f"{start} Fish of one livewell share its water and tend to live or die together: the {fish:,} tell about as much "
        f"as {fish / design_effect:,.0f} held one by one would (design effect {design_effect:.1f})."
    )
    few = min(dead, fish - dead)
    if livewells < 2 or few <= PRIOR_FISH:
        seen = "one livewell tells" if livewells < 2 else f"{number(few)} {'dead' if few == dead else 'living'} tell"
        said += (
            f" Of how alike they are {seen} little, so a correlation of {CORRELATION:g} within a livewell is assumed, "
            "as in the rule of the stop level."
        )
    return said


def against_stop(rate: Rated, stop: float, few: str = "fish") -> str:
    """Where a rate's range lies against our stop level, and whether the fish (or events) are too few to tell."""
    level = f"our stop level of {whole_percent(stop)}"
    if rate.low > stop:
        return f"The whole range lies above {level}."
    if rate.high <= stop:
        return f"The whole range lies below {level}."
    if rate.rate > stop:
        return f"The rate seen is above {level}, but the range reaches below it: so few {few} cannot tell."
    return f"The rate seen is not above {level}, but the range reaches beyond it: so few {few} cannot tell."


def delayed_said(delayed: Estimate | None, basis: str | None) -> str:
    """Delayed mortality with its range and what it rests on; negative is 'no increase shown', none is 'not known'."""
    if delayed is None:
        return "not known"
    if delayed.rate <= 0.0 and basis == "reference":
        return f"no increase shown; the range reaches up to {percent(max(delayed.high, 0.0))}"
    if delayed.rate == 0.0:
        return f"none seen; up to {percent(delayed.high)}"
    if delayed.low <= 0.0:
        return f"{percent(delayed.rate)}, anywhere from no increase to {percent(delayed.high)}"
    return f"{percent(delayed.rate)}, {between(delayed.low, delayed.high)}"


def times(ratio: float) -> str:
    """A ratio with two digits that count, never bare.

    >>> times(1.0), times(0.614), times(12.4)
    ('1.0 times', '0.61 times', '12 times')
    """
    figure = f"{ratio:.2g}" if 0.001 <= ratio < 99.5 else f"{ratio:.1e}" if ratio < 0.001 else f"{ratio:,.0f}"
    return f"{figure}{'' if '.' in figure or ratio >= 9.5 else '.0'} times"


def listed(words: Sequence[str], last: str = "and") -> str:
    """Words in a row.

    >>> listed(["a"]), listed(["a", "b", "c"])
    ('a', 'a, b and c')
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"

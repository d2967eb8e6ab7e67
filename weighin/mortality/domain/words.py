"""Rates of dead fish in words: never a rate without its fish and its range, and none dead is never 'no mortality'."""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

from django.utils.translation import gettext, gettext_lazy, ngettext, pgettext_lazy

from weighin.survival.clusters import CORRELATION, PRIOR_FISH
from weighin.survival.estimates import Estimate, Rated
from weighin.ui.nouns import counted as counted

SPACE = "\u00a0"
NUMBERS = (
    pgettext_lazy("a number", "no"),
    gettext_lazy("one"),
    gettext_lazy("two"),
    gettext_lazy("three"),
    gettext_lazy("four"),
    gettext_lazy("five"),
    gettext_lazy("six"),
    gettext_lazy("seven"),
    gettext_lazy("eight"),
    gettext_lazy("nine"),
    gettext_lazy("ten"),
    gettext_lazy("eleven"),
    gettext_lazy("twelve"),
    gettext_lazy("thirteen"),
    gettext_lazy("fourteen"),
    gettext_lazy("fifteen"),
    gettext_lazy("sixteen"),
    gettext_lazy("seventeen"),
    gettext_lazy("eighteen"),
    gettext_lazy("nineteen"),
    gettext_lazy("twenty"),
)


def number(count: int) -> str:
    """A whole number: in words to twenty, in figures beyond.

    >>> number(12), number(1479)
    ('twelve', '1,479')
    """
    return str(NUMBERS[count]) if 0 <= count < len(NUMBERS) else f"{count:,}"


def figures(share: float) -> str:
    """A share from 0 to 1 as per cent, one decimal; what is not quite none or all is never rounded to it.

    >>> [figures(share) for share in (0.0267, 0.00002, 0.99999, 1.0)]
    ['2.7', 'under 0.1', 'over 99.9', '100']
    """
    if share in (0.0, 1.0):
        return f"{100 * share:.0f}"
    rounded = (Decimal(repr(share)) * 100).quantize(Decimal("0.1"), ROUND_HALF_UP)
    if abs(rounded) < Decimal("0.1"):
        return gettext("under 0.1") if share > 0 else "0"
    if share < 1 and rounded >= 100:
        return gettext("over 99.9")
    return f"{rounded}".replace("-", "\u2212")


def percent(share: float) -> str:
    """``figures`` with the sign.

    >>> percent(0.0267)
    '2.7\\xa0%'
    """
    return f"{figures(share)}{SPACE}%"


def seen(rate: Rated) -> str:
    """The rate seen for a table: none dead is never 0 %."""
    return percent(rate.rate) if rate.rate else gettext("none seen")


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
    return gettext("between %(low)s and %(high)s") % {"low": percent(low), "high": percent(high)}


def limits(rate: Rated) -> str:
    """The range of a rate in a table: two limits, or the one that speaks where none or all are dead.

    >>> from weighin.survival.estimates import Estimate
    >>> limits(Estimate(0.0, 0.0, 0.0, 0.0876)), limits(Estimate(0.05, 0.01, 0.02, 0.09))
    ('up to 8.8\\xa0%', '2.0 to 9.0\\xa0%')
    """
    if rate.rate == 0.0:
        return gettext("up to %(high)s") % {"high": percent(rate.high)}
    if rate.rate == 1.0:
        return gettext("%(low)s and more") % {"low": percent(rate.low)}
    return gettext("%(low)s to %(high)s") % {"low": figures(rate.low), "high": percent(rate.high)}


def about(share: float) -> str:
    """A share as a fraction of the fish, with its verb: for the head of a page.

    >>> about(0.0602)
    'About one fish in seventeen was'
    >>> about(0.41)
    'About four fish in ten were'
    """
    if share >= 0.95:
        return gettext("Nearly every fish was")
    if share >= 0.25:
        return gettext("About %(share)s fish in ten were") % {"share": number(round(10 * share))}
    return gettext("About one fish in %(share)s was") % {"share": number(round(1 / share))}


def one_in(share: float) -> str:
    """A limit as a fraction: one fish in 22; from a quarter on so many in ten.

    >>> one_in(0.045), one_in(0.63)
    ('one fish in 22', 'six fish in ten')
    """
    if share >= 0.25:
        return gettext("%(share)s fish in ten") % {"share": number(round(10 * share))}
    return gettext("one fish in %(share)s") % {"share": f"{round(1 / share):,}"}


def dead_of(dead: int, fish: int) -> str:
    """The count with its verb, to begin a sentence.

    >>> [dead_of(*pair) for pair in ((11, 412), (1, 412), (0, 40), (7, 7), (0, 1), (1, 1))]  # doctest: +NORMALIZE_WHITESPACE
    ['11 of 412 fish brought to the scales were dead', '1 of 412 fish brought to the scales was dead',
     'None of 40 fish brought to the scales was dead', 'All 7 fish brought to the scales were dead',
     'The one fish brought to the scales was alive', 'The one fish brought to the scales was dead']
    """
    if fish == 1:
        if dead:
            return gettext("The one fish brought to the scales was dead")
        return gettext("The one fish brought to the scales was alive")
    if dead == 0:
        return gettext("None of %(fish)s fish brought to the scales was dead") % {"fish": f"{fish:,}"}
    if dead == fish:
        return gettext("All %(fish)s fish brought to the scales were dead") % {"fish": f"{fish:,}"}
    return ngettext(
        "%(dead)s of %(fish)s fish brought to the scales was dead",
        "%(dead)s of %(fish)s fish brought to the scales were dead",
        dead,
    ) % {"dead": f"{dead:,}", "fish": f"{fish:,}"}


def finding(rate: Rated, dead: int, fish: int) -> str:
    """The head of an event: the count and, where it says anything, the rate seen.

    >>> from weighin.survival.clusters import clustered
    >>> finding(clustered([2, 1], [20, 20]), 3, 40)
    '3 of 40 fish brought to the scales were dead: 7.5\\xa0% seen'
    """
    said = dead_of(dead, fish)
    return (
        said if dead in (0, fish) else gettext("%(said)s: %(rate)s seen") % {"said": said, "rate": percent(rate.rate)}
    )


def rate_said(dead: int, fish: int, low: float, high: float) -> str:
    """An event's count, rate and range in one sentence, where there is room for no more.

    >>> rate_said(11, 412, 0.0141, 0.0498).replace(SPACE, " ")
    '11 of 412 fish brought to the scales were dead: 2.7 % seen (95 % range 1.4 to 5.0 %, by livewell)'
    >>> rate_said(0, 40, 0.0, 0.0876).replace(SPACE, " ")
    'None of 40 fish brought to the scales was dead, which leaves open anything up to 8.8 %'
    """
    said = dead_of(dead, fish)
    if dead == 0:
        return gettext("%(said)s, which leaves open anything up to %(high)s") % {"said": said, "high": percent(high)}
    if dead == fish:
        return gettext("%(said)s, which leaves open anything from %(low)s upward") % {
            "said": said,
            "low": percent(low),
        }
    return gettext("%(said)s: %(dead)s seen (95 %% range %(low)s to %(high)s, by livewell)") % {
        "said": said,
        "dead": percent(dead / fish),
        "low": figures(low),
        "high": percent(high),
    }


def not_none(fish: int) -> str:
    """To begin the sentence that gives the upper limit where no fish was dead."""
    return ngettext(
        "That is not the same as no mortality: with one fish",
        "That is not the same as no mortality: with %(fish)s fish",
        fish,
    ) % {"fish": f"{fish:,}"}


def range_said(rate: Rated, dead: int, fish: int, livewells: int) -> str:
    """What the count leaves open, allowing for whole livewells dying together."""
    if dead == 0:
        return gettext("%(not_none)s the true rate may still be anything up to %(high)s.") % {
            "not_none": not_none(fish),
            "high": percent(rate.high),
        }
    if dead == fish:
        return gettext("The true rate may be anything from %(low)s upward.") % {"low": percent(rate.low)}
    return gettext(
        "95 %% range %(low)s to %(high)s, by livewell, whose fish tend to die together. Fish that died unseen are not in it."
    ) % {"low": figures(rate.low), "high": percent(rate.high)}


def clusters_said(fish: int, livewells: int, design_effect: float | None, dead: int) -> str:
    """The design effect without its name: how many fish caught one by one would tell as much."""
    wells = counted(livewells, "livewell")
    start = gettext("The %(fish)s came from %(wells)s.") % {"fish": counted(fish, "fish"), "wells": wells}
    if design_effect is None:
        return ""
    said = f"{start} " + gettext(
        "Fish of one livewell share its water and tend to live or die together: the %(fish)s tell about as much as "
        "%(held)s held one by one would (design effect %(design_effect)s)."
    ) % {"fish": f"{fish:,}", "held": f"{fish / design_effect:,.0f}", "design_effect": f"{design_effect:.1f}"}
    few = min(dead, fish - dead)
    if livewells < 2 or few <= PRIOR_FISH:
        seen = (
            gettext("one livewell tells")
            if livewells < 2
            else (gettext("%(few)s dead tell") if few == dead else gettext("%(few)s living tell"))
            % {"few": number(few)}
        )
        said += " " + gettext(
            "Of how alike they are %(seen)s little, so a correlation of %(correlation)s within a livewell is assumed, as in the rule of the stop level."
        ) % {"seen": seen, "correlation": f"{CORRELATION:g}"}
    return said


def against_stop(rate: Rated, stop: float) -> str:
    """Where a rate lies against our stop level, and how sure that is."""
    level = gettext("our stop level of %(stop)s") % {"stop": whole_percent(stop)}
    if rate.low > stop:
        return gettext("Clearly above %(level)s.") % {"level": level}
    if rate.high <= stop:
        return gettext("Clearly below %(level)s.") % {"level": level}
    if rate.rate > stop:
        return gettext("Above %(level)s, which may be chance: the range reaches below it.") % {"level": level}
    return gettext("No clear difference from %(level)s: the range reaches beyond it.") % {"level": level}


def delayed_said(delayed: Estimate | None, basis: str | None) -> str:
    """Delayed mortality with its range and what it rests on; negative is 'no increase shown', none is 'not known'."""
    if delayed is None:
        return gettext("not known")
    if delayed.rate <= 0.0 and basis == "reference":
        return gettext("no increase shown; the range reaches up to %(high)s") % {
            "high": percent(max(delayed.high, 0.0))
        }
    if delayed.rate == 0.0:
        return gettext("none seen; up to %(high)s") % {"high": percent(delayed.high)}
    if delayed.low <= 0.0:
        return gettext("%(rate)s, anywhere from no increase to %(high)s") % {
            "rate": percent(delayed.rate),
            "high": percent(delayed.high),
        }
    return f"{percent(delayed.rate)}, {between(delayed.low, delayed.high)}"


def ratio(value: float) -> str:
    """A ratio with two digits that count.

    >>> ratio(1.0), ratio(0.614), ratio(12.4)
    ('1.0', '0.61', '12')
    """
    figure = f"{value:.2g}" if 0.001 <= value < 99.5 else f"{value:.1e}" if value < 0.001 else f"{value:,.0f}"
    return figure if "." in figure or value >= 9.5 else f"{figure}.0"


def times(value: float) -> str:
    """The same, never bare.

    >>> times(1.0), times(0.614), times(12.4)
    ('1.0 times', '0.61 times', '12 times')
    """
    return gettext("%(ratio)s times") % {"ratio": ratio(value)}


def listed(words: Sequence[str], either: bool = False) -> str:
    """Words in a row.

    >>> listed(["a"]), listed(["a", "b", "c"]), listed(["48", "72"], either=True)
    ('a', 'a, b and c', '48 or 72')
    """
    if len(words) < 2:
        return "".join(words)
    message = gettext("%(first)s or %(last)s") if either else gettext("%(first)s and %(last)s")
    return message % {"first": ", ".join(words[:-1]), "last": words[-1]}


def some_of(some: float, every: float) -> str:
    """So many of so many, for a table.

    >>> some_of(11, 1412)
    '11 of 1,412'
    """
    return gettext("%(some)s of %(every)s") % {"some": f"{some:,.0f}", "every": f"{every:,.0f}"}

"""Whether an event's losses are beyond the stop level, asked anew after every livewell.

Looking again and again finds a bad-looking stretch by luck sooner or later, so the rule below weighs evidence in a way
that allows for every look: it warns falsely, and says 'clearly below' falsely, in at most one event of twenty each whose
true loss is at the stop level, however often one looks. And since the fish of one livewell live or die together, a livewell counts for fewer fish than it holds.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log

from weighin.survival.intervals import checked_counts

CORRELATION = 0.2  # of fish in one livewell: the strongest that the project's simulations allow for
FALSE_ALARMS = 0.05
LEAST_LIVEWELLS = 3  # one boat's dead pump is that boat's story, not the event's
_STEPS = 80


@dataclass(frozen=True)
class Watch:
    """What the losses so far say of the stop level.

    Attributes
    ----------
    dead, n : float
        Fish so far.
    stop : float
        The stop level, a share.
    evidence : float
        How many times likelier the losses so far are under a loss above the stop level than at it, 0 or more.
    highest : float
        The most that ``evidence`` has been after any livewell.
    warns : bool
        Whether, after some livewell, ``evidence`` had reached 1 / 0.05 and at least three livewells had lost fish: the
        event is beyond its stop level. A warning stays.
    livewells_to_warning : int or None
        After how many livewells it first warned.
    evidence_below : float
        How many times likelier the losses so far are under a loss below the stop level than at it.
    is_below : bool
        Whether ``evidence_below`` is 1 / 0.05 or more and nothing has warned: the event is clearly below its stop level.
    """

    dead: float
    n: float
    stop: float
    evidence: float
    highest: float
    warns: bool
    livewells_to_warning: int | None
    evidence_below: float
    is_below: bool


def watch(dead: Sequence[float], n: Sequence[float], stop: float, correlation: float = CORRELATION) -> Watch:
    """Weigh the losses of an event's livewells, in the order they came to the scales, against the stop level.

    Parameters
    ----------
    dead, n : sequence of float
        One entry for each livewell in order: dead fish and fish, 0 <= dead <= n. Livewells without fish are ignored.
    stop : float
        The stop level, 0 < stop < 1.
    correlation : float
        How alike the fates of two fish of one livewell are taken to be, 0 to 1: a livewell of k fish counts as
        k / (1 + (k - 1) correlation) fish.

    Returns
    -------
    Watch

    Raises
    ------
    ValueError
        For counts out of range, sequences of different length, or a stop level or correlation out of range.

    Notes
    -----
    The evidence is a likelihood ratio: the losses' likelihood averaged over all rates above the stop level (evenly on
    the logarithm of the odds, from the stop level to twenty times its odds) over that at the stop level. Averaged so it
    is a martingale at the stop level, which reaches 20 with a chance of at most 1/20 (Ville's inequality). The same over
    the rates below it, to a twentieth of its odds, guards 'clearly below' against looking often. A livewell part of
    whose fish died in a mixed batch counts for as much of a livewell that lost fish.

    References
    ----------
    Ville, J. (1939), Etude critique de la notion de collectif. Robbins, H. (1970), Ann. Math. Stat. 41, 1397-1409, for
    the average over rates. The effective size of a cluster: Kish, L. (1965), Survey Sampling.

    Examples
    --------
    Five dead of forty in six livewells are above 10 %, and far from proof:

    >>> so_far = watch([0, 1, 0, 3, 0, 1], [7, 7, 7, 7, 6, 6], stop=0.10)
    >>> so_far.warns, round(so_far.evidence, 1)
    (False, 0.4)
    """
    if not 0 < stop < 1:
        raise ValueError(f"a stop level of {stop} is no share: write it between 0 and 1, such as 0.10")
    if not 0 <= correlation <= 1:
        raise ValueError(f"a correlation of {correlation} is out of range: write it from 0 to 1")
    if len(dead) != len(n):
        raise ValueError(f"{len(dead)} counts of dead fish for {len(n)} livewells: give one for each")
    above, below = (_gains(stop, way) for way in (1, -1))
    seen_dead = seen = weighed_dead = weighed = highest = evidence = against = losers = 0.0
    first: int | None = None
    livewells = 0
    for lost, fish in zip(dead, n, strict=True):
        lost, fish = checked_counts(lost, fish) if fish else (lost, fish)
        if not fish:
            continue
        livewells += 1
        losers += min(lost, 1.0)
        share = 1 / (1 + (fish - 1) * correlation)
        seen_dead, seen = seen_dead + lost, seen + fish
        weighed_dead, weighed = weighed_dead + lost * share, weighed + fish * share
        evidence = _averaged(above, weighed_dead, weighed)
        against = _averaged(below, weighed_dead, weighed)
        highest = max(highest, evidence)
        if first is None and losers > LEAST_LIVEWELLS - 1e-9 and evidence >= 1 / FALSE_ALARMS:
            first = livewells
    is_below = first is None and against >= 1 / FALSE_ALARMS
    return Watch(seen_dead, seen, stop, evidence, highest, first is not None, first, against, is_below)


def _gains(stop: float, way: int) -> list[tuple[float, float]]:
    """What a dead fish speaks for each rate above (1) or below (-1) the stop level, and what a fish looked at costs it."""
    level = stop / (1 - stop)
    odds = [level * 20 ** (way * (step + 0.5) / _STEPS) for step in range(_STEPS)]
    return [(log(o) - log(level), log((1 + o) * (1 - stop))) for o in odds]


def _averaged(gains: Sequence[tuple[float, float]], dead: float, n: float) -> float:
    """The likelihood ratio against the stop level, averaged over the rates on one side of it."""
    logs = [dead * gain - n * cost for gain, cost in gains]
    top = max(logs)
    return exp(min(top, 700.0)) * sum(exp(value - top) for value in logs) / len(logs)

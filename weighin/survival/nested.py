"""Livewells within events: how sure a season's rate is, for the days that were and for days like them.

Two questions have two answers. 'How many of this season's fish died?' needs only the scatter between
livewells of a day. 'How many die at events like these?' needs the scatter between days, of which there are
few: one hot Saturday moves a whole season.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from weighin.survival.clusters import Clustered, around, checked_clusters, clustered

SAME_DAY = 0.05  # assumed of two fish of one event, where few dead fish show how days differ (`nested` says why)


@dataclass(frozen=True)
class Nested:
    """A rate over teams within events.

    Attributes
    ----------
    these_events : Clustered
        Limits for the events as they were: livewells vary within each event's own rate.
    such_events : Clustered
        Limits for events like these: each event is one cluster, whatever happened within it. The season's
        headline.
    same_livewell, same_day : float or None
        How alike two fish of one livewell are, and two fish of one event from different livewells, as
        correlations
        (0: like any two fish; 1: always the same fate). None where there is no such pair or all fared alike.
    """

    these_events: Clustered
    such_events: Clustered
    same_livewell: float | None
    same_day: float | None


def nested(dead: Sequence[float], n: Sequence[float], events: Sequence[Hashable], level: float = 0.95) -> Nested:
    """The rate over teams (a livewell each) within events, uncertain on both levels.

    Parameters
    ----------
    dead, n : sequence of float
        One entry for each team at each event: dead fish and fish looked at; entries without fish are ignored.
    events : sequence
        The event of each entry.
    level : float
        Confidence level, 0 < level < 1.

    Returns
    -------
    Nested

    Raises
    ------
    ValueError
        When lengths differ, there are no fish, or a count or the level is out of range.

    Notes
    -----
    `these_events` uses the stratified ratio variance: the sum over events e of m_e/(m_e-1) sum (d_i - p_e
    n_i)^2 over (sum n)^2, with sum (m_e - 1) degrees of freedom; a team alone at its event adds its squared
    distance from the overall rate, which is cautious. Both design effects are drawn towards an assumed
    correlation as `clusters.clustered` does: 0.2 within a livewell, and for `such_events` SAME_DAY = 0.05 between
    fish of one event. That one is the project's own: with 3-12 events of 8 or 20 teams, rates of 1-10 % and days
    alike to 0-0.05, simulated limits then hold events like these at least 0.94 of the time (to 0.1: 0.92), and
    0.83 without. Correlations are moments over pairs of fish about the overall rate, a little low with few events.
    Limits that take every team of the season as a cluster of its own hold events like these 0.58-0.74 of the time
    once days differ.

    References
    ----------
    Cochran, W. G. (1977), Sampling Techniques, chs. 6 and 9 (ratio estimates, within strata and by primary
    units); Rao & Scott (1992); Ridout, M. S., Demetrio, C. G. B. & Firth, D. (1999), Biometrics 55, 137-148
    (pairs).

    Examples
    --------
    Three events of four boats with seven fish each; the second was hot:

    >>> events = ["May"] * 4 + ["July"] * 4 + ["September"] * 4
    >>> season = nested([0, 0, 1, 0, 2, 0, 5, 3, 0, 1, 0, 0], [7] * 12, events)
    >>> [round(x, 3) for x in (season.these_events.low, season.these_events.rate, season.these_events.high)]
    [0.061, 0.143, 0.301]
    >>> [round(x, 3) for x in (season.such_events.low, season.such_events.high)]
    [0.012, 0.702]
    """
    if len(events) != len(n):
        raise ValueError(f"{len(n)} entries have {len(events)} events: give each entry its event")
    pairs = checked_clusters(dead, n)
    days: dict[Hashable, list[tuple[float, float]]] = {}
    for event, pair in zip((event for event, k in zip(events, n, strict=True) if k), pairs, strict=True):
        days.setdefault(event, []).append(pair)
    sums = [(sum(d for d, _ in teams), sum(k for _, k in teams)) for teams in days.values()]
    such = clustered([d for d, _ in sums], [k for _, k in sums], level, SAME_DAY)

    within = 0.0
    for teams, (day_dead, day_n) in zip(days.values(), sums, strict=True):
        alone = len(teams) == 1
        rate, factor = (such.rate, 1.0) if alone else (day_dead / day_n, len(teams) / (len(teams) - 1))
        within += factor * _scatter(teams, rate)
    df = len(pairs) - len(days)
    these = around(pairs, (within / such.n**2, df), level)
    return Nested(these, such, *_likeness(pairs, sums, such.rate))


def _scatter(clusters: Sequence[tuple[float, float]], rate: float) -> float:
    return sum((d - rate * k) ** 2 for d, k in clusters)


def _likeness(
    teams: Sequence[tuple[float, float]], days: Sequence[tuple[float, float]], rate: float
) -> tuple[float | None, float | None]:
    """Correlations of two fish of a livewell, and of two of a day from different livewells."""
    fish = sum(d * (1.0 - rate) ** 2 + (k - d) * rate**2 for d, k in teams)
    livewells, whole_days = _scatter(teams, rate), _scatter(days, rate)
    single, team, day = (
        sum(power) for power in ([k for _, k in teams], [k * k for _, k in teams], [k * k for _, k in days])
    )

    def correlation(products: float, pairs: float) -> float | None:
        return products / pairs / (rate * (1.0 - rate)) if pairs > 0.0 and 0.0 < rate < 1.0 else None

    return correlation(livewells - fish, team - single), correlation(whole_days - livewells, day - team)

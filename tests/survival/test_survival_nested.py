"""Livewells within events: what must hold for any season, and the cover of both limits by simulation."""

from dataclasses import astuple

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighin.survival.clusters import clustered
from weighin.survival.nested import SAME_DAY, nested

TEAM = st.integers(0, 7).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n), st.integers(0, 3)))
SEASON = st.lists(TEAM, min_size=2, max_size=40).filter(lambda rows: any(n for _, n, _ in rows))


def of(rows):
    return nested([d for d, _, _ in rows], [n for _, n, _ in rows], [e for _, _, e in rows])


@given(SEASON)
def test_such_events_are_the_events_as_clusters(rows):
    sums = [[sum(row[k] for row in rows if row[2] == e) for e in range(4)] for k in (0, 1)]
    assert astuple(of(rows).such_events) == pytest.approx(astuple(clustered(*sums, correlation=SAME_DAY)))


@given(SEASON)
def test_these_events_are_the_stratified_ratio_estimate(rows):
    ours = of(rows).these_events
    kept = [row for row in rows if row[1]]
    total, dead = sum(n for _, n, _ in kept), sum(d for d, _, _ in kept)
    p, variance = dead / total, 0.0
    for event in range(4):
        teams = [(d, n) for d, n, e in kept if e == event]
        if len(teams) == 1:
            variance += (teams[0][0] - p * teams[0][1]) ** 2
        elif teams:
            rate = sum(d for d, _ in teams) / sum(n for _, n in teams)
            variance += len(teams) / (len(teams) - 1) * sum((d - rate * n) ** 2 for d, n in teams)
    df = len(kept) - len({e for _, _, e in kept})
    if 0 < p < 1 and df > 0:
        assert ours.design_effect_seen == pytest.approx(max(1.0, variance / total / (p * (1 - p))), rel=1e-9)
    else:
        assert ours.design_effect_seen == 1.0
    few, assumed = min(dead, total - dead), 1 + 0.2 * (sum(n * n for _, n, _ in kept) / total - 1)
    assert ours.design_effect == pytest.approx((few * ours.design_effect_seen + 3 * assumed) / (few + 3))
    assert ours.low <= ours.rate <= ours.high


def test_likeness_by_counting_pairs_of_fish():
    rows = [(1, 3, "May"), (0, 2, "May"), (2, 2, "June"), (1, 4, "June"), (0, 1, "July")]
    fish = [(dead > k, team, event) for team, (dead, n, event) in enumerate(rows) for k in range(n)]
    p = sum(f[0] for f in fish) / len(fish)
    pairs = {"well": [], "day": []}
    for i, (x, team, event) in enumerate(fish):
        for y, other, day in fish[i + 1 :]:
            if event == day:
                pairs["well" if team == other else "day"].append((x - p) * (y - p) / (p * (1 - p)))
    season = of(rows)
    assert season.same_livewell == pytest.approx(np.mean(pairs["well"]))
    assert season.same_day == pytest.approx(np.mean(pairs["day"]))


def test_no_likeness_without_pairs_or_without_difference():
    assert of([(1, 1, "May"), (0, 1, "June")]).same_livewell is None
    assert of([(1, 1, "May"), (0, 1, "June")]).same_day is None
    assert of([(0, 7, "May"), (0, 7, "May")]).same_livewell is None


def test_each_entry_needs_its_event():
    with pytest.raises(ValueError, match="give each entry its event"):
        nested([1, 2], [7, 7], ["May"])


def test_stated_cover_for_these_events_and_for_such_events(capsys):
    """Twelve events of fifteen teams of 3 to 7 fish; teams vary within a day and days within a season."""
    random, runs, lines = np.random.default_rng(4), 1500, []
    for rate, day, well in [(0.04, 0.05, 0.1), (0.1, 0.05, 0.1), (0.1, 0.0, 0.1), (0.1, 0.1, 0.0)]:
        hits, likeness = np.zeros(3), []
        for _ in range(runs):
            days = _beta(random, rate, day, (12, 1))
            fish = random.integers(3, 8, (12, 15))
            dead = random.binomial(fish, _beta(random, days, well, (12, 15)))
            d, n = dead.ravel().tolist(), fish.ravel().tolist()
            season, flat = nested(d, n, np.repeat(range(12), 15).tolist()), clustered(d, n)
            of_these = (days * fish).sum() / fish.sum()
            hits += (
                season.these_events.low <= of_these <= season.these_events.high,
                season.such_events.low <= rate <= season.such_events.high,
                flat.low <= rate <= flat.high,
            )
            likeness.append((season.same_livewell, season.same_day))
        lines.append((rate, day, well, *(hits / runs), *np.mean(likeness, axis=0)))
    with capsys.disabled():
        print("\n rate  day  livewell  these events  such events  days ignored  likeness found: livewell, day")
        for line in lines:
            print("{:5.0%} {:4.2f} {:9.2f} {:13.3f} {:12.3f} {:13.3f} {:24.3f} {:.3f}".format(*line))
    for _, day, well, these, such, _, same_well, same_day in lines:
        assert 0.92 <= these <= 0.985
        assert 0.91 <= such <= 0.985
        assert same_well == pytest.approx(day + well - day * well, abs=0.03)
        assert same_day == pytest.approx(day, abs=0.02)
    assert min(line[5] for line in lines) < 0.85


def _beta(random, mean, correlation, shape):
    if correlation == 0.0:
        return np.broadcast_to(mean, shape)
    strength = 1 / correlation - 1
    mean = np.clip(mean, 1e-9, 1 - 1e-9)
    return random.beta(mean * strength, (1 - mean) * strength, shape)

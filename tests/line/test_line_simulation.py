"""The line in figures: its ranges, the order of things, and what calling boats is worth."""

import doctest
from random import Random
from statistics import mean
from typing import Any

import pytest

import weighin.scale.line
from weighin.line.domain import learning, simulation
from weighin.line.domain.forecast import BagOut, forecast, word
from weighin.line.domain.learning import Service, Weighing, learned, measured_minutes
from weighin.line.domain.planning import Question, plan_line, service_times
from weighin.line.domain.simulation import Run, simulate

SHARP = Service(minutes=3.0, spread=0.0, boats=9, middle=3.0, assumed=3.0)


def tournament(seed: int, boats: int = 40, **how: Any) -> tuple[Run, Run]:
    """One invented tournament twice: bags at check-in, and bags called. The minutes differ from what is assumed."""
    random = Random(seed)
    arrivals = [random.triangular(0, 60, 50) for _ in range(boats)]
    mean_log = random.uniform(0.5, 1.2)
    services = [random.lognormvariate(mean_log, 0.4) for _ in range(200)]
    known: dict[str, Any] = {"arrivals_min": arrivals, "service_min": services, "walk_min": 1.5, "seed": seed, **how}
    return simulate(**known), simulate(**known, policy="called")


@pytest.mark.parametrize("scales", [1, 2, 3])
def test_calling_cuts_the_share_over_the_limit_at_the_same_total_time(scales: int) -> None:
    pairs = [tournament(seed, 30 * scales, scales=scales) for seed in range(150)]
    come, called = (mean(run.share_over for run in runs) for runs in zip(*pairs, strict=True))
    longer = [mine.total_min / theirs.total_min for theirs, mine in pairs]
    assert come > 0.15 and called < 0.12 and called < come / 2.5, (come, called)
    assert mean(longer) < 1.01, mean(longer)
    assert sum(one < 1.05 for one in longer) / len(longer) > 0.95
    worse = sum(mine.share_over > theirs.share_over for theirs, mine in pairs)
    assert worse <= 2, worse


def test_calling_knows_nothing_of_what_is_to_come(monkeypatch: pytest.MonkeyPatch) -> None:
    random = Random(5)
    arrivals = [random.uniform(0, 40) for _ in range(30)]
    minutes = [random.uniform(1, 4) for _ in range(30)]

    def bags(changed: dict[int, float], come: list[float] = arrivals) -> Run:
        took = [changed.get(n, one) for n, one in enumerate([*minutes, *[2.0] * (len(come) - 30)])]
        monkeypatch.setattr(simulation, "_services", lambda *args: took)
        return simulate(arrivals_min=come, service_min=1, policy="called")

    plain, slow = bags({}), bags({15: 19.0})
    known = plain.waits[15].done
    early = [one for one in plain.waits if one.bag_issued < known]
    assert len(early) > 15 and [one.bag_issued for one in slow.waits][: len(early)] == [one.bag_issued for one in early]
    assert slow.waits[-1].bag_issued > plain.waits[-1].bag_issued
    more = bags({}, [*arrivals, *[45.0] * 20])
    assert [one.bag_issued for one in more.waits][:30] == [one.bag_issued for one in plain.waits]


@pytest.mark.parametrize("policy", ["as they come", "called"])
@pytest.mark.parametrize("bags", [None, 1, 4])
def test_the_order_of_things(policy: Any, bags: int | None) -> None:
    for seed in range(20):
        random = Random(seed)
        arrivals = [random.uniform(0, 30) for _ in range(25)]
        scales = random.randint(1, 3)
        run = simulate(
            arrivals_min=arrivals,
            service_min=2,
            spread="exponential",
            scales=scales,
            policy=policy,
            bags=bags,
            seed=seed,
        )
        assert sorted(one.team for one in run.waits) == list(range(25))
        assert [one.checked_in for one in run.waits] == sorted(arrivals)
        for one in run.waits:
            assert one.checked_in == arrivals[one.team]
            assert one.checked_in <= one.bag_issued <= one.at_table <= one.began < one.done
            at_scales = sum(other.began <= one.began < other.done for other in run.waits)
            out = sum(other.bag_issued <= one.bag_issued < other.done for other in run.waits)
            assert at_scales <= scales and (bags is None or out <= bags)
        assert [one.began for one in run.waits] == sorted(one.began for one in run.waits)
        assert run.most_bags_out <= (bags or 25)


def test_figures_of_a_run_by_hand() -> None:
    run = simulate(arrivals_min=[0, 1, 2, 3], service_min=4, walk_min=1, limit_min=9)
    assert run.minutes_in_bag == (5, 8, 11, 14) and run.longest == 14 and run.total_min == 17
    assert run.share_over == 0.5 and run.longest_in_line == 14 and run.most_bags_out == 4
    assert [run.percentile(p) for p in (0, 25, 50, 75, 100)] == [5, 5, 8, 11, 14]
    assert run.percentile(100, "standing") == 9 and run.percentile(100, "for_bag") == 0
    two = simulate(arrivals_min=[0, 0, 0], service_min=4, walk_min=1, scales=2)
    assert two.minutes_in_bag == (5, 5, 9)
    one_bag = simulate(arrivals_min=[0, 0], service_min=4, walk_min=1, bags=1)
    assert one_bag.minutes_in_bag == (5, 5) and one_bag.waits[1].for_bag == 5


def test_the_same_seed_is_the_same_run_and_both_policies_have_the_same_boats() -> None:
    come, called = tournament(8)
    assert tournament(8) == (come, called) and tournament(9)[0] != come
    took = [[round(one.done - one.began, 9) for one in run.waits] for run in (come, called)]
    assert took[0] == took[1]


def test_it_is_where_programs_look_for_it() -> None:
    assert weighin.scale.line.simulate is simulate


@pytest.mark.parametrize(
    ("wrong", "name"),
    [
        ({"arrivals_min": []}, "arrivals_min"),
        ({"arrivals_min": [float("nan")]}, "arrivals_min"),
        ({"arrivals_min": ["soon"]}, "arrivals_min"),
        ({"service_min": -1}, "service_min"),
        ({"service_min": []}, "service_min"),
        ({"service_min": float("inf")}, "service_min"),
        ({"service_min": 0, "policy": "called"}, "service_min"),
        ({"scales": 0}, "scales"),
        ({"scales": 1.5}, "scales"),
        ({"scales": True}, "scales"),
        ({"walk_min": -0.1}, "walk_min"),
        ({"limit_min": 0}, "limit_min"),
        ({"bags": 0}, "bags"),
        ({"policy": "by lot"}, "policy"),
        ({"spread": "normal"}, "spread"),
        ({"assumed_service_min": 0}, "assumed_service_min"),
    ],
)
def test_what_is_out_of_range_is_named(wrong: dict[str, Any], name: str) -> None:
    with pytest.raises(ValueError, match=name):
        simulate(**{"arrivals_min": [0.0], "service_min": 1.0, **wrong})


def test_percentiles_that_are_none() -> None:
    run = simulate(arrivals_min=[0], service_min=1)
    for wrong in (-1, 101):
        with pytest.raises(ValueError, match="percent"):
            run.percentile(wrong)
    with pytest.raises(ValueError, match="in_bag"):
        run.percentile(50, "weight")


def test_a_forecast_by_hand() -> None:
    asked: dict[str, Any] = {"now": 10.0, "scales": 1, "service": SHARP, "walk_min": 1.0}
    assert forecast(bags_out=[], **asked).in_bag == 4
    # One at the scale for a minute (2 left), one that stands: 2 + 3, then its own 3
    found = forecast(bags_out=[BagOut(9, 9), BagOut(9.5)], **asked)
    assert (found.in_bag, found.stands, found.careful) == (8, 4, 8)
    assert forecast(bags_out=[BagOut(9, 9), BagOut(9.5)], **{**asked, "scales": 2}).in_bag == 5
    assert forecast(bags_out=[], ahead=2, **asked).in_bag == 10


def test_when_the_next_bag_is_given() -> None:
    asked: dict[str, Any] = {"now": 0.0, "scales": 1, "service": SHARP, "walk_min": 1.0, "limit_min": 8.0}
    assert word(bags_out=[BagOut(0, 0), BagOut(0)], **asked).give is False
    assert word(bags_out=[BagOut(0, 0), BagOut(0)], **asked).wait_min == 1
    assert word(bags_out=[BagOut(0, -1), BagOut(0)], **asked).give is True
    # Nobody before it: waiting would not shorten its minutes, however small the limit
    assert word(bags_out=[], **{**asked, "limit_min": 1.0}).give is True
    none_left = word(bags_out=[BagOut(0, -1)], bags=1, **asked)
    assert (none_left.give, none_left.why, none_left.wait_min) == (False, "bags", 2)


def test_minutes_are_measured_while_the_table_is_busy() -> None:
    # The second stood ready while the first was weighed; the third came to an idle table
    told = [Weighing(5, ready=2), Weighing(9, ready=4), Weighing(30, ready=28)]
    assert measured_minutes(told) == [3, 4, 2]
    assert measured_minutes(reversed(told)) == [3, 4, 2]
    # Two scales: the third finds one free when the first is done
    assert measured_minutes([Weighing(4, 0), Weighing(6, 0), Weighing(7, 0)], scales=2) == [4, 6, 3]
    assert measured_minutes([Weighing(5), Weighing(50, ready=10), Weighing(52, ready=49, began=49.5)]) == [2.5]
    # The one that stood longest was let go last: a single scale is still busy from one to the next
    assert measured_minutes([Weighing(13, ready=1), Weighing(5, ready=2), Weighing(9, ready=3)]) == [3, 4, 4]
    assert measured_minutes([]) == []


@pytest.mark.parametrize("scales", [1, 2, 3])
def test_what_is_measured_is_what_was_served(scales: int) -> None:
    shares = []
    for seed in range(30):
        run = tournament(seed, 30 * scales, scales=scales)[1]
        told = [Weighing(one.done, ready=one.at_table) for one in run.waits]
        served = [one.done - one.began for one in run.waits]
        shares.append(mean(measured_minutes(told, scales)) / mean(served))
        if scales == 1:
            assert measured_minutes(told) == pytest.approx(served)
    assert 0.95 < mean(shares) < 1.01


def test_learning_is_not_thrown_about() -> None:
    assert learned([], 2.5) == Service(2.5, 1.25, 0, None, 2.5)
    first = learned([6.0], 2.0)
    assert first.minutes == 3.0 and first.boats == 1
    steady = learned([2.0] * 12, 4.0)
    assert steady.middle == 2.0 and steady.minutes == pytest.approx(2.4)
    dispute = learned([*[2.0] * 12, 19.0], 4.0)
    assert dispute.minutes < 2.7
    changed = learned([*[2.0] * 30, *[4.0] * learning.LOOKS_BACK], 4.0)
    assert changed.minutes == 4.0


def test_the_plan_of_a_line() -> None:
    plan = plan_line(Question(boats=40, over_min=45))
    assert [one.scales for one in plan.options] == [1, 2, 3, 4] and plan.enough is plan.options[1]
    last = [one.last_min for one in plan.options]
    assert last == sorted(last, reverse=True)
    for one in plan.options:
        assert one.over_called <= one.over_as_they_come and one.wait_min <= one.wait_bad and one.later_min < 3
    assert plan_line(Question(boats=200, over_min=20)).enough is None
    assert mean(service_times(2.5)) == pytest.approx(2.5) and max(service_times(2.5)) > 6
    for wrong in (
        {"boats": 0},
        {"boats": 251},
        {"over_min": 0},
        {"boat_min": 0},
        {"limit_min": 0},
        {"bags": 0},
        {"shape": "x"},
    ):
        with pytest.raises(ValueError, match=next(iter(wrong))):
            Question(**{"boats": 10, "over_min": 30, **wrong})  # type: ignore[arg-type]


def test_the_examples_of_the_docstrings() -> None:
    found = doctest.testmod(simulation)
    assert found.attempted >= 5 and not found.failed

"""Another plan for a season's fish: expected dead with a range if the rates held, or a refusal; never a cause."""

import re

import pytest
import world
from django.urls import reverse
from mortality.seasons import fished, season_of
from mortality.test_care_compared import misleading, with_ice
from mortality.test_season_mortality import WARM, six_events, warm_events

from weighin.advice.queries.other_plan import at_temperature, with_limit, with_practices
from weighin.clubs.models import Season
from weighin.mortality.queries.practices import compared
from weighin.mortality.queries.season import season_mortality
from weighin.survival.logistic import fit_logistic

pytestmark = pytest.mark.django_db
CAUSAL = re.compile(
    r"\b(prov\w+|caus\w+|because|due to|led to|leads to|kill\w*|sav\w+|prevent\w*|reduc\w+)\b", re.IGNORECASE
)


def page(season: Season, **asked: str) -> str:
    answer = world.member(season.club).get(reverse("advice:what_if", args=[season.club.slug, season.slug]), asked)
    assert answer.status_code == 200
    return answer.content.decode().replace("\u00a0", " ")


def test_a_hot_days_fish_at_a_cooler_lake() -> None:
    season = season_of(*warm_events())
    found = season_mortality(season)
    fit = fit_logistic([f for f, _ in WARM], [dead for _, dead in WARM], [42] * 8, groups=list(range(8)))
    expected = at_temperature(found, found.worst_first[0], 66.0)
    assert expected.dead == pytest.approx(42 * fit.predict(66.0))
    assert (expected.low, expected.high) == pytest.approx((42 * fit.band(66.0).low, 42 * fit.band(66.0).high))
    text = page(season, lake="66 F", event=found.worst_first[0].event.slug)
    assert "If these rates held, the 42 fish of this event would mean about" in text
    assert (
        "95 % range" in text
        and f"at its own 82 °F the same curve gives about {42 * fit.predict(82.0):.0f}, and 9 were dead." in text
    )


@pytest.mark.parametrize("lake", ["50 F", "90 F"])
def test_no_temperature_beyond_those_fished(lake: str) -> None:
    text = page(season_of(*warm_events()), lake=lake)
    assert "Not known: no event was fished at" in text
    assert "lakes were at 54 °F to 82 °F" in text


def test_six_events_are_too_few_for_a_temperature() -> None:
    assert "Not known: 6 events with a temperature and fish are too few for a curve" in page(
        season_of(*six_events()), lake="66 F"
    )


def test_a_lower_limit_brings_fewer_fish_to_die_at_the_same_rate() -> None:
    season = season_of(*six_events())
    found = season_mortality(season)
    expected = with_limit(found, found.fished, 5)
    rate = found.pooled.these_events  # like with like: the dead of these events against a range of these events
    assert rate.rate == pytest.approx(20 / 252)
    assert expected.fish == 180
    assert (expected.dead, expected.low, expected.high) == pytest.approx(
        (180 * rate.rate, 180 * rate.low, 180 * rate.high)
    )
    text = page(season, fewer="5")
    assert "180 instead of 252 fish would have come to the scales. If these rates held" in text
    assert f"gives about 20 dead (95 % range {252 * rate.low:.0f} to {252 * rate.high:.0f})" in text
    assert "Both ranges are of these events, not of others like them." in text


def test_a_higher_limit_was_never_seen() -> None:
    assert "Not known: nobody was allowed more than 7" in page(season_of(*six_events()), fewer="9")


def test_a_practice_needs_three_events() -> None:
    found = season_mortality(misleading())
    (ice,) = with_practices(compared(found))
    assert ice.is_refused and "2 events had dead fish and boats of both kinds, and it takes 3 at least" in ice.said


def test_a_practice_at_every_boat_by_the_odds_within_events() -> None:
    events = [
        with_ice(f"Day {n}", [(7, 0)] * 5 + [(7, 1)], [(7, 1)] * 4 + [(7, 2)] * 2, date=f"2026-0{n}-10")
        for n in (5, 6, 7)
    ]
    season = season_of(*events)
    (one,) = compared(season_mortality(season))
    (ice,) = with_practices([one])
    assert one.without == [(8, 42)] * 3 and one.odds is not None
    rate = 8 / 42 * one.odds.value / (1 - 8 / 42 + 8 / 42 * one.odds.value)
    assert ice.dead == pytest.approx(126 * rate)
    assert ice.low is not None and ice.high is not None and ice.low < ice.dead < ice.high
    text = page(season)
    assert "Of 126 fish with no ice, at 3 events, 24 were dead. If these rates held" in text
    assert "Teams chose for themselves, so other things may lie behind them." in text


def test_time_held_is_compared_where_the_rule_sheet_names_it() -> None:
    notes = [{"boat": str(n), "first_fish": "07:00" if n < 4 else "12:00"} for n in range(1, 8)]
    catches = [(7, 2)] * 3 + [(7, 0)] * 3 + [(7, 1)]
    with_limit_named = fished("Held", catches, notes=notes, rules={"care_max_held_minutes": "300"})
    (held,) = compared(season_mortality(season_of(with_limit_named)))
    assert held.practice.name == "Time held"
    assert [(side.practised.n, side.otherwise.n) for side in held.sides if side.practised] == [(28, 21)]
    without_limit = fished("Unnamed", catches, notes=notes, season="2025")
    assert compared(season_mortality(season_of(without_limit))) == []


def test_no_fish_nothing_to_expect() -> None:
    text = page(season_of(fished("Empty", [], boats=1)), lake="70 F", fewer="5")
    assert text.count("No fish was brought to the scales") >= 2


def test_no_causal_word_on_the_page() -> None:
    season = season_of(*warm_events())
    found = season_mortality(season)
    said = [at_temperature(found, line, 66.0).said for line in found.fished]
    said += [with_limit(found, found.fished, limit).said for limit in (3, 5, 9)]
    said += [one.said for one in with_practices(compared(found))]
    assert not [sentence for sentence in said if CAUSAL.search(sentence)]
    main = re.sub(r"<[^>]+>", " ", page(season, lake="66 F", fewer="5").partition("<main")[2])
    assert not CAUSAL.search(main)

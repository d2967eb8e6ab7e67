"""A season's dead fish: events as clusters, the page in words, and what it costs."""

import pytest
import world
from mortality.seasons import fished, pen, season_of

from weighin.accounts.domain.roles import Role
from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.mortality.queries.season import season_mortality
from weighin.slips.services.slips import record_slip
from weighin.survival.clusters import clustered
from weighin.survival.logistic import fit_logistic
from weighin.survival.nested import SAME_DAY, nested

pytestmark = pytest.mark.django_db
SIX = (1, 1, 9, 1, 7, 1)  # dead of 42 at each event: the check values' season
WARM = ((54, 1), (58, 0), (62, 1), (66, 2), (70, 3), (74, 4), (78, 6), (82, 9))


def six_of_seven(dead: int) -> list[tuple[int, int]]:
    """Six livewells of seven fish with so many dead, filled one after the other."""
    return [(7, min(7, max(0, dead - 7 * number))) for number in range(6)]


def six_events() -> list[Event]:
    return [
        fished(f"Event {n}", six_of_seven(dead), date=f"2026-0{n}-10", lake=f"{60 + 3 * n} F")
        for n, dead in enumerate(SIX, start=1)
    ]


def warm_events() -> list[Event]:
    return [
        fished(f"At {f}", six_of_seven(dead), date=f"2026-0{n}-10", lake=f"{f} F")
        for n, (f, dead) in enumerate(WARM, start=1)
    ]


def page(season: Season, role: str = Role.DIRECTOR) -> str:
    response = world.member(season.club, role).get(f"/clubs/{season.club.slug}/seasons/{season.slug}/mortality/")
    assert response.status_code == 200
    return response.content.decode().replace("\u00a0", " ")


def test_each_event_is_one_cluster_of_the_season():
    """Six events of 42 fish with 1 1 9 1 7 1 dead: design effect seen 4.39 (check values).

    20 dead fish weigh against three at an assumed 1 + 0.05 x 41 = 3.05: (20 x 4.39 + 3 x 3.05) / 23 = 4.21.
    """
    found = season_mortality(season_of(*six_events()))
    assert (found.presented, found.dead, found.livewells) == (252, 20, 36)
    assert found.headline.design_effect_seen == pytest.approx(4.39, abs=0.005)
    assert found.headline.design_effect == pytest.approx((20 * found.headline.design_effect_seen + 3 * 3.05) / 23)
    expected = nested(
        [dead for total in SIX for _, dead in six_of_seven(total)], [7] * 36, [n for n in range(6) for _ in range(6)]
    )
    assert found.headline == expected.such_events
    assert found.pooled.these_events == expected.these_events


def test_one_event_alone_has_the_range_of_its_livewells_throughout():
    """All fish were meant for the lake and none was kept: the three rates are one, and so are their ranges."""
    found = season_mortality(season_of(fished("Only", six_of_seven(9), date="2026-05-10", lake="64 F")))
    expected = clustered([dead for _, dead in six_of_seven(9)], [7] * 6)
    for rate in (found.headline, found.of_release, found.removed):
        assert (rate.low, rate.high) == pytest.approx((expected.low, expected.high))


def test_the_page_says_one_number_and_both_ranges():
    text = page(season_of(*six_events()))
    assert "About one fish in thirteen was dead by release." in text
    assert "20 of 252 fish were dead by release: 7.9 % seen." in text
    such = clustered(SIX, [42] * 6, correlation=SAME_DAY)
    assert (
        f"For events like these, {100 * such.low:.1f} to {100 * such.high:.1f} % (95 % range). Fish that died unseen"
        in text
    )
    assert "The range counts each of the six events as one" in text
    assert "For just these six events it is" in text
    assert "(design effect 4.2)" in text


def test_events_stand_highest_rate_first_and_lead_to_their_pages():
    events = six_events()
    found = season_mortality(season_of(*events))
    assert [line.found.dead for line in found.worst_first] == [9, 7, 1, 1, 1, 1]
    text = page(season_of(*events))
    places = [text.index(f'href="/events/{line.event.slug}/mortality/"') for line in found.worst_first]
    assert places == sorted(places)
    assert "69 °F" in text and "9 of 42" in text


def test_one_event_says_nothing_of_other_days():
    event = fished("Only", [(7, 0)] * 7 + [(7, 1), (7, 2), (7, 5)])
    found = season_mortality(season_of(event))
    assert found.headline == clustered([0] * 7 + [1, 2, 5], [7] * 10)
    text = page(season_of(event))
    assert (
        f"For this one event, {100 * found.headline.low:.1f} to {100 * found.headline.high:.1f} % (95 % range)." in text
    )
    assert "One event cannot tell how days differ" in text


def test_a_season_with_none_dead_is_not_no_mortality():
    season = season_of(fished("A", [(7, 0)] * 3), fished("B", [(7, 0)] * 2, date="2026-07-01"))
    text = page(season)
    assert "None of 35 fish brought to the scales was dead." in text
    high = (
        f"{100 * nested([0] * 5, [7] * 5, [1, 1, 1, 2, 2]).these_events.high:.1f}"  # two events cannot tell of others
    )
    assert f"with 35 fish the true rate may still be anything up to {high} %" in text
    assert f"<small>≤</small>{high}<small>%</small>" in text
    assert "cannot be seen. It is assumed" in text
    assert "0.0 %" not in text


def test_a_season_with_all_dead():
    text = page(season_of(fished("A", [(3, 3)]), fished("B", [(4, 4)], date="2026-07-01")))
    assert "All 7 fish brought to the scales were dead." in text
    low = 100 * nested([3, 4], [3, 4], [1, 2]).these_events.low
    assert f"The true rate may be anything from {low:.1f} % upward." in text


def test_two_events_cannot_tell_of_events_like_them():
    text = page(season_of(fished("A", [(7, 1)] * 6), fished("B", [(7, 2)] * 6, date="2026-07-01")))
    assert "For just these two events, " in text
    assert "Two events cannot tell how days differ, so the range says nothing of others." in text


def test_a_season_without_events_and_one_without_fish():
    club = Club.objects.create(name="Reed Valley Crappie Club", slug="reed-valley-crappie-club")
    season = Season.objects.create(club=club, name="2026", slug="2026")
    text = page(season)
    assert "No fish has been brought to the scales this season." in text
    assert "No event stands in this season yet." in text
    event = fished("Planned", [], boats=4)
    text = page(season_of(event))
    assert "1 event stands in the season, and none has a slip with fish yet." in text
    assert "%</small>" not in text


def test_a_cancelled_event_is_no_event_of_the_season():
    first, second = fished("Held", [(7, 1), (7, 0)]), fished("Off", [], boats=2, date="2026-07-01")
    second.event_days.update(status="cancelled")
    assert [line.event.name for line in season_mortality(season_of(first, second)).events] == ["Held"]


def test_under_eight_events_there_are_dots_and_no_curve():
    found = season_mortality(season_of(*six_events()))
    assert found.temperature_curve.fit is None and found.temperature_curve.curve == []
    assert len(found.temperature_curve.points) == 6
    text = page(found.season)
    assert "6 events with a temperature and fish are too few for a curve" in text
    before, _, luck = text.partition('<h2 class="margin label">By chance alone</h2>')
    assert 'class="fit"' not in before and 'class="fit"' in luck  # the funnel's line is no curve over temperature


def test_from_eight_events_the_curve_is_the_fit_by_events():
    found = season_mortality(season_of(*warm_events()))
    expected = fit_logistic([f for f, _ in WARM], [d for _, d in WARM], [42] * 8, groups=list(range(8)))
    assert found.temperature_curve.fit.fit.coefficients == pytest.approx(expected.coefficients)
    assert found.temperature_curve.fit.fit.standard_errors == pytest.approx(expected.standard_errors)
    curve = found.temperature_curve.curve
    assert (curve[0].fahrenheit, curve[-1].fahrenheit) == (54, 82)
    assert all(point.low <= point.share <= point.high for point in curve)
    assert curve[-1].share == pytest.approx(expected.predict(82.0))
    text = page(found.season)
    assert "Warmer lakes went together with more dead fish." in text
    assert "other things change too" in text.lower()
    assert "a bend at 75 °F was not tried" in text and "For the warmest event the curve gives about" in text
    assert 'class="fit"' in text


def test_where_the_curve_meets_the_stop_level_is_given_with_its_range():
    found = season_mortality(season_of(*warm_events()))
    meets = found.temperature_curve.fit.x_at(0.1)
    said = found.temperature_curve.at_stop(0.1).replace("\u00a0", " ")
    assert said.startswith(f"The curve meets our stop level of 10 % at about {meets:.0f} °F; its range allows from ")
    assert "does not reach our stop level of 90 %" in found.temperature_curve.at_stop(0.9).replace("\u00a0", " ")


def test_celsius_is_kept_where_it_was_written():
    events = [
        fished(f"C {n}", [(7, n % 3)] * 3, date=f"2026-0{n}-10", lake=f"{18 + n} C", weight_unit="kg")
        for n in (1, 2, 3)
    ]
    text = page(season_of(*events))
    assert "21 °C" in text and "°F" not in text


def test_no_cause_is_claimed():
    text = page(season_of(*warm_events())).lower()
    for verb in ("caused", "because of", "killed", "saved", "led to", "reduced", "prevented", "due to"):
        assert verb not in text, verb


def test_studies_stand_with_their_event_alone():
    held = [pen("tournament", 50, 15), pen("reference", 53, 6)]
    season = season_of(
        fished("Studied", [(7, 1)] * 4, holding=held), fished("Not studied", [(7, 1)] * 4, date="2026-07-01")
    )
    text = page(season)
    assert "Studied: 15 of 50 fish held were dead after 72 hours, 6 of 53 reference fish." in text
    assert "One of 2 events held fish back to see." in text
    found = {line.event.name: line.found for line in season_mortality(season).events}
    assert found["Studied"].total is not None and found["Not studied"].total is None


def test_what_the_season_leaves_out():
    gaps = fished("Gaps", [(7, 1), (7, 0)], boats=1, lake="", slips=())
    record_slip(gaps, {"boat": "2", "day": "1", "fish": "6", "alive": "6", "dead": "0", "gross": "8"}, "test")
    text = page(season_of(gaps, fished("Whole", [(7, 1)], date="2026-07-01")))
    assert "1 boat with two slips for a day." in text
    assert "One of two events without a lake temperature." in text
    assert "1 of 4 entries have no slip." in text
    # 2 of 14 count; boat 2's seven at most, all alive or all dead: 2/21 to 9/21.
    assert "between 9.5 % and 42.9 %" in text


def test_strangers_and_members():
    event = fished("Closed doors", [(7, 1)])
    address = f"/clubs/{event.club.slug}/seasons/{event.season.slug}/mortality/"
    for role in Role.values:
        assert world.member(event.club, role).get(address).status_code == 200
    assert world.stranger().get(address).status_code == 404
    assert world.member(event.club).get(f"/clubs/{event.club.slug}/seasons/1999/mortality/").status_code == 404


def test_the_page_is_kept_until_an_event_changes():
    event = fished("Changing", [(7, 1)], boats=1)
    season, client = season_of(event), world.member(event.club)
    address = f"/clubs/{season.club.slug}/seasons/{season.slug}/mortality/"
    assert "1 of 7" in client.get(address).content.decode()
    record_slip(event, {"boat": "2", "day": "1", "fish": "6", "alive": "4", "dead": "2", "gross": "8"}, "test")
    assert "3 of 13" in client.get(address).content.decode()
    fished("Another", [(5, 1)], date="2026-08-01")
    assert "4 of 18" in client.get(address).content.decode()


def test_the_same_queries_for_one_event_and_for_many(django_assert_max_num_queries):
    season = season_of(fished("First", [(7, 1)] * 3, holding=[pen("tournament", 9, 1)]))
    with django_assert_max_num_queries(9) as one:
        assert len(season_mortality(season).fished) == 1
    for number in range(2, 10):
        fished(f"Further {number}", [(7, 1)] * 20, date=f"2026-0{number}-01", holding=[pen("tournament", 9, 1)])
    with django_assert_max_num_queries(9) as many:
        assert len(season_mortality(season).fished) == 9
    assert len(one) == len(many)
    client = world.member(season.club)
    address = f"/clubs/{season.club.slug}/seasons/{season.slug}/mortality/"
    client.get(address)
    with django_assert_max_num_queries(7):
        client.get(address)


@pytest.mark.parametrize(
    "species,said",
    [
        ("white crappie", "No published study of crappie tournaments was found."),
        ("walleye", "For walleye that is an extrapolation"),
        ("largemouth bass", "a comparison, no target."),
    ],
)
def test_figures_of_black_bass_are_an_extrapolation_for_other_fish(species, said):
    event = fished("Of a kind", [(7, 1)] * 4, rules={"species": species})
    text = page(season_of(event))
    assert said in text
    assert ("extrapolation" in text) is ("bass" not in species)
    assert said in world.member(event.club).get(f"/events/{event.slug}/mortality/").content.decode()


@pytest.mark.parametrize(
    "dead,said",
    [
        ([42, 42], "Both events were clearly above the stop level."),
        (
            [42, 1, 3],
            "Of three events one was clearly above the stop level; for two it is open.",
        ),
        ([0, 0], "For both events it is open whether they were below the stop level."),
    ],
)
def test_events_against_the_stop_level(dead, said):
    events = [fished(f"Event {n}", six_of_seven(d), date=f"2026-0{n}-10") for n, d in enumerate(dead, start=1)]
    assert said in page(season_of(*events))

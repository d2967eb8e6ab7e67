"""Good days and bad, practices side by side, and what they give reason to decide: observed, never proven."""

import re

import pytest
import world
from mortality.seasons import Catch, fished, pen, season_of

from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.mortality.advice import advice
from weighin.mortality.days import good_and_bad
from weighin.mortality.practices import compared
from weighin.mortality.season import season_mortality
from weighin.survival.clusters import clustered
from weighin.survival.comparison import Group, Stratum, mantel_haenszel

pytestmark = pytest.mark.django_db
CAUSAL = ("caused", "because of", "killed", "saved", "led to", "reduced", "prevented", "due to", "thanks to")


def with_ice(name: str, practised: list[Catch], otherwise: list[Catch], **keys: str) -> Event:
    """An event whose first boats had ice and whose others had none; every boat has a note."""
    notes = [{"boat": str(n), "ice_lb": "10"} for n in range(1, len(practised) + 1)]
    notes += [{"boat": str(n + len(practised)), "ice_lb": "0"} for n in range(1, len(otherwise) + 1)]
    return fished(name, [*practised, *otherwise], notes=notes, **keys)


def misleading() -> Season:
    """The check values' strata: cool ice 1/20, none 9/150; hot ice 18/150, none 5/30. Ice is used on hot days."""
    cool = with_ice("Cool", [(5, 1)] + [(5, 0)] * 3, [(10, 1)] * 9 + [(10, 0)] * 6, lake="65 F")
    hot = with_ice("Hot", [(10, 2)] * 3 + [(10, 1)] * 12, [(6, 1)] * 5, lake="84 F", date="2026-07-18")
    return season_of(cool, hot)


def page(season: Season) -> str:
    address = f"/clubs/{season.club.slug}/seasons/{season.slug}/mortality/"
    return world.member(season.club).get(address).content.decode().replace("\u00a0", " ")


def test_days_alike_stand_side_by_side_before_anything_is_put_together():
    (ice,) = compared(season_mortality(misleading()))
    cool, hot = ice.sides
    assert [(side.practised.dead, side.practised.n) for side in (cool, hot)] == [(1, 20), (18, 150)]
    assert [(side.otherwise.dead, side.otherwise.n) for side in (cool, hot)] == [(9, 150), (5, 30)]
    assert hot.practised.low == clustered([2] * 3 + [1] * 12, [10] * 15).low


def test_boats_of_the_same_event_are_compared():
    """Mantel-Haenszel over the two days .713, though the crude odds ratio is 1.49 (check values)."""
    found = season_mortality(misleading())
    (ice,) = compared(found)
    effect = found.pooled.these_events.design_effect
    strata = [
        Stratum("cool", Group(1 / effect, 20 / effect), Group(9 / effect, 150 / effect)),
        Stratum("hot", Group(18 / effect, 150 / effect), Group(5 / effect, 30 / effect)),
    ]
    assert ice.odds.value == pytest.approx(0.713, abs=5e-4)
    assert ice.odds == mantel_haenszel(strata)
    assert ice.events == 2
    assert ice.said.replace("\u00a0", " ").startswith("Which way it went, if any, the figures cannot tell")


def test_the_design_effect_widens_the_comparison():
    spread = with_ice("Spread", [(7, 1)] * 6, [(7, 2)] * 6)
    together = with_ice("Together", [(7, 6)] + [(7, 0)] * 5, [(7, 6)] * 2 + [(7, 0)] * 4, season="2025")
    (loose,), (tight,) = (compared(season_mortality(season_of(event))) for event in (together, spread))
    assert loose.odds.value == pytest.approx(tight.odds.value)
    assert loose.odds.high / loose.odds.low > 2 * tight.odds.high / tight.odds.low


def test_a_clear_link_is_said_as_an_association():
    event = with_ice("Clear", [(7, 0)] * 30 + [(7, 1)] * 2, [(7, 3)] * 30)
    (ice,) = compared(season_mortality(season_of(event)))
    assert ice.odds.high < 1
    assert ice.said.startswith("Ice went together with fewer dead fish: ")


def test_a_practice_nobody_wrote_down_is_left_out_and_counted():
    event = fished(
        "Half noted",
        [(7, 1), (7, 2), (7, 0), (5, 1)],
        notes=[{"boat": "1", "ice_lb": "10"}, {"boat": "2", "ice_lb": "0"}, {"boat": "3", "pump_ok": "yes"}],
    )
    (ice,) = compared(season_mortality(season_of(event)))
    assert (ice.untold, ice.fish) == (12, 26)
    assert "Of 26 fish 12 are left out" in page(event.season)


def test_the_note_is_that_of_the_well_that_held_the_fish():
    slips = [{"boat": "3", "day": "1", "fish": "4", "alive": "2", "dead": "2", "gross": "5", "well_boat": "1"}]
    notes = [{"boat": "1", "ice_lb": "10"}, {"boat": "2", "ice_lb": "0"}, {"boat": "3", "ice_lb": "0"}]
    event = fished("Towed", [(7, 1), (7, 2)], boats=1, slips=slips, notes=notes)
    (ice,) = compared(season_mortality(season_of(event)))
    warm = ice.sides[1]
    assert (warm.practised.dead, warm.practised.n, warm.practised.clusters) == (3, 11, 1)
    assert (warm.otherwise.dead, warm.otherwise.n) == (2, 7)


def test_bag_time_and_fish_on_board_are_told_by_the_rule_sheet():
    slips = [
        {"boat": str(boat), "day": "1", "fish": "7", "alive": str(7 - dead), "dead": str(dead), "gross": "9",
         "bag_issued": "15:00", "weighed": weighed, "bag_emptied": weighed}
        for boat, dead, weighed in ((1, 0, "15:08"), (2, 1, "15:08:30"), (3, 2, "15:09"), (4, 3, "15:20"))
    ]  # fmt: skip
    notes = [{"boat": str(boat), "most_on_board": str(most)} for boat, most in ((1, 5), (2, 6), (3, 7), (4, 12))]
    rules = {"care_max_bag_minutes": "8.5", "fish_limit": "7"}
    event = fished("Bags", [], boats=4, slips=slips, notes=notes, rules=rules)
    found = {one.practice.name: one.sides[1] for one in compared(season_mortality(season_of(event)))}
    assert [(side.practised.n, side.otherwise.n) for side in found.values()] == [(21, 7), (14, 14)]
    assert list(found) == ["Fish on board", "Time in the bag"]


def test_no_comparison_without_both_kinds_of_boats():
    event = fished("All ice", [(7, 1)] * 3, notes=[{"boat": str(n), "ice_lb": "10"} for n in (1, 2, 3)])
    assert compared(season_mortality(season_of(event))) == []
    assert "Boats that did" not in page(event.season)


def test_no_odds_without_dead_fish():
    event = with_ice("None dead", [(7, 0)] * 3, [(7, 0)] * 3)
    (ice,) = compared(season_mortality(season_of(event)))
    assert ice.odds is None and "cannot be compared" in ice.said
    assert "none seen (up to 15.5 %) of 21 fish, 3 livewells" in page(event.season)


def days(dead: tuple[int, ...], season: str = "2026") -> Season:
    """An event a month, each warmer than the last, with so many dead in each of its four livewells."""
    return season_of(
        *(
            with_ice(
                f"Event {n}", [(7, d)] * 2, [(7, d)] * 2, date=f"2026-0{n}-10", lake=f"{58 + 4 * n} F", season=season
            )
            for n, d in enumerate(dead, start=1)
        )
    )


def test_the_lowest_and_the_highest_third_of_the_events():
    parted = good_and_bad(season_mortality(days((0, 3, 1, 2, 1, 2))))
    assert [line.event.name for line in parted.best] == ["Event 1", "Event 5"]
    assert {line.event.name for line in parted.worst} == {"Event 2", "Event 4"}
    rows = {row.name: row for row in parted.rows}
    assert rows["Fish dead by release"].best[1].startswith("4 of 56 fish, ")
    assert rows["Lake temperature"].best == ("70\u00a0°F", "62 to 78\u00a0°F, 2 of 2 events")
    assert rows["Boats with ice in the well"].worst[0] == "50.0\u00a0%"
    assert "Minutes in the bag, middle boat" not in rows


def test_few_events_or_equal_ones_are_not_parted():
    assert good_and_bad(season_mortality(days((0, 1, 2)))) is None
    assert good_and_bad(season_mortality(days((1, 1, 1, 1, 1), "2025"))) is None


def test_the_page_warns_that_nothing_is_proven():
    season = days((0, 3, 1, 2, 1, 2))
    text = page(season)
    assert "These went together; none is shown to have made the other." in text
    assert "Observed, not tried out" in text
    for verb in CAUSAL:
        assert verb not in text.lower(), verb


def test_each_piece_of_advice_has_its_figure_its_source_and_what_to_expect():
    events = [
        with_ice(f"Warm {n}", [(7, 2)] * 3, [(7, 3)] * 3, date=f"2026-0{n}-10", lake=f"{80 + n} F") for n in (6, 7)
    ]
    cool = [with_ice(f"Cool {n}", [(7, 0)] * 3, [(7, 1)] * 3, date=f"2026-0{n}-10", lake="60 F") for n in (3, 4)]
    found = season_mortality(season_of(*cool, *events))
    pieces = advice(found, compared(found))
    acts = [piece.act for piece in pieces]
    assert any(act.startswith("Look at the calendar") for act in acts)
    assert any(act.startswith("Ask for ice") for act in acts)
    assert any(act.startswith("Hold fish back") for act in acts)
    for piece in pieces:
        assert re.search(r"\d", piece.figure), piece.act
        assert piece.source and piece.expected
        assert "range" in piece.expected or "cannot tell" in piece.expected or "would" in piece.expected
        for verb in CAUSAL:
            assert verb not in f"{piece.act} {piece.figure} {piece.expected} {piece.source}".lower(), verb


def test_what_the_curve_expects_is_given_with_its_range():
    dead = (0, 1, 1, 2, 2, 4, 6, 9)
    season = season_of(
        *(
            fished(f"Event {n}", [(7, min(7, max(0, d - 7 * w))) for w in range(6)], date=f"2026-0{n}-10", lake=f"{52 + 4 * n} F")
            for n, d in enumerate(dead, start=1)
        )
    )  # fmt: skip
    found = season_mortality(season)
    (calendar,) = [piece for piece in advice(found, []) if piece.act.startswith("Look at the calendar")]
    middle = 68.0  # the fourth warmest of eight
    share, band = found.warmth.fit.predict(middle), found.warmth.fit.band(middle)
    said = calendar.expected.replace("\u00a0", " ")
    assert f"42 fish as brought to Event 8 would at 68 °F mean about {42 * share:.0f} dead" in said
    assert f"(95 % range {42 * band.low:.0f} to {42 * band.high:.0f}) where 9 were" in said


def test_a_study_with_reference_fish_needs_no_advice_to_hold_one():
    event = fished("Held", [(7, 1)] * 3, holding=[pen("tournament", 20, 1), pen("reference", 20, 1)])
    found = season_mortality(season_of(event))
    assert not any(piece.act.startswith("Hold fish back") for piece in advice(found, []))


def test_lapses_under_a_tenth_are_not_worth_a_meeting():
    notes = [{"boat": str(n), "livewell_do": "4.5" if n == 1 else "6"} for n in range(1, 13)]
    few = season_mortality(season_of(fished("Few", [(7, 1)] * 12, notes=notes)))
    assert not any("oxygen" in piece.act for piece in advice(few, []))
    notes[1]["livewell_do"] = "4.9"
    event = fished("More", [(7, 1)] * 12, notes=notes, season="2025")
    (piece,) = [piece for piece in advice(season_mortality(season_of(event)), []) if "oxygen" in piece.act]
    assert piece.figure.startswith("2 of 12 readings (16.7\u00a0%")

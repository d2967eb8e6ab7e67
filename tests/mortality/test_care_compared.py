"""Good days and bad, practices side by side, and what they give reason to decide: observed, never proven."""

import re
import warnings

import numpy as np
import pytest
import statsmodels.api as sm
import world
from mortality.seasons import Catch, fished, pen, season_of

from weighin.advice.pages.advice import advice
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.mortality.queries.days import good_and_bad
from weighin.mortality.queries.practices import Verdict, compared, comparisons_said
from weighin.mortality.queries.season import season_mortality
from weighin.survival.clusters import clustered
from weighin.survival.comparing.comparison import Group, Stratum, mantel_haenszel
from weighin.survival.quantiles import student

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
    assert ice.verdict == Verdict.TOO_FEW
    assert ice.said.startswith("Too few fish to tell yet. With ice a fish had about 0.71 times the odds (")


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
    assert ice.verdict == Verdict.FEWER
    assert ice.said.startswith("Clearly fewer dead. With ice a fish had about ")


def linked(season: str = "2026") -> Season:
    """Boats with ice are mostly those with few fish on board, and those lose fewer: ice alone looks better than it is."""
    kinds = (
        [("10", "5", 0)] * 14
        + [("10", "12", 2)] * 3
        + [("0", "5", 1)] * 3
        + [("0", "12", 2)] * 13
        + [("10", "5", 2)] * 2
    )
    kinds += [("0", "12", 0)] * 4 + [("10", "12", 1)] * 2
    notes = [{"boat": str(n), "ice_lb": ice, "most_on_board": most} for n, (ice, most, _) in enumerate(kinds, start=1)]
    return fished("Linked", [(7, dead) for *_, dead in kinds], notes=notes, season=season).season


def test_practices_are_adjusted_for_one_another_in_one_model():
    """Against statsmodels: a logistic curve over both practices, its errors between livewells (bias-reduced sandwich)."""
    found = season_mortality(linked())
    ice, board = compared(found)
    line = found.fished[0]
    rows = [
        (
            line.notes[1, catch.well].ice_lb > 0,
            line.notes[1, catch.well].most_on_board <= 7,
            fish < catch.lost,
            catch.well,
        )
        for catch in line.catches
        for fish in range(catch.fish)
    ]
    had_ice, few, died, wells = np.array(rows, dtype=float).T
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        gee = sm.GEE(
            died, sm.add_constant(np.column_stack([had_ice, few])), groups=wells, family=sm.families.Binomial()
        )
        theirs = gee.fit(cov_type="bias_reduced")
    assert [ice.adjusted.value, board.adjusted.value] == pytest.approx(np.exp(theirs.params[1:]), rel=1e-6)
    half = student(len(line.catches) - 3) * theirs.bse[1]
    assert (ice.adjusted.low, ice.adjusted.high) == pytest.approx(
        np.exp([theirs.params[1] - half, theirs.params[1] + half])
    )
    assert 1 > ice.adjusted.value > ice.odds.value


def test_what_loses_clarity_when_adjusted_is_said():
    season = linked()
    practices = compared(season_mortality(season))
    ice = practices[0]
    assert ice.is_clear_alone and ice.loses_clarity and ice.verdict == Verdict.CHANCE
    assert "which is no longer clear" in ice.said
    said = comparisons_said(practices)
    assert said.startswith("Two practices are compared") and "ice in the livewell" in said
    assert said.replace("\u00a0", " ") in page(season)


def test_the_number_of_comparisons_is_said_with_what_luck_makes_of_them():
    """1 - 0.95^2 = 9.75 %: the chance of at least one clear comparison of two, were there nothing to find."""
    said = comparisons_said(compared(season_mortality(linked()))).replace("\u00a0", " ")
    assert "at least one would still look clear in 9.8 % of seasons" in said


def test_a_practice_nobody_wrote_down_is_left_out_and_counted():
    event = fished(
        "Half noted",
        [(7, 1), (7, 2), (7, 0), (5, 1)],
        notes=[{"boat": "1", "ice_lb": "10"}, {"boat": "2", "ice_lb": "0"}, {"boat": "3", "pump_ok": "yes"}],
    )
    (ice,) = compared(season_mortality(season_of(event)))
    assert (ice.untold, ice.fish) == (12, 26)
    assert "Not recorded for 12 of 26 fish." in page(event.season)


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
    assert "Care practices compared" not in page(event.season)


def test_no_odds_without_dead_fish():
    event = with_ice("None dead", [(7, 0)] * 3, [(7, 0)] * 3)
    (ice,) = compared(season_mortality(season_of(event)))
    assert (
        ice.odds is None
        and ice.said == "Too few fish to tell yet, since no event had dead fish and boats of both kinds."
    )
    assert "none seen (up to 66.0 %) of 21 fish, 3 livewells" in page(event.season)


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
    assert rows["Boat-days with ice in the livewell"].worst[0] == "50.0\u00a0%"
    assert "Minutes in the bag, middle boat" not in rows


def test_few_events_or_equal_ones_are_not_parted():
    assert good_and_bad(season_mortality(days((0, 1, 2)))) is None
    assert good_and_bad(season_mortality(days((1, 1, 1, 1, 1), "2025"))) is None


def test_the_page_warns_that_nothing_is_proven():
    season = days((0, 3, 1, 2, 1, 2))
    text = page(season)
    assert "These went together; none is shown to have made the other." in text
    assert "We chose these days because their rates differ." in text
    assert "two events, too few to tell" in text
    assert "The odds and the rates in figures" in text and "Filled: with the practice; open: without it." in text
    for verb in CAUSAL:
        assert verb not in text.lower(), verb


def warm_and_cool(cool_dead: int = 0, warm_dead: int = 3) -> Season:
    """Two cool and two warm events of 40 boats, half of them with ice; the warm ones' boats without it lose more."""
    events = [
        with_ice(f"Warm {n}", [(7, 0)] * 19 + [(7, 1)], [(7, warm_dead)] * 20, date=f"2026-0{n}-10", lake=f"{80 + n} F")
        for n in (6, 7)
    ]
    cool = [
        with_ice(f"Cool {n}", [(7, 0)] * 19 + [(7, 1)], [(7, cool_dead)] * 20, date=f"2026-0{n}-10", lake="60 F")
        for n in (3, 4)
    ]
    return season_of(*cool, *events)


def acts(season: Season) -> list[str]:
    found = season_mortality(season)
    return [piece.act.replace("\u00a0", " ") for piece in advice(found, compared(found))]


def test_each_piece_of_advice_has_its_figure_its_source_and_what_to_expect():
    found = season_mortality(warm_and_cool())
    pieces = advice(found, compared(found))
    assert any(piece.act.startswith("Ask for ice") for piece in pieces)
    assert any(piece.act.startswith("Hold fish back") for piece in pieces)
    for piece in pieces:
        assert re.search(r"\d", piece.figure), piece.act
        assert piece.source and piece.expected
        assert (
            "range" in piece.expected
            or "not known" in piece.expected
            or "may or may not" in piece.expected
            or "would" in piece.expected
        )
        for verb in CAUSAL:
            assert verb not in f"{piece.act} {piece.figure} {piece.expected} {piece.source}".lower(), verb


def test_where_warm_days_lose_more_the_first_choices_are_fewer_fish_measured_lengths_and_other_dates():
    assert [act.split(" ")[:3] for act in acts(warm_and_cool())[:3]] == [
        ["Set", "a", "smaller"],
        ["From", "75", "°F"],
        ["Fish", "the", "warm"],
    ]


def test_where_warm_days_lose_no_more_nothing_is_said_of_them():
    assert not any(act.startswith(("Set a smaller", "From ", "Fish the warm")) for act in acts(warm_and_cool(3, 1)))


def on_board(few_dead: int, many_dead: int) -> Season:
    """Half of forty boats had no more than the limit of seven on board; the others twelve."""
    notes = [{"boat": str(n), "most_on_board": "7" if n <= 20 else "12"} for n in range(1, 41)]
    return fished(
        "Loads", [(7, 1)] + [(7, few_dead)] * 19 + [(7, many_dead)] * 20, notes=notes, rules={"fish_limit": "7"}
    ).season


def test_fish_on_board_are_a_rule_when_fish_on_board_is_what_the_figures_show():
    found = season_mortality(on_board(0, 3))
    pieces = [piece for piece in advice(found, compared(found)) if "on board" in piece.act]
    assert [piece.act for piece in pieces] == ["Add a boat limit to the rule sheet: never more than 7 fish on board."]
    assert pieces[0].figure.startswith("20 of 40 boat-days (50.0\u00a0%")
    assert "of the odds" in pieces[0].expected or "times the odds" in pieces[0].expected


def test_no_rule_for_fish_on_board_without_a_difference():
    assert not any("on board" in act for act in acts(on_board(1, 1)))


def test_a_long_time_in_the_bag_is_no_advice_where_boats_of_one_day_show_no_difference():
    slips = [
        {"boat": str(boat), "day": "1", "fish": "7", "alive": "6", "dead": "1", "gross": "9",
         "bag_issued": "15:00", "weighed": weighed, "bag_emptied": weighed}
        for boat, weighed in ((n, "15:08" if n % 2 else "15:20") for n in range(1, 13))
    ]  # fmt: skip
    season = fished("Bags", [], boats=12, slips=slips).season
    found = season_mortality(season)
    (bag,) = compared(found)
    assert bag.odds.value == pytest.approx(1.0)
    assert not any("bags" in piece.act for piece in advice(found, [bag]))


def warming(dead: tuple[int, ...], name: str = "2026") -> Season:
    return season_of(
        *(
            fished(f"Event {n}", [(7, min(7, max(0, d - 7 * w))) for w in range(6)], date=f"2026-0{n}-10", lake=f"{52 + 4 * n} F", season=name)
            for n, d in enumerate(dead, start=1)
        )
    )  # fmt: skip


def test_the_curve_is_compared_with_itself_and_not_with_the_worst_day_as_seen():
    """The warmest event's own count is also its luck: set against the curve it would promise too much."""
    found = season_mortality(warming((0, 1, 1, 2, 2, 4, 6, 9)))
    (calendar,) = [piece for piece in advice(found, []) if piece.act.startswith("Fish the warm waters")]
    there, here = (
        found.temperature_curve.expected(68.0, 42),
        found.temperature_curve.expected(84.0, 42),
    )  # 68 °F is the fourth of eight
    said = calendar.expected.replace("\u00a0", " ")
    assert (
        f"42 fish as brought to Event 8 would mean about {there[0]:.0f} ({there[1]:.0f} to {there[2]:.0f}) dead at 68 °F"
        in said
    )
    assert f"and about {here[0]:.0f} ({here[1]:.0f} to {here[2]:.0f}) at its own 84 °F" in said
    assert "where 9 were" not in said


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

"""The planner's answers against the functions of ``livewell`` they are made of."""

import doctest
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from weighin.livewell import budget, carbon_dioxide, transfer
from weighin.livewell.bag import minutes_until_floor
from weighin.livewell.day import Boarding, LivewellDay
from weighin.livewell.figures.estimate import exactly
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.figures.units import celsius, kilograms, litres, metres
from weighin.livewell.ice import kg_for_drop, temperature_after
from weighin.livewell.oxygen import saturation_mg_l
from weighin.livewell.pressure import at_elevation_mmhg
from weighin.livewell.temperature.cooling import STRICTEST_STEP_C
from weighin.livewell.temperature.ice_plan import ice_plan
from weighin.planning.domain import plan, quantities, species
from weighin.planning.domain.plan import work_out
from weighin.planning.domain.question import DoNotHold, Question
from weighin.planning.domain.what_if import alternatives

HOT = Question(
    volume_l=litres(24),
    lake_c=celsius(86),
    elevation_m=metres(700),
    fish=7,
    mass_g=kilograms(1.3) * 1000,
    hours=8,
    air_c=celsius(95),
)
COOL = replace(HOT, lake_c=celsius(60), air_c=celsius(68))


@pytest.mark.parametrize("module", [plan, quantities, species])
def test_the_worked_examples_come_out(module) -> None:
    result = doctest.testmod(module)
    assert result.attempted and not result.failed


def test_ice_is_the_ice_plan_of_water_and_fish() -> None:
    found = work_out(HOT)
    same = ice_plan(
        volume_l=HOT.volume_l + HOT.kg,
        fill_c=HOT.lake_c,
        hold_c=celsius(80),  # Schramm's target above 85 °F
        outside_c=HOT.air_c,
        hours=8,
        warming_per_h=0.1,
    )
    assert found.plans[1] == same
    assert found.ice_kg.stated == pytest.approx(sum(look.ice_kg.stated for look in found.icings))
    first = kg_for_drop(HOT.volume_l + HOT.kg, HOT.lake_c, celsius(80))
    assert found.icings[0].ice_kg == exactly(first)
    assert found.ice_kg.low < found.ice_kg.stated < found.ice_kg.high


@pytest.mark.parametrize(
    ("lake_f", "hold_f"),
    [(60, 67), (68, 75), (72, 75), (75, 75), (78, 75), (83, 78), (86, 80), (87, 80)],
)
def test_the_temperature_to_hold(lake_f: float, hold_f: float) -> None:
    """Schramm's targets, never more than 7 °F below the lake; in cool lakes no ice until 75 °F or 7 °F above it."""
    hold = replace(HOT, lake_c=celsius(lake_f)).hold_c
    assert hold == pytest.approx(celsius(hold_f))
    assert HOT.lake_c - HOT.hold_c <= STRICTEST_STEP_C + 1e-9


def test_a_cool_day_asks_for_no_ice() -> None:
    found = work_out(COOL)
    assert found.ice_kg.ends == (0, 0, 0)
    assert found.drop_c < 0  # it warms a little by itself


def test_oxygen_is_the_budget_of_surface_and_pump() -> None:
    found = work_out(HOT)
    day = LivewellDay(
        volume_l=HOT.volume_l,
        hours=8,
        boardings=(Boarding(0, 7, HOT.mass_g),),
        temperature_c=found.temperature_c,
        times_rest=3,
    )
    pump = transfer.pump_per_h(flow_l_per_h=1500, volume_l=HOT.volume_l)
    surface = transfer.surface_per_h(area_m2=HOT.volume_l / 300, volume_l=HOT.volume_l)
    pressure = at_elevation_mmhg(metres(700))
    same = budget.oxygen_mg_l(
        day,
        transfer_per_h=transfer.together(pump, surface),
        pressure_mmhg=pressure,
        start_mg_l=saturation_mg_l(celsius(86), pressure),  # it is filled with the lake's water, and iced then
    )
    assert found.oxygen_freshly_caught.stated == same.stated
    assert found.oxygen_freshly_caught.low.last == same.low.last
    assert found.oxygen_freshly_caught.high.last == same.high.last
    assert found.carbon_freshly_caught == carbon_dioxide.build_up_mg_l(day)
    assert found.oxygen_at_rest.stated.lowest > found.oxygen_freshly_caught.stated.lowest


def test_a_stopped_pump_and_a_bag_are_the_closed_bag() -> None:
    found = work_out(HOT)
    end = found.temperature_c.last
    given = {"mass_g": HOT.mass_g, "temperature_c": end, "pressure_mmhg": HOT.pressure_mmhg}
    well = minutes_until_floor(water_l=HOT.volume_l, fish_kg=HOT.kg, floor_mg_l=4, times_rest=3, **given)
    assert found.stops[1].minutes[1].ends == pytest.approx(well.ends)
    assert found.stops[1].start_mg_l == saturation_mg_l(end, HOT.pressure_mmhg)
    bag = minutes_until_floor(water_l=litres(2), fish_kg=HOT.kg, **given)
    assert found.bag is not None and found.bag.at_rest.ends == pytest.approx(bag.ends)
    assert found.stop_at_rest == found.stops[0]


def test_from_what_the_plan_leaves_the_time_is_shorter() -> None:
    found = work_out(HOT)
    assert found.stops[2].start_mg_l == found.oxygen_at_rest.stated.last
    assert found.stops[2].minutes[0].stated < found.stops[0].minutes[0].stated
    assert found.stops[3].minutes[0].ends == (0, 0, 0)  # freshly caught it is below 5 already


@pytest.mark.parametrize(("fish", "count", "fullest"), [(7, 1, 7), (11, 1, 11), (12, 2, 6), (30, 3, 10)])
def test_no_bag_holds_more_than_15_lb(fish: int, count: int, fullest: int) -> None:
    """Kansas, K.A.R. 115-7-8: 2 gal of water and at most 15 lb of fish: eleven of 1.3 lb."""
    bag = work_out(replace(HOT, fish=fish)).bag
    assert bag is not None and (bag.count, bag.fish) == (count, fullest)


def test_a_fish_heavier_than_a_bag_may_hold_has_no_bag() -> None:
    assert work_out(replace(HOT, fish=1, mass_g=kilograms(16) * 1000)).bag is None


def test_a_timer_is_a_quarter_of_the_pump() -> None:
    on, timer = work_out(HOT).transfer_per_h, work_out(replace(HOT, on_timer=True)).transfer_per_h
    surface = transfer.surface_per_h(area_m2=HOT.volume_l / 300, volume_l=HOT.volume_l)
    assert timer.stated - surface.stated == pytest.approx((on.stated - surface.stated) / 4)
    measured = replace(HOT, transfer_per_h=exactly(2.0))
    assert work_out(measured).transfer_per_h == exactly(2.0)
    assert work_out(replace(measured, on_timer=True)).transfer_per_h == exactly(0.5)


def test_changing_half_the_water_holds_carbon_dioxide_down_and_costs_ice() -> None:
    never, half = work_out(HOT), work_out(replace(HOT, change_every_h=2.5))
    assert half.carbon_at_rest.stated.highest < never.carbon_at_rest.stated.highest
    assert half.ice_kg.stated > never.ice_kg.stated
    assert [look.hour for look in half.icings if look.changed_share] == [2.5, 5.0, 7.5]


def test_an_open_lid_lets_carbon_dioxide_out() -> None:
    assert work_out(replace(HOT, vented=True)).carbon_at_rest.stated.last < work_out(HOT).carbon_at_rest.stated.last


def test_fish_that_come_by_and_by_use_less() -> None:
    by_and_by = replace(HOT, all_day=False)
    assert [(lot.hour, lot.fish) for lot in by_and_by.boardings] == [(0, 1), (2, 2), (4, 2), (6, 2)]
    assert sum(lot.fish for lot in replace(by_and_by, fish=3).boardings) == 3
    assert work_out(by_and_by).carbon_at_rest.stated.last < work_out(HOT).carbon_at_rest.stated.last


def test_a_cylinder_and_a_reading_of_the_lake_count() -> None:
    plain = work_out(HOT).oxygen_at_rest
    assert work_out(replace(HOT, oxygen_l_per_min=0.1)).oxygen_at_rest.stated.last > plain.stated.last
    assert work_out(replace(HOT, start_mg_l=5.5)).oxygen_at_rest.stated.values[0] == 5.5


def test_ice_aboard_runs_out_and_shocks() -> None:
    short = work_out(replace(HOT, ice_aboard_kg=5.0))
    used = [look for look in short.icings if short.ice_gone_h is not None and look.hour < short.ice_gone_h]
    assert sum(look.ice_kg.stated for look in used) <= 5.0
    assert short.all_at_once_c == temperature_after(HOT.volume_l, HOT.lake_c, 5.0)
    enough = work_out(replace(HOT, ice_aboard_kg=40.0))
    assert enough.ice_gone_h is None
    assert work_out(HOT).all_at_once_c is None


@pytest.mark.parametrize(
    ("changed", "name"),
    [
        ({"ice_aboard_kg": 95.0}, "ice_aboard_kg"),
        ({"volume_l": 0.0}, "volume_l"),
        ({"hours": -3.0}, "hours"),
        ({"lake_c": 78.0}, "lake_c"),
        ({"fish": 400}, "boardings"),
        ({"flow_l_per_h": 90_000.0}, "flow_l_per_h"),
        ({"species": "pike"}, "species"),
        ({"lake_c": 30.0, "air_c": 50.0, "ice": False, "hours": 24.0}, "air_c"),
        ({"species": "walleye", "lake_c": 20.0, "air_c": 50.0, "ice": False, "hours": 12.0}, "air_c"),
    ],
)
def test_what_cannot_be_worked_out_names_its_figure(changed: dict[str, object], name: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        work_out(replace(HOT, **changed))  # type: ignore[arg-type]
    assert refused.value.name == name


def test_change_water_comes_with_the_lakes_oxygen_and_temperature() -> None:
    """At 86 °F and 700 ft water holds 7.4 mg/L; water of the iced well's 80 °F would hold 7.8."""
    asked = replace(HOT, fish=1, change_every_h=2.5)
    full_lake = saturation_mg_l(HOT.lake_c, HOT.pressure_mmhg)
    assert (round(full_lake, 1), round(saturation_mg_l(celsius(80), HOT.pressure_mmhg), 1)) == (7.4, 7.8)
    found = work_out(asked)
    oxygen = found.oxygen_at_rest.stated
    assert oxygen.values[0] == full_lake
    before, after = oxygen.just_before(2.5), oxygen.at(2.5)
    assert after == pytest.approx((before + full_lake) / 2)
    look = next(each for each in found.icings if each.hour == 2.5)
    well = found.temperature_c.just_before(2.5)
    assert look.found_c == pytest.approx((well + HOT.lake_c) / 2)


def test_warming_water_keeps_its_band_in_order() -> None:
    """Water that warms holds more than saturation for a while: the least transfer is then not the least oxygen."""
    found = work_out(replace(COOL, fish=1, lake_c=0.0, air_c=36.0, ice=False)).oxygen_at_rest
    for low, stated, high in zip(found.low.values, found.stated.values, found.high.values, strict=True):
        assert low <= stated <= high


def test_what_if_changes_one_thing() -> None:
    found = {each.words: each for each in alternatives(HOT)}
    assert list(found) == ["30 fish instead of 7", "pump on a timer", "no ice", "half the water every 2½ h"]
    thirty = found["30 fish instead of 7"].answer
    assert thirty is not None and thirty.question == replace(HOT, fish=30)
    assert thirty.oxygen_at_rest.stated.lowest < work_out(HOT).oxygen_at_rest.stated.lowest
    back = replace(HOT, fish=30, on_timer=True, ice=False, change_every_h=3.0)
    assert [each.words for each in alternatives(back)] == [
        "7 fish instead of 30",
        "pump without a break",
        "with ice",
        "water never changed",
    ]


def test_what_if_says_when_it_cannot_be_worked_out() -> None:
    crowded = next(iter(alternatives(replace(HOT, volume_l=10.0))))
    assert crowded.answer is None  # thirty fish are heavier than the water


@settings(max_examples=30)
@given(
    volume_l=st.floats(20, 2000),
    lake_c=st.floats(0, 36),
    air_c=st.floats(-20, 50),
    fish=st.integers(1, 60),
    hours=st.floats(0.25, 4),
    ice=st.booleans(),
    change=st.sampled_from([None, 2.0, 3.0]),
    all_day=st.booleans(),
)
def test_answers_hold_together(volume_l, lake_c, air_c, fish, hours, ice, change, all_day) -> None:
    asked = Question(
        volume_l=volume_l,
        lake_c=lake_c,
        elevation_m=200,
        fish=fish,
        mass_g=500,
        hours=hours,
        air_c=air_c,
        ice=ice,
        change_every_h=change,
        all_day=all_day,
    )
    try:
        found = work_out(asked)
    except DoNotHold:
        assert lake_c > celsius(87)
        return
    except OutOfRange as refused:
        if refused.name not in ("air_c", "boardings", "lake_c"):
            raise
        return
    assert found.ice_kg.low >= 0 and (ice or found.ice_kg.high == 0)
    assert found.temperature_c.hours[-1] == pytest.approx(hours)
    for band in (found.oxygen_at_rest, found.oxygen_freshly_caught):
        assert all(0 <= a <= b + 1e-9 for a, b in zip(band.low.values, band.stated.values, strict=True))
        assert all(a <= b + 1e-9 for a, b in zip(band.stated.values, band.high.values, strict=True))
    assert found.oxygen_freshly_caught.stated.lowest <= found.oxygen_at_rest.stated.lowest + 1e-9
    assert found.carbon_at_rest.stated.lowest >= 0.6 - 1e-9  # the lake's own
    for stop in found.stops:
        assert stop.minutes[0].stated <= stop.minutes[1].stated

"""A livewell through a day: balances of oxygen, carbon dioxide and ammonia, water changes and ice."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from weighin.livewell import ammonia, budget, carbon_dioxide, supply, transfer, water_change
from weighin.livewell.day import Boarding, LivewellDay
from weighin.livewell.figures.course import Course, steady
from weighin.livewell.figures.estimate import NOTHING, Estimate, exactly
from weighin.livewell.figures.mixed import Rates, follow
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.oxygen import saturation_mg_l
from weighin.livewell.respiration import routine_mg_per_kg_h
from weighin.livewell.temperature.ice_plan import ice_plan
from weighin.livewell.water_change import Change

BOARDINGS = st.lists(
    st.builds(Boarding, hour=st.floats(0, 8), fish=st.integers(1, 7), mass_g=st.floats(50, 900)), max_size=6
)
CHANGES = st.lists(st.builds(Change, hour=st.floats(0, 9), share=st.floats(0.05, 1)), max_size=4)
DAYS = st.builds(
    LivewellDay,
    volume_l=st.floats(50, 400),
    hours=st.floats(1, 9),
    boardings=BOARDINGS.map(tuple),
    temperature_c=st.floats(5, 34),
    times_rest=st.floats(0.5, 4),
    changes=CHANGES.map(tuple),
)
few = settings(max_examples=40)


def crappie(fish=7, mass_g=400, **more):
    given_day = {"volume_l": 75, "hours": 8, "temperature_c": 26.0, "species": "white_crappie"}
    return LivewellDay(**{**given_day, **more}, boardings=(Boarding(0, fish, mass_g),))


def test_a_shut_well_loses_just_what_the_fish_use():
    day = crappie(hours=1)
    used = routine_mg_per_kg_h("white_crappie", 400, 26) * 2.8 / 75
    course = budget.oxygen_mg_l(day).stated
    assert course.values[0] == saturation_mg_l(26)
    assert course.last == pytest.approx(saturation_mg_l(26) - used)


def test_with_a_pump_oxygen_settles_where_gain_meets_use():
    day = crappie(hours=24)
    k = 2.0
    course = budget.oxygen_mg_l(day, transfer_per_h=exactly(k)).stated
    use = day.use_mg_per_h(1).stated / 75
    assert course.last == pytest.approx(saturation_mg_l(26) - use / (k * 1.024**6), abs=1e-6)


def test_without_fish_the_well_comes_to_saturation():
    day = LivewellDay(volume_l=75, hours=12, boardings=(), temperature_c=22.0)
    course = budget.oxygen_mg_l(day, transfer_per_h=exactly(1.0), start_mg_l=3.0).low
    assert course.values[0] == 3.0
    assert course.last == pytest.approx(saturation_mg_l(22), abs=1e-3)


def test_pure_oxygen_may_go_above_saturation_and_height_lowers_it():
    day = crappie(hours=4)
    rich = budget.oxygen_mg_l(day, supply_mg_per_h=supply.mg_per_h(flow_l_per_min=0.1), transfer_per_h=exactly(0.2))
    assert rich.high.last > saturation_mg_l(26)
    high_up = budget.oxygen_mg_l(day, pressure_mmhg=620)
    assert high_up.stated.values[0] == pytest.approx(saturation_mg_l(26, 620))


def test_a_timer_and_thirty_fish_are_worse_than_seven_and_no_timer():
    def lowest(fish, share_on):
        pump = transfer.pump_per_h(flow_l_per_h=1500, volume_l=75, share_on=share_on)
        return budget.oxygen_mg_l(crappie(fish), transfer_per_h=pump).stated.last

    assert lowest(30, 1.0) < lowest(7, 1.0)
    assert lowest(7, 0.25) < lowest(7, 1.0)


def test_cooler_water_leaves_more_oxygen():
    pump = transfer.pump_per_h(flow_l_per_h=1500, volume_l=75)
    cool, hot = (budget.oxygen_mg_l(crappie(temperature_c=t), transfer_per_h=pump).stated.last for t in (22.0, 30.0))
    assert cool > hot


def test_what_a_pump_keeps_at_the_floor_is_what_the_budget_settles_at():
    k, use = exactly(3.0), exactly(routine_mg_per_kg_h("white_crappie", 400, 26))
    most = budget.most_kg(use_mg_per_kg_h=use, volume_l=75, temperature_c=26, transfer_per_h=k, floor_mg_l=5.0)
    fish = round(most.stated / 0.4)
    settled = budget.oxygen_mg_l(crappie(fish, hours=24), transfer_per_h=k).stated.last
    share = fish * 0.4 / most.stated
    assert settled == pytest.approx(saturation_mg_l(26) - share * (saturation_mg_l(26) - 5.0), abs=1e-6)


def test_a_floor_above_saturation_leaves_only_the_cylinder():
    more = {"use_mg_per_kg_h": exactly(50.0), "volume_l": 75, "temperature_c": 30, "floor_mg_l": 9.0}
    assert budget.most_kg(**more, transfer_per_h=exactly(3.0)).high == 0
    assert budget.most_kg(**more, supply_mg_per_h=exactly(500.0)).stated == pytest.approx(10)


def test_fish_that_leave_use_no_more():
    fish = (Boarding(hour=1, fish=7, mass_g=400, until_hour=3), Boarding(hour=2, fish=1, mass_g=900))
    day = LivewellDay(volume_l=75, hours=4, boardings=fish, temperature_c=20.0)
    kg = [day.kg_aboard(hour) for hour in (0.5, 1.0, 2.5, 3.0)]
    assert kg == pytest.approx([0, 2.8, 3.7, 0.9])
    assert day.use_mg_per_h(0.5) == NOTHING


def test_carbon_dioxide_shut_in_rises_by_the_quotient():
    day = crappie()
    used = day.use_mg_per_h(1).stated * 8 / 75
    shut = carbon_dioxide.build_up_mg_l(day, lake_mg_l=0.5).stated
    assert shut.last == pytest.approx(0.5 + used * 0.85 * 44.010 / 31.998)
    open_lid = carbon_dioxide.build_up_mg_l(day, lake_mg_l=0.5, vent_per_h=exactly(1.0)).stated
    assert open_lid.last < 0.2 * shut.last


def test_ammonia_rises_by_its_quotient():
    day = crappie()
    used = day.use_mg_per_h(1).stated * 8 / 75
    band = ammonia.build_up_mg_l(day, lake_mg_l=0.1)
    for course, quotient in zip((band.low, band.stated, band.high), ammonia.QUOTIENT.ends, strict=True):
        assert course.last == pytest.approx(0.1 + used * quotient * 14.007 / 31.998)


def test_a_change_at_the_start_or_the_end_is_made():
    course = follow(start=8.0, hours=2, rates=lambda hour: Rates(0, 0, 0), jumps=[(0, half), (2, half)])
    assert (course.values[0], course.at(0), course.just_before(2), course.last) == (8.0, 4.0, 4.0, 2.0)


def half(value):
    return value / 2


def test_changes_after_the_day_are_not_made():
    course = follow(start=8.0, hours=2, rates=lambda hour: Rates(0, 0, 0), jumps=[(2.5, half)])
    assert course.values[-1] == 8.0


def test_the_whole_water_changed_is_the_lake_again():
    day = crappie(changes=(Change(4, 1.0),))
    gas = carbon_dioxide.build_up_mg_l(day, lake_mg_l=1.0).stated
    assert gas.just_before(4) > 3
    assert gas.at(4) == 1.0
    assert budget.oxygen_mg_l(day, lake_mg_l=6.0).stated.at(4) == 6.0


@few
@given(DAYS)
def test_the_ends_of_a_band_enclose_it(day):
    k = Estimate(0.1, 0.5, 2.0)
    for band in (
        budget.oxygen_mg_l(day, transfer_per_h=k, supply_mg_per_h=Estimate(0, 50, 200)),
        carbon_dioxide.build_up_mg_l(day, vent_per_h=k),
        ammonia.build_up_mg_l(day),
    ):
        assert band.low.hours == band.stated.hours == band.high.hours
        for low, middle, high in zip(band.low.values, band.stated.values, band.high.values, strict=True):
            assert 0 <= low <= middle + 1e-9
            assert middle <= high + 1e-9


@few
@given(DAYS)
def test_without_pump_or_cylinder_oxygen_only_falls_between_changes(day):
    course = budget.oxygen_mg_l(day, lake_mg_l=0.0).stated
    assert all(later <= earlier + 1e-9 for earlier, later in zip(course.values, course.values[1:], strict=False))


@few
@given(st.floats(0, 20), st.floats(0.3, 12), st.floats(0.3, 6), st.floats(0.05, 1))
def test_changing_never_makes_it_worse_and_stays_under_the_ceiling(gain, hours, every_h, share):
    both = water_change.compare(gain_per_h=gain, hours=hours, every_h=every_h, share=share)
    assert both.never.last == pytest.approx(gain * hours)
    assert both.changed.highest <= both.never.highest + 1e-9
    top = water_change.ceiling(gain_per_h=gain, every_h=every_h, share=share)
    assert both.changed.highest <= top + 1e-9 or hours < every_h


@few
@given(st.integers(1, 40))
def test_the_step_of_the_reckoning_does_not_matter(fish):
    warming = Course(hours=(0, 8), values=(22, 30))
    day = crappie(fish, mass_g=100, temperature_c=warming)

    def rates(hour):
        return Rates(1.5, saturation_mg_l(day.course_c.at(hour)), -day.use_mg_per_h(hour).stated / 75)

    coarse, fine = (follow(start=8.0, hours=8, rates=rates, step_h=step) for step in (1 / 12, 1 / 240))
    assert coarse.last == pytest.approx(fine.last, abs=1e-3)  # a meter shows 0.01 or 0.1


PLANS = st.fixed_dictionaries(
    {
        "volume_l": st.floats(20, 500),
        "fill_c": st.floats(15, 34),
        "hold_c": st.floats(10, 34),
        "outside_c": st.floats(10, 45),
        "hours": st.floats(1, 12),
        "warming_per_h": st.floats(0, 0.5),
        "ice_c": st.floats(-18, 0),
        "every_h": st.floats(0.5, 3),
        "changes": CHANGES.map(tuple),
    }
)


@few
@given(PLANS)
def test_ice_brings_the_water_to_what_is_wanted(plan):
    result = ice_plan(**plan)
    for icing in result.icings:
        assert icing.ice_kg >= 0
        assert (icing.ice_kg > 0) == (icing.found_c > icing.wanted_c)
        assert result.temperature_c.at(icing.hour) == pytest.approx(min(icing.found_c, icing.wanted_c), abs=1e-6)
    assert result.total_kg == pytest.approx(sum(icing.ice_kg for icing in result.icings))
    hours = [icing.hour for icing in result.icings]
    assert hours == sorted(set(hours))
    assert result.temperature_c.hours[-1] == plan["hours"]


@few
@given(PLANS)
def test_no_ice_without_a_need(plan):
    free = {**plan, "hold_c": 40.0, "changes": ()}
    if free["outside_c"] <= 40:
        assert ice_plan(**free).total_kg == 0


def test_the_first_hour_cools_in_allowed_steps_and_the_day_holds():
    plan = ice_plan(volume_l=75, fill_c=32, hold_c=26, outside_c=35, hours=8, warming_per_h=0.1)
    assert [round(icing.wanted_c, 1) for icing in plan.icings[:3]] == [29.0, 26.0, 26.0]
    assert plan.cooling.beyond_step
    assert plan.temperature_c.at(8) == pytest.approx(26 + 9 * (1 - 2.718281828**-0.1), abs=1e-6)


def test_warmer_lake_water_costs_ice_at_the_change():
    day = {"volume_l": 75, "fill_c": 26, "hold_c": 25, "outside_c": 25, "hours": 4, "warming_per_h": 0.0}
    plan = ice_plan(**day, lake_c=30, changes=(Change(2, 0.5),))
    changed = next(icing for icing in plan.icings if icing.changed_share)
    assert (changed.hour, changed.found_c, changed.changed_share) == (2, 27.5, 0.5)
    assert changed.ice_kg > 0


def test_the_plans_temperatures_feed_the_oxygen():
    plan = ice_plan(volume_l=75, fill_c=29, hold_c=25.5, outside_c=34, hours=8, warming_per_h=0.1)
    iced = budget.oxygen_mg_l(crappie(temperature_c=plan.temperature_c), transfer_per_h=exactly(1.0))
    plain = budget.oxygen_mg_l(crappie(temperature_c=29.0), transfer_per_h=exactly(1.0))
    assert iced.stated.last > plain.stated.last


def test_a_course_says_when_a_limit_is_passed():
    course = Course(hours=(0, 2, 2, 6), values=(8, 4, 6, 2))
    assert (course.first_below(5), course.first_above(9), course.first_below(1)) == (1.5, None, None)
    assert (course.first_above(7), course.lowest, course.highest) == (0, 2, 8)
    assert (course.just_before(2), course.at(2), course.at(-1), course.at(9)) == (4, 6, 8, 2)
    assert steady(5.0).at(3) == steady(5.0).just_before(0) == 5.0
    assert course.just_before(1) == course.at(1) == 6


def test_an_estimate_is_not_turned_round():
    with pytest.raises(OutOfRange):
        Estimate(1, 2, 3).times(-1)


def test_decimals_from_a_form_are_taken_as_numbers():
    fish = (Boarding(hour=Decimal("0"), fish=7, mass_g=Decimal("400"), until_hour=Decimal("7.5")),)
    change = Change(hour=Decimal("2"), share=Decimal("0.5"))
    typed = LivewellDay(
        volume_l=Decimal("75"),
        hours=Decimal("8"),
        boardings=fish,
        temperature_c=Decimal("26"),
        times_rest=Decimal("2"),
        changes=(change,),
    )
    plain = LivewellDay(75, 8, (Boarding(0, 7, 400, 7.5),), 26.0, times_rest=2, changes=(Change(2, 0.5),))
    assert budget.oxygen_mg_l(typed).low == budget.oxygen_mg_l(plain).low


def test_an_empty_well_still_wants_a_known_species():
    with pytest.raises(OutOfRange, match="black_crappie"):
        LivewellDay(volume_l=75, hours=8, boardings=(), temperature_c=26.0, species="black_crappie")

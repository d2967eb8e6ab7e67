"""What must hold for any water, fish and ice."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from weighin.livewell.ammonia import unionised_fraction
from weighin.livewell.bag import minutes_until_floor
from weighin.livewell.carbon_dioxide import from_ph_mg_l, ph
from weighin.livewell.figures.mixed import Rates, after, coefficient_per_h, diluted
from weighin.livewell.ice import FUSION_KJ_PER_KG, ICE_KJ_PER_KG_C, WATER_KJ_PER_KG_C, kg_for_drop, melt
from weighin.livewell.oxygen import percent_saturation, saturation_mg_l
from weighin.livewell.pressure import at_elevation_mmhg, station_mmhg
from weighin.livewell.respiration import CURVES, SUNFISH_FAMILY, routine_mg_per_kg_h, sunfish_mg_per_kg_h
from weighin.livewell.salt import kg_for_percent, percent_of
from weighin.livewell.temperature.cooling import coolest_c, schedule, target_c
from weighin.livewell.temperature.warming import coefficient_from_readings, temperature_after

WATER_C = st.floats(0, 40)
MMHG = st.floats(380, 836)
SALT = st.floats(0, 40)
LITRES = st.floats(1, 5000)
ICE_C = st.floats(-40, 0)
MASS_G = st.floats(20, 10_000)
FISH_C = st.floats(0, 31)


@given(WATER_C, WATER_C, MMHG, SALT)
def test_warmer_water_holds_less_oxygen(one, other, mmhg, salinity):
    cold, warm = sorted((one, other))
    assert saturation_mg_l(warm, mmhg, salinity) <= saturation_mg_l(cold, mmhg, salinity)


@given(WATER_C, MMHG, MMHG, SALT, SALT)
def test_more_air_holds_more_oxygen_and_salt_less(t, one, other, fresh, salty):
    low, high = sorted((one, other))
    fresh, salty = sorted((fresh, salty))
    assert 0 < saturation_mg_l(t, low, salty) <= saturation_mg_l(t, high, salty) <= saturation_mg_l(t, high, fresh)


@given(WATER_C, MMHG, SALT, st.floats(0, 200))
def test_per_cent_is_the_share_of_saturation(t, mmhg, salinity, percent):
    reading = saturation_mg_l(t, mmhg, salinity) * percent / 100
    if percent < 199.999:
        assert percent_saturation(reading, t, mmhg, salinity) == pytest.approx(percent, abs=1e-9)


@given(st.floats(-500, 11_000), st.floats(-500, 11_000))
def test_pressure_falls_with_height(one, other):
    low, high = sorted((one, other))
    assert at_elevation_mmhg(high) <= at_elevation_mmhg(low)
    assert station_mmhg(760, high) == pytest.approx(at_elevation_mmhg(high))


@given(st.sampled_from(sorted(CURVES)), MASS_G, MASS_G, FISH_C)
def test_a_large_fish_uses_more_but_less_per_kilogram(species, one, other, t):
    small, large = sorted((one, other))
    per_kg = [routine_mg_per_kg_h(species, mass_g, t) for mass_g in (small, large)]
    assert per_kg[1] <= per_kg[0] * (1 + 1e-12)
    assert per_kg[0] * small <= per_kg[1] * large * (1 + 1e-12)


@given(st.sampled_from(SUNFISH_FAMILY), MASS_G, st.floats(0, 36), st.floats(0, 36))
def test_sunfish_use_more_in_warmer_water(species, mass_g, one, other):
    cold, warm = sorted((one, other))
    colder, warmer = (routine_mg_per_kg_h(species, mass_g, t) for t in (cold, warm))
    assert 0 < colder <= warmer * (1 + 1e-12)


@given(MASS_G, st.floats(0, 36))
def test_the_familys_range_holds_every_member(mass_g, t):
    use = sunfish_mg_per_kg_h(mass_g, t)
    members = [routine_mg_per_kg_h(species, mass_g, t) for species in SUNFISH_FAMILY]
    assert (use.low, use.high) == (min(members), max(members))
    assert use.stated in members


@given(LITRES, WATER_C, WATER_C, ICE_C)
def test_ice_for_a_drop_gives_that_drop(volume, one, other, ice_c):
    end, start = sorted((one, other))
    ice = kg_for_drop(volume, start, end, ice_c)
    result = melt(volume, start, ice, ice_c)
    assert result.temperature_c == pytest.approx(end, abs=1e-9)
    assert result.left_kg == pytest.approx(0, abs=1e-9 * volume)


@given(LITRES, WATER_C, st.floats(0, 1), ICE_C)
def test_no_heat_is_lost_or_won_by_mixing_ice_and_water(volume, start, share, ice_c):
    ice = volume * share
    result = melt(volume, start, ice, ice_c)
    before = volume * WATER_KJ_PER_KG_C * start + ice * ICE_KJ_PER_KG_C * ice_c - ice * FUSION_KJ_PER_KG
    now = (volume + result.melted_kg) * WATER_KJ_PER_KG_C * result.temperature_c
    now -= result.left_kg * FUSION_KJ_PER_KG
    assert isclose(now, before, rel_tol=1e-9, abs_tol=1e-6 * volume)
    assert result.melted_kg + result.left_kg == pytest.approx(ice)
    assert 0 <= result.temperature_c <= start + 1e-12
    assert result.temperature_c == 0 or result.left_kg == 0
    assert volume + result.melted_kg > 0


@given(LITRES, st.floats(1, 40), st.floats(0, 1), st.floats(0, 1), ICE_C)
def test_more_ice_is_colder(volume, start, one, other, ice_c):
    less, more = sorted((one * volume, other * volume))
    assert melt(volume, start, more, ice_c).temperature_c <= melt(volume, start, less, ice_c).temperature_c + 1e-9


@given(st.floats(0, 39), st.floats(-20, 70), st.floats(0.01, 2), st.floats(5, 60))
def test_the_measured_coefficient_foretells_the_reading(start, outside, per_h, minutes):
    end = temperature_after(from_c=start, outside_c=outside, hours=minutes / 60, per_h=per_h)
    if abs(outside - start) < 5 or not 0 < end <= 40:
        return
    readings = {"start_c": start, "end_c": end, "outside_c": outside, "minutes": minutes}
    k = coefficient_from_readings(**readings, reading_error_c=0.1)
    if k.stated > 0:
        assert k.stated == pytest.approx(per_h, rel=1e-6)
        assert k.low <= per_h * (1 + 1e-6)
        assert per_h <= k.high * (1 + 1e-6)


@given(st.floats(18, 22), st.floats(30, 36), st.floats(0.02, 0.5), st.floats(-0.1, 0.1), st.floats(-0.1, 0.1))
def test_the_coefficients_ends_hold_whatever_the_thermometers_error(start, outside, per_h, first, second):
    end = temperature_after(from_c=start, outside_c=outside, hours=1 / 6, per_h=per_h)
    if end + second <= start + first:
        return
    k = coefficient_from_readings(start_c=start + first, end_c=end + second, outside_c=outside)
    assert k.low - 1e-9 <= per_h <= k.high + 1e-9


@given(WATER_C, WATER_C, st.floats(0.5, 10), st.floats(0, 24))
def test_no_step_is_larger_than_allowed(one, other, step_c, apart):
    end, start = sorted((one, other))
    plan = schedule(from_c=start, to_c=end, step_c=step_c, hours_between=apart)
    assert all(0 < step.from_c - step.to_c <= step_c * (1 + 1e-9) for step in plan.steps)
    assert sum(step.from_c - step.to_c for step in plan.steps) == pytest.approx(start - end, abs=1e-9)
    assert plan.beyond_step == (len(plan.steps) > 1)
    if plan.steps:
        assert (plan.steps[0].from_c, plan.steps[-1].to_c) == (start, end)


@given(WATER_C)
def test_the_target_is_never_above_the_lake(lake):
    assert target_c(lake) <= lake
    assert coolest_c(lake) <= lake


@given(WATER_C, st.floats(4, 11), st.floats(4, 11))
def test_ammonia_is_worse_at_a_high_ph(t, one, other):
    low, high = sorted((one, other))
    assert 0 < unionised_fraction(t, low) <= unionised_fraction(t, high) < 1


@given(WATER_C, st.floats(5, 8.4), st.floats(1, 1000))
def test_ph_and_carbon_dioxide_are_two_sides_of_one(t, reading, alkalinity):
    gas = from_ph_mg_l(ph=reading, alkalinity_mg_l=alkalinity, temperature_c=t)
    if 0 < gas <= 1000:
        again = ph(carbon_dioxide_mg_l=gas, alkalinity_mg_l=alkalinity, temperature_c=t)
        assert again == pytest.approx(reading, abs=1e-9)


@given(LITRES, st.floats(0, 5))
def test_salt_there_and_back(volume, percent):
    assert percent_of(volume, kg_for_percent(volume, percent) * (1 - 1e-12)) == pytest.approx(percent, abs=1e-9)


@given(st.floats(0, 50), st.floats(0, 10), st.floats(0, 5), st.floats(0, 50), st.floats(0, 50), st.floats(0, 1))
def test_an_approach_may_be_broken_off_and_taken_up(value, hours, per_h, towards, gain, share):
    rates = Rates(per_h, towards, gain)
    at_once = after(value, hours, rates)
    in_two = after(after(value, hours * share, rates), hours * (1 - share), rates)
    assert in_two == pytest.approx(at_once, rel=1e-9, abs=1e-9)


@given(st.floats(0, 50), st.floats(0, 50), st.floats(0, 1))
def test_mixed_water_lies_between(value, fresh, share):
    low, high = sorted((value, fresh))
    assert low - 1e-9 <= diluted(value=value, fresh=fresh, share=share) <= high + 1e-9


@given(st.floats(0, 30), st.floats(0.1, 20), st.floats(0.05, 3), st.floats(0.1, 2))
def test_a_coefficient_is_found_again(start, gap, per_h, hours):
    towards = start + gap
    end = after(start, hours, Rates(per_h, towards, 0.0))
    if towards - end > 1e-3 * gap:
        found = coefficient_per_h(start=start, end=end, towards=towards, hours=hours, reading_error=0.0)
        assert found.stated == pytest.approx(per_h, rel=1e-6)


@given(st.floats(1, 50), st.floats(0.05, 1), MASS_G, st.floats(0, 36), st.floats(0.5, 10), st.floats(0, 20))
def test_minutes_in_a_bag_fall_with_haste_and_load(water, load, mass_g, t, times, floor):
    given_bag = {"water_l": water, "mass_g": mass_g, "temperature_c": t, "floor_mg_l": floor}
    one = minutes_until_floor(**given_bag, fish_kg=water * load / 2)
    two = minutes_until_floor(**given_bag, fish_kg=water * load)
    hasty = minutes_until_floor(**given_bag, fish_kg=water * load / 2, times_rest=times)
    assert two.stated == pytest.approx(one.stated / 2)
    assert hasty.stated == pytest.approx(one.stated / times)
    assert 0 <= one.low <= one.stated <= one.high
    assert (one.high == 0) == (saturation_mg_l(t) <= floor)

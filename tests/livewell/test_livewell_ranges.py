"""Nothing outside the stated ranges is answered: every refusal is a sentence that names its argument."""

import pytest

from weighin.livewell import (
    ammonia,
    bag,
    budget,
    carbon_dioxide,
    ice,
    loading,
    oxygen,
    pressure,
    respiration,
    salt,
    supply,
    transfer,
    water_change,
)
from weighin.livewell.day import Boarding, LivewellDay
from weighin.livewell.figures import mixed
from weighin.livewell.figures.course import Course
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.ranges import OutOfRange
from weighin.livewell.temperature import cooling, ice_plan, warming

READINGS = {"start_mg_l": 4.0, "end_mg_l": 6.0, "saturation_mg_l": 8.3, "minutes": 20, "temperature_c": 25}
BAG = {"water_l": 7.6, "fish_kg": 6.8, "mass_g": 300, "temperature_c": 28}
PLAN = {"volume_l": 75, "fill_c": 28, "hold_c": 25, "outside_c": 34, "hours": 8, "warming_per_h": 0.1}
DAY = {"volume_l": 75, "hours": 8, "boardings": (Boarding(0, 7, 400),), "temperature_c": 25.0}
MOST = {"use_mg_per_kg_h": Estimate(50, 80, 100), "volume_l": 75, "temperature_c": 25}

# function, good arguments, and for each argument values just outside its range
CASES = [
    (
        oxygen.saturation_mg_l,
        {"temperature_c": 20, "pressure_mmhg": 760, "salinity": 0},
        {"temperature_c": (-0.1, 40.1, 78), "pressure_mmhg": (379, 837, 0), "salinity": (-0.1, 40.1)},
    ),
    (oxygen.percent_saturation, {"oxygen_mg_l": 8, "temperature_c": 20}, {"oxygen_mg_l": (-1, 18.3, 101)}),
    (pressure.at_elevation_mmhg, {"elevation_m": 0}, {"elevation_m": (-501, 11_001)}),
    (
        pressure.station_mmhg,
        {"sea_level_mmhg": 760, "elevation_m": 100},
        {"sea_level_mmhg": (639, 821, 29.92, 1013), "elevation_m": (-501, 11_001)},
    ),
    (pressure.mmhg_from_inches, {"inches": 29.92}, {"inches": (8, 34, 760)}),
    (
        respiration.routine_mg_per_kg_h,
        {"species": "walleye", "mass_g": 500, "temperature_c": 20},
        {"mass_g": (0, 19, 10_001, -5), "temperature_c": (-1, 31.5, 32)},
    ),
    (
        respiration.sunfish_mg_per_kg_h,
        {"mass_g": 300, "temperature_c": 36},
        {"mass_g": (0,), "temperature_c": (36.1, 86)},
    ),
    (
        bag.minutes_until_floor,
        BAG,
        {
            "water_l": (0, -1, 1001),
            "fish_kg": (0, 7.7, -1),
            "mass_g": (1,),
            "temperature_c": (82,),
            "times_rest": (0, 11),
            "start_mg_l": (-1, 41),
            "floor_mg_l": (-1, 21),
        },
    ),
    (
        salt.kg_for_percent,
        {"volume_l": 378, "percent": 0.5},
        {"volume_l": (0, -1, 1e6), "percent": (-0.1, 5.1)},
    ),
    (salt.percent_of, {"volume_l": 100, "salt_kg": 0.5}, {"volume_l": (0,), "salt_kg": (-1, 5.1)}),
    (
        ice.kg_for_drop,
        {"volume_l": 75, "from_c": 28, "to_c": 24},
        {"volume_l": (0, -1), "from_c": (41, 82), "to_c": (28.1, -1), "ice_c": (0.1, -41)},
    ),
    (
        ice.temperature_after,
        {"volume_l": 75, "from_c": 28, "ice_kg": 3},
        {"volume_l": (0,), "from_c": (82,), "ice_kg": (-1, 75.1), "ice_c": (1, -78)},
    ),
    (
        warming.coefficient_from_readings,
        {"start_c": 18, "end_c": 18.4, "outside_c": 34},
        {
            "start_c": (64, -1),
            "end_c": (17.9, 34.0, 34.1),
            "outside_c": (93, -21, 18.5),
            "minutes": (0, -10, 721),
            "reading_error_c": (-0.1, 3),
        },
    ),
    (
        warming.temperature_after,
        {"from_c": 20, "outside_c": 30, "hours": 1, "per_h": 0.1},
        {"from_c": (41,), "outside_c": (71,), "hours": (-1, 73), "per_h": (-0.1, 5.1)},
    ),
    (
        cooling.schedule,
        {"from_c": 30, "to_c": 26},
        {
            "from_c": (86,),
            "to_c": (-1,),
            "step_c": (0, 11),
            "hours_between": (-1, 25),
            "first_hour": (-1, 73),
        },
    ),
    (cooling.target_c, {"lake_c": 30}, {"lake_c": (-1, 85)}),
    (cooling.coolest_c, {"lake_c": 30}, {"lake_c": (-1, 85), "step_c": (0, 10.1)}),
    (
        ice_plan.ice_plan,
        PLAN,
        {
            "volume_l": (0, -1),
            "fill_c": (82,),
            "hold_c": (75,),
            "outside_c": (92, Course(hours=(0, 4), values=(30, 90))),
            "hours": (0, -1, 73),
            "every_h": (0, 25),
            "lake_c": (82,),
            "warming_per_h": (-0.1, 5.1),
        },
    ),
    (
        ammonia.unionised_fraction,
        {"temperature_c": 20, "ph": 8},
        {"temperature_c": (-1, 68), "ph": (3.9, 11.1)},
    ),
    (
        ammonia.unionised_mg_l,
        {"total_n_mg_l": 1, "temperature_c": 20, "ph": 8},
        {"total_n_mg_l": (-1, 1001), "ph": (14,)},
    ),
    (ammonia.given_off_mg_n, {"oxygen_mg": 10}, {"oxygen_mg": (-1,), "quotient": (Estimate(0, 0.3, 0.6),)}),
    (ammonia.build_up_mg_l, {"day": LivewellDay(**DAY)}, {"lake_mg_l": (-1, 101)}),
    (carbon_dioxide.given_off_mg, {"oxygen_mg": 10}, {"oxygen_mg": (-1,), "quotient": (0.5, 1.6)}),
    (
        carbon_dioxide.build_up_mg_l,
        {"day": LivewellDay(**DAY)},
        {"lake_mg_l": (-1, 101), "quotient": (0, 2), "vent_per_h": (Estimate(-1, 0, 1), Estimate(0, 1, 101))},
    ),
    (
        carbon_dioxide.ph,
        {"carbon_dioxide_mg_l": 10, "alkalinity_mg_l": 80, "temperature_c": 25},
        {"carbon_dioxide_mg_l": (0, -1, 1001), "alkalinity_mg_l": (0, 1001), "temperature_c": (77,)},
    ),
    (
        carbon_dioxide.from_ph_mg_l,
        {"ph": 7, "alkalinity_mg_l": 80, "temperature_c": 25},
        {"ph": (4.9, 8.5), "alkalinity_mg_l": (0,), "temperature_c": (77,)},
    ),
    (
        budget.oxygen_mg_l,
        {"day": LivewellDay(**DAY)},
        {
            "pressure_mmhg": (100,),
            "salinity": (50,),
            "start_mg_l": (-1, 41),
            "lake_mg_l": (-1, 41),
            "transfer_per_h": (Estimate(-1, 0, 1), Estimate(0, 1, 101)),
            "supply_mg_per_h": (Estimate(-1, 0, 1),),
        },
    ),
    (
        budget.most_kg,
        MOST,
        {
            "volume_l": (0,),
            "temperature_c": (77,),
            "floor_mg_l": (-1, 21),
            "use_mg_per_kg_h": (Estimate(0, 1, 2),),
        },
    ),
    (transfer.surface_per_h, {"area_m2": 0.25, "volume_l": 75}, {"area_m2": (0, 101), "volume_l": (0,)}),
    (
        transfer.pump_per_h,
        {"flow_l_per_h": 1500, "volume_l": 75},
        {
            "flow_l_per_h": (-1, 1e6),
            "volume_l": (0,),
            "share_on": (-0.1, 1.1, 25),
            "a_pass": (Estimate(0, 1, 2), Estimate(-0.1, 0, 1)),
        },
    ),
    (transfer.at, {"coefficient": Estimate(1, 2, 3), "temperature_c": 20}, {"temperature_c": (-1, 68)}),
    (
        transfer.coefficient_from_readings,
        READINGS,
        {
            "start_mg_l": (-1, 41),
            "end_mg_l": (3.0, 8.3, 9.0, -1),
            "saturation_mg_l": (1, 21, 6.1),
            "minutes": (0, 721),
            "temperature_c": (77,),
            "reading_error_mg_l": (-1, 3),
        },
    ),
    (
        supply.mg_per_h,
        {"flow_l_per_min": 0.1},
        {"flow_l_per_min": (-1, 21), "absorbed": (Estimate(0, 1, 1.1),)},
    ),
    (
        loading.share_of_capacity,
        {"fish_kg": 1, "volume_l": 10},
        {"fish_kg": (-1,), "volume_l": (0,), "most_kg_per_l": (0, 2)},
    ),
    (
        water_change.every,
        {"every_h": 2, "hours": 8},
        {"every_h": (0, 73), "hours": (0, 73), "share": (0, 1.1)},
    ),
    (
        water_change.compare,
        {"gain_per_h": 4, "hours": 8, "every_h": 2},
        {"gain_per_h": (-1,), "hours": (0,), "every_h": (0,), "share": (0, 50), "fresh": (-1,)},
    ),
    (
        water_change.ceiling,
        {"gain_per_h": 4, "every_h": 2},
        {"gain_per_h": (-1,), "every_h": (0,), "share": (0, 2)},
    ),
    (mixed.diluted, {"value": 1, "fresh": 0, "share": 0.5}, {"share": (-0.1, 1.1)}),
    (
        Boarding,
        {"hour": 0, "fish": 7, "mass_g": 300},
        {"hour": (-1, 73), "fish": (0, 1001, 2.5), "mass_g": (5,)},
    ),
    (
        LivewellDay,
        DAY,
        {
            "volume_l": (0, -1, 2.7),
            "hours": (0, 73),
            "temperature_c": (77, 37, Course(hours=(0, 4), values=(25, 38))),
            "times_rest": (0, 11),
            "species": ("black_crappie", "trout", 7),
        },
    ),
]
BESIDE = {  # arguments whose fault is only seen together with another one, which then is named
    ("percent_saturation", "temperature_c"): "oxygen_mg_l",
    ("LivewellDay", "volume_l"): "boardings",
    ("minutes_until_floor", "water_l"): "fish_kg",
    ("coefficient_from_readings", "outside_c"): "end_c",
    ("coefficient_from_readings", "saturation_mg_l"): "end_mg_l",
}


def each_fault():
    for function, good, bad in CASES:
        for name, values in bad.items():
            for value in values:
                yield pytest.param(function, good, name, value, id=f"{function.__name__}-{name}-{value}")


@pytest.mark.parametrize(("function", "good"), [case[:2] for case in CASES])
def test_the_good_arguments_are_answered(function, good):
    assert function(**good) is not None


@pytest.mark.parametrize(("function", "good", "name", "value"), list(each_fault()))
def test_outside_the_range_a_sentence_and_no_answer(function, good, name, value):
    with pytest.raises(OutOfRange) as refusal:
        function(**{**good, name: value})
    assert refusal.value.name in (name, BESIDE.get((function.__name__, name)))
    assert str(refusal.value).endswith((".", "°C."))
    assert len(str(refusal.value)) > 20


IDS = ["nan", "inf", "-inf", "text", "none", "true", "huge"]


def each_number():
    for function, good, _ in CASES:
        for name, value in good.items():
            if isinstance(value, (int, float)):
                yield pytest.param(function, good, name, id=f"{function.__name__}-{name}")


@pytest.mark.parametrize(("function", "good", "name"), list(each_number()))
@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf"), "25", None, True, 10**400], ids=IDS)
def test_what_is_no_finite_number_is_refused(function, good, name, value):
    with pytest.raises(OutOfRange) as refusal:
        function(**{**good, name: value})
    assert refusal.value.name == name


def test_a_fahrenheit_reading_is_recognised():
    with pytest.raises(OutOfRange, match=r"not 78 °C. If it was read in °F, that is 25.6 °C."):
        oxygen.saturation_mg_l(78)
    with pytest.raises(OutOfRange, match=r"to 40 °C, not 400 °C\.$"):
        oxygen.saturation_mg_l(400)


def test_ice_heavier_than_the_water():
    with pytest.raises(OutOfRange, match="80 kg of ice are heavier than the 75 L of water"):
        ice.temperature_after(75, 28, 80)


def test_above_two_hundred_per_cent_the_meter_is_doubted():
    with pytest.raises(OutOfRange, match="check the meter"):
        oxygen.percent_saturation(17, 25)


@pytest.mark.parametrize(
    ("hours", "values"),
    [((), ()), ((0, 1), (1,)), ((1, 0), (1, 2)), ((0,), (float("nan"),)), ((float("inf"),), (1,))],
)
def test_courses_that_are_none(hours, values):
    with pytest.raises(OutOfRange):
        Course(hours=hours, values=values)


@pytest.mark.parametrize("ends", [(2, 1, 3), (1, 4, 3), (float("nan"), 1, 2), (1, 2, float("inf"))])
def test_estimates_that_are_none(ends):
    with pytest.raises(OutOfRange):
        Estimate(*ends)


def test_fish_leave_later_than_they_come():
    with pytest.raises(OutOfRange) as refusal:
        Boarding(hour=2, fish=1, mass_g=300, until_hour=2)
    assert refusal.value.name == "until_hour"

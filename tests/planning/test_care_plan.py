"""The care plan: every figure against arithmetic done here anew from the named sources, its page, and its faults.

Sources: K.A.R. 115-7-8 and the Kansas agency's page (tanks, helpers, bags, salt), Oklahoma's guidance (tanks, bags,
flights), Keeping Bass Alive (a pound a gallon), as the trade's notes quote them. Heat of fusion and of water from any
table. The pound is 453.59237 g and the gallon 3.785411784 L by definition.
"""

from datetime import datetime
from itertools import pairwise
from math import ceil
from random import Random
from statistics import mean

import pytest
import world
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event, Flight
from weighin.line.domain.flights import Flights, line_of, short_line, sizes
from weighin.line.domain.planning import Question, arrivals, plan_line, run_line
from weighin.livewell.respiration import SUNFISH, sunfish_mg_per_kg_h
from weighin.planning.domain.care_plan import CarePlan, CareQuestion
from weighin.planning.pages.care_plan import care_form, care_page

POUND_G, GALLON_L = 453.59237, 3.785411784
SIXTY = Question(boats=60, over_min=45)


def f(degrees: float) -> float:
    return (degrees - 32) / 1.8


def asked(**more: object) -> CareQuestion:
    said = {
        "anglers": 120, "fish": 7, "mass_g": 1.3 * POUND_G, "lake_c": f(82), "tank_l": 100 * GALLON_L, "step_c": 7 / 1.8,
        "species": SUNFISH, "line": SIXTY, "scales": 2, "flights": 5, "apart_min": 30, **more,
    }  # fmt: skip
    return CareQuestion(**said)  # type: ignore[arg-type]


def test_what_agencies_ask_for_is_counted_as_they_word_it() -> None:
    plan = CarePlan(asked())
    assert plan.tanks_oklahoma == 120 / 20  # one 100-gal tank per 20 contestants
    assert plan.tanks_kansas == ceil(120 / 25)  # one tank per 25 anglers
    assert plan.helpers == 120 / 10  # one helper per 10 anglers
    assert plan.bags_most == 5 * 120 / 20  # at most five bags per twenty contestants
    assert plan.bags_a_boat == 1  # 7 x 1.3 lb = 9.1 lb, a bag holds 15
    assert CarePlan(asked(mass_g=2.2 * POUND_G)).bags_a_boat == 2  # 15.4 lb
    assert CarePlan(asked(anglers=121)).tanks_oklahoma == 7
    assert CarePlan(asked(tank_l=50 * GALLON_L)).tanks_oklahoma == 12  # the same gallons


def test_the_load_of_the_tanks_is_the_handbooks_pound_a_gallon() -> None:
    # 12 boats of a flight x 7 x 1.3 lb = 109.2 lb: two tanks of 100 gal; all sixty at once 546 lb: six
    assert CarePlan(asked()).tanks_by_load == 2
    assert CarePlan(asked(flights=1, apart_min=0)).tanks_by_load == 6
    assert CarePlan(asked(mass_g=3 * POUND_G, flights=1, apart_min=0)).tanks == ceil(60 * 7 * 3 / 100)


def test_ice_salt_and_oxygen_by_hand() -> None:
    plan = CarePlan(asked())
    water = 100 * GALLON_L
    # Heat given up by the water = heat to melt the ice and warm what melted (4.186 kJ/kg/K, 333.55 kJ/kg)
    assert plan.tank_c == pytest.approx(f(75))
    assert water * 4.186 * (f(82) - f(75)) == pytest.approx(plan.ice_kg * (333.55 + 4.186 * f(75)))
    assert plan.salt_kg == pytest.approx(water * 0.005)
    assert plan.dip_kg(100) == pytest.approx(3)
    # A full tank holds 100 lb; freshly caught at three times rest
    rest = sunfish_mg_per_kg_h(mass_g=1.3 * POUND_G, temperature_c=f(75)).stated
    assert plan.oxygen_mg_per_h.stated == pytest.approx(3 * rest * 100 * POUND_G / 1000)
    # 15 % of the gas dissolves; a litre at 25 degrees C is 31.998 g/mol over 24.465 L/mol
    assert plan.oxygen_l_per_min.stated == pytest.approx(
        plan.oxygen_mg_per_h.stated / 60 / (31_998 / 24.465) / 0.15, rel=0.002
    )


def test_a_cool_lake_calls_for_no_ice() -> None:
    assert CarePlan(asked(lake_c=f(74))).ice_kg == 0
    assert CarePlan(asked(lake_c=f(75))).ice_kg > 0


def test_one_flight_is_the_plan_of_the_line() -> None:
    one = line_of(SIXTY, 2, 1, 0)
    option = plan_line(SIXTY).options[1]
    assert one.bags == option.bags
    assert one.longest_min == pytest.approx(option.wait_bad, abs=10)  # bags at check-in here, called there


def test_a_flight_alone_waits_as_the_formula_of_queues_says() -> None:
    """Even arrivals, one scale: Pollaczek and Khinchine's mean, with a deviation of half the mean service."""
    long = Question(boats=250, over_min=600, boat_min=1.2, walk_min=0, shape="even")
    load = 250 / 600 * 1.2
    waits = [
        mean(one.standing for one in run_line(long, 1, "as they come", seed, arrivals(long, Random(seed))).waits)
        for seed in range(40)
    ]
    assert mean(waits) == pytest.approx(load * 1.2 * (1 + 0.5**2) / (2 * (1 - load)), rel=0.15)


def test_flights_keep_the_longest_wait_within_the_limit() -> None:
    found = short_line(SIXTY, 2, 1)
    assert found is not None and found.longest_min <= 10 < line_of(SIXTY, 2, 1, 0).longest_min
    # No fewer flights do, however far apart, and none nearer
    for fewer in range(2, found.flights):
        assert all(line_of(SIXTY, 2, fewer, apart).longest_min > 10 for apart in range(15, 91, 15))
    assert line_of(SIXTY, 2, found.flights, found.apart_min - 5).longest_min > 10
    # Two scales cannot weigh sixty boats faster than sixty times 2.5 min over two
    assert (found.flights - 1) * found.apart_min + 45 + found.longest_min >= 60 * 2.5 / 2


def test_a_table_that_is_never_quick_enough_says_so() -> None:
    assert short_line(Question(boats=60, over_min=10, boat_min=12), 1, 1) is None


def test_boats_are_dealt_evenly() -> None:
    assert all(sum(sizes(60, many)) == 60 and max(sizes(60, many)) - min(sizes(60, many)) <= 1 for many in range(1, 13))
    assert isinstance(line_of(Question(boats=3, over_min=20), 1, 3, 10), Flights)
    with pytest.raises(ValueError, match="flights"):
        line_of(Question(boats=3, over_min=20), 1, 4, 10)


@pytest.fixture
def event(db: None) -> Event:
    return world.event("Warm water", 30, lake_temp="82 F")


def page_of(event: Event, **given: str) -> str:
    client = world.member(event.club, Role.CLUB_REVIEWER)
    answer = client.get(reverse("planning:care_plan", args=[event.slug]), given)
    assert answer.status_code == 200
    return answer.content.decode()


@pytest.mark.database
def test_the_page_starts_from_the_event(event: Event) -> None:
    day = event.event_days.get()
    form = care_form(event, day, {})
    assert form.is_valid(), form.errors
    assert (form.data["boats"], form.data["anglers"], form.data["fish"]) == ("30", "30", "7")
    assert (form.data["lake"], form.data["flights"], form.data["due"]) == ("82", "1", "15:00")
    page = page_of(event)
    for words in (
        "30 boats: plan for",
        "K.A.R. 115-7-8",
        "Oxygen feeds fire",
        "insulated gloves",
        "Electricity near water",
    ):
        assert words in page
    assert "never lift it" in page and "Salt and products only as labeled" in page and "permit come first" in page


@pytest.mark.database
def test_flights_of_the_event_are_the_first_ones_planned(event: Event) -> None:
    Flight.objects.create(event=event, name="A", due_time="14:00")
    Flight.objects.create(event=event, name="B", due_time="14:40")
    form = care_form(event, event.event_days.get(), {})
    assert (form.data["flights"], form.data["apart"], form.data["due"]) == ("2", "40", "14:40")


@pytest.mark.database
def test_due_times_end_with_the_last_and_stand_as_far_apart_as_said(event: Event) -> None:
    day = event.event_days.get()
    form = care_form(event, day, {"scales": "2", "due": "0:20"})
    page = care_page(event, day, form)
    assert page is not None and form.plan is not None and form.plan.short is not None
    assert page.due[-1].due == "12:20 AM" and sum(one.boats for one in page.due) == 30
    clocks = [datetime.strptime(one.due, "%I:%M %p") for one in page.due]
    minutes = [clock.hour * 60 + clock.minute for clock in clocks]
    gaps = {(later - sooner) % 1440 for sooner, later in pairwise(minutes)}
    assert gaps == {form.plan.short.apart_min}


@pytest.mark.database
def test_all_faults_at_once_and_everything_typed_stays(event: Event) -> None:
    page = page_of(event, boats="many", each="1.3 stone", lake="120", tank="", due="25:00", flights="0", scales="2")
    for words in ('value="many"', "1.3 stone", 'value="120"', 'value="25:00"', 'value="2"'):
        assert words in page
    faults = page[page.index('id="faults"') : page.index("</ul>", page.index('id="faults"'))]
    assert faults.count("<li>") == 6
    assert "plan for" not in page


@pytest.mark.database
def test_more_flights_than_boats_is_a_fault_and_no_crash(event: Event) -> None:
    assert "more flights than boats" in page_of(event, boats="3", anglers="6", flights="5")
    assert "fewer anglers than boats" in page_of(event, boats="30", anglers="6")


@pytest.mark.database
def test_a_lake_too_warm_to_hold_fish_says_so_in_place_of_figures(event: Event) -> None:
    page = page_of(event, lake="92")
    assert "Do not hold fish today" in page and "Oxygen for a full tank" not in page


@pytest.mark.database
def test_fish_that_go_back_at_once_want_no_plan(event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(handling="immediate_release")
    assert "nothing to hold" in page_of(event)


@pytest.mark.database
def test_an_empty_event_gets_a_page_too(db: None) -> None:
    event = world.bare_event()
    assert "Correct what is marked below" in page_of(event)  # nobody has written the lake's temperature
    assert "1 boat: plan for" in page_of(event, lake="60")


@pytest.mark.database
def test_the_day_links_to_it_and_an_unknown_day_is_no_page(event: Event) -> None:
    client = world.member(event.club)
    where = reverse("planning:care_plan", args=[event.slug])
    assert where in client.get(event.get_absolute_url()).content.decode()
    assert client.get(where, {"day": "9"}).status_code == 404

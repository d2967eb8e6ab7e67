"""The planner never plans past a limit that it cites: it says so first, or refuses to plan at all."""

import re
from dataclasses import replace
from html import unescape

import pytest
from django.test import Client

from weighin.livewell.figures.units import celsius, fahrenheit, kilograms, litres, metres, pounds
from weighin.planning.domain.limits import passed, within
from weighin.planning.domain.plan import Answer, work_out
from weighin.planning.domain.question import DoNotHold, Question
from weighin.planning.domain.species import FISH
from weighin.planning.forms.planner import PlannerForm
from weighin.planning.pages.limit_words import INSTEAD

BOAT = Question(
    volume_l=litres(24),
    lake_c=celsius(80),
    elevation_m=metres(700),
    fish=7,
    mass_g=kilograms(1.3) * 1000,
    hours=8,
    air_c=celsius(90),
)
LIMIT = {"crappie": "7", "largemouth_bass": "5", "smallmouth_bass": "5", "walleye": "3", "sunfish": "7"}


def page(**values: str) -> str:
    return unescape(Client().get("/planner/", values).content.decode())


def breaks_nothing(answer: Answer, kind: str) -> None:
    """The cited limits written down a second time, in °F and mg/L."""
    asked, well = answer.question, answer.temperature_c
    lake = fahrenheit(asked.lake_c)
    assert lake - fahrenheit(well.lowest) <= 7 + 1e-6  # strictest advice: Mississippi State summary
    assert fahrenheit(well.highest) <= max(85, lake) + 1e-6  # Kansas, K.A.R. 115-7-8; it is filled with the lake
    care = 64.4 if kind == "walleye" else 75
    target = care if lake <= 80 or kind == "walleye" else 78 if lake <= 85 else 80  # Schramm's, for whole degrees
    if lake > care:
        assert fahrenheit(asked.hold_c) <= max(target, lake - 7) + 1e-6
        assert fahrenheit(asked.hold_c) <= (64.4 if kind == "walleye" else 80) + 1e-6
        assert fahrenheit(well.last) <= fahrenheit(asked.hold_c) + 2  # what it warms from one look to the next
    if kind == "crappie" and lake > care:
        assert asked.hold_c <= 27  # near-zero scope for growth above it: Hayward & Arnold 1996
    assert answer.carbon_at_rest.stated.highest < 20  # hauling advice
    assert answer.oxygen_at_rest.stated.lowest >= 5  # common practice
    assert pounds(asked.kg) <= asked.volume_l / litres(1) + 1e-6  # the handbook's pound a gallon


@pytest.mark.parametrize("kind", FISH)
def test_no_plan_breaks_a_limit_it_cites(kind: str) -> None:
    """Lakes from 32 to 100 °F, the first plan that the page offers for such a lake."""
    hottest = 71 if kind == "walleye" else 87
    for lake in range(32, 101):
        air = str(min(lake + 9, 100))
        form = PlannerForm({}, first={"lake": f"{lake} F", "air": f"{air} F", "kind": kind, "fish": LIMIT[kind]})
        assert form.is_valid(), (lake, form.errors)
        assert (form.refused is not None) == (lake > hottest), lake
        if form.answer is not None:
            assert not passed(form.answer), (lake, passed(form.answer))
            breaks_nothing(form.answer, kind)


@pytest.mark.parametrize("lake", range(32, 101, 4))
def test_a_plan_somebody_chose_past_a_limit_says_so_first(lake: int) -> None:
    """Twelve fish, the water never changed, no ice: told as a finding, with the nearest plan that keeps within."""
    said = page(units="us", lake=str(lake), air="96", fish="12", change="never", ice="no", lid="shut")
    finding = re.search(r"<h2>([^<]*)</h2>", said.partition('id="measured"')[2].partition("</details>")[2])
    assert finding is not None
    if lake > 87:
        assert finding[1] == f"Do not hold fish today: the lake is at {lake}\u00a0°F."
        return
    answer = work_out(replace(BOAT, lake_c=celsius(lake), air_c=celsius(96), fish=12, ice=False))
    assert passed(answer) and re.search("comes to|warms to|falls to", finding[1])
    link = re.search(r'Within every limit:</b> <a href="(\?[^"]*)">([^<]*)</a>', said)
    assert link is not None
    better = unescape(Client().get("/planner/" + link[1]).content.decode())
    assert "Within every limit" not in better and "No answer yet" not in better


def test_a_lake_of_95_is_not_held_in() -> None:
    said = page(units="us", lake="95")
    assert "Do not hold fish today: the lake is at 95\u00a0°F." in said and INSTEAD in said
    assert "at most 7\u00a0°F below the lake: 88\u00a0°F" in said and "85\u00a0°F (Kansas)" in said
    assert "Ice by the hour" not in said and "No answer yet" not in said
    metric = page(units="metric", lake="35")
    assert "the lake is at 35.0\u00a0°C." in metric
    turned = Client().get("/planner/", {"units": "us", "lake": "95", "to": "metric"})
    assert turned.status_code == 302 and "lake=35" in turned["Location"]


def test_walleye_are_not_held_where_none_lived() -> None:
    """Loomis et al. 2013: of walleye used to 24 °C (75 °F) none lived five days. Schramm et al. 2010: 18 °C."""
    said = page(units="us", lake="75", kind="walleye")
    assert (
        "Do not hold fish today" in said and "Loomis et al. 2013" in said and "Kansas" not in said.split("Cautions")[0]
    )
    assert "Do not hold fish today" not in page(units="us", lake="75", kind="crappie")
    assert "Walleye are fish of cool water" in page(units="us", lake="66", kind="walleye")


def test_a_larger_step_that_the_director_chose_reaches_further() -> None:
    ninety = replace(BOAT, lake_c=celsius(90))
    with pytest.raises(DoNotHold):
        work_out(ninety)
    assert fahrenheit(work_out(replace(ninety, step_c=10 / 1.8)).question.hold_c) == pytest.approx(80)
    smaller = replace(BOAT, lake_c=celsius(86), step_c=5 / 1.8)
    assert not smaller.may_hold
    assert fahrenheit(replace(smaller, lake_c=celsius(84)).hold_c) == pytest.approx(79)


def test_fewer_fish_are_the_last_resort() -> None:
    crowded = replace(BOAT, fish=30, vented=True, change_every_h=2.0)
    better = within(crowded)
    assert better is not None and set(better.blanks) == {"fish"}
    fish = better.answer.question.fish
    assert not passed(better.answer) and passed(work_out(replace(crowded, fish=fish + 1)))
    mild = within(BOAT)
    assert mild is not None and mild.blanks == {"change": "3"}
    assert within(replace(BOAT, volume_l=litres(1))) is None


@pytest.mark.parametrize(("kind", "each"), [("crappie", "1.3"), ("largemouth_bass", "1.8"), ("walleye", "2.5")])
def test_each_kind_has_its_own_weight_until_somebody_writes_one(kind: str, each: str) -> None:
    said = page(units="us", lake="66", kind=kind)
    assert re.search(rf'name="each" value="{each}"', said)
    assert f"What {FISH[kind].one} breathes." in said and FISH[kind].curve_words in said
    assert re.search(r'name="each" value="3.1"', page(units="us", lake="66", kind=kind, each="3.1"))
    blank = page(units="us", lake="66", kind=kind, each="")
    assert re.search(rf'name="each" value="{each}"', blank)

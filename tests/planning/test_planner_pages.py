"""The planner's pages: the sentence, the answer without a script, bad input at its field, units, events and tanks."""

import re
from html import unescape
from typing import Any
from urllib.parse import urlencode

import pytest
import world
from django.test import Client
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.planning.domain.blanks import BLANKS, CHOICES
from weighin.planning.forms.planner import DEFAULTS, PlannerForm
from weighin.tanks.models import TankReading

PLANNER = "/planner/"


def ask(client: Client | None = None, where: str = PLANNER, live: bool = False, **values: str) -> str:
    headers = {"HX-Request": "true"} if live else {}
    answer = (client or Client()).get(where, values, headers=headers)
    assert answer.status_code == 200
    return unescape(answer.content.decode())


def value(page: str, name: str) -> str:
    found = re.search(rf'<input[^>]*name="{name}"[^>]*>', page)
    assert found is not None, name
    written = re.search(r' value="([^"]*)"', found[0])
    return written[1] if written else ""


def fault(page: str, name: str) -> str:
    found = re.search(rf'id="id_{name}_error"[^>]*>([^<]*)<', page)
    assert found is not None, name
    return found[1]


def faults(page: str) -> dict[str, str]:
    return {name: said for name in (*BLANKS, *CHOICES, "filled") if (said := fault(page, name))}


def facts(page: str) -> dict[str, str]:
    rows = re.findall(r"<dt>(.*?)</dt><dd class=\"figure\">(.*?)</dd>", page)
    return {re.split(" at |, ", name)[0]: re.sub(r"<.*?>", " ", figure).strip() for name, figure in rows}


def test_an_example_is_worked_out_before_anyone_has_written() -> None:
    page = ask()
    assert value(page, "lake") == "80" and value(page, "well") == "24"
    assert not faults(page) and "Not worked out" not in page
    assert set(facts(page)) == {
        "Ice for the day",
        "Livewell below the lake",
        "Lowest oxygen",
        "Most carbon dioxide",
        "Pump stopped",
        "In the bag",
    }


def test_the_form_and_its_answer_need_no_script() -> None:
    page = ask(units="us", lake="86", air="95", have="20", change="never")
    assert '<form id="planner" class="planner" method="get" action="/planner/"' in page
    assert facts(page)["Ice for the day"] == "17 lb"
    assert "What you carry is enough for the middle figure." in page
    assert "at once would take the livewell from 86\u00a0°F to 68\u00a0°F: a shock." in page
    assert page.count('<svg class="chart"') == 6  # two charts at three widths
    assert '<table role="table" class="ruled dense ice-table">' in page
    # Every way on is a link or a button of the form.
    assert 'href="?units=us&fish=30&' in page and "pump=timer" in page and "ice=no" in page
    assert '<button class="button plain" name="to" value="metric">' in page


def test_a_cool_day_wants_no_ice() -> None:
    page = ask(units="us", lake="60", air="68")
    assert facts(page)["Ice for the day"] == "0 lb" and "No ice is needed." in page
    assert "care steps begin" not in page
    assert "8-lb block" not in page


def test_a_hot_day_heeds_the_heat() -> None:
    page = ask(units="us", lake="86")
    assert "The lake is at 86\u00a0°F; care steps begin at 75\u00a0°F." in page
    assert "White crappie stop growing near 27\u00a0°C (80.6\u00a0°F)." in page
    assert "it was growth that was measured, not recovery" in page and "later Missouri study" in page
    assert "White crappie" not in ask(units="us", lake="70", kind="walleye")
    assert "White crappie stop" not in ask(units="us", lake="82", kind="largemouth_bass")


def test_says_what_it_does_not_know() -> None:
    page = ask()
    assert "Taken as 0.1 per hour, between 0.03 and 0.2: our estimate, no source." in page
    assert "no measurements of livewells were found" in page
    assert "There is no curve for black crappie" in page
    measured = ask(
        units="us", warm_from="64", warm_to="65", warm_minutes="10", warm_air="90",
        gain_from="4", gain_to="6", gain_minutes="20", gain_water="75",
    )  # fmt: skip
    assert "Measured: 0.24 per hour, between" in measured and "our estimate, no source" not in measured
    assert "no measurements of livewells were found" not in measured
    assert '<details id="measured" class="measured no-print" open>' in measured


@pytest.mark.parametrize(
    "caution",
    [
        "Ice: insulated gloves; no dry ice in a livewell or cabin.",
        "Oxygen feeds fire.",
        "A gallon weighs 8.3 lb: drain a livewell or a tank, never lift it.",
        "State and local fishing law and your permit come first.",
        "this is no legal or veterinary advice",
        "only as labeled and permitted",
        "is not used: it does not balance, and gives 6.1 °F",
    ],
)
def test_cautions_stand_on_the_page(caution: str) -> None:
    assert caution in ask(units="us", lake="86", air="95")


BAD = [
    ({"lake": "82"}, {"lake": "“82” has no unit: write 82 °F or 82 °C."}),
    ({"units": "xyz", "air": "30"}, {"air": "“30” has no unit: write 30 °F or 30 °C."}),
    (
        {"units": "metric", "lake": "78"},
        {"lake": "It must be from 0 to 40 °C, not 78 °C. If it was read in °F, write 78 °F."},
    ),
    ({"lake": "78 C"}, {"lake": "It must be from 32 to 104 °F, not 78 °C. If it was read in °F, write 78 °F."}),
    ({"units": "us", "lake": "18"}, {"lake": "It must be from 32 to 104 °F, not 18 °F. If it was read in °C, write 18 °C."}),
    ({"well": "0"}, {"well": "It must be more than 0 and at most 5283.44 gal, not 0 gal."}),
    ({"well": "-24"}, {"well": "It must be more than 0 and at most 5283.44 gal, not -24 gal."}),
    ({"hours": "-3"}, {"hours": "It must be from 0.25 to 24 h, not -3 h."}),
    ({"fish": "-1"}, {"fish": "It must be from 1 to 1000, not -1."}),
    ({"fish": "7.5"}, {"fish": "Write a whole number, such as 7."}),
    ({"fish": ""}, {"fish": "This is blank. Write it here."}),
    ({"have": "300"}, {"have": "300 lb of ice are heavier than the 24 gal of water: check both."}),
    ({"fish": "200"}, {"fish": "260.0\u00a0lb of fish need more water than 24.0\u00a0gal."}),
    (
        {"units": "us", "oxygen": "20"},
        {"oxygen": "20 mg/L is 256 % of what water of 80.0\u00a0°F holds in air; above 200 % check the meter, its unit and the temperature."},
    ),
    ({"filled": "25:00"}, {"filled": "'25:00' is not a time of day: write it as 6:00 AM or 2:42 PM."}),
    ({"ice": "maybe"}, {"ice": "Choose one of: with ice, without ice."}),
    ({"units": "us", "warm_from": "64"}, dict.fromkeys(("warm_to", "warm_minutes", "warm_air"), "Write this too, or leave all four blank.")),
    (
        {"units": "us", "warm_from": "64", "warm_to": "63", "warm_minutes": "10", "warm_air": "90"},
        {"warm_to": "The second reading is further off than the first: the value moves the other way."},
    ),
    (
        {"units": "us", "warm_from": "64", "warm_to": "89", "warm_minutes": "1", "warm_air": "90"},
        {"warm_to": "No livewell warms so fast: check the readings and the time between them."},
    ),
    (
        {"units": "us", "gain_from": "4", "gain_to": "20", "gain_minutes": "10", "gain_water": "70"},
        {"gain_to": "20 mg/L is 231 % of what water of 70.0\u00a0°F holds in air; above 200 % check the meter, its unit and the temperature."},
    ),
    ({"warm_minutes": "-10"}, {"warm_minutes": "It must be from 1 to 720 min, not -10 min."}),
    (
        {"units": "us", "lake": "86", "air": "122", "ice": "no", "hours": "24", "change": "never"},
        {"air": "The livewell would get warmer than is known of these fish: use ice, or fewer hours."},
    ),
    ({"well": ".6", "each": "0.5", "fish": "1", "flow": "5000"}, {"flow": "Such a pump turns so little water over too often to be worked out."}),
    ({"lake": "x" * 50}, {"lake": "It has 50 characters. Shorten it to 40 or fewer."}),
]  # fmt: skip


@pytest.mark.parametrize(("written", "said"), BAD)
def test_bad_input_is_told_at_its_field_and_nothing_is_lost(written: dict[str, str], said: dict[str, str]) -> None:
    page = ask(**written)
    assert faults(page) == said
    assert "Not worked out." in page and '<dl class="facts">' not in page
    for name, text in written.items():
        if name in BLANKS or name == "filled":
            assert value(page, name) == text
    for name in said:
        assert f'href="#id_{name}"' in page  # the list of faults leads to its field
    # The answer's part alone says the same.
    assert faults(ask(live=True, **written)) == said


def test_a_value_that_was_not_written_stays_a_figure_of_the_page() -> None:
    page = ask(units="metric", lake="78")
    assert value(page, "well") == "91" and value(page, "air") == "32.2"


def test_units_are_changed_without_losing_anything() -> None:
    written = {
        "units": "us",
        "lake": "83.5",
        "well": "22",
        "each": "1.2",
        "have": "20",
        "elevation": "640",
        "flow": "350",
    }
    answer = Client().get(PLANNER, {**written, "to": "metric"})
    assert answer.status_code == 302
    page = ask(where=answer["Location"])
    assert value(page, "units") == "metric" and value(page, "well") == "83" and value(page, "lake") == "28.6"
    back = Client().get(answer["Location"], {"to": "us"} | _query(answer["Location"]))
    again = ask(where=back["Location"])
    for name, text in written.items():
        assert value(again, name) == text


def _query(address: str) -> dict[str, str]:
    from urllib.parse import parse_qsl, urlsplit

    return dict(parse_qsl(urlsplit(address).query))


def test_units_are_not_changed_while_something_is_wrong() -> None:
    page = ask(units="us", lake="200", well="22", to="metric")
    assert value(page, "units") == "us" and value(page, "well") == "22" and value(page, "lake") == "200"


def test_a_unit_that_is_written_goes_first() -> None:
    page = ask(units="us", lake="30 C", well="91 L")
    assert value(page, "lake") == "86" and value(page, "well") == "24"


def test_metric_answers_are_the_same_answers() -> None:
    us, metric = facts(ask(units="us", lake="86")), facts(ask(units="metric", lake="30", each="1.3 lb", well="24 gal"))
    assert us["Lowest oxygen"] == metric["Lowest oxygen"]
    assert us["Pump stopped"] == metric["Pump stopped"]
    assert metric["Ice for the day"].endswith("kg")


def test_a_part_is_answered_to_a_script() -> None:
    part = ask(live=True, units="us", lake="86")
    assert "<html" not in part and facts(part) and 'id="said" hx-swap-oob="innerHTML"' in part
    answer = Client().get(PLANNER, {"units": "us", "to": "metric"}, headers={"HX-Request": "true"})
    assert answer.status_code == 200 and answer["HX-Redirect"].startswith("/planner/?units=metric&")
    assert "HX-Request" in Client().get(PLANNER)["Vary"]
    whole = Client().get(PLANNER, headers={"HX-Request": "true", "HX-History-Restore-Request": "true"})
    assert b"<html" in whole.content


def test_what_if_links_are_the_plan_with_one_thing_changed() -> None:
    page = ask(units="us", lake="86", air="95", change="never")
    links = dict(re.findall(r'<a href="(\?[^"]*)">([^<]*)</a></th>', page))
    assert list(links.values()) == ["30 fish instead of 7", "pump on a timer", "no ice", "half the water every 2½ h"]
    thirty = ask(where=PLANNER + next(iter(links)))
    assert value(thirty, "fish") == "30" and value(thirty, "lake") == "86"
    row = re.search(r"30 fish instead of 7</a></th>(.*?)</tr>", page, re.S)
    assert row is not None
    figures = re.findall(r">([^<]+)</td>", row[1])
    assert facts(thirty)["Lowest oxygen"].split()[0] == figures[2]
    assert facts(thirty)["Most carbon dioxide"].split()[0] == figures[3]


QUERIES = st.dictionaries(
    st.sampled_from([*DEFAULTS, "units", "to", "event", "else"]),
    st.one_of(
        st.text(max_size=60),
        st.sampled_from(["", "0", "-1", "nan", "inf", "1e999", "78 C", "200 F", "us", "metric", "\x00", "9" * 39, "0.000001", "72", "1000", "½"]),
        st.floats().map(str),
        st.integers(-1000, 100_000).map(str),
    ),
    max_size=12,
)  # fmt: skip


@pytest.mark.django_db
@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(query=QUERIES, live=st.booleans())
def test_no_query_brings_the_page_down(query: dict[str, str], live: bool) -> None:
    text = urlencode(query, errors="surrogatepass")
    answer = Client().get(f"{PLANNER}?{text}", headers={"HX-Request": "true"} if live else {})
    assert answer.status_code in (200, 302)


def test_a_form_reads_what_it_writes() -> None:
    first = PlannerForm({"lake": "30 C", "have": "5 kg", "change": "3"})
    assert first.is_valid()
    for units in ("us", "metric"):
        again = PlannerForm(first.written_again(units), units=units)
        assert again.is_valid() and again.answer is not None and first.answer is not None
        assert again.answer.ice_kg.stated == pytest.approx(first.answer.ice_kg.stated, rel=0.02)


@pytest.fixture
def event(db: None) -> Event:
    found = world.plain(start_time="05:30", due_time="14:30")
    Event.objects.filter(pk=found.pk).update(elevation_ft="740")
    return Event.objects.get(pk=found.pk)


def test_an_events_page_starts_from_its_water_and_times(event: Event) -> None:
    page = ask(world.member(event.club, Role.CLUB_REVIEWER), reverse("planning:event_planner", args=[event.slug]))
    assert {name: value(page, name) for name in ("lake", "air", "elevation", "filled", "hours", "fish")} == {
        "lake": "60", "air": "50", "elevation": "740", "filled": "5:30 AM", "hours": "9", "fish": "5",
    }  # fmt: skip
    assert event.name in page and event.water.name in page


def test_a_published_event_lends_its_values_to_anyone(event: Event) -> None:
    page = ask(event=event.slug)
    assert value(page, "elevation") == "700" and event.name not in page  # not published: as if there were none
    Event.objects.filter(pk=event.pk).update(is_public=True)
    page = ask(event=event.slug)
    assert value(page, "elevation") == "740" and value(page, "event") == event.slug
    assert f"&event={event.slug}" in page  # what-if keeps it
    public = Client().get(reverse("public:event", args=[event.slug])).content.decode()
    assert f'href="/planner/?event={event.slug}"' in public


def test_an_event_weighed_in_kilograms_is_planned_in_metric(db: None) -> None:
    from second_reading.plain_event import plain_event

    metric = world.event_of(plain_event("kg"))
    page = ask(world.member(metric.club), reverse("planning:event_planner", args=[metric.slug]))
    assert value(page, "units") == "metric" and value(page, "lake") == "15.6"


def test_tanks_of_the_event_and_their_cautions(event: Event) -> None:
    client, where = world.member(event.club), reverse("planning:event_planner", args=[event.slug])
    TankReading.objects.filter(event=event).delete()
    bare = ask(client, where)
    assert "No tank is recorded: one of 100 gallons for example." in bare
    assert "4.2\u00a0lb" in bare  # 0.5 % salt in 100 gal: 4.173 lb (Kansas's share, computed)
    time = event.entries.first() and "2026-03-07T15:00Z"
    TankReading.objects.create(event=event, day=1, tank="North", volume_gal="300", time=time)
    TankReading.objects.create(event=event, day=1, tank="North", volume_gal="300", time=time)
    page = ask(client, where)
    tanks = page.split('id="tanks"')[1].split("</section>")[0]
    assert "1 tank of this event" in tanks and tanks.count("plan it full") == 1
    assert "2,504\u00a0lb" in tanks  # 300 gal weigh 8.3 lb each
    for caution in (
        "drain a tank, never lift it",
        "Electricity near water",
        "weigh it, non-iodized",
        "keep brine out of the lake",
    ):
        assert caution in tanks
    link = re.search(r'href="(\?[^"]*well=300[^"]*)"', tanks)
    assert link is not None
    planned = ask(client, where + link[1])
    assert value(planned, "well") == "300" and value(planned, "fish") == "230" and not faults(planned)


def test_how_many_tanks_the_agencies_ask_for(event: Event) -> None:
    page = ask(world.member(event.club), reverse("planning:event_planner", args=[event.slug]))
    found = re.search(r"For (\d+) anglers: (\d+) tanks? by Oklahoma", page)
    assert found is not None and int(found[2]) == -(-int(found[1]) // 20)


def test_the_planner_writes_nothing(event: Event, django_assert_num_queries: Any) -> None:
    with django_assert_num_queries(0):
        ask(units="us", lake="86")

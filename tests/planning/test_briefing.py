"""The briefing: what it says of the event's water, times and rules, its cautions, and who may read it."""

import re
from datetime import time
from html import unescape

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event, EventDay, Flight, Handling
from weighin.events.queries.events import rules_of
from weighin.livewell.figures.units import celsius, metres, pounds
from weighin.livewell.oxygen import saturation_mg_l
from weighin.livewell.pressure import at_elevation_mmhg
from weighin.planning.forms.planner import PlannerForm
from weighin.planning.pages.briefing import briefing_of
from weighin.planning.pages.cautions import BY_HANDLING
from weighin.rules.words.sheet import sheet_in_words


@pytest.fixture
def event(db: None) -> Event:
    found = world.plain(start_time="05:30", due_time="14:30")
    Event.objects.filter(pk=found.pk).update(elevation_ft="740", permit="Permit 47-B of the agency")
    EventDay.objects.filter(event=found, number=1).update(lake_temp="86 F", air_temp="95 F")
    return Event.objects.get(pk=found.pk)


def words(event: Event, number: int | None = None) -> dict[str, str]:
    said = briefing_of(event, number)
    assert said is not None
    return {line.label: line.words for line in (*said.times, *said.figures, *said.care, *said.rules)}


def page(event: Event, role: Role = Role.CLUB_REVIEWER, **asked: str) -> str:
    answer = world.member(event.club, role).get(reverse("planning:briefing", args=[event.slug]), asked)
    assert answer.status_code == 200
    return unescape(answer.content.decode())


def test_the_figures_are_the_planners(event: Event) -> None:
    form = PlannerForm(
        {}, first={"lake": "86 F", "air": "95 F", "elevation": "740 ft", "filled": "05:30", "hours": "9", "fish": "5"}
    )
    assert form.is_valid() and form.answer is not None
    said = words(event)
    full = saturation_mg_l(celsius(86), at_elevation_mmhg(metres(740)))
    assert said["The lake"].startswith(f"86\u00a0°F at 740\u00a0ft: full water holds {full:.1f} mg/L")
    ice = pounds(form.answer.ice_kg.stated)
    assert said["Ice"].startswith(f"About {ice:.0f}\u00a0lb, between ")
    least = form.answer.stops[0].minutes[0].low
    assert f"{int(least)} to" in said["If the pump stops"]
    carbon = form.answer.carbon_at_rest.stated.highest
    assert carbon < 20 and f"with half of it changed every 3 h to {carbon:.0f}." in said["Carbon dioxide"]
    briefing = briefing_of(event)
    assert briefing is not None and briefing.finding.startswith(
        "The lake is at 86\u00a0°F: hold the livewell at 80\u00a0°F"
    )
    assert "5 fish of 1.3\u00a0lb" in briefing.supposed and "the air at 95\u00a0°F" in briefing.supposed


def test_what_is_not_written_down_is_not_made_up(event: Event) -> None:
    EventDay.objects.filter(event=event, number=1).update(air_temp="")
    briefing = briefing_of(event)
    assert briefing is not None and "(not recorded; supposed)" in briefing.supposed
    EventDay.objects.filter(event=event).update(lake_temp="")
    Event.objects.filter(pk=event.pk).update(lake_temp="")
    bare = Event.objects.get(pk=event.pk)
    said = briefing_of(bare)
    assert said is not None and not said.figures and not said.supposed
    assert "The lake’s temperature is not recorded yet" in page(bare)


def test_times_are_those_of_the_day(event: Event) -> None:
    """Flight A is due on every day, flight B on the first alone."""
    assert words(event, 1)["Start"] == "5:30 AM"
    assert words(event, 1)["Due"] == "flight A 3:00 PM, flight B 3:30 PM; all others 2:30 PM"
    assert words(event, 2)["Due"] == "flight A 3:00 PM; all others 2:30 PM"
    Flight.objects.filter(event=event).delete()
    EventDay.objects.filter(event=event, number=1).update(due_time=time(13, 15))
    assert words(event, 1)["Due"] == "1:15 PM"


def test_rules_are_the_sheets_own_words(event: Event) -> None:
    sheet = dict(sheet_in_words(rules_of(event)))
    said = words(event)
    for section in ("Fish", "Dead fish", "Short fish", "Over the limit", "Late"):
        assert said[section] == " ".join(sheet[section])


def test_care_asks_for_what_the_rules_ask(event: Event) -> None:
    event.rule_sheet.written |= {"boat_limit": "9", "care_max_held_minutes": "420", "care_max_bag_minutes": "8"}
    event.rule_sheet.save()
    said = words(Event.objects.get(pk=event.pk))
    assert said["On the water"].startswith("At most 9 fish aboard at once; cull only where the law allows it")
    assert "No fish is held longer than 7\u00a0h." in said["On the water"]
    assert "The rules’ 8 minutes from bag to scales count on aerated tanks along the line" in said["In the bag"]
    assert "White crappie stop growing near 27" in said["On the water"]
    assert "White crappie" not in words(event, 2)["On the water"]  # 62 °F on the second day


def written(event: Event, lake: str, **rules: str) -> Event:
    """The event with another lake temperature on day 1, and with other rules."""
    EventDay.objects.filter(event=event, number=1).update(lake_temp=lake)
    event.rule_sheet.written |= rules
    event.rule_sheet.save()
    return Event.objects.get(pk=event.pk)


@pytest.mark.parametrize("species", ["crappie", "largemouth bass", "smallmouth bass", "walleye"])
def test_the_briefing_never_says_what_its_own_figures_forbid(event: Event, species: str) -> None:
    """Lakes from 45 to 100 °F: filled once only where it stays under 20 mg/L of carbon dioxide; bag times with tanks."""
    for lake in range(45, 101, 5):
        briefing = briefing_of(written(event, f"{lake} F", species=species))
        assert briefing is not None
        said = {line.label: line.words for line in (*briefing.figures, *briefing.care)}
        if "Do not hold fish today" in briefing.finding:
            assert lake > (71 if species == "walleye" else 87)
            assert "In the bag" not in said and "At the ramp" not in said and "Ice" not in said
            assert "fish by measured length" in said["Instead"].lower()
            continue
        planned = re.search(r"(?:about|to) (\d+)(?: mg/L at rest; hauling| *\.)", said["Carbon dioxide"])
        assert planned is not None and int(planned[1]) <= 20
        once = re.search(r"comes to about (\d+) mg/L", said["Carbon dioxide"])
        assert once is not None and ("Fill once" in said["At the ramp"]) == (int(once[1]) < 20), lake
        lasts = re.search(r"in about (\d+) min", said["In the bag"])
        assert lasts is not None
        if int(lasts[1]) < 10:
            assert "aerated tanks along the line" in said["In the bag"] and "The rules allow" not in said["In the bag"]
        hold = re.search(r"hold the livewell at (\d+)", briefing.finding)
        assert hold is None or int(hold[1]) <= lake
        assert "0.0\u00a0lb" not in said["Ice"]


def test_a_cool_lake_asks_for_ice_only_when_the_well_has_warmed(event: Event) -> None:
    briefing = briefing_of(written(event, "73 F", species="crappie"))
    assert briefing is not None and "ice only when the livewell passes 75\u00a0°F" in briefing.finding


def test_each_kind_has_its_own_weight_marks_and_cautions(event: Event) -> None:
    found = {}
    for species in ("crappie", "largemouth bass", "walleye"):
        briefing = briefing_of(written(event, "68 F", species=species))
        assert briefing is not None
        found[species] = briefing, {line.label: line.words for line in briefing.care}
    crappie, bass, walleye = found.values()
    assert "of 1.3\u00a0lb" in crappie[0].supposed and "7 or 8 spines" in crappie[1]["Which fish"]
    assert "of 1.8\u00a0lb" in bass[0].supposed and "the jaw reaches past the eye" in bass[1]["Which fish"]
    assert "of 2.5\u00a0lb" in walleye[0].supposed and "white tip below on the tail" in walleye[1]["Which fish"]
    assert "crappie" not in str((bass[0].care, bass[0].figures, bass[0].cautions)).lower()
    assert "crappie" not in str((walleye[0].care, walleye[0].figures, walleye[0].cautions)).lower()
    assert "hold the livewell at 64" in walleye[0].finding and "far more die" in walleye[1]["On the water"]
    assert "with the lake at 64 °F or warmer, ice goes in" in walleye[1]["At the ramp"]


def test_the_rule_sheet_may_switch_to_measured_lengths(event: Event) -> None:
    briefing = briefing_of(written(event, "86 F", measured_lengths_above="85"))
    assert briefing is not None and "today fish are measured and released at once" in briefing.finding
    assert [line.label for line in briefing.figures] == ["Why"] and briefing.care[0].words.startswith("Measure wet")
    held = briefing_of(written(event, "84 F"))
    assert held is not None and "hold the livewell at" in held.finding


def test_deep_fish_are_kept_where_the_rule_sheet_says_so(event: Event) -> None:
    assert "ft or deeper" not in words(event)["On the water"]
    said = words(written(event, "60 F", deep_fish_kept_ft="25"))["On the water"]
    assert "Fish from 25 ft or deeper are kept where the law allows it, not released" in said


@pytest.mark.parametrize("handling", list(Handling))
def test_cautions_follow_what_becomes_of_the_fish(event: Event, handling: Handling) -> None:
    Event.objects.filter(pk=event.pk).update(handling=handling)
    shown = page(Event.objects.get(pk=event.pk))
    for bold, rest in BY_HANDLING[handling]:
        if bold != "Do not vent crappie.":
            assert bold in shown and rest in shown
    assert "State and local fishing law and the permit come first." in shown
    assert ("Oxygen feeds fire." in shown) == (handling == Handling.HOLD_RELEASE)
    assert ("If the pump stops" in shown) == (handling == Handling.HOLD_RELEASE)


def test_crappie_are_not_vented_other_fish_as_the_agency_says(event: Event) -> None:
    event.rule_sheet.written |= {"species": "crappie"}
    event.rule_sheet.save()
    assert "Do not vent crappie." in page(event)
    event.rule_sheet.written |= {"species": "walleye"}
    event.rule_sheet.save()
    assert "Do not vent crappie." not in page(event) and "Venting only where the agency allows it." in page(event)


def test_days_that_are_cancelled_or_missing_have_no_briefing(event: Event) -> None:
    client = world.member(event.club)
    where = reverse("planning:briefing", args=[event.slug])
    assert client.get(where, {"day": "2"}).status_code == 200
    for day in ("3", "9"):  # the third day is cancelled
        assert client.get(where, {"day": day}).status_code == 404
    for day in ("x", "", "-1", "²", "9999999"):
        assert client.get(where, {"day": day}).status_code == 200
    EventDay.objects.filter(event=event).update(status=EventDay.Status.CANCELLED)
    assert client.get(where).status_code == 404


def test_the_public_page_leaves_the_permit_out(event: Event) -> None:
    assert "Permit 47-B" in page(event)
    public = reverse("public:briefing", args=[event.slug])
    paper = reverse("public:briefing_file", args=[event.slug])
    assert Client().get(public).status_code == Client().get(paper).status_code == 404
    Event.objects.filter(pk=event.pk).update(is_public=True)
    answer = Client().get(public)
    said = unescape(answer.content.decode())
    assert answer.status_code == 200 and "Permit 47-B" not in said and "hold the livewell at" in said
    assert re.search(rf'href="/planner/\?event={event.slug}"', said)
    assert Client().get(public, headers={"if-none-match": answer["ETag"]}).status_code == 304
    assert (
        reverse("public:briefing", args=[event.slug])
        in Client().get(reverse("public:event", args=[event.slug])).content.decode()
    )


def test_the_pages_of_the_day_lead_to_it(event: Event) -> None:
    day = world.member(event.club).get(reverse("operations:day", args=[event.slug])).content.decode()
    assert reverse("planning:briefing", args=[event.slug]) in day
    assert reverse("planning:event_planner", args=[event.slug]) in day

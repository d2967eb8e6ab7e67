"""The briefing: what it says of the event's water, times and rules, its cautions, and who may read it."""

import re
from datetime import time
from html import unescape

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.accounts.roles import Role
from weighin.events.models import Event, EventDay, Flight, Handling
from weighin.events.queries import rules_of
from weighin.fishcare.briefing.brief import briefing_of
from weighin.fishcare.briefing.cautions import BY_HANDLING
from weighin.fishcare.planner.forms import PlannerForm
from weighin.livewell.oxygen import saturation_mg_l
from weighin.livewell.pressure import at_elevation_mmhg
from weighin.livewell.units import celsius, metres, pounds
from weighin.rules.words import sheet_in_words


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
    answer = world.member(event.club, role).get(reverse("fishcare:briefing", args=[event.slug]), asked)
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
    assert said["Carbon dioxide"].startswith(f"About {carbon:.0f} mg/L at rest if the water is never changed")
    briefing = briefing_of(event)
    assert briefing is not None and briefing.finding.startswith(
        "The lake is at 86\u00a0°F: hold the well at 80\u00a0°F"
    )
    assert "5 fish of 1.3\u00a0lb" in briefing.supposed and "the air at 95\u00a0°F" in briefing.supposed


def test_what_is_not_written_down_is_not_made_up(event: Event) -> None:
    EventDay.objects.filter(event=event, number=1).update(air_temp="")
    briefing = briefing_of(event)
    assert briefing is not None and "(not written down; supposed)" in briefing.supposed
    EventDay.objects.filter(event=event).update(lake_temp="")
    Event.objects.filter(pk=event.pk).update(lake_temp="")
    bare = Event.objects.get(pk=event.pk)
    said = briefing_of(bare)
    assert said is not None and not said.figures and not said.supposed
    assert "The lake’s temperature is not written down yet" in page(bare)


def test_times_are_those_of_the_day(event: Event) -> None:
    """Flight A is due on every day, flight B on the first alone."""
    assert words(event, 1)["Start"] == "05:30"
    assert words(event, 1)["Due"] == "flight A 15:00, flight B 15:30; all others 14:30"
    assert words(event, 2)["Due"] == "flight A 15:00; all others 14:30"
    Flight.objects.filter(event=event).delete()
    EventDay.objects.filter(event=event, number=1).update(due_time=time(13, 15))
    assert words(event, 1)["Due"] == "13:15"


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
    assert said["In the bag"].endswith("The rules allow 8 minutes.")
    assert "Near 80 °F white crappie" in said["On the water"]
    assert "Near 80 °F" not in words(event, 2)["On the water"]  # 62 °F on the second day


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
    where = reverse("fishcare:briefing", args=[event.slug])
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
    assert answer.status_code == 200 and "Permit 47-B" not in said and "hold the well at" in said
    assert re.search(rf'href="/planner/\?event={event.slug}"', said)
    assert Client().get(public, headers={"if-none-match": answer["ETag"]}).status_code == 304
    assert (
        reverse("public:briefing", args=[event.slug])
        in Client().get(reverse("public:event", args=[event.slug])).content.decode()
    )


def test_the_pages_of_the_day_lead_to_it(event: Event) -> None:
    day = world.member(event.club).get(reverse("operations:day", args=[event.slug])).content.decode()
    assert reverse("fishcare:briefing", args=[event.slug]) in day
    assert reverse("fishcare:event_planner", args=[event.slug]) in day

"""The day's page in figures: each line with its time and its page, of the past once it is over; and the next act."""

import re

import pytest
import world
from checkin.clock import Clock, clock
from django.urls import reverse
from django.utils import timezone

from weighin.accounts.domain.roles import TABLE, Can, Role
from weighin.events.models import Event
from weighin.events.queries.states import Stage, State
from weighin.schedule.pages.next_act import next_act
from weighin.standings.services import publish_result

__all__ = ["clock"]
pytestmark = pytest.mark.django_db


def lines(event: Event, role: str = Role.DIRECTOR) -> dict[str, str]:
    html = world.member(event.club, role).get(reverse("operations:day", args=[event.slug])).content.decode()
    found = re.search(r'<dl class="record figures">(.*?)</dl>', html, re.S)
    rows = re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", found[1] if found else "", re.S)
    return {name: re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", said)).strip() for name, said in rows}


def button(event: Event, role: str = Role.DIRECTOR) -> str:
    html = world.member(event.club, role).get(reverse("operations:day", args=[event.slug])).content.decode()
    filled = re.findall(r'<a class="button" href="([^"]+)"', html)
    assert len(filled) == 1, filled
    return filled[0]


def test_before_the_day_there_are_no_figures(clock: Clock) -> None:
    clock("2026-06-10T09:00:00-05:00")
    event = world.event("Teams")
    assert lines(event) == {}
    assert button(event) == reverse("registration:desk", args=[event.slug])


def test_on_the_day_each_line_is_there_with_its_time(clock: Clock) -> None:
    clock("2026-06-20T14:30:00-05:00")
    event = world.event("Teams")
    found = lines(event)
    assert "out, due 3:00 PM" in found["Check-in"]
    assert found["Line"] == "No boat waits" and found["Tanks"] == "Not read yet" and found["Tablets"] == "None paired"
    assert "Tablets" not in lines(event, Role.WEIGH_OFFICIAL)
    assert button(event, Role.WEIGH_OFFICIAL) == reverse("checkin:roll", args=[event.slug])


def test_where_flights_are_due_apart_the_first_is_named(clock: Clock) -> None:
    clock("2026-06-20T14:20:00-05:00")
    rows = ("Days", "Rules", "Slips", "Fish care", "Tanks", "Holding")
    event = world.event_of(world.plain_sheets(without=rows, days="2", date="2026-06-20", due_time="15:10"))
    assert lines(event)["Check-in"].endswith("out, first due 3:00 PM")


def test_after_the_day_it_is_said_of_the_past(clock: Clock) -> None:
    event = world.plain()
    clock("2026-11-01T12:00:00-05:00")
    found = lines(event)
    assert "weighed last at" in found["Slips"] and "Tablets" not in found
    assert not re.search(r"\bout, due\b|\bwait", " ".join(found.values()))
    assert button(event) == reverse("operations:publish", args=[event.slug])
    publish_result(event, "test")
    event.refresh_from_db()
    assert button(event) == reverse("operations:close", args=[event.slug])
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    assert button(event) == reverse("standings:results", args=[event.slug])


@pytest.mark.parametrize("role", list(Role))
@pytest.mark.parametrize("stage", list(Stage))
def test_everybody_is_led_to_a_page_that_is_theirs(stage: Stage, role: Role) -> None:
    event = world.plain()
    act = next_act(event, State(stage), TABLE[role])
    if act is None:
        assert stage == Stage.CANCELLED and Can.MANAGE_EVENT not in TABLE[role]
    else:
        assert world.member(event.club, role).get(act.url).status_code in (200, 302)


def test_the_club_and_the_way_in_lead_with_the_same_act(clock: Clock) -> None:
    event = world.plain()
    clock("2026-11-01T12:00:00-05:00")
    director, act = world.member(event.club), reverse("operations:publish", args=[event.slug])
    for page in (reverse("events:club", args=[event.club.slug]), reverse("events:mine")):
        html = director.get(page).content.decode()
        assert re.findall(r'<a class="button" href="([^"]+)"', html) == [act], page

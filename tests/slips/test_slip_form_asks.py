"""The site's slip form asks before it keeps a weight that is hard to believe, and shows times as people write them."""

import re
from datetime import datetime
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse
from slips.table import posted, record
from stations.speaking import Speaker, new_id

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.slips.models import WeighSlip


@pytest.fixture
def client(event: Event) -> Client:
    return world.member(event.club, Role.WEIGH_OFFICIAL)


def new(event: Event) -> str:
    return reverse("slips:slips_new", args=[event.slug])


def test_98_pounds_are_kept_only_when_somebody_says_so(event: Event, client: Client) -> None:
    sent = posted(gross="98.4")
    page = client.post(new(event), sent)
    assert page.status_code == 200 and not WeighSlip.objects.exists()
    html = page.content.decode()
    assert "98.40 is 14.06 lb a fish" in html and 'name="believed" value="98.4//"' in html
    other = client.post(new(event), {**sent, "gross": "97.4", "believed": "98.4//"})
    assert other.status_code == 200 and not WeighSlip.objects.exists()
    assert client.post(new(event), {**sent, "believed": "98.4//"}).status_code == 302
    assert WeighSlip.objects.get().gross == "98.4"


def test_a_usual_weight_is_kept_unasked(event: Event, client: Client) -> None:
    assert client.post(new(event), posted()).status_code == 302


def test_a_correction_asks_too(event: Event, client: Client) -> None:
    slip = record(event)
    where = reverse("slips:slip_correct", args=[event.slug, slip.number])
    page = client.post(where, posted(gross="85.0", fish="7", reason="misread"))
    assert "85.00 is 12.14 lb a fish" in page.content.decode()
    assert WeighSlip.objects.count() == 1


def test_a_tablets_time_is_shown_to_the_second_and_stays_exact(event: Event, client: Client) -> None:
    line: dict[str, Any] = {
        "id": new_id(), "day": 1, "boat": 1, "official": "A. Sedge", "fish": 7, "alive": 7, "dead": 0, "gross": "8.50",
        "weighed": "2026-06-20T15:10:20.337-05:00",
    }  # fmt: skip
    assert Speaker(event).one(line, "slips")["state"] == "kept"
    where = reverse("slips:slip_correct", args=[event.slug, 1])
    html = client.get(where).content.decode()
    assert re.search(r'value="3:10:20.PM"', html) and "2026-06-20T1" not in html
    sent = posted(gross="8.60", fish="7", weighed="15:10:20", reason="misread")
    assert client.post(where, sent).status_code == 302
    exact = datetime.fromisoformat("2026-06-20T15:10:20.337-05:00")
    assert WeighSlip.objects.get(number=2).weighed == exact
    again = reverse("slips:slip_correct", args=[event.slug, 2])
    assert client.post(again, {**sent, "weighed": "3:11 pm", "reason": "the clock too"}).status_code == 302
    assert WeighSlip.objects.get(number=3).weighed == datetime.fromisoformat("2026-06-20T15:11:00-05:00")


def test_three_slips_of_a_day_are_called_three(event: Event, client: Client) -> None:
    for gross in ("8.10", "8.20", "8.30"):
        record(event, gross=gross)
    slips = client.get(reverse("slips:slips", args=[event.slug])).content.decode()
    assert "has three slips for day 1.</b> None counts" in slips
    standings = client.get(reverse("standings:live", args=[event.slug])).content.decode()
    assert "has three slips for day 1.</b> None counts" in standings


def test_a_refusal_names_the_lines_as_the_page_does(event: Event, client: Client) -> None:
    html = client.post(new(event), posted(weighed="15:10", released="15:00", bag_emptied="15:05")).content.decode()
    assert "“Released” is before “Weighed”" in html
    assert "Released is before" not in html


def test_an_address_that_takes_only_a_form_leads_back(event: Event, client: Client) -> None:
    where = reverse("line:line_say", args=[event.slug])
    page = client.get(where, headers={"accept": "text/html"})
    assert page.status_code == 405 and page["Allow"] == "POST"
    assert f'href="{reverse("line:line", args=[event.slug])}"' in page.content.decode()
    assert client.get(reverse("line:line", args=[event.slug])).status_code == 200
    bare = client.get(where)
    assert bare.status_code == 405 and not bare.content

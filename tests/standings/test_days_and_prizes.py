"""Standings of several days, of boats that are not weighed, and of money before the result is official."""

import csv
import io
import re
from html import unescape
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.events.models import Event
from weighin.reports.files.event import event_file
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db


def two_days(*slips: tuple[int, int, str, str], name: str = "Two days") -> Event:
    """Three paid boats; slips as (day, boat, gross, disqualified_reason)."""
    rows = [
        world.slip(slip=str(number), day=str(day), boat=str(boat), gross=gross, disqualified_reason=reason, official="")
        for number, (day, boat, gross, reason) in enumerate(slips, start=1)
    ]
    return world.event(name, world.pairs(3, paid="yes"), rows, days=2)


def rows_of(client: Client, where: str) -> dict[str, str]:
    """The text of each boat's row."""
    html = client.get(where).content.decode()
    found = re.findall(r'<tr role="row" id="boat-(\d+)">(.*?)</tr>', html, re.S)
    return {boat: " ".join(unescape(re.sub(r"<[^>]+>", " ", row)).split()) for boat, row in found}


def sheet(event: Event) -> dict[str, dict[str, str]]:
    """The rows of the CSV by boat."""
    rows = csv.DictReader(io.StringIO(event_file(event, "csv").decode("utf-8-sig")))
    return {row["Boat"]: row for row in rows}


LOST = ((1, 1, "9.90", "a rod too many"), (1, 2, "8.00", ""))


def test_a_boat_that_lost_day_1_fishes_on_until_the_last_day_is_in() -> None:
    event = two_days(*LOST)
    client, where = world.member(event.club), reverse("standings:live", args=[event.slug])
    row = rows_of(client, where)["1"]
    assert row.startswith("day 1 lost") and "disqualified" not in row
    assert sheet(event)["1"]["Place"] == "day 1 lost"
    over = two_days(*LOST, *((2, boat, "8.00", "") for boat in (2, 3)), (2, 1, "9.00", "again"), name="All in")
    assert "disqualified" in rows_of(client, reverse("standings:live", args=[over.slug]))["1"]


def test_what_a_lost_day_takes_off_is_said() -> None:
    event = two_days(*LOST, (2, 1, "10.90", ""), (2, 2, "8.50", ""))
    client, where = world.member(event.club), reverse("standings:live", args=[event.slug])
    row = rows_of(client, where)["1"]
    assert "20.80 \u2212\u00a09.90 day 1 lost" in row.replace("\u2212 ", "\u2212\u00a0") and "10.90" in row
    assert "no penalty" not in row
    publish_result(event, "dora")
    official = client.get(reverse("standings:result", args=[event.slug, 1])).content.decode()
    assert "day 1 lost" in official


def test_days_have_columns_on_page_and_files() -> None:
    event = two_days(*LOST, (2, 2, "8.50", ""))
    client, where = world.member(event.club), reverse("standings:live", args=[event.slug])
    html = client.get(where).content.decode()
    assert ">Day 1</a>" in html and ">Day 2</a>" in html and "day 1 8.00, day 2 8.50" in html
    first = sheet(event)["2"]
    assert (first["Day 1, lb"], first["Day 2, lb"]) == ("8.00", "8.50")
    assert client.get(where + "?sort=day_2").status_code == client.get(where + "?sort=-day_1").status_code == 200
    single = client.get(reverse("standings:live", args=[world.large(2).slug])).content.decode()
    assert ">Day 1</a>" not in single
    publish_result(event, "dora")
    assert ">Day 2</th>" in client.get(reverse("standings:result", args=[event.slug, 1])).content.decode()


def test_a_boat_that_is_not_weighed_has_no_total() -> None:
    event = two_days(*LOST)
    client = world.member(event.club)
    row = rows_of(client, reverse("standings:live", args=[event.slug]))["3"]
    assert row.startswith("not weighed") and "0.00" not in row and "why" not in row
    last = sheet(event)["3"]
    assert [last["Net weight, lb"], *(v for k, v in last.items() if k.startswith("Total"))] == ["", ""]
    publish_result(event, "dora")
    html = client.get(reverse("standings:result", args=[event.slug, 1])).content.decode()
    assert re.search(r'Pair 3</th>.*?class="total"></td>', html, re.S)


@pytest.mark.parametrize("reader", ["member", "public"])
def test_no_prize_stands_before_the_result_is_official(reader: str) -> None:
    event = two_days((1, 1, "9.00", ""), (1, 2, "8.00", ""))
    Event.objects.filter(pk=event.pk).update(is_public=True, revision=event.revision + 1)
    client: Any = world.member(event.club) if reader == "member" else Client()
    at = "standings:live" if reader == "member" else "public:standings"
    where = reverse(at, args=[event.slug])
    html = client.get(where + "?why=1").content.decode()
    if reader == "public":
        assert "Prize" not in html and "180.00</td>" not in html
    else:
        assert "Prize if it ended now" in html
    assert "Prize if it ended now" in sheet(event)["1"] and "Prize" not in sheet(event)["1"]
    publish_result(event, "dora")
    html = client.get(where).content.decode()
    assert ">Prize</a>" in html and "if it ended now" not in html
    event.refresh_from_db()
    assert "Prize" in sheet(event)["1"]

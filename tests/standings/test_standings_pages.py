"""The standings page: headline, order, search, the lines behind a score, cost, and what is kept."""

import re
from decimal import Decimal

import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip
from weighin.standings.queries.ledger_lines import ledger_lines
from weighin.standings.queries.standings import standings_of
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db


def page(event: Event, **words: str) -> str:
    client = world.member(event.club)
    return client.get(reverse("standings:live", args=[event.slug]), words).content.decode()


def boats(html: str) -> list[int]:
    return [int(n) for n in re.findall(r'id="boat-(\d+)"', html)]


def test_the_page_says_how_many_are_weighed_and_lists_in_order() -> None:
    event = world.plain()
    html = page(event)
    assert "Day 1: 4 of 5 weighed. Day 2 is in: 2 of 2." in html
    assert "2 of 2 boats are weighed on day 2." in html
    assert boats(html) == [row.result.team.boat for row in standings_of(event).outcome.ranked]


def test_sorting_and_searching() -> None:
    event = world.plain()
    assert boats(page(event, sort="boat")) == [1, 2, 3, 4, 5]
    assert boats(page(event, sort="-boat")) == [5, 4, 3, 2, 1]
    assert boats(page(event, q="angler 3 b")) == [3]
    assert "No team, angler or boat matches" in page(event, q="nobody")


@pytest.mark.parametrize(
    "sort", ["place", "-place", "team", "fish", "weighed", "penalty", "total", "big_fish", "-payout"]
)
def test_every_column_sorts(sort: str) -> None:
    assert sorted(boats(page(world.plain(), sort=sort))) == [1, 2, 3, 4, 5]


def test_lines_above_each_sum_add_up_to_it() -> None:
    event = world.plain()
    standings = standings_of(event)
    for row in standings.outcome.ranked:
        since, days = Decimal(0), Decimal(0)
        for line in ledger_lines(standings, row.result.team.boat):
            if (line.adds_up and line.words != "Total") or (line.words == "Total" and len(row.result.days) == 1):
                assert since == line.amount
                since, days = Decimal(0), days + (line.amount or Decimal(0))
            elif line.adds_up:
                assert days == line.amount == row.result.total
            else:
                since += line.amount or Decimal(0)


def test_a_score_opens_into_its_lines_with_and_without_script() -> None:
    event = world.plain()
    whole = page(event, why="1")
    assert "Slip 1" in whole and "Total" in whole and 'aria-expanded="true"' in whole
    client = world.member(event.club)
    lines = client.get(reverse("standings:why", args=[event.slug, 1])).content.decode()
    assert "dead fish" in lines and lines.count("<tr") >= 5
    assert client.get(reverse("standings:why", args=[event.slug, 99])).status_code == 404


def test_a_correction_shows_at_once_although_pages_are_kept() -> None:
    event = world.plain()
    client = world.member(event.club)
    where = reverse("standings:live", args=[event.slug])
    assert "1.77" not in client.get(where).content.decode()
    with CaptureQueriesContext(connection) as found:
        client.get(where)
    assert not [query for query in found if "slips_weighslip" in query["sql"]], "a kept page reads no slips"
    slip = WeighSlip.objects.current().get(event=event, entry__boat=4, day=1)
    correct_slip(
        slip,
        {"boat": "4", "day": "1", "fish": "1", "alive": "1", "dead": "0", "gross": "1.77", "reason": "misread"},
        "test",
    )
    assert "1.77" in client.get(where).content.decode()


def test_the_same_number_of_queries_for_one_team_and_for_many() -> None:
    def queries(event: Event) -> int:
        client = world.member(event.club)
        with CaptureQueriesContext(
            connection,
        ) as found:
            assert client.get(reverse("standings:live", args=[event.slug])).status_code == 200
        return len(found)

    assert queries(world.large(1, "One")) == queries(world.large(60, "Many"))


def test_level_totals_are_explained() -> None:
    sheets_event = world.large(3)
    slip = WeighSlip.objects.current().get(event=sheets_event, entry__boat=2)
    correct_slip(
        slip,
        {"boat": "2", "day": "1", "fish": "7", "alive": "6", "dead": "1", "gross": "5.03", "reason": "misread"},
        "test",
    )
    sheets_event.refresh_from_db()
    html = page(sheets_event)
    assert "Tied with boat 3 on every tie-breaker: they share places 1 to 2." in html


def test_an_event_without_teams_has_its_own_words() -> None:
    empty = world.plain_sheets(without=("Teams", "Slips", "Fish care"))
    assert "No team is entered yet." in page(world.event_of(empty))


def test_season_points_say_which_events_are_provisional() -> None:
    event = world.plain()
    director = world.member(event.club)
    where = reverse("seasons:standings", args=[event.club.slug, event.season.slug])
    mortality = reverse("advice:season", args=[event.club.slug, event.season.slug])
    said = "One of 1 event has no official result yet: Plain event."
    assert said in director.get(where).content.decode()
    assert "One of 1 event with fish has no official result" in director.get(mortality).content.decode()
    publish_result(event, "test")
    assert "no official result" not in director.get(where).content.decode()
    assert "no official result" not in director.get(mortality).content.decode()

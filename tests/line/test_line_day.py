"""The day of the line: its finding in words, its drawing in three widths, and the figures behind it."""

from datetime import UTC, datetime, timedelta

import pytest
import world
from django.urls import reverse
from line.in_line import checked_in, weighed

from weighin.accounts.domain.roles import Role
from weighin.events.queries.events import calendar_of
from weighin.line.domain.day import Way, in_line
from weighin.line.pages.day import day_drawn, day_rows, day_said
from weighin.line.queries import line_of

WAYS = [Way(7, 900, 905, 912), Way(9, 901, 910, 925), Way(4, 911, 915, 920)]


def test_how_long_the_line_was_from_each_minute_on() -> None:
    assert in_line(WAYS) == [(900, 1), (901, 2), (911, 3), (912, 2), (920, 1), (925, 0)]


def test_the_finding_names_boats_bag_and_line() -> None:
    assert day_said(WAYS) == "3 boats were weighed. The longest time in a bag was 15 min, the longest line 3 boats."
    assert day_said([]) == ""


def test_one_boat_is_no_line_and_three_are_drawn_in_three_widths() -> None:
    assert day_drawn(WAYS[:1], 10) is None
    drawn = day_drawn(WAYS, 10)
    assert drawn is not None and drawn.whole.width > drawn.half.width > drawn.phone.width
    assert "the longest line 3 boats" in drawn.phone.description


@pytest.mark.django_db
def test_the_page_shows_the_day_once_two_boats_are_weighed() -> None:
    event = world.event()
    client = world.member(event.club, Role.WEIGH_OFFICIAL, "quill")
    address = f"{reverse('line:line', args=[event.slug])}?day=1"
    for boat, minute in ((1, 0), (2, 5)):
        assert "The charts in figures" not in client.get(address).content.decode()
        came = datetime(2026, 6, 20, 19, minute, tzinfo=UTC)
        checked_in(event, boat, came)
        given = (came + timedelta(minutes=6)).isoformat()
        weighed(event, boat, came + timedelta(minutes=20), bag_issued=given)
    seen = line_of(event, 1).ways
    assert [(way.boat, way.in_bag) for way in seen] == [(1, 14.0), (2, 14.0)]
    assert [row[0] for row in day_rows(seen, calendar_of(event), 1)] == [1, 2]
    page = client.get(address).content.decode()
    assert "2 boats were weighed. The longest time in a bag was 14 min, the longest line 2 boats." in page
    assert page.count("<svg") >= 3 and "The charts in figures" in page and "our limit, 10 min" in page

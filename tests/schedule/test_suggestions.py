"""What the form of the next event begins with: the same weekday, and the next number of the name."""

from datetime import date

import pytest
import world

from weighin.schedule.queries.suggestions import next_date, next_name

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("before", "today", "found"),
    [
        (None, date(2026, 6, 21), date(2026, 7, 18)),
        (date(2026, 6, 6), date(2026, 6, 21), date(2026, 7, 4)),
        (date(2026, 6, 5), date(2026, 6, 21), date(2026, 7, 18)),
        (date(2026, 1, 3), date(2026, 6, 21), date(2026, 7, 18)),
        (date(2026, 6, 6), date(2026, 11, 29), date(2026, 12, 5)),
    ],
)
def test_the_same_weekday_as_long_after(before: date | None, today: date, found: date) -> None:
    event = world.bare_event(date=date(2026, 6, 20))
    if before:
        world.bare_event("Before", event.season, date=before)
    assert next_date(event, today) == found and (found - event.date).days % 7 == 0


@pytest.mark.parametrize(
    ("name", "found"), [("Night", "Night 2"), ("Night 7", "Night 9"), ("2026 Open", "2026 Open 2")]
)
def test_the_next_number(name: str, found: str) -> None:
    event = world.bare_event(name, slug="one")
    world.bare_event("night 8", event.season, slug="two")
    assert next_name(event) == found

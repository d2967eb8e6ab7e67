"""The placings that a failed scale check leaves open."""

from datetime import UTC, datetime
from decimal import Decimal

import pytest
import world
from django.test import Client
from slips.table import record

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.scales.services.scales import write_check, write_scale
from weighin.standings.queries.scale_error import within_error
from weighin.standings.queries.standings import standings_of

pytestmark = pytest.mark.django_db


def event_of(weights: list[str], failed_at: str = "16:00", error: str = "7.05", days: int = 1) -> Event:
    event = world.event(days=days)
    for boat, weight in enumerate(weights, 1):
        record(event, boat=str(boat), gross=weight, weighed=f"15:{boat:02}")
    scale = write_scale(event, {"name": "Table 1", "division": "0.01"}, "quill")
    for time, shown in (("15:02", "7.00"), (failed_at, error)):
        said = {"moment": "during", "at_date": "2026-06-20", "at_time": time, "test_weight": "7.00", "shown": shown}
        write_check(scale, {**said, "tested_by": "R. Quill"}, "quill")
    event.refresh_from_db()
    return event


@pytest.fixture(autouse=True)
def evening(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("django.utils.timezone.now", lambda: datetime(2026, 6, 20, 23, 30, tzinfo=UTC))


def test_neighbours_within_the_error_are_named_and_others_are_not() -> None:
    # 15:01 was weighed before the good check at 15:02 and is not marked; 15:02 to 15:04 are
    found = within_error(standings_of(event_of(["9.00", "8.96", "8.91", "8.85"])))
    assert found is not None and found.slips == 3
    assert [(call.ahead.place, call.behind.place, call.difference) for call in found.calls] == [
        (1, 2, Decimal("0.04")),
        (2, 3, Decimal("0.05")),
    ]
    assert found.calls[1].words.endswith("are 0.05 lb apart; the error is up to 0.05 lb.")


def test_a_pair_of_which_no_slip_is_marked_is_sure() -> None:
    event = event_of(["9.00", "8.50"])
    found = within_error(standings_of(event))
    assert found is not None and found.slips == 1 and found.calls == ()


def test_a_tie_is_a_close_call() -> None:
    found = within_error(standings_of(event_of(["7.00", "8.50", "8.50"])))
    assert found is not None and [call.difference for call in found.calls] == [0]
    assert "have the same total" in found.calls[0].words


def test_nothing_is_said_where_every_check_passed() -> None:
    assert within_error(standings_of(event_of(["9.00", "8.99"], error="7.01"))) is None


def test_members_read_it_and_the_public_does_not() -> None:
    event = event_of(["9.00", "8.96", "8.91", "8.85"])
    Event.objects.filter(pk=event.pk).update(is_public=True)
    page = world.member(event.club, Role.CLUB_REVIEWER).get(f"/events/{event.slug}/standings/").content.decode()
    assert "Two pairs of places are closer than the scale’s error." in page
    public = Client().get(f"/results/{event.slug}/standings/")
    assert public.status_code == 200 and "error" not in public.content.decode()

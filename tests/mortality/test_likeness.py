"""The correlation within livewells that the rule of the stop level takes: the club's own from eight events on."""

import pytest
from mortality.seasons import fished

from weighin.mortality.pages.event_report import event_report
from weighin.mortality.queries.likeness import livewell_likeness

pytestmark = pytest.mark.django_db


def test_assumed_below_eight_events_and_estimated_from_eight_on() -> None:
    for month in range(1, 8):
        fished(f"Cup {month}", [(7, 7), *[(7, 0)] * 9], date=f"2025-{month:02d}-10")
    last = fished("Final", [(7, 1)] * 8, date="2026-06-20")
    found = livewell_likeness(last)
    assert (found.correlation, found.events) == (0.2, 0) and "assumed: fewer than 8 events" in found.said
    fished("Cup 8", [(7, 7), *[(7, 0)] * 9], date="2025-08-10")
    found = livewell_likeness(last)
    # Whole livewells died or lived: as alike as the rule lets livewells be.
    assert (found.correlation, found.events) == (0.9, 8)
    watched = event_report(last).stop_level
    assert (
        watched is not None and "correlation 0.90, estimated from the club’s 8 events before this one" in watched.rule
    )


def test_fish_that_die_one_by_one_are_not_alike() -> None:
    for month in range(1, 9):
        fished(f"Cup {month}", [(7, 1)] * 9, date=f"2025-{month:02d}-10")
    assert livewell_likeness(fished("Final", [(7, 0)], date="2026-06-20")).correlation == 0.0

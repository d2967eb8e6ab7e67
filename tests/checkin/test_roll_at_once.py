"""Two people press at the same moment: a boat is in once, the due times move once, and nothing closes in between."""

import threading
import uuid
from collections.abc import Callable
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.db import connection

from weighin.checkin.models import CheckIn, DueNotice
from weighin.checkin.queries.roll import still_out
from weighin.checkin.services import roll as services
from weighin.checkin.services.notices import move_due, seen_as
from weighin.events.models import Event
from weighin.events.services.due_times import due_clocks
from weighin.rules.faults import Faults
from weighin.standings.services import set_closed

__all__ = ["clock"]
NOTICE = {"minutes": "30", "given_by": "R. Quill", "how": "horn", "reason": "thunder"}


@pytest.fixture
def event(transactional_db: None, clock: Clock) -> Event:
    if connection.vendor != "postgresql":
        pytest.skip("SQLite has one writer; its in-process lock is tried by the server's own tests")
    found = world.event()
    clock("2026-06-20T14:20:00-05:00")
    return found


def at_once(*acts: Callable[[], Any]) -> list[Any]:
    """What each act gave back, all begun together; Faults where it was refused."""
    ready, found = threading.Barrier(len(acts)), [None] * len(acts)

    def run(place: int, act: Callable[[], Any]) -> None:
        try:
            ready.wait()
            found[place] = act()
        except Faults as refused:
            found[place] = refused  # type: ignore[call-overload]
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=pair) for pair in enumerate(acts)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


def test_a_boat_is_in_once(event: Event) -> None:
    def tap() -> CheckIn:
        return services.check_in_now(event, 1, 1, "quill", "R. Quill", uuid.uuid4())

    found = at_once(tap, tap, tap, tap)
    assert sum(isinstance(one, CheckIn) for one in found) == 1
    assert sum(isinstance(one, Faults) and "in already" in one.faults[0].message for one in found) == 3
    assert CheckIn.objects.count() == 1


def test_the_due_times_move_once(event: Event) -> None:
    said = {**NOTICE, "seen": seen_as(event, 1)}
    key = uuid.uuid4()

    def move(id: uuid.UUID) -> Callable[[], DueNotice]:
        return lambda: move_due(event, 1, said, "dora", id)

    at_once(move(key), move(key), move(uuid.uuid4()), move(uuid.uuid4()))
    assert DueNotice.objects.count() == 1
    assert f"{due_clocks(event, 1)['']:%H:%M}" == "15:30"


def test_an_event_closes_or_takes_the_word_but_not_both(event: Event) -> None:
    for boat in (1, 2, 3, 4):
        services.check_in_now(event, 1, boat, "quill", "R. Quill", uuid.uuid4())
    said = {"whereabouts": "unaccounted", "time": "14:20", "official": "R. Quill", "word": "one of two is missing"}
    at_once(
        lambda: set_closed(event, True, "dora"),
        lambda: services.take_word(event, 1, 3, said, "quill", uuid.uuid4()),
    )
    event.refresh_from_db()
    assert (event.closed_at is None) == bool(still_out(event))

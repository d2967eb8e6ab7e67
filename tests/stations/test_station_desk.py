"""What the scale table keeps in mind between two slips: never older than the event, and cheap."""

import threading
from functools import partial
from typing import Any

import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from slips.table import record
from stations.speaking import Speaker, fields, message, new_id
from stations.tables import at_once

from weighin.audit.database.statements import add
from weighin.audit.models import AppendOnlyError
from weighin.audit.services import writing
from weighin.care.services.notes import write_care_note
from weighin.events.models import Event
from weighin.records.domain.kinds import Number
from weighin.records.domain.messages import Sender
from weighin.records.services.door import receive
from weighin.roster.services import event_scope
from weighin.roster.services.teams import enter_team
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.slips.services.slips import SLIP, void_slip
from weighin.workbooks.domain.plan import EntryPlan

EVERYTHING = frozenset({"weigh", "correct"})
# Who sends, begin, the event, the id, the care note, another slip, the slip, where the history ends, its line, the revision, commit
STATEMENTS = 11
# There an event's history is also locked, so that two processes do not continue it at one place
STATEMENTS_ON_POSTGRESQL = 12


def most() -> int:
    return STATEMENTS_ON_POSTGRESQL if connection.vendor == "postgresql" else STATEMENTS


def test_the_desk_stays_from_slip_to_slip(transactional_db: None) -> None:
    table = Speaker(world.event())
    with CaptureQueriesContext(connection) as first:
        table.one(message(boat=1))
    with CaptureQueriesContext(connection) as second:
        table.one(message(boat=2))
    assert len(second) < len(first)
    said = [query["sql"].split()[0] for query in second if query["sql"].split()[0] != "SELECT"]
    assert [word for word in said if word not in ("BEGIN", "COMMIT")] == ["INSERT", "INSERT", "UPDATE"]
    assert len(second) <= most()


@pytest.mark.parametrize("boats", [3, 60])
def test_a_slip_costs_as_much_among_many_boats(transactional_db: None, boats: int) -> None:
    table = Speaker(world.large(boats))
    table.one(message(boat=1))
    with CaptureQueriesContext(connection) as asked:
        table.one(message(boat=2))
    assert len(asked) <= most()


def test_a_boat_that_is_entered_meanwhile_may_weigh(transactional_db: None) -> None:
    event = world.event()
    table = Speaker(event)
    assert fields(table.one(message(boat=5))) == {"boat"}
    table.one(message(boat=1))
    enter_team(event, EntryPlan(5, "Latecomers", ("A. Late",)), "quill")
    assert table.one(message(boat=5))["state"] == "kept"


def test_what_else_is_written_between_two_slips_is_seen(transactional_db: None) -> None:
    event = world.event()
    table = Speaker(event)
    table.one(message(boat=1))
    slip = record(event, boat="2")
    assert table.one(message(boat=2))["state"] == "second"
    void_slip(slip, "twice", "quill")
    write_care_note(event, {"boat": "3", "day": "1", "launched": "06:00", "first_fish": "15:05"}, "quill")
    early = message(boat=3, checked_in="2026-06-20T15:00:00-05:00")
    assert fields(table.one(early)) == {"checked_in"}
    assert table.one(message(boat=4))["slip"] == 5
    assert not breaks(WeighSlip.objects.order_by("position").select_related("entry"))


def test_a_write_that_failed_moves_no_desk_on(transactional_db: None) -> None:
    event = world.event()
    table = Speaker(event)
    table.one(message(boat=1))
    before = Event.objects.get(pk=event.pk).revision

    class Torn(Exception):
        pass

    def torn() -> None:
        with writing():
            receive(SLIP, event.pk, [item(message(boat=2))], Sender("quill", EVERYTHING))
            raise Torn

    with pytest.raises(Torn):
        torn()
    with writing():
        found = event_scope.EVENT.lock(event.pk)
    assert found.revision == before and found.closed is None
    assert table.one(message(boat=2))["slip"] == 2


def item(sent: dict[str, Any]) -> dict[str, Any]:
    """A message as it comes out of a body: numbers as they were written."""
    return {name: Number(value) if isinstance(value, int) else value for name, value in sent.items()}


def test_a_few_desks_are_kept_at_most(transactional_db: None) -> None:
    for number in range(event_scope.MOST_KEPT + 3):
        event = world.event(f"Event {number}")
        receive(SLIP, event.pk, [item(message())], Sender("quill", EVERYTHING))
    assert len(event_scope._kept) <= event_scope.MOST_KEPT


def test_a_row_is_added_once(db: None) -> None:
    slip = record(world.event())
    with pytest.raises(AppendOnlyError):
        add(slip)
    with pytest.raises(AppendOnlyError):
        add(WeighSlip.objects.get())


def test_a_slip_just_kept_is_the_slip_that_is_read(db: None) -> None:
    slip = record(world.event(), note="two bags", checked_in="14:55")
    read = WeighSlip.objects.get()
    for field in WeighSlip._meta.concrete_fields:
        assert getattr(slip, field.attname) == getattr(read, field.attname), field.name


# Several writers at once, where the database has them


def writers(acts: list[Any]) -> None:
    def act_and_close(act: Any) -> None:
        try:
            act()
        finally:
            connection.close()

    at_once(partial(act_and_close, act) for act in acts)


@pytest.fixture
def several_writers(transactional_db: None) -> None:
    if connection.vendor != "postgresql":
        pytest.skip("SQLite has one writer; the server's own tests try it there")


def test_writers_of_one_event_make_one_ledger(several_writers: None) -> None:
    event = world.event()
    sent = [message(boat=1 + n % 4) for n in range(40)]
    told: list[Any] = []

    def send_all(name: str) -> None:
        for one in sent:
            told.extend(receive(SLIP, event.pk, [item(one)], Sender(name, EVERYTHING)))

    writers([partial(send_all, f"station {n}") for n in range(6)])
    slips = list(WeighSlip.objects.order_by("position").select_related("entry"))
    assert len(slips) == 40 and not breaks(slips)
    assert sorted(outcome.state for _, outcome in told if outcome.state != "already") == sorted(
        ["kept"] * 4 + ["second"] * 36
    )
    assert len({(draft.id, outcome.row.number) for draft, outcome in told}) == 40


def test_one_id_in_two_events_at_once_is_kept_in_one(several_writers: None) -> None:
    events = [world.event("One"), world.event("Other")]
    ready = threading.Barrier(2)
    told: list[Any] = []

    def send_all(event: Event, sent: list[dict[str, Any]]) -> None:
        for one in sent:
            ready.wait()
            told.extend(receive(SLIP, event.pk, [item(one)], Sender(event.name, EVERYTHING)))

    sent = [message(id=new_id()) for _ in range(25)]
    writers([partial(send_all, event, sent) for event in events])
    assert WeighSlip.objects.count() == 25
    assert sum(outcome.state == "differs" for _, outcome in told) == 25
    for event in events:
        assert not breaks(WeighSlip.objects.filter(event=event).order_by("position").select_related("entry"))

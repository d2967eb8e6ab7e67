"""What the scale table keeps in mind between two slips: never older than the event, and cheap."""

import threading
from functools import partial
from typing import Any

import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from slips.table import open_event, record
from stations.speaking import Speaker, fields, message, new_id
from stations.tables import at_once

from weighin.audit.database.statements import add
from weighin.audit.models import AppendOnlyError
from weighin.audit.services import writing
from weighin.care.services.notes import write_care_note
from weighin.events.models import Event
from weighin.operations.domain.plan import EntryPlan
from weighin.records.parsing.wire import Number
from weighin.records.queries import desk
from weighin.records.services.receiving import Sender, receive
from weighin.roster.services import enter_team
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.slips.queries.slips import ledger_head
from weighin.slips.queries.statements import care_moments, look
from weighin.slips.services.messages import SlipMessages
from weighin.slips.services.slips import void_slip

EVERYTHING = frozenset({"weigh", "correct"})


def test_the_desk_stays_from_slip_to_slip(transactional_db: None) -> None:
    table = Speaker(open_event())
    with CaptureQueriesContext(connection) as first:
        table.one(message(boat=1))
    with CaptureQueriesContext(connection) as second:
        table.one(message(boat=2))
    assert len(second) < len(first)
    said = [query["sql"].split()[0] for query in second if query["sql"].split()[0] != "SELECT"]
    assert [word for word in said if word not in ("BEGIN", "COMMIT")] == ["INSERT", "INSERT", "UPDATE"]
    assert len(second) <= 10


@pytest.mark.parametrize("boats", [3, 60])
def test_a_slip_costs_as_much_among_many_boats(transactional_db: None, boats: int) -> None:
    table = Speaker(world.large(boats))
    table.one(message(boat=1))
    with CaptureQueriesContext(connection) as asked:
        table.one(message(boat=2))
    assert len(asked) <= 10


def test_a_boat_that_is_entered_meanwhile_may_weigh(transactional_db: None) -> None:
    event = open_event()
    table = Speaker(event)
    assert fields(table.one(message(boat=5))) == {"boat"}
    table.one(message(boat=1))
    enter_team(event, EntryPlan(5, "Latecomers", ("A. Late",)), "quill")
    assert table.one(message(boat=5))["state"] == "kept"


def test_what_else_is_written_between_two_slips_is_seen(transactional_db: None) -> None:
    event = open_event()
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
    event = open_event()
    table = Speaker(event)
    table.one(message(boat=1))
    before = Event.objects.get(pk=event.pk).revision

    class Torn(Exception):
        pass

    def torn() -> None:
        with writing():
            receive(SlipMessages(), event.pk, [item(message(boat=2))], Sender("quill", EVERYTHING))
            raise Torn

    with pytest.raises(Torn):
        torn()
    with writing():
        found, closed = desk.desk_of(event.pk)
    assert found.revision == before and not closed
    assert table.one(message(boat=2))["slip"] == 2


def item(sent: dict[str, Any]) -> dict[str, Any]:
    """A message as it comes out of a body: numbers as they were written."""
    return {name: Number(value) if isinstance(value, int) else value for name, value in sent.items()}


def test_a_few_desks_are_kept_at_most(transactional_db: None) -> None:
    for number in range(desk.MOST_DESKS + 3):
        event = open_event(f"Event {number}")
        receive(SlipMessages(), event.pk, [item(message())], Sender("quill", EVERYTHING))
    assert len(desk._desks) <= desk.MOST_DESKS


# The statements that are written out say what the queries say


def test_a_look_sees_what_the_queries_see(db: None) -> None:
    event = open_event(days=2)
    entry = event.entries.get(boat=1)
    seen = look(WeighSlip().pk, event.pk, entry.pk, 1)
    assert not seen.known and not seen.another
    assert (seen.end.position, seen.end.link) == ledger_head(event) and seen.end.number == 0
    slip = record(event, slip="40")
    record(event, boat="2")
    seen = look(slip.pk, event.pk, entry.pk, 1)
    assert seen.known and seen.another
    assert (seen.end.position, seen.end.link) == ledger_head(event) and seen.end.number == 41
    assert not look(slip.pk, event.pk, entry.pk, 2).another
    void_slip(slip, "twice", "quill")
    assert not look(slip.pk, event.pk, entry.pk, 1).another


def test_care_moments_are_those_of_the_note(db: None) -> None:
    event = open_event()
    entry = event.entries.get(boat=1)
    assert care_moments(entry.pk, 1) == {}
    note = write_care_note(event, {"boat": "1", "day": "1", "launched": "06:10:30"}, "quill")
    note.refresh_from_db()
    assert care_moments(entry.pk, 1) == {"launched": note.launched}


def test_a_row_is_added_once(db: None) -> None:
    slip = record(open_event())
    with pytest.raises(AppendOnlyError):
        add(slip)
    with pytest.raises(AppendOnlyError):
        add(WeighSlip.objects.get())


def test_a_slip_just_kept_is_the_slip_that_is_read(db: None) -> None:
    """Rows are made without their constructor: nothing may be missing from them."""
    slip = record(open_event(), note="two bags", checked_in="14:55")
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
    event = open_event()
    sent = [message(boat=1 + n % 4) for n in range(40)]
    told: list[Any] = []

    def send_all(name: str) -> None:
        for one in sent:
            told.extend(receive(SlipMessages(), event.pk, [item(one)], Sender(name, EVERYTHING)))

    writers([partial(send_all, f"station {n}") for n in range(6)])
    slips = list(WeighSlip.objects.order_by("position").select_related("entry"))
    assert len(slips) == 40 and not breaks(slips)
    assert sorted(answer.state for answer in told if answer.state != "already") == sorted(
        ["kept"] * 4 + ["second"] * 36
    )
    assert len({(answer.id, answer.number) for answer in told}) == 40


def test_one_id_in_two_events_at_once_is_kept_in_one(several_writers: None) -> None:
    events = [open_event("One"), open_event("Other")]
    ready = threading.Barrier(2)
    told: list[Any] = []

    def send_all(event: Event, sent: list[dict[str, Any]]) -> None:
        for one in sent:
            ready.wait()
            told.extend(receive(SlipMessages(), event.pk, [item(one)], Sender(event.name, EVERYTHING)))

    sent = [message(id=new_id()) for _ in range(25)]
    writers([partial(send_all, event, sent) for event in events])
    assert WeighSlip.objects.count() == 25
    assert sum(answer.state == "differs" for answer in told) == 25
    for event in events:
        assert not breaks(WeighSlip.objects.filter(event=event).order_by("position").select_related("entry"))

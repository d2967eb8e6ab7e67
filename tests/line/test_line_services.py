"""What is said in the line: kept once, only ever added, with its history; and where it leaves every boat."""

import threading
import uuid
from datetime import datetime, timedelta
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.db import DatabaseError, connection, connections, transaction
from line.in_line import checked_in, said, weighed

from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.checkin.models import CheckIn
from weighin.checkin.queries.arrivals import table_of
from weighin.events.models import Event
from weighin.line.models import LineTerms, LineWord
from weighin.line.queries import day_of, for_slip, line_of, terms_of
from weighin.line.services.words import set_terms
from weighin.roster.models import Entry
from weighin.rules.faults import Faults
from weighin.slips.services.slips import void_slip
from weighin.workbooks.services import may_replace

Said = LineWord.Said
NOON = datetime.fromisoformat("2026-06-20T12:00:00-05:00")
__all__ = ["clock"]


def minutes(n: float) -> datetime:
    return NOON + timedelta(minutes=n)


@pytest.fixture
def event(db: None, clock: Clock) -> Event:
    clock(NOON.isoformat())
    found = world.event("Line event", 5)
    for boat in (1, 2, 3):
        checked_in(found, boat, minutes(-10 + boat))
    return found


def revision(event: Event) -> int:
    return Event.objects.values_list("revision", flat=True).get(pk=event.pk)


def boats(standings: Any) -> list[int]:
    return [one.boat for one in standings]


def test_a_word_is_kept_with_its_history_and_the_revision_goes_up(event: Event) -> None:
    before = revision(event)
    word = said(event, Said.BAG_ISSUED, 1)
    assert (word.at, word.recorded_by, revision(event)) == (NOON, "anna", before + 1)
    entry = HistoryEntry.objects.get(act="line.bag_issued")
    assert (entry.sentence, entry.subject, entry.event_id) == ("Bag given to boat 1", "boat 1", event.pk)
    assert not may_replace(event)


def test_words_and_terms_are_only_ever_added(event: Event) -> None:
    word = said(event, Said.BAG_ISSUED, 1)
    terms = set_terms(event, "anna", scales=1, bags=4, walk_seconds=60, boat_seconds=150)
    for row in (word, terms):
        with pytest.raises(AppendOnlyError):
            row.save()
        table = row._meta.db_table
        for act in (f"UPDATE {table} SET recorded_by = 'x'", f"DELETE FROM {table}"):
            with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
                cursor.execute(act)


def test_a_boat_on_its_way_through_the_line(event: Event, clock: Clock) -> None:
    assert boats(line_of(event, 1).waiting) == [1, 2, 3]
    said(event, Said.BAG_ISSUED, 2)
    clock(minutes(1).isoformat())
    said(event, Said.BAG_ISSUED, 1)
    clock(minutes(2).isoformat())
    said(event, Said.AT_SCALES, 1)
    line = line_of(event, 1, minutes(5))
    assert (boats(line.waiting), boats(line.bags), boats(line.at_scales)) == ([3], [2], [1])
    assert [one.minutes_in_bag(line.now) for one in line.with_bag] == [4, 5]
    clock(minutes(5).isoformat())
    said(event, Said.BAG_BACK, 2)
    weighed(event, 1, minutes(5))
    line = line_of(event, 1, minutes(6))
    assert (boats(line.waiting), line.with_bag) == ([2, 3], ())
    assert (line.bag_minutes.boats, line.bag_minutes.middle, line.last_weighed) == (1, 4, minutes(5))
    clock(minutes(7).isoformat())
    said(event, Said.BAG_ISSUED, 2)
    assert line_of(event, 1, minutes(9)).bags[0].minutes_in_bag(minutes(9)) == 2


def test_a_slip_that_is_taken_out_leaves_its_boat_in_line_without_the_bag(event: Event, clock: Clock) -> None:
    said(event, Said.BAG_ISSUED, 1)
    clock(minutes(4).isoformat())
    slip = weighed(event, 1, minutes(4))
    clock(minutes(6).isoformat())
    void_slip(slip, "another boat's", "anna")
    line = line_of(event, 1, minutes(7))
    assert (boats(line.waiting), line.with_bag) == ([1, 2, 3], ())


def test_who_waits(event: Event) -> None:
    """A lateness without a time is a check-in too; a word from the lake is none; corrected lines count as they stand."""
    entry = Entry.objects.get(event=event, boat=4)
    CheckIn(event=event, entry=entry, number=50, day=1, minutes_late=3, received_at=NOON, recorded_by="ramp").save()
    entry = Entry.objects.get(event=event, boat=5)
    CheckIn(
        event=event, entry=entry, number=51, day=1, whereabouts="in_by_water", word="saw it", recorded_by="r"
    ).save()
    first = CheckIn.objects.get(event=event, entry__boat=1)
    checked_in(event, 1, minutes(2), replaces=first, reason="wrong minute")
    CheckIn(
        event=event, entry=first.entry, number=60, day=2, checked_in=NOON, received_at=NOON, recorded_by="ramp"
    ).save()
    Entry.objects.filter(event=event, boat=2).update(status="disqualified")
    assert boats(line_of(event, 1, minutes(5)).waiting) == [3, 4, 1]
    with pytest.raises(Faults, match="boat 2 is disqualified"):
        said(event, Said.BAG_ISSUED, 2)


def test_two_words_of_one_moment_keep_their_order(event: Event) -> None:
    for word in (Said.BAG_ISSUED, Said.BAG_BACK, Said.BAG_ISSUED, Said.AT_SCALES):
        said(event, word, 1)
    line = line_of(event, 1, minutes(1))
    assert boats(line.at_scales) == [1]
    moments = list(LineWord.objects.order_by("at").values_list("at", flat=True))
    assert len(set(moments)) == 4 and moments[-1] - moments[0] < timedelta(seconds=1)


def test_minutes_are_learned_from_todays_slips_and_from_no_others(event: Event, clock: Clock) -> None:
    assert line_of(event, 1).service.boats == 0
    for boat, (given, done) in {1: (0, 4), 2: (1, 7), 3: (2, 10)}.items():
        clock(minutes(given).isoformat())
        said(event, Said.BAG_ISSUED, boat)
        clock(minutes(done).isoformat())
        weighed(event, boat, minutes(done))
    service = line_of(event, 1, minutes(11)).service
    assert (service.boats, service.middle) == (3, 3)
    checked_in(event, 4, minutes(11))
    clock(minutes(12).isoformat())
    weighed(event, 4, minutes(30))  # a clock that is ahead: no measure
    assert line_of(event, 1, minutes(40)).service.boats == 3


def test_the_time_of_a_bag_for_the_slip(event: Event, clock: Clock) -> None:
    calendar = table_of(event).calendar
    assert for_slip(event, 1, calendar, 1) == {}
    said(event, Said.BAG_ISSUED, 1)
    assert for_slip(event, 1, calendar, 1) == {"boat": "1", "bag_issued": "12:00"}
    clock(minutes(1).isoformat())
    said(event, Said.BAG_BACK, 1)
    assert for_slip(event, 1, calendar, 1) == {}


def test_the_day_that_is_shown(db: None) -> None:
    event = world.event("Which day", 5)
    for text in ("2026-06-19T09:00:00-05:00", "2026-06-20T23:59:00-05:00", "2026-08-01T09:00:00-05:00"):
        assert day_of(event, datetime.fromisoformat(text)) == 1


def test_terms(event: Event) -> None:
    assert (terms_of(event).scales, terms_of(event).bags, terms_of(event).chosen) == (1, 2, False)
    large = world.event("Thirty", 30)
    assert terms_of(large).bags == 8  # one angler each: five for twenty, rounded up
    set_terms(event, "anna", scales=2, bags=5, walk_seconds=0, boat_seconds=200)
    before = revision(event)
    set_terms(event, "bert", scales=2, bags=5, walk_seconds=0, boat_seconds=200)
    assert LineTerms.objects.filter(event=event).count() == 1 and revision(event) == before
    with pytest.raises(Faults) as found:
        set_terms(event, "anna", scales=0, bags=501, walk_seconds=-1, boat_seconds=9)
    assert {fault.field for fault in found.value.faults} == {"scales", "bags", "walk_seconds", "boat_seconds"}


def test_notes_and_names_are_bounded(event: Event) -> None:
    with pytest.raises(Faults, match="500"):
        said(event, Said.HOLD, oxygen_minutes=10, remark="x" * 501)
    for wrong in (0, 61, None):
        with pytest.raises(Faults, match="1 to 60"):
            said(event, Said.HOLD, oxygen_minutes=wrong)
    said(event, Said.HOLD, oxygen_minutes=10)
    with pytest.raises(Faults, match="held already"):
        said(event, Said.HOLD, oxygen_minutes=10)
    for name in ("", "x" * 81):
        with pytest.raises(Faults, match="name"):
            said(event, Said.RESUME, person=name)
    with pytest.raises(Faults, match="is no entry of the line"):
        said(event, "sing")
    assert LineWord.objects.count() == 1


@pytest.mark.parametrize("unseen", ["\x07", "\u202e", "\ufffe"])
def test_no_control_character_comes_into_the_history(event: Event, unseen: str) -> None:
    with pytest.raises(Faults, match="control characters"):
        said(event, Said.HOLD, oxygen_minutes=10, remark=f"storm{unseen}")
    said(event, Said.HOLD, oxygen_minutes=10, remark="storm\nfrom the west")
    with pytest.raises(Faults, match="control characters"):
        said(event, Said.RESUME, person=f"R. {unseen}Quill")
    assert line_of(event, 1).hold is not None


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("same_tap", [True, False])
def test_two_tablets_call_one_boat_at_once(same_tap: bool) -> None:
    """Of two different words one wins and the other gets a sentence; one word sent twice is kept once."""
    event = world.event("Race", 8)
    for boat in range(1, 9):
        checked_in(event, boat, NOON)
    told: list[str] = []
    for boat in range(1, 9):
        start = threading.Barrier(2)
        key = uuid.uuid4()

        def call(by: str, boat: int = boat, start: threading.Barrier = start, key: uuid.UUID = key) -> None:
            try:
                start.wait()
                said(event, Said.BAG_ISSUED, boat, by=by, word_id=key if same_tap else uuid.uuid4())
                told.append("given")
            except Faults as faults:
                told.append(faults.faults[0].message)
            finally:
                connections.close_all()

        threads = [threading.Thread(target=call, args=(by,)) for by in ("anna", "bert")]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    assert len(told) == 16
    assert told.count("given") == (16 if same_tap else 8)
    assert same_tap or sum("has had a bag since" in one for one in told) == 8
    issued = list(LineWord.objects.filter(said=Said.BAG_ISSUED).values_list("entry__boat", flat=True))
    assert sorted(issued) == list(range(1, 9))
    assert HistoryEntry.objects.filter(act="line.bag_issued").count() == 8


@pytest.mark.django_db(transaction=True)
def test_no_bag_slips_past_a_hold() -> None:
    event = world.event("Hold race", 1)
    checked_in(event, 1, NOON)
    for _ in range(6):
        start = threading.Barrier(2)

        def act(word: str, boat: int | None, start: threading.Barrier = start, **more: Any) -> None:
            try:
                start.wait()
                said(event, word, boat, **more)
            except Faults:
                pass
            finally:
                connections.close_all()

        threads = [
            threading.Thread(target=act, args=(Said.HOLD, None), kwargs={"oxygen_minutes": 5}),
            threading.Thread(target=act, args=(Said.BAG_ISSUED, 1)),
        ]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        held = False
        for word in LineWord.objects.order_by("at", "id"):
            assert not (held and word.said == Said.BAG_ISSUED)
            held = {Said.HOLD: True, Said.RESUME: False}.get(Said(word.said), held)
        said(event, Said.RESUME, person="D. Reed")
        if line_of(event, 1).with_bag:
            said(event, Said.BAG_BACK, 1)

"""What was added since a tablet's copy: a copy caught up by the tablet's own script is the whole as it is told now."""

from datetime import timedelta
from typing import Any

import javascript
import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone
from stations.speaking import Speaker, message, new_id
from stations.test_station_tablet import words

from weighin.audit.database.life import begin_another_life
from weighin.events.models import Event
from weighin.line.models import LineWord
from weighin.roster.models import Entry
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip, settle, void_slip

pytestmark = pytest.mark.django_db


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2, rules={"fish_limit": "7", "bag_tare": "0.32"})


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


def since(table: Speaker, cursor: str) -> dict[str, Any]:
    told: dict[str, Any] = table.ask(f"station?since={cursor}").json()
    return told


def whole(table: Speaker) -> dict[str, Any]:
    return {name: part for name, part in since(table, "").items() if name != "server_time"}


def checkin(**values: Any) -> dict[str, Any]:
    return {"id": new_id(), "day": 1, "boat": 1, "checked_in": "2026-06-20T15:02:10-05:00", "official": "A", **values}


def test_every_way_of_writing_brings_a_copy_to_the_whole(event: Event, table: Speaker) -> None:
    """One step after the other, and all of them at once."""
    steps: list[dict[str, Any]] = []
    first = copy = since(table, "")

    def wrote() -> None:
        nonlocal copy
        told = since(table, copy["cursor"])
        steps.append({"copy": copy, "told": told, "whole": whole(table)})
        copy = since(table, "")

    sent, other = message(), message(boat=2, day=2, weighed="2026-06-21T15:10:00-05:00")
    assert {one["state"] for one in table.send(sent, other)} == {"kept"}
    wrote()
    table.one(message(boat=1, gross="8.70"))
    wrote()
    settle(WeighSlip.objects.select_related("event", "entry").get(number=3), "the second reading", "quill")
    wrote()
    correct_slip(
        event.slips.get(number=2), {**words(), "day": "2", "boat": "2", "gross": "8.60", "reason": "misread"}, "quill"
    )
    wrote()
    void_slip(event.slips.current().get(day=1), "wrong boat", "quill")
    table.one(message(boat=4))
    wrote()
    line = checkin()
    table.send(line, checkin(boat=3), what="checkins")
    wrote()
    fixed = checkin(replaces=line["id"], reason="misread", checked_in="2026-06-20T15:03:10-05:00")
    table.one(fixed, what="checkins")
    wrote()
    told = since(table, first["cursor"])
    steps.append({"copy": first, "told": told, "whole": whole(table)})

    work = "cases.map(({copy, told}) => device.caughtUp(copy, told))"
    caught = javascript.run(work, steps, device="device/caught-up")
    for step, found in zip(steps, caught, strict=True):
        assert "roster" not in step["told"] and "rules" not in step["told"]
        assert {name: part for name, part in found.items() if name != "server_time"} == step["whole"]
    assert len(steps[1]["told"]["slips"]) == 1 and steps[3]["told"]["gone"]["slips"] != []


def test_boats_called_are_told_anew_only_where_something_was_said(event: Event, table: Speaker) -> None:
    entries = {entry.boat: entry for entry in event.entries.all()}
    start = timezone.now() - timedelta(hours=1)

    def said(boat: int, what: str, minute: int) -> None:
        LineWord.objects.bulk_create(
            [LineWord(event=event, entry=entries[boat], day=1, said=what, at=start + timedelta(minutes=minute))]
        )
        Event.objects.filter(pk=event.pk).update(revision=minute + 100)

    said(1, "bag_issued", 1)
    said(2, "bag_issued", 2)
    copy = since(table, "")
    assert [one["boat"] for one in copy["called"]] == [1, 2]
    said(2, "at_scales", 3)
    said(1, "bag_back", 4)
    said(3, "bag_issued", 5)
    told = since(table, copy["cursor"])
    assert told["recalled"] == [1, 2, 3] and [one["boat"] for one in told["called"]] == [2, 3]
    (caught,) = javascript.run(
        "cases.map(({copy, told}) => device.caughtUp(copy, told))",
        [{"copy": copy, "told": told}],
        device="device/caught-up",
    )
    assert caught["called"] == whole(table)["called"]
    said(4, "bag_issued", 0)  # the site's clock went back
    told = since(table, told["cursor"])
    assert told["recalled"] is None and told["called"] == whole(table)["called"]


def test_what_rows_are_told_beside_brings_the_whole(event: Event, table: Speaker) -> None:
    table.one(message())
    cursor = since(table, "")["cursor"]
    Entry.objects.filter(event=event, boat=1).update(boat=9)
    Event.objects.filter(pk=event.pk).update(revision=500)
    told = since(table, cursor)
    assert "gone" not in told and [slip["boat"] for slip in told["slips"]] == [9]
    begin_another_life()
    assert "gone" not in since(table, told["cursor"])


@pytest.mark.parametrize(
    "cursor", ["0", "x.1.2.3", "a.1.2.3.-4", "a.1.2.3.4444444444444444444444", "a.é.2.3.4", "../.."]
)
def test_a_cursor_that_none_wrote_brings_the_whole(table: Speaker, cursor: str) -> None:
    assert "roster" in since(table, cursor)


def test_a_slip_costs_a_tablet_little_however_many_boats_there_are(db: None) -> None:
    sizes, counts = [], []
    for boats in (3, 60):
        event = world.large(boats, f"Of {boats}")
        table = Speaker(event)
        cursor = since(table, "")["cursor"]
        table.one(message(boat=1, day=1, gross="8.60", official="A"))
        with CaptureQueriesContext(connection) as asked:
            sizes.append(len(table.ask(f"station?since={cursor}").content))
        counts.append(len(asked))
    assert abs(sizes[0] - sizes[1]) < 50 and sizes[1] < 1600
    assert counts[0] == counts[1]


def test_unchanged_it_is_304_with_a_cursor_too(table: Speaker) -> None:
    first = table.ask("station?since=")
    again = table.ask(f"station?since={first.json()['cursor']}", **{"If-None-Match": first["ETag"]})
    assert again.status_code == 304

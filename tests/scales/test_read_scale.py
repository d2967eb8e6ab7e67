"""read_scale on a pseudo-terminal, against a site that is really served: what a tablet is told, and what the slip keeps."""

import os
import subprocess
import sys
import time
import tty
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from django.test import Client
from patience import SECONDS, until
from stations.speaking import Speaker, message, new_id

from weighin.events.models import Event
from weighin.scales.domain.layouts import layout_of
from weighin.scales.domain.reading import Reading
from weighin.scales.models import ScaleNow, ScaleReading
from weighin.scales.services.port import Ear
from weighin.scales.services.scales import write_scale
from weighin.slips.models import WeighSlip

ROOT = Path(__file__).resolve().parents[2]


class Plug:
    """The two ends of a serial line: the scale writes to ``scale``, the program opens ``port``."""

    def __init__(self) -> None:
        self.scale, self.other = os.openpty()
        tty.setraw(self.scale)
        tty.setraw(self.other)
        self.port = os.ttyname(self.other)

    def say(self, *lines: str, end: str = "\r\n") -> None:
        os.write(self.scale, "".join(line + end for line in lines).encode("latin-1"))

    def said(self, line: str) -> bool:
        self.say(line)
        time.sleep(0.2)
        return True

    def close(self) -> None:
        os.close(self.scale)
        os.close(self.other)


@pytest.fixture
def plug() -> Iterator[Plug]:
    found = Plug()
    yield found
    found.close()


@pytest.mark.django_db(transaction=True)
def test_a_tablet_is_told_what_the_scale_reads(plug: Plug, live_server: Any, tmp_path: Path) -> None:
    event = world.event()
    write_scale(event, {"name": "Table 1", "division": "0.01", "layout": "headers"}, "quill")
    tablet = Speaker(event, "Tablet")
    token = tmp_path / "token"
    token.write_text(f"Station Scale of {event.name} can: weigh.\n{Speaker(event, 'Scale').token}\n")
    command = [sys.executable, "manage.py", "read_scale", plug.port, "--event", event.slug, "--token-file", str(token)]
    process = subprocess.Popen(
        [*command, "--site", live_server.url],
        cwd=ROOT,
        env={**os.environ, "WEIGHIN_DATA": str(tmp_path / "elsewhere"), "DATABASE_URL": ""},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )

    def now() -> dict[str, Any]:
        told: dict[str, Any] = tablet.ask("scales").json()["scales"][0]["now"] or {}
        return told

    try:
        until(lambda: plug.said("US,GS,+00003.10lb") and now().get("state") == "motion")
        plug.say("ST,GS,+00009.47lb")
        time.sleep(0.5)
        assert now()["text"] != "9.47", "a weight is believed when it comes twice"
        found = until(lambda: plug.said("ST,GS,+00009.47lb") and (one := now())["text"] == "9.47" and one)
        assert (found["state"], found["unit"], found["raw"], found["why"]) == ("stable", "lb", "ST,GS,+00009.47lb", "")
        over = until(lambda: plug.said("OL,GS,     .  lb") and (one := now())["state"] == "overload" and one)
        assert "overloaded" in over["why"]
        assert until(lambda: (one := now())["state"] == "silent" and one)["text"] == ""
    finally:
        process.terminate()
        said, _ = process.communicate(timeout=SECONDS)
    assert process.returncode == 0, said
    assert "Traceback" not in said and "9.47 lb stable" in said
    assert not ScaleReading.objects.exists(), "nothing is kept that went into no slip"
    assert ScaleNow.objects.count() == 1


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (["--token-file", "/nowhere"], "cannot be read"),
        (["--station", "Scale"], "no event"),
        (["--station", "Scale", "--site", "ftp://x"], "no address"),
    ],
)
def test_what_is_wrong_is_said_in_a_sentence(more: list[str], words: str, db: None) -> None:
    with pytest.raises(CommandError, match=words):
        call_command("read_scale", "/dev/null", "--event", "none", *more)


class Line:
    """A port that gives what it is told to, and keeps what is written to it."""

    def __init__(self) -> None:
        self.coming: list[bytes] = []
        self.written: list[bytes] = []

    def read(self, size: int = 1) -> bytes:
        return self.coming.pop(0) if self.coming else b""

    def write(self, data: bytes) -> None:
        self.written.append(data)


def ear(told: list[Reading], clock: list[float], ask: str = "", once: bool = False) -> Ear:
    def tell(reading: Reading) -> str:
        told.append(reading)
        return ""

    return Ear(layout_of("headers"), ask, once, tell, lambda words: None, lambda: clock[0])


def test_the_site_is_told_at_once_then_every_second_and_when_nothing_comes() -> None:
    told: list[Reading] = []
    clock, line = [0.0], Line()
    hearer = ear(told, clock)
    line.coming = [b"\r\nST,GS,+00009.47lb\r\n", b"ST,GS,+00009.47lb\r\n", b"ST,GS,+00009.47lb\r\n"]
    for _ in range(3):
        hearer.hear(line)
    assert [one.text for one in told] == ["", "9.47"]
    clock[0] = 1.1
    hearer.hear(line)
    assert [one.text for one in told] == ["", "9.47", "9.47"]
    clock[0] = 3.2
    hearer.hear(line)
    assert told[-1].state == "silent" and told[-1].text == ""
    told.clear()
    hearer.lost()
    assert not told, "it was silent already"


def test_a_scale_that_wants_to_be_asked_is_asked() -> None:
    clock, line = [0.0], Line()
    hearer = ear([], clock, ask="S")
    for at in (0.0, 0.2, 0.4, 0.6):
        clock[0] = at
        hearer.hear(line)
    assert line.written == [b"S\r\n", b"S\r\n"]


def test_the_word_of_a_key_is_told_once_and_grows_old() -> None:
    told: list[Reading] = []
    clock, line = [0.0], Line()
    hearer = ear(told, clock, once=True)
    line.coming = [b"ST,GS,+00009.47lb\r\n"]
    for at in (0.0, 2.0, 9.0):
        clock[0] = at
        hearer.hear(line)
    assert [one.text for one in told] == ["9.47"]


# ---- readings that went into slips


def reading(slip_id: str, **values: Any) -> dict[str, Any]:
    return {
        "id": new_id(), "slip": slip_id, "field": "gross", "text": "8.50", "unit": "lb", "raw": "ST,GS,+00008.50lb",
        "scale": "Table 1", "taken": "2026-06-20T15:09:50-05:00", **values,
    }  # fmt: skip


@pytest.fixture
def event(db: None) -> Event:
    found = world.event()
    write_scale(found, {"name": "Table 1", "division": "0.01"}, "quill")
    found.refresh_from_db()
    return found


@pytest.mark.database
def test_a_reading_is_kept_once_before_or_after_its_slip(event: Event) -> None:
    tablet = Speaker(event)
    slip = message()
    early, late = reading(slip["id"]), reading(slip["id"], field="big_fish", text="1.52", raw="ST,GS,+00001.52lb")
    first = tablet.one(early, what="readings")
    assert first["state"] == "kept"
    assert tablet.one(slip)["state"] == "kept"
    assert [one["state"] for one in tablet.send(late, early, what="readings")] == ["kept", "already"]
    assert tablet.one({**early, "text": "9.50"}, what="readings")["state"] == "differs"
    assert ScaleReading.objects.count() == 2
    number = WeighSlip.objects.get().number
    page = world.member(event.club).get(f"/events/{event.slug}/slips/{number}/").content.decode()
    assert "ST,GS,+00008.50lb" in page and "ST,GS,+00001.52lb" in page and "scale Table 1" in page


@pytest.mark.database
@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"slip": "7"}, "slip"), ({"slip": None}, "slip"), ({"field": "fish"}, "field"), ({"unit": "kg"}, "unit"),
        ({"text": "9,50"}, "text"), ({"text": "1000"}, "text"), ({"raw": "x" * 201}, "raw"), ({"raw": "\x02"}, "raw"),
        ({"scale": "Table 9"}, "scale"), ({"taken": "15:10"}, "taken"), ({"colour": "red"}, "colour"),
        ({"id": "x"}, "id"), ({"text": 8.5}, "text"),
    ],
)  # fmt: skip
def test_what_is_no_reading_is_refused_with_a_sentence(event: Event, wrong: dict[str, Any], field: str) -> None:
    answer = Speaker(event).one(reading(new_id(), **wrong), what="readings")
    assert answer["state"] == "refused" and field in {fault["field"] for fault in answer["faults"]}, answer
    assert not ScaleReading.objects.exists()


@pytest.mark.database
def test_a_reading_of_a_closed_event_and_of_another_event(event: Event) -> None:
    tablet, other = Speaker(event), Speaker(world.event("Another table"))
    sent = reading(new_id())
    assert tablet.one(sent, what="readings")["state"] == "kept"
    assert other.one({**sent, "scale": None}, what="readings")["state"] == "differs"
    assert tablet.one(reading(new_id(), scale=None), what="readings")["state"] == "kept"
    care = Speaker(event, "Care", ("care",))
    for what, body in (("readings", {"readings": [sent]}), ("scales/now", {"now": [{}]})):
        assert care.post(what, body).status_code == 403
        assert tablet.post(what, "{").status_code == 400
    assert care.ask("scales").status_code == 403 and Client().get(f"/api/events/{event.slug}/scales").status_code == 401


@pytest.mark.database
@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({}, "scale"), ({"scale": "Table 9", "state": "stable"}, "scale"), ({"scale": "Table 1", "state": "asleep"}, "state"),
        ({"scale": "Table 1", "state": "stable", "text": "nine"}, "text"),
        ({"scale": "Table 1", "state": "stable", "raw": "x" * 201}, "raw"),
    ],
)  # fmt: skip
def test_what_no_scale_says(event: Event, said: dict[str, Any], field: str) -> None:
    revision = Event.objects.get(pk=event.pk).revision
    tablet = Speaker(event)
    (answer,) = tablet.post("scales/now", {"now": [said]}).json()["now"]
    assert answer["state"] == "refused" and field in {fault["field"] for fault in answer["faults"]}
    sound = {"scale": "table 1", "state": "stable", "text": "-0.04", "unit": "lb", "raw": "ST,GS,-00000.04lb"}
    (answer,) = tablet.post("scales/now", {"now": [sound]}).json()["now"]
    assert answer == {"scale": "table 1", "state": "kept", "faults": []}
    now = tablet.ask("scales").json()["scales"][0]["now"]
    assert (now["text"], now["why"]) == ("-0.04", "The scale reads below zero: zero it with nothing on it.")
    assert Event.objects.get(pk=event.pk).revision == revision + 1, "only the pairing of the station"


@pytest.mark.database
@pytest.mark.parametrize("text", ["", ".", "9-20", "1-2"])
def test_a_word_without_a_weight_breaks_no_tablet(event: Event, text: str) -> None:
    tablet = Speaker(event)
    for unit in ("lb", "lb-oz"):
        Event.objects.filter(pk=event.pk).update(weight_unit=unit)
        said = {"scale": "Table 1", "state": "stable", "text": text, "unit": unit}
        assert tablet.post("scales/now", {"now": [said]}).json()["now"][0]["state"] == "kept"
        answer = tablet.ask("scales")
        assert answer.status_code == 200
        why = answer.json()["scales"][0]["now"]["why"]
        assert why == (
            ""
            if (unit, text) == ("lb-oz", "1-2")
            else "The scale says no weight that can be read: look at its display."
        )


@pytest.mark.database
def test_a_scale_of_a_closed_event_says_nothing(event: Event) -> None:
    director = world.member(event.club)
    Event.objects.filter(pk=event.pk).update(closed_at=datetime(2026, 6, 20, 23, tzinfo=UTC))
    body = {"now": [{"scale": "Table 1", "state": "stable", "text": "9.47", "unit": "lb"}]}
    answer = director.post(f"/api/events/{event.slug}/scales/now", body, content_type="application/json")
    assert answer.json()["now"][0]["state"] == "refused" and "closed" in answer.json()["now"][0]["faults"][0]["message"]
    assert not ScaleNow.objects.exists()

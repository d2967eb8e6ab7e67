"""Slips copied off a tablet that had to be given up: read from its text, and never counted twice."""

import json
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse
from stations.speaking import Speaker, message

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.slips.models import WeighSlip


@pytest.fixture
def official(event: Event) -> Client:
    return world.member(event.club, Role.WEIGH_OFFICIAL, "quill")


def code(slip: dict[str, Any], parts: int = 1) -> list[str]:
    """What a tablet's codes hold."""
    text = json.dumps(slip, separators=(",", ":"))
    if parts == 1:
        return [text]
    size = -(-len(text) // parts)
    return [
        f"weighin {place + 1}/{parts} {slip['id'][:8]}|{text[place * size : (place + 1) * size]}|"
        for place in range(parts)
    ]


def enter(client: Client, event: Event, text: str) -> str:
    answer = client.post(reverse("stations:slips_copied", args=[event.slug]), {"text": text})
    assert answer.status_code == 200
    return answer.content.decode()


def test_a_copied_slip_is_kept_under_the_tablets_id(event: Event, official: Client) -> None:
    slip = message(note="Ärger “am Sack”")
    assert "saved" in enter(official, event, code(slip)[0])
    (row,) = WeighSlip.objects.all()
    assert (str(row.pk), row.note, row.recorded_by) == (slip["id"], "Ärger “am Sack”", "quill")
    assert "here already" in enter(official, event, "\n".join(code(slip, 3)))
    assert Speaker(event).one(slip)["state"] == "already", "the tablet came back to life"
    assert WeighSlip.objects.count() == 1


def test_parts_come_in_any_order_and_broken_lines_are_joined(event: Event, official: Client) -> None:
    one, two = message(), message(boat=2, gross="6.10")
    first, second = code(one, 2)
    whole = code(two)[0]
    enter(official, event, "\r\n".join([second, whole[:40], whole[40:], "", first]))
    assert sorted((row.entry.boat, row.gross) for row in WeighSlip.objects.select_related("entry")) == [
        (1, "8.50"),
        (2, "6.10"),
    ]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "There is nothing here yet"),
        ("hello", "This does not begin with a slip"),
        ("{\"id\": ", "is not JSON"),
        ("weighin 1/2 0123abcd|{|", "part 2 of 2 is missing"),
        ("weighin 1/2 0123abcd|{", "is not whole"),
        ("weighin 1/1 0123abcd|[1]|", "must be an object"),
        ("{}" * 60, "is not JSON"),
    ],
)  # fmt: skip
def test_what_is_no_slip_is_said_and_kept_in_sight(event: Event, official: Client, text: str, words: str) -> None:
    said = enter(official, event, text)
    assert words in said and not WeighSlip.objects.exists()
    assert text[:5].replace('"', "&quot;") in said


def test_each_slip_gets_its_own_answer(event: Event, official: Client) -> None:
    good, wrong, unknown = message(), message(boat=2, alive=5), message(boat=77)
    said = enter(official, event, "\n".join(code(slip)[0] for slip in (good, wrong, unknown)))
    assert "there is no boat 77" in said.lower() and "count again" in said.lower()
    assert WeighSlip.objects.count() == 1
    said = enter(official, event, code(message(gross="8.00"))[0])
    assert "saved, a second slip" in said
    assert "This id is saved with other values." in enter(official, event, code({**good, "gross": "9.00"})[0])


def test_a_copied_correction_is_a_correction(event: Event, official: Client) -> None:
    slip = message()
    fix = message(gross="8.60", replaces=slip["id"], reason="misread")
    enter(official, event, "\n".join([*code(fix, 2), *code(slip)]))
    assert [row.gross for row in WeighSlip.objects.current()] == ["8.60"]

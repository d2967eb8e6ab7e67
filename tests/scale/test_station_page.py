"""The pairing page: a token is shown once, as a code of the page it opens; withdrawn, it is dead at the next request."""

import re
import uuid
from datetime import datetime, timedelta
from typing import Any

import pytest
import segno
import world
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from weighin.accounts.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.scale.models import Station, WeighSlip
from weighin.scale.station_page import qr_code, rows
from weighin.scale.stations import make_station

pytestmark = pytest.mark.django_db


@pytest.fixture
def event() -> Event:
    return world.large(3)


def page_of(event: Event) -> str:
    return reverse("scale:stations", args=[event.slug])


def test_a_station_is_shown_once_with_the_codes_of_its_pages(event: Event) -> None:
    client = world.member(event.club)
    answer = client.post(page_of(event), {"act": "make", "name": "Table 1", "can": ["weigh", "care"]})
    said = answer.content.decode()
    assert answer.status_code == 200 and "no-store" in answer["Cache-Control"]
    (token,) = set(re.findall(r"#([\w-]{43})<", said))
    for path in (f"/table/{event.slug}/", f"/ramp/{event.slug}/"):
        address = f"http://testserver{path}#{token}"
        assert address in said and qr_code(address) in said
    assert Station.objects.get().can == "weigh,care"
    again = client.get(page_of(event)).content.decode()
    assert token not in again and "Table 1" in again
    assert not [e for e in HistoryEntry.objects.all() if token in f"{e.sentence}{e.details}{e.subject}"]
    assert client.get(f"/api/events/{event.slug}/station", HTTP_AUTHORIZATION=f"Bearer {token}").status_code == 200


def test_the_code_is_what_segno_makes_of_the_address_and_has_no_style() -> None:
    drawn = qr_code("http://lake.test/table/x/#token")
    size = len(segno.make("http://lake.test/table/x/#token", error="m", micro=False).matrix) + 8
    assert f'viewBox="0 0 {size} {size}"' in drawn and "style" not in drawn and "<script" not in drawn
    assert _modules(drawn, size) == [
        [bool(m) for m in row] for row in segno.make("http://lake.test/table/x/#token", error="m", micro=False).matrix
    ]


def _modules(svg: str, size: int) -> list[list[bool]]:
    """The dark modules of the drawn lines, within the quiet zone of 4."""
    path = re.search(r'<path[^>]*stroke="#000"[^>]*d="([^"]+)"|<path[^>]*d="([^"]+)"[^>]*stroke="#000"', svg)
    assert path
    grid = [[False] * size for _ in range(size)]
    x = y = 0.0
    for step, figures in re.findall(r"([Mmh])([-\d. ]+)", path[1] or path[2]):
        values = [float(value) for value in re.findall(r"-?\d*\.?\d+", figures)]
        if step == "M":
            x, y = values
        elif step == "m":
            x, y = x + values[0], y + values[1]
        else:
            for column in range(int(x), int(x + values[0])):
                grid[int(y)][column] = True
            x += values[0]
    return [row[4:-4] for row in grid[4:-4]]


def test_withdrawn_it_is_dead_at_the_next_request(event: Event) -> None:
    _, token = make_station(event, "Table 1", ["weigh"], "test")
    client = world.member(event.club, username="mara")
    assert client.post(page_of(event), {"act": "withdraw", "name": "Table 1"}).status_code == 302
    assert Client().get(f"/api/events/{event.slug}/station", HTTP_AUTHORIZATION=f"Bearer {token}").status_code == 401
    entry = HistoryEntry.objects.get(act="station.withdrawn")
    assert entry.actor == "mara" and "by mara" in client.get(page_of(event)).content.decode()


@pytest.mark.parametrize(("name", "can"), [("", ["weigh"]), ("Table 1", []), ("x" * 81, ["weigh"])])
def test_one_that_will_not_do_is_not_made(event: Event, name: str, can: list[str]) -> None:
    said = world.member(event.club).post(page_of(event), {"act": "make", "name": name, "can": can}).content.decode()
    assert "aria-invalid" in said and not Station.objects.exists()


def test_a_host_that_tablets_cannot_reach_is_named(event: Event) -> None:
    client = world.member(event.club)
    assert "Other tablets cannot reach" not in client.get(page_of(event)).content.decode()
    for host in ("localhost:8000", "127.0.0.1:8000", "localhost"):
        assert f"Other tablets cannot reach {host}" in client.get(page_of(event), HTTP_HOST=host).content.decode()


def test_a_clock_that_is_off_stands_beside_its_station(event: Event) -> None:
    make_station(event, "Table 1", ["weigh"], "test")
    make_station(event, "Table 2", ["weigh"], "test")
    old = WeighSlip.objects.filter(event=event).first()
    assert old is not None
    now = timezone.now()
    fields = {f.attname: getattr(old, f.attname) for f in WeighSlip._meta.concrete_fields}
    for number, (name, off) in enumerate((("Table 1", 65), ("Table 2", 1)), 901):
        _kept(fields, number, name, now, off)
    said = {row.station.name: row for row in rows(event)}
    assert said["Table 1"].clock == "its clock was 65 min ahead" and said["Table 2"].clock == ""
    assert "no slip" not in said["Table 2"].heard


def _kept(fields: dict[str, Any], number: int, name: str, now: datetime, off: int) -> None:
    more = {"id": uuid.uuid4(), "number": number, "position": number, "recorded_by": f"station {name}"}
    times = {"received_at": now, "sent_at": now + timedelta(minutes=off)}
    WeighSlip(**{**fields, **more, **times}).save()


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER])
def test_only_directors_pair(event: Event, role: Role) -> None:
    assert world.member(event.club, role).get(page_of(event)).status_code == 403

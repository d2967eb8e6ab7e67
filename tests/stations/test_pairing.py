"""The page that pairs stations: the code once, withdrawal at once, and no token anywhere else."""

import re
from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import segno
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from stations.speaking import Speaker, message
from world import member

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.stations.models import Station
from weighin.stations.services.stations import station_of
from weighin.ui.codes import code
from weighin.ui.kept import KEEPER

pytestmark = pytest.mark.django_db
TOKEN = re.compile(r"#([\w-]{43})<")


@pytest.fixture
def director(event: Event) -> Client:
    return member(event.club)


def where(event: Event) -> str:
    return reverse("stations:stations", args=[event.slug])


def pair(director: Client, event: Event, name: str = "Table 1", *can: str) -> str:
    return director.post(where(event), {"name": name, "can": can or ("weigh", "care")}).content.decode()


def test_the_token_is_shown_once_with_the_address_each_page_opens(director: Client, event: Event) -> None:
    shown = pair(director, event)
    token = TOKEN.findall(shown)[0]
    assert f"http://testserver/table/{event.slug}/#{token}" in shown
    assert f"http://testserver/ramp/{event.slug}/#{token}" in shown
    station = station_of(token)
    assert station is not None and station.name == "Table 1"
    assert token not in director.get(where(event)).content.decode()
    assert not any(token in str(entry.details) + entry.sentence + entry.subject for entry in HistoryEntry.objects.all())


def test_the_page_is_kept_by_no_cache(director: Client, event: Event) -> None:
    for answer in (director.get(where(event)), director.post(where(event), {"name": "A", "can": ["weigh"]})):
        assert "no-store" in answer["Cache-Control"] and "private" in answer["Cache-Control"]


def test_a_station_opens_only_pages_of_what_it_may_do(director: Client, event: Event) -> None:
    shown = pair(director, event, "Script", "checkin").partition("<main")[2]
    assert "/table/" not in shown and "/ramp/" not in shown and "Authorization: Bearer" in shown
    assert Station.objects.get().can == "checkin"


def test_the_code_says_the_address_to_the_last_module() -> None:
    """ISO/IEC 18004 by segno: the drawn rows are the matrix of the very address, four modules of white around it."""
    address = "http://lake.example:8000/table/open-table-2026/#" + "x" * 43
    drawn = code(address, "Code of <b>")
    matrix = [list(row) for row in segno.make(address, error="m", micro=False).matrix_iter(border=4)]
    assert f'viewBox="0 0 {len(matrix)} {len(matrix)}"' in drawn and "Code of &lt;b&gt;" in drawn
    assert "style=" not in drawn
    black = {(x, y) for y, row in enumerate(matrix) for x, dark in enumerate(row) if dark}
    assert _strokes(drawn) == black


def _strokes(svg: str) -> set[tuple[int, int]]:
    """The modules that a path of horizontal strokes covers."""
    steps = re.findall(r"([Mmh])(-?\d+)(?: (-?[\d.]+))?", re.search(r'stroke="#000" d="([^"]+)"', svg).group(1))  # type: ignore[union-attr]
    found, x, y = set(), 0, 0.0
    for kind, first, second in steps:
        if kind == "h":
            found |= {(x + n, int(y - 0.5)) for n in range(int(first))}
            x += int(first)
        else:
            x, y = (int(first), float(second)) if kind == "M" else (x + int(first), y + float(second))
    return found


def test_pairing_a_name_again_withdraws_the_one_before(director: Client, event: Event) -> None:
    old = TOKEN.findall(pair(director, event))[0]
    new = TOKEN.findall(pair(director, event))[0]
    was, now = station_of(old), station_of(new)
    assert was is not None and was.withdrawn and now is not None and not now.withdrawn


def test_a_withdrawn_station_is_dead_at_its_next_request(director: Client, event: Event) -> None:
    table = Speaker(event)
    station = Station.objects.get()
    assert table.one(message())["state"] == "kept"
    address = reverse("stations:station_withdraw", args=[event.slug, station.pk])
    told = director.post(address, follow=True).content.decode()
    assert "its token no longer works" in told and "withdrawn" in told
    assert table.post("slips", {"slips": [message(boat=2)]}).status_code in (401, 403)
    again = director.post(address, follow=True).content.decode()
    assert "withdrawn already" in again


def test_bad_input_makes_nothing_and_loses_nothing(director: Client, event: Event) -> None:
    for given, said in (
        ({"name": "", "can": ["weigh"]}, "This is blank"),
        ({"name": "Table 9"}, "Choose at least one"),
        ({"name": "Table 9", "can": ["fly"]}, "fly"),
    ):
        shown = director.post(where(event), given).content.decode()
        assert said in shown and (not given["name"] or "Table 9" in shown)
    assert not Station.objects.exists()


def test_a_closed_event_pairs_nothing(director: Client, event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    shown = pair(director, event)
    assert not Station.objects.exists() and not TOKEN.findall(shown) and "The event is closed." in shown


def test_a_clock_that_is_off_is_said(director: Client, event: Event) -> None:
    table = Speaker(event)
    table.send(message())
    assert "its clock was" not in director.get(where(event)).content.decode()
    ahead = (timezone.now() + timedelta(minutes=61)).isoformat()
    table.send(message(boat=2), sent=ahead)
    assert "its clock was 61 minutes ahead" in director.get(where(event)).content.decode()


def test_the_time_is_the_lakes(director: Client, event: Event) -> None:
    pair(director, event)
    made = Station.objects.get().made_at
    clock = timezone.localtime(made, ZoneInfo(event.time_zone)).strftime("%-I:%M %p")
    said = director.get(where(event)).content.decode().replace("\N{NO-BREAK SPACE}", " ")
    assert f"{clock} by" in said


def test_this_machines_own_address_is_warned_of(director: Client, event: Event, settings: Any) -> None:
    settings.ALLOWED_HOSTS = ["localhost", "testserver"]
    shown = director.post(where(event), {"name": "A", "can": ["weigh"]}, HTTP_HOST="localhost:8000").content.decode()
    assert "This address is of this machine only." in shown
    assert "This address is of this machine only." not in pair(director, event)


def test_only_a_director_pairs(event: Event) -> None:
    for role in (Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER):
        other = member(event.club, role)
        assert other.get(where(event)).status_code == 403
        assert other.post(where(event), {"name": "A", "can": ["weigh"]}).status_code == 403
    assert not Station.objects.exists()


def test_the_same_queries_for_one_station_and_for_thirty(director: Client, event: Event) -> None:
    counts = []
    for number in (1, 30):
        for n in range(number):
            Station.objects.create(
                event=event, name=f"S {number} {n}", token_digest=f"{number}-{n}", can="weigh", made_by="x"
            )
        KEEPER.clear()  # what is asked once a revision is asked both times
        with CaptureQueriesContext(connection) as asked:
            director.get(where(event))
        counts.append(len(asked))
    assert counts[0] == counts[1]

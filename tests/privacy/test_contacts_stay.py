"""How a team is reached is for directors, the desk, and whoever calls a boat that is out; in no file that nobody asked
for it, no history, no tablet's document, and no address or log."""

import io
import logging
import zipfile
from io import StringIO
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
import world
from django.core.management import call_command
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader
from walking import walk

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry, KeptAside
from weighin.checkin.services.check_ins import record_check_in
from weighin.events.models import Event
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.services.contacts import keep_contact
from weighin.stations.services.stations import make_station

pytestmark = pytest.mark.django_db
PLANTED = ("555-0163", "Xanthe Quillon", "herons@quillfeather.example")
TEAM, DESK_BOAT, CONTACTS_FILE = "roster:team", "registration:desk_boat", "reports:teams_file"
WHO_CALLS = {"checkin:roll", "checkin:roll_part", "checkin:roll_boat"}


@pytest.fixture
def event() -> Event:
    """Boat 1 is out, boat 2 is in; both say how they are reached."""
    found = world.event(
        "Reached", 2, [world.slip(boat="2")], entry_fee="60", date=_today(), start_time="00:05", due_time="23:55"
    )
    for entry in found.entries.all():
        keep_contact(entry, ContactValues(PLANTED[0], PLANTED[1], PLANTED[2]), "test")
    record_check_in(
        found, {"day": "1", "boat": "2", "whereabouts": "in_by_water", "official": "A. Sedge"}, "test", uuid4()
    )
    return found


def _today() -> str:
    from django.utils import timezone

    return timezone.now().date().isoformat()


def _said(answer: Any) -> str:
    body = b"".join(answer.streaming_content) if answer.streaming else answer.content
    if body.startswith(b"%PDF"):
        return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(body)).pages)
    if body.startswith(b"PK"):
        with zipfile.ZipFile(io.BytesIO(body)) as file:
            return " ".join(file.read(name).decode(errors="ignore") for name in file.namelist())
    return str(body.decode(errors="ignore")) + str(answer.headers)


def _where(client: Client, *starts: str, of_a_view: int = 1) -> set[str]:
    """The views, as far as links lead, that say how a team is reached; an address that asks for it has a star."""
    found = set()
    for opened in walk(client, of_a_view, ("/", *starts)):
        if opened.answer.status_code == 200 and any(word in _said(opened.answer) for word in PLANTED):
            found.add(opened.view + ("*" if "contacts=yes" in opened.address else ""))
    return found


def test_the_desk_and_directors_find_it_where_it_is_asked_for(event: Event) -> None:
    asked = {TEAM, DESK_BOAT, f"{CONTACTS_FILE}*"}
    found = _where(world.member(event.club, Role.DESK_OFFICIAL), of_a_view=3)
    assert asked <= found <= asked | WHO_CALLS
    director = world.member(event.club)
    for address in ("teams/1/", "desk/boats/1/", "teams/files/csv?contacts=yes"):
        assert PLANTED[1] in _said(director.get(f"/events/{event.slug}/{address}"))
    assert PLANTED[1] not in _said(director.get(f"/events/{event.slug}/teams/files/csv"))


def test_who_weighs_finds_it_on_the_roll_of_boats_out_alone(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    assert _where(client) <= WHO_CALLS
    roll = client.get(reverse("checkin:roll", args=[event.slug])).content.decode()
    assert roll.count(PLANTED[0]) == 2  # one boat: the words and the link that dials
    assert PLANTED[0] in client.get(reverse("checkin:roll_boat", args=[event.slug, 1, 1])).content.decode()
    assert PLANTED[0] not in client.get(reverse("checkin:roll_boat", args=[event.slug, 1, 2])).content.decode()


@pytest.mark.parametrize("role", [Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER])
def test_nobody_else_of_the_club_finds_it(event: Event, role: Role) -> None:
    client = world.member(event.club, role)
    assert _where(client) == set()
    for name, more in (("desk", ()), ("desk_boats", ()), ("desk_boat", ("1",))):
        assert client.get(reverse(f"registration:{name}", args=[event.slug, *more])).status_code == 403
    assert client.post(reverse("registration:desk_look", args=[event.slug]), {}).status_code == 403


def test_a_stranger_and_a_published_event_tell_nothing(event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(is_public=True)
    assert Client().get(f"/results/{event.slug}/").status_code == 200
    assert _where(Client(), f"/results/{event.slug}/", f"/api/events/{event.slug}") == set()


def test_no_file_has_it_unless_it_is_asked_for(event: Event, tmp_path: Path) -> None:
    for form in ("json", "csv", "xlsx", "pdf"):
        for command in ("export_event", "export_teams") if form in ("csv", "xlsx") else ("export_event",):
            file = tmp_path / f"{command}.{form}"
            call_command(
                command, event.slug, "--format", form, "--out", str(file), stdout=StringIO(), stderr=StringIO()
            )
            said = _of_file(file.read_bytes())
            assert not any(word in said for word in PLANTED), (command, form)


def _of_file(body: bytes) -> str:
    class Read:
        streaming, content, headers = False, body, ""

    return _said(Read())


def test_tablets_and_the_history_never_hear_of_it(event: Event) -> None:
    token = make_station(event, "Table", ["weigh", "checkin", "care"], "test")[1]
    asked = {"HTTP_AUTHORIZATION": f"Bearer {token}"}
    for name in ("stations:api_station", "care:api_ramp"):
        answer = Client().get(reverse(name, args=[event.slug]), **asked)
        assert answer.status_code == 200 and not any(word in _said(answer) for word in PLANTED)
    lines = str(list(HistoryEntry.objects.values())) + str(list(KeptAside.objects.values()))
    assert not any(word in lines for word in PLANTED)


def test_the_log_has_none_of_what_is_typed_at_the_desk(event: Event, caplog: pytest.LogCaptureFixture) -> None:
    desk = world.member(event.club, Role.DESK_OFFICIAL)
    with caplog.at_level(logging.DEBUG):
        said = {
            "name": "Herons",
            "anglers": "Zeb Quarrington",
            "phone": PLANTED[0],
            "emergency": PLANTED[1],
            "boat": "9",
        }
        desk.post(reverse("registration:desk_look", args=[event.slug]), {**said, "at": "name"})
        kept = desk.post(reverse("registration:desk", args=[event.slug]), {**said, "means": "cash"})
        assert desk.get(reverse("registration:desk_look", args=[event.slug])).status_code == 405
    logged = " ".join(record.getMessage() for record in caplog.records if not record.name.startswith("django.db"))
    assert not any(word in logged + kept.headers["Location"] for word in ("Quarrington", "Herons", *PLANTED))

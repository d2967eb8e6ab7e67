"""Files and messages that programs read are the same in every language: no heading, key or word of them is translated."""

import re
from collections.abc import Iterator
from io import BytesIO
from zipfile import ZipFile

import pytest
import world
from django.test import Client
from django.urls import reverse
from language.pseudo import spoken
from walking import busy_club, walk

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.standings.services import set_public

KINDS = ("text/csv", "application/json", "application/vnd.openxmlformats", "application/zip", "text/calendar")
MOMENT = re.compile(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:[\d.]+")


def _parts(answer: object) -> dict[str, bytes]:
    """A file, or those that are packed in it, without the moments at which they were made."""
    file = b"".join(answer.streaming_content) if answer.streaming else answer.content  # type: ignore[attr-defined]
    return dict(_unpacked("", file))


def _unpacked(name: str, file: bytes) -> Iterator[tuple[str, bytes]]:
    if not file.startswith(b"PK"):
        yield name, MOMENT.sub(b"", file)
        return
    with ZipFile(BytesIO(file)) as packed:
        for each in packed.namelist():
            if not each.endswith(".pdf"):  # for people: it says when it was made on its pages
                yield from _unpacked(f"{name}/{each}", packed.read(each))


def test_files_of_programs_are_in_no_language(db: None) -> None:
    club = busy_club()
    plain = world.member(club, Role.DIRECTOR)
    files = {
        opened.address: _parts(opened.answer)
        for opened in walk(plain, 1)
        if opened.answer.status_code == 200 and opened.answer.headers["Content-Type"].startswith(KINDS)
    }
    assert len(files) > 6
    plain.cookies["language"] = "es"
    assert '<html lang="es">' in plain.get(reverse("events:mine")).content.decode()
    for address, parts in files.items():
        assert _parts(plain.get(address)) == parts, address


@pytest.mark.parametrize("name", ["api_event", "api_proof"])
def test_what_programs_ask_of_a_public_event_is_in_no_language(event: Event, name: str) -> None:
    set_public(event, True, "test")
    address = reverse(f"public:{name}", args=[event.slug])
    plain = _parts(Client().get(address))
    with spoken():
        assert _parts(Client().get(address)) == plain

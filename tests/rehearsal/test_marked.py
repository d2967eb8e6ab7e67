"""Everything of a rehearsal says REHEARSAL: each page, paper and file of it, and what its tablets are told."""

import io
import re
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
import world
from django.core.management import call_command
from django.test import Client
from pypdf import PdfReader
from rehearsal.sent import in_process, rehearsed
from walking import walk

from weighin.events.models import Event
from weighin.rehearsal.domain.deliveries import CANS
from weighin.rehearsal.models import Rehearsal
from weighin.stations.services.stations import make_station

__all__ = ["in_process"]
pytestmark = pytest.mark.usefixtures("in_process")
MARK = "REHEARSAL"
# No page: what a script asks for, or a part of a page that is marked itself
PARTS = {"checkin:roll_part", "line:line_now"}
# Files with nothing of it: open data leave a rehearsal out, and an empty list of teams is the same for every event
NOTHING = {"agency:event_open_data", "reports:team_template"}


@pytest.fixture
def made(db: None) -> Rehearsal:
    event = world.event("Dawn pairs", world.pairs(6, paid="yes"), entry_fee="60.00")
    return rehearsed(event)[0]


def text_of(answer: Any) -> str:
    """The words of a page, paper or file."""
    kind = answer.headers["Content-Type"]
    content = b"".join(answer.streaming_content) if answer.streaming else answer.content
    if kind == "application/pdf":
        pages = [page.extract_text() for page in PdfReader(io.BytesIO(content)).pages]
        assert pages
        return "".join(pages) if all(MARK in page for page in pages) else "a sheet without the word"
    if "sheet" in kind or "zip" in kind:
        with ZipFile(io.BytesIO(content)) as file:
            return "".join(file.read(name).decode(errors="replace") for name in file.namelist())
    return str(content.decode(errors="replace"))


def test_every_page_paper_and_file_says_so(made: Rehearsal) -> None:
    client = world.member(made.event.club)
    start = f"/events/{made.event.slug}/"
    unmarked, kinds = [], set()
    for one in walk(client, 1, (start,)):
        if one.address.startswith(start) and one.answer.status_code == 200:
            kinds.add(one.answer.headers["Content-Type"].split(";")[0])
            script = "javascript" in one.answer.headers["Content-Type"]
            if MARK not in text_of(one.answer) and not script and one.view not in PARTS | NOTHING:
                unmarked.append(one.address)
    assert unmarked == []
    assert {"text/html", "application/pdf"} <= kinds and len(kinds) > 3


@pytest.mark.parametrize("form", ["json", "csv", "xlsx", "pdf"])
def test_files_of_the_command_say_so(made: Rehearsal, tmp_path: Path, form: str) -> None:
    file = tmp_path / f"file.{form}"
    call_command("export_event", made.event.slug, "--format", form, "--out", str(file))
    content = file.read_bytes()
    if form == "xlsx":
        with ZipFile(io.BytesIO(content)) as book:
            content = b"".join(book.read(name) for name in book.namelist())
    if form == "pdf":
        content = PdfReader(file).pages[0].extract_text().encode()
    assert MARK.encode() in content


def test_tablets_are_told(made: Rehearsal) -> None:
    _, token = make_station(made.event, "Own tablet", CANS.values(), "quill")
    told = Client().get(f"/api/events/{made.event.slug}/station", headers={"Authorization": f"Bearer {token}"}).json()
    assert told["event"]["name"] == "REHEARSAL Dawn pairs"


def test_the_event_itself_says_nothing_of_it(made: Rehearsal) -> None:
    event = Event.objects.get()
    page = world.member(event.club).get(f"/events/{event.slug}/").content.decode()
    assert not re.search(rf"<b>{MARK}</b>", page)

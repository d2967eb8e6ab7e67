"""Nothing of a rehearsal enters a club's lists, a season, a report, a total or a public page."""

import ast
import io
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from zipfile import ZipFile

import pytest
import world
from django.core.management import CommandError, call_command
from django.test import Client
from rehearsal.sent import in_process, rehearsed
from walking import busy_club, walk

from weighin.events.models import Event
from weighin.rehearsal.services.wiping import wipe_rehearsal
from weighin.ui.kept import KEEPER

__all__ = ["in_process"]
ROOT = Path(__file__).resolve().parents[2] / "weighin"
ASKS = {"Q", "filter", "exclude", "get", "aggregate", "annotate"}
# Who finds rows of rehearsals too, and why
TOO = {
    "weighin/privacy": "names are erased wherever they stand, in a rehearsal too",
}
# What is new in every answer: tokens, ids of forms, the time of day
CHANGES = re.compile(
    rb'csrfmiddlewaretoken" value="[^"]*"|[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}'
    rb'|\d?\d:\d\d(:\d\d)?((\xc2\xa0| )[AP]M)?|data-now="[^"]*"|name="number"[^>]*'
)
# Pages that tell of it, and why
TELL = (
    "/security/",  # tablets were paired
    "/privacy/",  # names that are kept, in the copy too, and erased there too
    "/my-data.json",  # says when it was made
    "/roll/",  # counts the minutes since boats were due
)


def seen(client: Client, event: Event) -> dict[str, bytes]:
    """What every page and file says that is not the planned event's own, from the front page along all links."""
    KEEPER.clear()
    found = {}
    for one in walk(client, 1):
        path = urlsplit(one.address).path
        own = path.startswith((f"/events/{event.slug}/", "/events/rehearsal-")) or path.endswith(("/history/", *TELL))
        if not own and one.answer.status_code == 200:
            found[one.address] = plain(one.answer)
    return found


def plain(answer: Any) -> bytes:
    """What an answer says, without what is new in each."""
    kind = answer.headers["Content-Type"]
    content = b"".join(answer.streaming_content) if answer.streaming else answer.content
    if "sheet" in kind or "zip" in kind:
        return b"".join(parts_of(content))
    if kind == "application/pdf":
        return b""  # made of the same tables as the other files, with the moment in it
    return CHANGES.sub(b"", content)


def parts_of(packed: bytes) -> Iterator[bytes]:
    """What is in a ZIP and in the workbooks in it, without when and by whom they were written."""
    with ZipFile(io.BytesIO(packed)) as file:
        for name in sorted(file.namelist()):
            if name.endswith(".xlsx"):
                yield from parts_of(file.read(name))
            elif "docProps" not in name and not name.endswith(".pdf"):
                yield file.read(name)


@pytest.mark.usefixtures("in_process")
@pytest.mark.parametrize("who", ["director", "public"])
def test_every_page_and_file_is_the_same_with_a_rehearsal(db: None, who: str) -> None:
    club = busy_club()
    event = Event.objects.get(name="Not begun")
    client = world.member(club) if who == "director" else Client()
    before = seen(client, event)
    made, report = rehearsed(event)
    assert report["faults"] == [] and report["slips"] > 3
    after = seen(client, event)
    assert before.keys() == after.keys()
    assert [address for address in before if before[address] != after[address]] == []
    assert not [address for address, said in after.items() if b"REHEARSAL" in said]
    if who == "public":
        KEEPER.clear()
        for address in ("", "standings/", "screen/", "crowd/", "fish/", "rules/"):
            assert client.get(f"/results/{made.event.slug}/{address}").status_code == 404
        assert client.get(f"/api/events/{made.event.slug}").status_code == 404
        assert client.get(f"/events/{made.event.slug}/").status_code == 302


@pytest.mark.usefixtures("in_process")
@pytest.mark.parametrize(
    "asked",
    [
        ("season_summary", "{club}", "{season}", "--format", "json"),
        ("federation_summary",),
        ("open_data", "{club}", "{season}", "--out", "{file}"),
        ("season_book", "{club}", "{season}", "--out", "{file}"),
    ],
    ids=lambda asked: asked[0],
)
def test_commands_over_a_season_leave_it_out(db: None, tmp_path: Path, asked: tuple[str, ...]) -> None:
    club = busy_club()
    event = Event.objects.get(name="Not begun")

    def said(place: str) -> bytes:
        out, file = io.StringIO(), tmp_path / place
        values = {"club": club.slug, "season": event.season.slug, "file": str(file)}
        call_command(*(word.format(**values) for word in asked), stdout=out)
        written = b""
        if file.exists():
            with ZipFile(file) as zipped:
                written = b"".join(zipped.read(name) for name in sorted(zipped.namelist()) if name.endswith(".csv"))
        return re.sub(r'"(made|at|written|created)[^,]*,', "", out.getvalue().replace(str(file), "")).encode() + written

    before = said("before.zip")
    rehearsed(event)
    assert said("after.zip") == before


@pytest.mark.usefixtures("in_process")
def test_a_copy_of_a_rehearsal_as_a_workbook_comes_in_nowhere(db: None, tmp_path: Path) -> None:
    event = world.event("Dawn pairs", 4)
    made, _ = rehearsed(event, boats=1)
    file = tmp_path / "rehearsal.xlsx"
    call_command("export_event", made.event.slug, "--format", "xlsx", "--out", str(file))
    for wiped in (False, True):
        if wiped:
            wipe_rehearsal(event, "quill")
        out = io.StringIO()
        with pytest.raises((SystemExit, CommandError)) as refused:
            call_command("import_event", str(file), stdout=out)
        assert "only rehearsals are named REHEARSAL" in out.getvalue() + str(refused.value)
        assert Event.everyone.count() == (1 if wiped else 2)


def queries_by_event() -> list[str]:
    """Calls that look other rows up by their event's season, club or date, without a word of rehearsals."""
    wrong = []
    for path in sorted(ROOT.rglob("*.py")):
        name = path.relative_to(ROOT.parent).as_posix()
        if "migrations" in name or any(name.startswith(place) for place in TOO):
            continue
        for call in (one for one in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(one, ast.Call)):
            if getattr(call.func, "attr", getattr(call.func, "id", "")) not in ASKS:
                continue
            keys = {key.arg or "" for key in call.keywords}
            by_event = any(re.match(r"(\w+__)?event__(season|date|slug|name|is_public|closed_at)", key) for key in keys)
            if by_event and not any(key.endswith("event__rehearsal_of") for key in keys):
                wrong.append(f"{name}:{call.lineno}")
    return wrong


def test_no_query_of_a_season_forgets_it() -> None:
    assert queries_by_event() == []

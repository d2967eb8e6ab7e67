"""A club's site as plain files: every link leads to a file, a second run changes nothing, no stranger's file is touched."""

import json
import os
import re
from collections.abc import Iterator
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
import world
from django.core.management import CommandError, call_command

from weighin.clubs.services.clubs import open_club
from weighin.events.models import Event
from weighin.standings.services import publish_result, set_public

pytestmark = pytest.mark.django_db

SLIPS = [
    world.slip(gross="9.47", big_fish="1.80"),
    world.slip(boat="2", fish="6", alive="5", dead="1", gross="8.25", big_fish="1.95", big_fish_alive="yes"),
]


@pytest.fixture
def event() -> Event:
    made: Event = world.event("First light", slips=SLIPS)
    publish_result(made, "test")
    open_club(made.club, True, "test")
    return made


def published(event: Event, folder: Path, capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, int, int]:
    """Files, changed, removed."""
    call_command("publish_static", event.club.slug, str(folder), *words)
    files, changed, removed = re.findall(r"(\d+) (?:files|changed|removed)\b", capsys.readouterr().out)
    return int(files), int(changed), int(removed)


class Links(HTMLParser):
    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.tags: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        picture = tag == "meta" and ("property", "og:image") in attrs
        wanted = ("content",) if picture else ("href", "src", "action", "data")
        self.found += [value for name, value in attrs if name in wanted and value]


def crawled(folder: Path) -> set[Path]:
    """Every file that can be reached from the first page; fails at a link that leads nowhere."""
    waiting, seen = [folder / "index.html"], set()
    while waiting:
        file = waiting.pop()
        if file in seen:
            continue
        assert file.is_file(), file
        seen.add(file)
        waiting += links_of(file)
    return seen


def links_of(file: Path) -> Iterator[Path]:
    if file.suffix == ".css":
        found = [one for one in re.findall(r"url\([\"']?([^\"')]+)", file.read_text()) if not one.startswith("data:")]
    elif file.suffix == ".html":
        found = Links(file.read_text()).found
    else:
        found = []
    for link in found:
        parts = urlsplit(unescape(link))
        if parts.scheme or not parts.path:
            continue
        assert not parts.path.startswith("/") and not parts.query, (file, link)
        yield Path(os.path.normpath(file.parent / unquote(parts.path)))


def files_in(folder: Path) -> dict[str, bytes]:
    found = [file for file in folder.rglob("*") if file.is_file() and file.name != ".weighin-files.json"]
    return {file.relative_to(folder).as_posix(): file.read_bytes() for file in found}


@pytest.mark.parametrize("address", ["", "https://lake.example/"])
def test_every_link_and_asset_leads_to_a_file(
    event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str], address: str
) -> None:
    folder = tmp_path / "copy"
    files, changed, removed = published(event, folder, capsys, *(["--address", address] if address else []))
    found = files_in(folder)
    assert (files, changed, removed) == (len(found), len(found), 0)
    reached = {file.relative_to(folder).as_posix() for file in crawled(folder)}
    results = f"results/{event.slug}"
    assert {"index.html", f"{results}/index.html", f"{results}/check/index.html", "check/check.js"} <= reached
    assert {f"clubs/{event.club.slug}/seasons/2026/index.html", f"{results}/official/1/index.html"} <= reached
    # the root page is the club's again, with links of its own
    assert found.keys() - reached <= {f"{results}/check.svg"}
    for name, body in found.items():
        if name.endswith(".html"):
            assert b"First light angler" not in body and b'type="module"' not in body and b"<form" not in body
            assert b"sign-in" not in body or address


def test_in_another_language_it_has_the_same_files(
    event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    published(event, tmp_path / "copy", capsys)
    published(event, tmp_path / "copia", capsys, "--language", "es")
    english, spanish = files_in(tmp_path / "copy"), files_in(tmp_path / "copia")
    of_scripts = {name for name in spanish if name.startswith("text/es.")}
    assert set(spanish) - of_scripts == set(english) and of_scripts
    assert b'<html lang="es">' in spanish["index.html"] and b'<html lang="en">' in english["index.html"]


def test_the_proof_stands_beside_its_page(event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    published(event, tmp_path / "copy", capsys)
    told = json.loads((tmp_path / "copy" / "results" / event.slug / "proof.json").read_text())
    assert told["format"] == "weighin-proof-1" and told["event"]["slug"] == event.slug
    page = (tmp_path / "copy" / "results" / event.slug / "check" / "index.html").read_text()
    assert "../../../check/check.js" in page and "data-check" not in page and "../proof.json" in page


def test_run_again_it_changes_what_changed_and_removes_what_is_gone(
    event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "copy"
    files, _, _ = published(event, folder, capsys)
    before = files_in(folder)
    assert published(event, folder, capsys) == (files, 0, 0) and files_in(folder) == before
    mine = folder / "results" / event.slug / "mine.txt"
    mine.write_text("mine")
    set_public(event, False, "test")
    left, changed, removed = published(event, folder, capsys)
    assert removed > 5 and changed and left == files - removed
    assert [name for name in files_in(folder) if name.startswith("results/")] == [f"results/{event.slug}/mine.txt"]
    crawled(folder)


def test_a_file_that_somebody_changed_is_left_when_its_page_is_gone(
    event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "copy"
    published(event, folder, capsys)
    page = folder / "results" / event.slug / "index.html"
    page.write_text("mine")
    set_public(event, False, "test")
    call_command("publish_static", event.club.slug, str(folder))
    assert page.read_text() == "mine" and f"results/{event.slug}/index.html" in capsys.readouterr().err


def test_a_folder_of_somebody_else_is_left_alone(
    event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    slug = event.club.slug
    (tmp_path / "theirs").mkdir()
    (tmp_path / "theirs" / "index.html").write_text("theirs")
    (tmp_path / "file").write_text("a file")
    published(event, tmp_path / "copy", capsys)
    for folder, why in (("theirs", "not written here"), ("file", "is a file")):
        with pytest.raises(CommandError, match=why):
            call_command("publish_static", slug, str(tmp_path / folder))
    listed = tmp_path / "copy" / ".weighin-files.json"
    told = json.loads(listed.read_text())
    listed.write_text(json.dumps(told | {"club": "other"}))
    with pytest.raises(CommandError, match="a copy of the club other"):
        call_command("publish_static", slug, str(tmp_path / "copy"))
    listed.write_text("no list")
    with pytest.raises(CommandError, match="not written here"):
        call_command("publish_static", slug, str(tmp_path / "copy"))
    assert (tmp_path / "theirs" / "index.html").read_text() == "theirs"
    del told["files"]["index.html"]
    listed.write_text(json.dumps(told))
    with pytest.raises(CommandError, match=r"something stands where a file should go.*index\.html"):
        call_command("publish_static", slug, str(tmp_path / "copy"))


def test_a_list_that_names_files_outside_removes_none(
    event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder, outside = tmp_path / "copy", tmp_path / "outside.txt"
    published(event, folder, capsys)
    outside.write_text("")
    listed = folder / ".weighin-files.json"
    told = json.loads(listed.read_text())
    # SHA-256 of nothing, FIPS 180-4
    told["files"]["../outside.txt"] = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    listed.write_text(json.dumps(told))
    published(event, folder, capsys)
    assert outside.is_file()


def test_only_of_an_open_club_and_to_a_whole_address(event: Event, tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="whole address"):
        call_command("publish_static", event.club.slug, str(tmp_path / "copy"), "--address", "lake.example")
    (tmp_path / "file").write_text("")
    with pytest.raises(CommandError):
        call_command("publish_static", event.club.slug, str(tmp_path / "file" / "copy"))
    open_club(event.club, False, "test")
    with pytest.raises(CommandError, match="no open club"):
        call_command("publish_static", event.club.slug, str(tmp_path / "copy"))
    assert not (tmp_path / "copy").exists()


def test_another_clubs_event_is_not_in_it(event: Event, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = world.event("Elsewhere", slips=SLIPS, club="Other Anglers")
    publish_result(other, "test")
    published(event, tmp_path / "copy", capsys)
    assert not any(other.slug in name for name in files_in(tmp_path / "copy"))
    feed = json.loads((tmp_path / "copy" / "clubs" / event.club.slug / "feed.json").read_text())
    assert [item["title"] for item in feed["items"]] == ["First light: Official results, version 1"]
    assert "url" not in feed["items"][0] and "feed_url" not in feed

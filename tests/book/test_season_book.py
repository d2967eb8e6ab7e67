"""The season book: one PDF whose contents lead to its pages, the same as a folder of files, for members alone."""

import csv
import io
import json
import re
from calendar import month_abbr
from collections.abc import Iterator, Sequence
from pathlib import Path
from zipfile import ZipFile

import pytest
import world
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse
from mortality.seasons import fished, season_of
from openpyxl import load_workbook
from pypdf import PdfReader
from pypdf.generic import Destination

from weighin.accounts.domain.roles import Role
from weighin.advice.pages.season_json import season_document
from weighin.book.files.book import book_file, book_folder
from weighin.book.queries.book import season_book
from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.mortality.pages import season_words
from weighin.mortality.queries.trend import club_trend
from weighin.reports.writers.pdf.chapters import ChapterDocument
from weighin.roster.models import Angler
from weighin.seasons.files.standings import standings_file
from weighin.seasons.pages.words import headline
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db
CHAPTERS = ("1. Standings", "2. Big fish", "3. Mortality: fish that died", "4. Care practices", "5. Catch report")
FILES = ("standings", "big-fish", "mortality", "mortality-by-season", "care-practices", "catch-report")
NAME = "Zebulon Quarrington"


BIG = {"gross": "9.00", "big_fish": "1.91"}


def year(name: str, dead: Sequence[int], boats: int = 6) -> Season:
    """A season with an event of so many livewells for each count of dead fish; half of the boats have ice."""
    events = [
        fished(
            f"Event {n} of {name}",
            [(7, min(7, max(0, of - 7 * well))) for well in range(boats)],
            season=name,
            date=f"{name}-{n:02d}-10",
            lake=f"{56 + 4 * n} F",
            slips=[world.slip(boat=str(boats + 1), fish="6", alive="6", **BIG)],
            boats=1,
            notes=[{"boat": str(boat), "ice_lb": str(10 * (boat % 2))} for boat in range(1, boats + 1)],
        )
        for n, of in enumerate(dead, start=1)
    ]
    for event in events:
        Angler.objects.filter(entry__event=event, entry__boat=1, position=1).update(name=NAME)
    return season_of(*events)


@pytest.fixture
def season() -> Season:
    """2026 of six events, with 2025 of four before it and one event of 2027 after it."""
    year("2025", (6, 9, 12, 8))
    found = year("2026", (1, 0, 2, 1, 4, 3))
    year("2027", (9,))
    return found


@pytest.fixture
def nothing() -> Season:
    club = Club.objects.create(name="Empty Creek", slug="empty-creek")
    return Season.objects.create(club=club, name="2026", slug="2026")


def pdf(season: Season) -> PdfReader:
    return PdfReader(io.BytesIO(book_file(season_book(season), "pdf")))


def said(text: str) -> str:
    return re.sub(r"\s+", " ", text.replace("\u00a0", " "))


def words(reader: PdfReader) -> str:
    return said(" ".join(page.extract_text() for page in reader.pages))


def bookmarks(reader: PdfReader) -> Iterator[tuple[int, str, int]]:
    """Level, words and page of every bookmark."""

    def walk(entries: Sequence[object], level: int) -> Iterator[tuple[int, str, int]]:
        for entry in entries:
            if isinstance(entry, list):
                yield from walk(entry, level + 1)
            else:
                assert isinstance(entry, Destination)
                page = reader.get_destination_page_number(entry)
                assert page is not None
                yield level, str(entry.title), page + 1

    return walk(reader.outline, 0)


def links(reader: PdfReader) -> list[tuple[str, int]]:
    """Words and page of every link of the first page, from top to bottom."""
    found = []
    for one in reader.pages[0]["/Annots"]:
        link = one.get_object()
        assert link["/Subtype"] == "/Link"
        page = reader.get_page_number(link["/Dest"][0].get_object())
        assert page is not None
        found.append((float(link["/Rect"][1]), str(link["/Contents"]), page + 1))
    return [(title, page) for _, title, page in sorted(found, reverse=True)]


def test_the_contents_say_where_each_part_is_and_lead_there(season: Season) -> None:
    reader = pdf(season)
    marked = list(bookmarks(reader))
    assert tuple(title for level, title, _ in marked if level == 0) == CHAPTERS
    sections = [title for level, title, _ in marked if level == 1]
    assert {"Teams", "Anglers", "What changed since 2025", "Care practices compared"} <= set(sections)
    assert links(reader) == [(title, page) for _, title, page in marked]
    first = said(reader.pages[0].extract_text())
    assert first.count("page 1 of") == 1
    for _, title, page in marked:
        assert f"{said(title)} " in f"{said(reader.pages[page - 1].extract_text())} ", (title, page)
        assert page > 1
    numbers = [int(line) for line in reader.pages[0].extract_text().split("\n") if line.isdigit()]
    assert sorted(numbers) == sorted(page for _, _, page in marked)
    for number, one in enumerate(reader.pages, start=1):
        assert f"page {number} of {len(reader.pages)}" in said(one.extract_text())
        fonts = [font.get_object()["/BaseFont"] for font in one["/Resources"]["/Font"].values()]
        assert fonts and all("DejaVu" in font for font in fonts)  # the built-in ones are never embedded


def test_a_heading_never_ends_a_page() -> None:
    """Wherever on the page it comes, what it heads begins below it."""
    seen = set()
    for lines in range(20, 75):
        document = ChapterDocument(title="Book", foot="Foot")
        document.contents()
        document.chapter("Chapter")
        document.heading("Its finding", first=True)
        for line in range(lines):
            document.small(f"Line {line}")
        document.heading("A section")
        for line in range(3):
            document.text(f"Below it {line}")
        reader = PdfReader(io.BytesIO(document.build()))
        marked = {title: page for _, title, page in bookmarks(reader)}
        below = reader.pages[marked["A section"] - 1].extract_text()
        assert "A section" in below and "Below it 2" in below, lines
        seen.add(marked["A section"])
    assert seen == {2, 3}


def test_the_book_says_what_its_parts_say(season: Season) -> None:
    book, text = season_book(season), words(pdf(season))
    assert (
        headline(book.standings) in text and "Provisional: 6 of 6 events have no official result yet: Event 1" in text
    )
    assert season_words.title(book.mortality) in text and said(season_words.says(book.mortality)) in text
    step = book.since
    assert step is not None and (step.before.season.name, step.after.season.name) == ("2025", "2026")
    assert step == club_trend(season.club).steps[0]
    assert said(step.said) in text and said(step.alike_said) in text
    assert "Fewer of the fish were dead in 2026 than in 2025." in text
    assert [one.season.name for one in book.seasons.seasons] == ["2025", "2026"] and "2027" not in text
    for one in book.practices:
        assert said(one.said) in text
    assert book.catch is not None and f"Fish registered {book.catch.fish}" in text
    assert "It has the anglers’ names: it is for members." in text and NAME in text


def test_a_clear_practice_is_the_finding_of_its_chapter() -> None:
    season = season_of(
        *(
            fished(
                f"Event {n}",
                [(7, 0 if well % 2 and well > 1 else 1 if well % 2 else 5) for well in range(12)],
                date=f"2026-0{n}-10",
                notes=[{"boat": str(well + 1), "ice_lb": str(10 * (well % 2))} for well in range(12)],
            )
            for n in (5, 6, 7)
        )
    )
    assert "Ice: clearly fewer dead." in words(pdf(season))


def test_the_folder_has_every_part_in_every_form(season: Season) -> None:
    book = season_book(season)
    with ZipFile(io.BytesIO(book_file(book, "zip"))) as packed:
        assert packed.testzip() is None
        files = {name: packed.read(name) for name in packed.namelist()}
    wanted = {f"{name}.{form}" for name in FILES for form in ("csv", "xlsx", "json")}
    assert set(files) == wanted | {"season-book.pdf", "contents.txt"}
    for name in FILES:
        assert list(csv.reader(io.StringIO(files[f"{name}.csv"].decode("utf-8-sig"))))[1:], name
        assert load_workbook(io.BytesIO(files[f"{name}.xlsx"])).worksheets[0].max_row > 1, name
        assert json.loads(files[f"{name}.json"]), name
        assert f"{name} (.csv, .json, .xlsx): " in files["contents.txt"].decode("utf-8-sig")
    assert files["standings.csv"] == standings_file(book.standings, "csv")
    assert json.loads(files["standings.json"]) == json.loads(standings_file(book.standings, "json"))
    assert json.loads(files["mortality.json"]) == season_document(book.mortality)
    assert {"Season", "Events", "Livewells"} <= set(load_workbook(io.BytesIO(files["mortality.xlsx"])).sheetnames)
    change = json.loads(files["mortality-by-season.json"])["change"]
    assert book.since is not None and book.since.whole is not None
    assert change["from"] == "2025" and change["whole"]["difference"] == book.since.whole.difference < 0
    lines = {line["what"]: line["figure"] for line in json.loads(files["catch-report.json"])["lines"]}
    assert book.catch is not None and lines["Fish registered"] == book.catch.fish == 6 * 48
    assert lines["Weight registered, lb"] == f"{book.catch.pounds:.2f}"
    assert PdfReader(io.BytesIO(files["season-book.pdf"])).pages


def test_anglers_names_stand_where_the_seasons_files_have_them(season: Season) -> None:
    for name, content in book_folder(season_book(season)).items():
        if name.endswith(".xlsx"):
            with ZipFile(io.BytesIO(content)) as parts:
                content = b"".join(parts.read(part) for part in parts.namelist())
        elif name.endswith(".pdf"):
            content = words(PdfReader(io.BytesIO(content))).encode()
        assert (NAME.encode() in content) == name.startswith(("standings.", "season-book.")), name


def test_a_season_without_one_before_it() -> None:
    text = words(pdf(year("2026", (1, 4, 2))))
    assert "What changed since the season before One season is no trend." in text
    change = json.loads(book_folder(season_book(Season.objects.get()))["mortality-by-season.json"])
    assert change["change"] is None and len(change["seasons"]) == 1


def test_a_season_of_one_event_after_one_of_one_event() -> None:
    year("2025", (3,))
    season = year("2026", (1,))
    text = words(pdf(season))
    assert "From 2025 to 2026 nothing can be said: 2025 and 2026 had one event with fish" in text
    assert "1 event, 7 teams." in text
    assert json.loads(book_folder(season_book(season))["mortality-by-season.json"])["change"]["whole"] is None


def test_an_empty_season_is_a_book_too(nothing: Season) -> None:
    reader = pdf(nothing)
    text = words(reader)
    assert tuple(title for level, title, _ in bookmarks(reader) if level == 0) == CHAPTERS
    for sentence in (
        "No event of the season has a slip yet.",
        "No points yet.",
        "No big fish yet.",
        "there is no rate to give and none is made up",
        "No fish came to the scales this season: there is nothing to set beside earlier ones.",
        "No care practice can be compared yet.",
        "No catch to report yet.",
    ):
        assert sentence in text
    files = book_folder(season_book(nothing))
    assert not {"Teams", "Anglers"} & {title for _, title, _ in bookmarks(reader)}
    assert not [name for name in files if name.startswith("catch-report")] and "standings.json" in files


def test_a_season_with_all_events_to_come_and_one_under_way(season: Season) -> None:
    world.event("Frost", 3, season="2026", club=season.club.name, date="2026-12-10")
    text = words(pdf(season))
    assert "6 events fished, 1 to come; 10 teams." in text and "1 event is left" in text


def test_fish_of_one_weight_share_the_title() -> None:
    slips = [world.slip(boat=str(boat), gross="9.00", big_fish="2.00") for boat in (1, 2)]
    event = world.event("Level", world.pairs(2), slips)
    text = words(pdf(event.season))
    assert "Big fish of the year: 2.00 lb. Weight, lb Team Event" in text and text.count("2.00 Pair") == 2


def test_many_events_stand_on_pages_across() -> None:
    season = year("2026", [1] * 10, boats=4)
    reader = pdf(season)
    shapes = {page: float(reader.pages[page - 1].mediabox.width) for _, _, page in bookmarks(reader)}
    wide = {page for page, width in shapes.items() if width == 792}
    pages = {title: page for _, title, page in bookmarks(reader)}
    assert pages["1. Standings"] in wide and pages["Anglers"] in wide and 1 not in wide
    assert float(reader.pages[0].mediabox.width) == 612 == shapes[pages["2. Big fish"]]
    assert float(reader.pages[-1].mediabox.width) == 612
    lists = reader.pages[pages["Teams"] - 1].extract_text().split("\n")
    for head in ("Place", "Team", "Points", *(f"{month_abbr[month]} 10" for month in range(1, 11))):
        assert any(head in line.replace("\N{NO-BREAK SPACE}", " ") for line in lists), head


def test_the_season_page_has_the_button_and_members_alone_get_the_book(season: Season) -> None:
    where = [reverse(f"book:{form}", args=[season.club.slug, season.slug]) for form in ("pdf", "zip")]
    page = reverse("seasons:standings", args=[season.club.slug, season.slug])
    for role in Role.values:
        client = world.member(season.club, role)
        html = client.get(page).content.decode()
        assert all(f'href="{address}"' in html for address in where)
        for address, start in zip(where, (b"%PDF", b"PK"), strict=True):
            answer = client.get(address)
            assert answer.status_code == 200 and answer.content.startswith(start)
            assert f"{season.club.slug}-2026-season-book." in answer.headers["Content-Disposition"]
    call_command("open_club", season.club.slug)
    for address in where:
        assert world.stranger().get(address).status_code == 404
        assert Client().get(address).status_code == 302
        assert client.get(address.replace("2026", "1999")).status_code == 404
    assert f'href="{where[0]}"' in client.get(reverse("events:club", args=[season.club.slug])).content.decode()


def test_the_command_writes_a_pdf_a_zip_or_a_folder(season: Season, tmp_path: Path) -> None:
    club = season.club.slug
    call_command("season_book", club, "2026", out=tmp_path / "book.PDF")
    assert (tmp_path / "book.PDF").read_bytes().startswith(b"%PDF")
    call_command("season_book", season.club.name, "2026", out=tmp_path / "book.zip")
    with ZipFile(tmp_path / "book.zip") as packed:
        names = set(packed.namelist())
    for _ in range(2):
        call_command("season_book", club, "2026", out=tmp_path / "winter")
        assert {file.name for file in (tmp_path / "winter").iterdir()} == names
    there = tmp_path / "meeting.2026"
    there.mkdir()
    call_command("season_book", club, "2026", out=there)
    assert {file.name for file in there.iterdir()} == names


def test_the_command_says_what_is_wrong(season: Season, tmp_path: Path) -> None:
    club = season.club.slug
    for out, words_ in (
        (tmp_path / "book.docx", "is neither a PDF, a ZIP nor a folder"),
        (tmp_path / "none" / "winter", "cannot be made"),
        (tmp_path / "none" / "book.pdf", "cannot be written"),
    ):
        with pytest.raises(CommandError, match=words_):
            call_command("season_book", club, "2026", out=out)
    with pytest.raises(CommandError, match="There is no season"):
        call_command("season_book", club, "1999", out=tmp_path / "book.pdf")
    assert not list(tmp_path.iterdir())


def test_a_folder_is_written_whole_or_not_at_all(season: Season, tmp_path: Path) -> None:
    there, club = tmp_path / "winter", season.club.slug
    (there / "standings.xlsx").mkdir(parents=True)
    (there / "season-book.pdf").write_bytes(b"of last week")
    with pytest.raises(CommandError, match=r"standings.xlsx cannot be written"):
        call_command("season_book", club, "2026", out=there)
    assert {file.name for file in there.iterdir()} == {"standings.xlsx", "season-book.pdf"}
    assert (there / "season-book.pdf").read_bytes() == b"of last week"


def test_a_full_disk_leaves_what_stood_there(season: Season, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    old, new, written = tmp_path / "book.pdf", tmp_path / "winter", Path.write_bytes
    old.write_bytes(b"of last week")
    old.chmod(0o600)

    def half(where: Path, content: bytes) -> int:
        if "standings.json" not in where.name and "book.pdf" not in where.name:
            return written(where, content)
        written(where, content[:10])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", half)
    for out in (old, new):
        with pytest.raises(CommandError, match="No space left on device"):
            call_command("season_book", season.club.slug, "2026", out=out)
    assert [file.name for file in tmp_path.iterdir()] == ["book.pdf"] and old.read_bytes() == b"of last week"
    monkeypatch.undo()
    call_command("season_book", season.club.slug, "2026", out=old)
    assert old.read_bytes().startswith(b"%PDF") and old.stat().st_mode & 0o777 == 0o600


def test_official_results_are_not_called_provisional() -> None:
    event = world.event("Level", world.pairs(2), [world.slip(boat="1"), world.slip(boat="2")])
    publish_result(event, "test")
    assert "Provisional" not in words(pdf(event.season))


def test_an_event_that_was_called_off_is_in_no_part(season: Season) -> None:
    Event.objects.get(name="Event 6 of 2026").event_days.update(status="cancelled")
    book = season_book(season)
    assert "Event 6 of 2026" not in words(pdf(season))
    assert book.catch is not None and book.catch.fish == book.mortality.presented == 5 * 48

"""PDFs as paper: pages that turn where columns want it, the double rule, numbers of pages, every letter of names, the code."""

import io
from itertools import pairwise
from pathlib import Path
from unicodedata import category, normalize

import pypdfium2
import pytest
import world
import zxingcpp
from django.core.management import CommandError, call_command
from django.utils import timezone
from pypdf import PdfReader
from reportlab.pdfbase.ttfonts import TTFont

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.proof.domain.canonical import printed
from weighin.proof.queries.document import proof_document
from weighin.reports.domain.sheet import Sheet, SheetColumn
from weighin.reports.files.event import event_file
from weighin.reports.writers.pdf.document import MARGIN, WHOLE_PAGE, WIDE_PAGE, PdfDocument
from weighin.reports.writers.pdf.fonts import FIGURES, FOLDER, STRONG, WORDS
from weighin.roster.models import Angler
from weighin.standings.services import publish_result, set_public, start_embargo

SITE = "https://lake.example"
NAMES = (
    "Łukasz & Żaneta",  # Polish
    "Ægir Þórsson",  # Icelandic
    "Gülşen Çağrı",  # Turkish
    "Nguyễn Thị Hường",  # Vietnamese
    "Đặng Quỳnh Trâm",
    "Ольга Щёголева",  # Russian
    "Ґалаґан Їжак",  # Ukrainian
    "Μαρία Ζωΐδου",  # Greek
)
# Unicode's blocks and the letters among them that names are written with
LETTERS = (range(0x20, 0x250), range(0x386, 0x3CF), range(0x400, 0x460), range(0x490, 0x494), range(0x1E80, 0x1EFA))


def said(content: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages).split())


def drawn(content: bytes) -> str:
    """The text as the browser's own reader of PDFs finds it."""
    pages = pypdfium2.PdfDocument(io.BytesIO(content))
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def sizes(content: bytes) -> list[str]:
    boxes = [page.mediabox for page in PdfReader(io.BytesIO(content)).pages]
    return ["across" if box.width > box.height else "upright" for box in boxes]


def upright_lines(content: bytes, page: int = 0) -> list[float]:
    """Where lines stand that run over the whole height of a page."""
    found = pypdfium2.PdfDocument(io.BytesIO(content))[page]
    bounds = [one.get_bounds() for one in found.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])]
    return [left for left, bottom, right, top in bounds if top - bottom >= found.get_height() and right - left < 2]


def codes(content: bytes) -> list[str]:
    pages = pypdfium2.PdfDocument(io.BytesIO(content))
    return [found.text for page in pages for found in zxingcpp.read_barcodes(page.render(scale=3).to_pil())]


def table(heads: int, word: str = "Participation") -> Sheet:
    columns = [SheetColumn(f"{word}s {number}", figures=number > 0) for number in range(heads)]
    return Sheet("Wide", columns, [["A team", *range(100, 99 + heads)] for _ in range(60)])


@pytest.mark.parametrize("name", [FIGURES, STRONG, WORDS])
def test_each_font_has_the_letters_of_latin_greek_cyrillic_and_vietnamese_names(name: str) -> None:
    letters = TTFont(name, str(FOLDER / f"{name}.ttf")).face.charToGlyph
    wanted = {sign for block in LETTERS for sign in block if category(chr(sign))[0] == "L"}
    wanted |= {ord(sign) for name in NAMES for sign in name} | {ord(sign) for sign in "0123456789.,−–’“”°□£€$"}
    assert not [chr(sign) for sign in sorted(wanted) if sign not in letters]
    assert (Path(FOLDER) / "LICENCE.txt").stat().st_size


@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_names_are_drawn_letter_by_letter_however_their_marks_were_typed(form: str) -> None:
    names = [normalize(form, name) for name in NAMES]
    document = PdfDocument(title="Names", foot=names[3])
    for name in names:
        document.heading(name)
        document.text(name)
    document.sheet(Sheet("Names", [SheetColumn("Name")], [[name] for name in names]))
    content = document.build()
    for read in (said(content), drawn(content)):
        assert all(read.count(name) >= 3 for name in NAMES) and read.count(NAMES[3]) == 4
    for page in PdfReader(io.BytesIO(content)).pages:
        for font in page["/Resources"]["/Font"].values():
            assert "/FontFile2" in font.get_object()["/FontDescriptor"].get_object()


@pytest.mark.django_db
def test_names_on_slips_and_cards_too() -> None:
    sheets = world.plain_sheets()
    sheets["Teams"][0]["team"] = normalize("NFD", NAMES[3])
    event = world.event_of(sheets)
    Angler.objects.filter(entry__event=event, entry__boat=1, position=1).update(name=normalize("NFD", NAMES[7]))
    client = world.member(event.club)
    for address in ("slips/print/?day=1", "boat-cards.pdf", "morning.pdf"):
        assert NAMES[3] in drawn(client.get(f"/events/{event.slug}/{address}").content)
    assert NAMES[7] in drawn(client.get(f"/events/{event.slug}/morning.pdf").content)


def test_a_section_lies_across_where_its_columns_want_it_and_every_page_has_the_rule_and_its_number() -> None:
    document = PdfDocument(title="Sections", foot="A foot line that says whose this is. " * 9)
    document.heading("Words", first=True)
    document.sheet(table(4))
    document.page()
    document.sheet(table(11))
    document.page(WHOLE_PAGE)
    document.text("A whole page")
    document.page(WIDE_PAGE)
    document.text("Across by itself")
    content = document.build()
    assert sizes(content) == ["upright"] * 2 + ["across"] * 3 + ["upright", "across"]
    pages = PdfReader(io.BytesIO(content)).pages
    for number, page in enumerate(pages):
        text = page.extract_text()
        assert f"page {number + 1} of 7" in text and text.count("whose this is") == 9
        assert ("Participations" in text) == (number < 5)  # heads repeat
        rules = upright_lines(content, number)
        assert len(rules) == (0 if number == 5 else 2) and all(x < MARGIN for x in rules)
    # The foot line ends before the number begins
    for page in pypdfium2.PdfDocument(io.BytesIO(content)):
        text = page.get_textpage()
        place = text.get_text_range().index("page ")
        feet = [text.get_charbox(at) for at in range(text.count_chars()) if text.get_charbox(at)[1] < 36]
        begun = text.get_charbox(place)[0]
        assert all(box[2] < begun or box[0] >= begun for box in feet)


@pytest.mark.parametrize("heads", [3, 8, 12, 15])
def test_no_head_is_broken_in_a_word_and_no_figure_runs_into_the_next(heads: int) -> None:
    document = PdfDocument(title="Heads", foot="")
    document.sheet(table(heads))
    content = document.build()
    first = pypdfium2.PdfDocument(io.BytesIO(content))[0]
    text = first.get_textpage()
    words = text.get_text_range().split()
    assert words.count("Participations") == heads
    row = words[words.index("team") :][: heads - 1]
    assert sorted(map(int, row[1:])) == list(range(100, 99 + heads))[: len(row) - 1]
    boxes = sorted(text.get_rect(at) for at in range(text.count_rects()))
    level = [box for box in boxes if abs(box[1] - boxes[-1][1]) < 1]
    assert all(left[2] <= right[0] + 0.5 for left, right in pairwise(sorted(level)))
    assert all(MARGIN <= box[0] and box[2] <= first.get_width() - MARGIN + 0.5 for box in boxes)


@pytest.mark.django_db
def test_standings_turn_and_a_launch_sheet_does_not() -> None:
    event = world.plain()
    client = world.member(event.club)
    assert set(sizes(client.get(f"/events/{event.slug}/files/pdf").content)) == {"across"}
    assert set(sizes(client.get(f"/events/{event.slug}/launch-sheet.pdf").content)) == {"upright"}
    for address in ("files/pdf", "launch-sheet.pdf", "briefing.pdf", "rules/hand-out.pdf", "money/pay-outs.pdf"):
        content = client.get(f"/events/{event.slug}/{address}").content
        assert len(upright_lines(content)) == 2 and "page 1 of " in said(content)


def published(event: Event) -> Event:
    set_public(event, True, "mara")
    publish_result(event, "mara")
    event.refresh_from_db()
    return event


@pytest.mark.django_db
def test_a_published_official_result_has_the_code_that_checks_it() -> None:
    event = world.plain()
    page = f"{SITE}/results/{event.slug}/check/"
    set_public(event, True, "mara")
    event.refresh_from_db()
    assert not codes(event_file(event, "pdf", SITE)) and "Check this result" not in said(event_file(event, "pdf", SITE))
    published(event)
    content = event_file(event, "pdf", SITE)
    assert codes(content) == [page] and page in said(content)
    figures = printed(proof_document(event)["digest"])
    assert f"Its figures are {figures}." in said(content)
    # Where nobody knows the address, or it opens on this machine alone, the figures stand without a code
    client = world.member(event.club, Role.CLUB_REVIEWER)
    for bare in (
        event_file(event, "pdf"),
        client.get(f"/events/{event.slug}/files/pdf", HTTP_HOST="127.0.0.1").content,
    ):
        assert not codes(bare) and figures in said(bare) and f"/results/{event.slug}/check/" in said(bare)
    asked = client.get(f"/events/{event.slug}/files/pdf", HTTP_HOST="testserver").content
    assert codes(asked) == [f"http://testserver/results/{event.slug}/check/"]
    start_embargo(event, timezone.now(), "mara")
    event.refresh_from_db()
    assert "Check this result" not in said(event_file(event, "pdf", SITE))


@pytest.mark.django_db
def test_an_official_result_that_is_not_published_has_no_code() -> None:
    event = world.plain()
    published(event)
    set_public(event, False, "mara")
    event.refresh_from_db()
    assert "Check this result" not in said(event_file(event, "pdf", SITE))


@pytest.mark.django_db
def test_the_command_takes_the_address(tmp_path: Path) -> None:
    event = published(world.plain())
    out = tmp_path / "result.pdf"
    call_command("export_event", event.slug, format="pdf", out=out, address=f"{SITE}/")
    assert codes(out.read_bytes()) == [f"{SITE}/results/{event.slug}/check/"]
    with pytest.raises(CommandError, match="--address is a whole address"):
        call_command("export_event", event.slug, format="pdf", out=out, address="lake.example")


LONGEST = "Donaudampfschifffahrt" * 5  # no longer name is taken, and it has no space


@pytest.mark.parametrize("figures", [False, True])
def test_a_name_without_spaces_goes_on_below_within_its_column(figures: bool) -> None:
    document = PdfDocument(title="Names", foot="")
    columns = [SheetColumn("Place", True), SheetColumn("Team"), SheetColumn("Event"), SheetColumn("Points", figures)]
    document.sheet(Sheet("Names", columns, [[1, LONGEST, f"Cup {LONGEST}", 100]]))
    content = document.build()
    text = pypdfium2.PdfDocument(io.BytesIO(content))[0].get_textpage()
    found = "".join(text.get_text_range().split())
    assert all(found.count(sign) == (LONGEST * 2 + "PlaceTeamEventPointsCup1100page1of1").count(sign) for sign in "Dfh")
    boxes = sorted(text.get_rect(at) for at in range(text.count_rects()))
    assert all(box[2] <= 612 - MARGIN + 0.5 for box in boxes)
    for left, right in pairwise(sorted(boxes, key=lambda box: (round(box[1]), box[0]))):
        assert round(left[1]) != round(right[1]) or left[2] <= right[0] + 0.5


PAPERS = (
    "files/pdf", "launch-sheet.pdf", "briefing.pdf", "rules/hand-out.pdf", "money/pay-outs.pdf", "morning.pdf", "boat-cards.pdf",
    "slips/print/?day=1", "scales/checks.pdf", "catch/pdf",
)  # fmt: skip


@pytest.mark.django_db
def test_every_paper_of_an_event_has_its_fonts_in_it() -> None:
    event = published(world.plain())
    client = world.member(event.club)
    for address in PAPERS:
        for page in PdfReader(io.BytesIO(client.get(f"/events/{event.slug}/{address}").content)).pages:
            for font in page["/Resources"]["/Font"].values():
                assert "/FontFile2" in font.get_object()["/FontDescriptor"].get_object(), address

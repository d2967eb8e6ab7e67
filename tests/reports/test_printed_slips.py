"""Slips, boat cards and blank pads on paper: what they say, that it fits, and that the codes open the same slip."""

import io
import re

import pypdfium2
import pytest
import segno
import world
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.audit.domain.reading_out import read_out
from weighin.events.models import Event
from weighin.reports.writers.leaves.slip_pdf import slips_pdf
from weighin.reports.writers.leaves.small_paper import PAPERS, QR
from weighin.roster.models import Entry
from weighin.slips.pages.printed_slips import PrintedSlip, printed_slips
from weighin.slips.queries.ledger import check_figures
from weighin.slips.queries.slips import current_slips
from weighin.slips.queries.slips import slips as slips_of
from weighin.slips.services.slips import correct_slip, record_slip, void_slip

SITE = "http://lake.test:8000"
MM = 72 / 25.4


@pytest.fixture
def event(db: None) -> Event:
    return world.plain()


def pages(content: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(content)).pages]


def said(content: bytes) -> str:
    return " ".join(pages(content))


def first(event: Event) -> PrintedSlip:
    return printed_slips(event, slips_of(event), SITE)[0]


def made_up(**other: object) -> PrintedSlip:
    plain: dict[str, object] = {
        "number": 25,
        "club": "Alder Crappie Club",
        "where": "Midsummer Pairs, Quill Reservoir",
        "when": "Sat, June 20, 2026, weighed 2:42 PM",
        "boat": 27,
        "team": "Okafor & Lind",
        "fish": ("7 fish", "6 alive, 1 dead", "0 short"),
        "heed": "",
        "lines": (("Net weight, 7 fish", "9.84"), ("1 dead fish at 0.25", "− 0.25")),
        "total": "9.59",
        "unit": "lb",
        "big_fish": "Big fish, alive, 1.62 lb: counts.",
        "readings": "Scale reading 9.84 lb",
        "official": "R. Castellan",
        "address": SITE + "/events/midsummer-pairs-2026-06-20/slips/25/",
        "check": "1234 5678",
    }
    return PrintedSlip(**{**plain, **other})  # type: ignore[arg-type]


def dark(content: bytes, page: int, address: str) -> list[list[bool]]:
    """The code of a page, read from its picture: a bool a module, by the middle of each."""
    scale = 6
    picture = pypdfium2.PdfDocument(content)[page].render(scale=scale).to_pil().convert("L")
    count = len(segno.make(address, error="m", micro=False).matrix)
    step, left, top = QR * scale / count, 7 * MM * scale, picture.height - (7 * MM + QR) * scale
    return [
        [picture.getpixel((int(left + (x + 0.5) * step), int(top + (y + 0.5) * step))) < 128 for x in range(count)]
        for y in range(count)
    ]


def test_a_slip_says_boat_team_every_line_the_sum_and_who_signs(event: Event) -> None:
    for slip, found in zip(slips_of(event), printed_slips(event, slips_of(event), SITE), strict=True):
        text = said(slips_pdf("A slip", [found], PAPERS["a6"]))
        assert f"Slip {slip.number}" in text and slip.entry.name in text and found.total in text
        for words, figures in found.lines:
            assert words in text and " ".join(figures.split()) in text
        assert "Angler" in text and f"Official, {found.official}" in text and found.check in text and "■" not in text


@pytest.mark.parametrize(("name", "wide", "tall"), [("a6", 105, 148), ("quarter-letter", 107.95, 139.7)])
def test_it_is_the_size_of_its_paper_and_keeps_its_margins(event: Event, name: str, wide: float, tall: float) -> None:
    content = slips_pdf("A slip", [first(event)], PAPERS[name])
    (page,) = PdfReader(io.BytesIO(content)).pages
    assert float(page.mediabox.width) == pytest.approx(wide * MM, abs=0.1)
    assert float(page.mediabox.height) == pytest.approx(tall * MM, abs=0.1)
    inked_within_margins(content)


def inked_within_margins(content: bytes) -> None:
    for page in pypdfium2.PdfDocument(content):
        picture = page.render(scale=3).to_pil().convert("L").point(lambda v: 255 if v < 200 else 0)
        left, top, right, bottom = picture.getbbox()
        edge = 7 * MM * 3 - 3
        assert left >= edge and top >= edge and picture.width - right >= edge and picture.height - bottom >= edge - 3


@pytest.mark.parametrize("paper", ["a6", "quarter-letter"])
def test_its_code_is_the_address_of_the_same_slip_and_large_enough(event: Event, paper: str) -> None:
    found = first(event)
    content = slips_pdf("A slip", [found], PAPERS[paper])
    expected = [[bool(m) for m in row] for row in segno.make(found.address, error="m", micro=False).matrix]
    assert dark(content, 0, found.address) == expected
    assert QR >= 20 * MM
    assert found.address == SITE + reverse("slips:slip", args=[event.slug, found.number])


def test_forty_deductions_a_long_team_and_long_reasons_fit_on_leaves(db: None) -> None:
    lines = tuple(
        (f"Deduction {n} of those that the rule sheet names, 0.25 each", f"− 0.{n:02d}") for n in range(1, 41)
    )
    long = made_up(
        team="Bartholomew Featherstonehaugh-Castellan & Wilhelmina Vanderweghen-Okonkwo of the Upper Dunnock Valley",
        lines=(("Net weight, 7 fish", "109.84"), *lines),
        heed="Replaces slip 24, so the angler signs again. " + "The bag was weighed with the fish. " * 10,
        official="A very long name of an official who reads the scale at the second table",
        total="101.64",
    )
    for paper in ("a6", "quarter-letter"):
        content = slips_pdf("A slip", [long], PAPERS[paper])
        found = pages(content)
        text = " ".join(found)
        assert len(found) > 1 and all(
            words in text and " ".join(figures.split()) in text for words, figures in long.lines
        )
        assert text.count("Angler") == 1 and "Angler" in found[-1] and "101.64" in found[-1]
        assert all("Slip 25" in page for page in found) and f"leaf 1 of {len(found)}" in found[0]
        inked_within_margins(content)


@pytest.mark.parametrize(("unit", "total"), [("lb", "9.59"), ("lb-oz", "12-15.25"), ("kg", "12.345")])
def test_every_unit_fits_one_leaf(unit: str, total: str) -> None:
    content = slips_pdf(
        "A slip", [made_up(total=total, unit="lb-oz" if unit == "lb-oz" else unit)], PAPERS["quarter-letter"]
    )
    assert len(pages(content)) == 1 and total in said(content)
    inked_within_margins(content)


def test_no_text_is_smaller_than_eight_points(event: Event) -> None:
    content = slips_pdf("A slip", [first(event)], PAPERS["quarter-letter"])
    sizes: list[float] = []

    def look(text: str, cm: list[float], tm: list[float], font: object, size: float) -> None:
        if text.strip():
            sizes.append(size * abs(tm[3]))

    PdfReader(io.BytesIO(content)).pages[0].extract_text(visitor_text=look)
    assert sizes and min(sizes) >= 8


def test_every_font_is_embedded(event: Event) -> None:
    reader = PdfReader(io.BytesIO(slips_pdf("Łukasz", [made_up(team="Łukasz & Zoë")], PAPERS["a6"])))
    fonts = [font.get_object() for page in reader.pages for font in page["/Resources"]["/Font"].values()]  # type: ignore[index]
    assert fonts and all("/FontFile2" in font["/FontDescriptor"] for font in fonts)
    assert "Łukasz" in reader.pages[0].extract_text()


def test_a_correction_says_what_it_replaces_and_the_old_one_that_it_does_not_count(db: None) -> None:
    event = world.large(3)
    old = current_slips(event)[0]
    written = {
        "boat": str(old.entry.boat), "day": str(old.day), "fish": "0", "alive": "0", "dead": "0",
        "reason": "Read from the wrong bag", "official": "Ash",
    }  # fmt: skip
    new = correct_slip(old, written, "test")
    by_number = {p.number: p for p in printed_slips(event, slips_of(event), SITE)}
    text = said(slips_pdf("Both", [by_number[new.number], by_number[old.number]], PAPERS["a6"]))
    assert f"Replaces slip {old.number}, so the angler signs again. Read from the wrong bag" in text
    assert f"Does not count: replaced by slip {new.number}." in text
    void = void_slip(new, "Never weighed", "test")
    heeds = {p.number: p.heed for p in printed_slips(event, slips_of(event), SITE)}
    assert heeds[void.number] == f"Voids slip {new.number}: the boat has no weight from it. Never weighed"
    assert f"voided by slip {void.number}" in heeds[new.number]


def test_a_second_slip_says_that_neither_counts(db: None) -> None:
    event = world.large(3)
    old = current_slips(event)[0]
    written = {
        "boat": str(old.entry.boat),
        "day": str(old.day),
        "fish": "0",
        "alive": "0",
        "dead": "0",
        "official": "A",
    }
    new = record_slip(event, written, "test")
    heeds = {p.number: p.heed for p in printed_slips(event, slips_of(event), SITE)}
    assert "neither counts" in heeds[old.number] and "neither counts" in heeds[new.number]


def test_the_check_figures_come_from_the_link_and_stand_on_the_slips_page_too(event: Event) -> None:
    slip = current_slips(event)[0]
    assert re.fullmatch(r"\d{4} \d{4}", check_figures(slip.link))
    assert int(check_figures(slip.link).replace(" ", "")) == int(slip.link, 16) % 10**8
    page = world.member(event.club).get(reverse("slips:slip", args=[event.slug, slip.number])).content.decode()
    assert check_figures(slip.link) in page
    assert reverse("reports:slip_pdf", args=[event.slug, slip.number]) in page


def test_members_print_one_a_day_and_the_cards(event: Event) -> None:
    client = world.member(event.club)
    one = client.get(reverse("reports:slip_pdf", args=[event.slug, 1]) + "?paper=a6")
    assert one["Content-Type"] == "application/pdf" and "Slip 1" in said(one.content)
    day = client.get(reverse("reports:slips_pdf", args=[event.slug]) + "?day=1&paper=a4")
    numbers = [slip.number for slip in current_slips(event) if slip.day == 1]
    assert all(f"Slip {number}" in said(day.content) for number in numbers)
    assert len(pages(day.content)) == -(-len(numbers) // 4)
    cards = client.get(reverse("reports:boat_cards", args=[event.slug]) + "?day=2&paper=quarter-letter")
    entered = list(Entry.objects.filter(event=event, status="entered").order_by("boat"))
    assert len(pages(cards.content)) == len(entered)
    for page, entry in zip(pages(cards.content), entered, strict=True):
        assert entry.name in page and str(entry.boat) in page and "Be in by" in page
    inked_within_margins(cards.content)


@pytest.mark.parametrize(
    ("name", "args", "query"),
    [
        ("slip_pdf", [999], ""),
        ("slip_pdf", [1], "?paper=napkin"),
        ("slips_pdf", [], "?day=99"),
        ("slips_pdf", [], "?day=x"),
        ("boat_cards", [], "?day=²"),
    ],
)
def test_what_is_not_there_is_not_printed(event: Event, name: str, args: list[int], query: str) -> None:
    assert world.member(event.club).get(reverse(f"reports:{name}", args=[event.slug, *args]) + query).status_code == 404


def test_without_log_in_nothing_is_printed(event: Event) -> None:
    answer = Client().get(reverse("reports:slip_pdf", args=[event.slug, 1]))
    assert answer.status_code == 302 and "/sign-in/" in answer["Location"]


def test_a_long_officials_name_and_the_paper_it_came_from_stand_on_the_slip() -> None:
    name = "Bartholomew Featherstonehaugh-Castellan, second table"
    for paper in ("a6", "quarter-letter"):
        content = slips_pdf("A slip", [made_up(official=name, paper="paper slip 103 of set Blue")], PAPERS[paper])
        assert name.replace(" ", "") in said(content).replace(" ", "")
        assert "From paper slip 103 of set Blue." in said(content) and len(pages(content)) == 1
        inked_within_margins(content)


@pytest.mark.parametrize("paper", ["a6", "quarter-letter"])
def test_a_reason_and_figures_as_long_as_may_be_written_fit_on_four_leaves(paper: str) -> None:
    heed = (
        "Does not count: replaced by slip 26. "
        + "w" * 500
        + " Replaces slip 24, so the angler signs again. "
        + "x" * 500
    )
    long = made_up(heed=heed, official="Q" * 500, readings="Largest fish " + "1.71, " * 80, team="T" * 120)
    content = slips_pdf("A slip", [long], PAPERS[paper])
    assert said(content).count("1.71,") == 80
    assert len(pages(content)) <= 4 and pages(content)[-1].count("Angler") == 1
    inked_within_margins(content)


def test_the_pages_of_teams_and_slips_lead_to_what_is_printed_of_a_day(event: Event) -> None:
    client = world.member(event.club, Role.CLUB_REVIEWER)
    for page, name in (("roster:teams", "boat_cards"), ("slips:slips", "slips_pdf")):
        shown = client.get(reverse(page, args=[event.slug])).content.decode()
        links = re.findall(f'href="({reverse(f"reports:{name}", args=[event.slug])}[^"]+)"', shown)
        assert len(links) == 4, page  # two days that were fished, on two papers
        for link in links:
            answer = client.get(link.replace("&amp;", "&"))
            # A day without a slip has nothing to print
            assert answer.status_code == 200 or name == "slips_pdf", link


@pytest.mark.django_db
def test_the_first_and_the_last_slip_of_a_day_say_how_many_and_in_which_figures_they_end() -> None:
    event = world.event(days=2, slips=[world.slip(boat=str(boat)) for boat in range(1, 5)])
    record_slip(event, {**world.slip(boat="1"), "day": "2"}, "mara")
    slips = list(slips_of(event))
    texts = pages(slips_pdf("Slips", printed_slips(event, slips, SITE), PAPERS["a6"]))
    for slip, text in zip(slips, texts, strict=True):
        n = "1 slip" if slip.position == 1 else f"{slip.position} slips"
        proof = f"Proof of the slips up to this one: {n}, {read_out(slip.link)}"
        assert (proof in text) == (slip.position in (1, 4, 5)), text

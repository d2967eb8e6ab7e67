"""Pages of rules in a browser: filled sheets of paper, and for everyone."""

import io
from typing import Any

import pytest

CLUB, EVENT = "/clubs/dunnock-valley-crappie-club", "/events/high-summer-2026"
AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
COMPARED = [f"{CLUB}/sheets/compare/?one={one}&other=event:high-summer-2026" for one in ("defaults", "start:couples")]


@pytest.fixture
def director(window: Any, site: Any, sign_in: Any) -> Any:
    page = window(site.address)
    sign_in(page, "director")
    return page


def first_sheet(page: Any, size: str) -> tuple[int, float]:
    """How many sheets a page prints on, and how far down the first one is written, 0 to 1."""
    import pypdfium2

    paper = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format=size)))
    text = paper[0].get_textpage()
    lowest = min(text.get_rect(n)[1] for n in range(text.count_rects()))
    return len(paper), 1 - lowest / paper[0].get_height()


def look_at_a_change(page: Any) -> None:
    page.goto(f"{EVENT}/rules/change/")
    page.fill("[name=dead_fish_penalty]", "0.5, 1")
    page.click("button[value=look]")
    page.wait_for_selector("text=Nothing is saved yet.")


@pytest.mark.parametrize("size", ["Letter", "A4"])
@pytest.mark.parametrize("address", [*COMPARED, f"{EVENT}/rules/"])
def test_the_first_sheet_of_long_rules_is_filled(director: Any, address: str, size: str) -> None:
    director.goto(address)
    sheets, filled = first_sheet(director, size)
    assert sheets > 1 and filled >= 0.6


def test_a_clubs_sheet_fills_its_first_sheet_of_paper(window: Any, own_site: Any, sign_in: Any) -> None:
    page = window(own_site.address)
    sign_in(page, "director")
    page.goto(f"{CLUB}/sheets/new/?source=start:couples&unit=lb")
    page.fill("[name=name]", "Couples")
    page.click("button:has-text('Save the sheet')")
    page.wait_for_url(f"**{CLUB}/sheets/couples/")
    sheets, filled = first_sheet(page, "Letter")
    assert sheets > 1 and filled >= 0.6


@pytest.mark.parametrize("width", [390, 1280])
def test_everyone_can_change_rules_and_nothing_scrolls_sideways(director: Any, width: int) -> None:
    from axe_playwright_python.sync_playwright import Axe

    director.set_viewport_size({"width": width, "height": 900})
    for go in (look_at_a_change, lambda page: page.goto(f"{CLUB}/seasons/2026/rules/")):
        go(director)
        found = Axe().run(director, options={"runOnly": AA})
        assert found.violations_count == 0, found.generate_report()
        assert director.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_change_is_looked_at_and_names_who_moves(director: Any) -> None:
    look_at_a_change(director)
    rows = director.locator("table.moved tbody tr")
    assert rows.count() == 12 and "boat 13" in rows.first.inner_text()
    assert director.locator("h1").inner_text() == "12 places would change, no prize."
    assert director.input_value("[name=dead_fish_penalty]") == "0.5, 1"
    assert director.locator("button[value=save]").is_visible()

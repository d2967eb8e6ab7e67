"""The briefing in a browser: one sheet on paper, and for everyone."""

import io
from typing import Any

import pytest

HOT, TWO_DAYS = "/results/high-summer-2026/briefing/", "/results/dogwood-two-day-2026/briefing/"
AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


@pytest.mark.parametrize("address", [HOT, TWO_DAYS])
def test_it_prints_on_one_sheet(window: Any, site: Any, address: str) -> None:
    import pypdfium2

    page = window(site.address)
    page.goto(address)
    paper = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format="Letter")))
    assert len(paper) == 1
    said = paper[0].get_textpage().get_text_range()
    for words in ("Briefing for every boat", "Rules in short", "insulated gloves", "Clean, drain and dry"):
        assert words in said
    assert "as a page to print" not in said


@pytest.mark.parametrize("light", ["paper", "sun", "night"])
@pytest.mark.parametrize("width", [390, 1280])
def test_everyone_can_read_it(window: Any, site: Any, width: int, light: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = window(site.address, viewport={"width": width, "height": 900})
    page.goto(HOT)
    page.click(f".light [value={light}]")
    found = Axe().run(page, options={"runOnly": AA})
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_another_day_is_a_link_away(page: Any) -> None:
    page.goto(TWO_DAYS)
    page.get_by_role("link", name="Day 2", exact=True).click()
    assert "day=2" in page.url and "day 2" in page.inner_text("header.opening")
    page.goto(HOT)
    page.click("text=Plan your own livewell")
    assert page.input_value("[name=lake]") == "86"

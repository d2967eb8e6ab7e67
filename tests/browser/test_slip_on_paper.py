"""A slip's own page and the pads in a browser: one small leaf on paper, and for everyone."""

import io
from typing import Any

import pytest

EVENT = "/events/turnover-2026"
SIZES = {"A6": ("105mm", "148mm"), "quarter letter": ("4.25in", "5.5in")}
AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


@pytest.fixture
def member(window: Any, site: Any, sign_in: Any) -> Any:
    page = window(site.address)
    sign_in(page, "scales")
    return page


@pytest.mark.parametrize("size", list(SIZES))
def test_a_slips_page_prints_on_one_small_leaf_with_a_line_to_sign(member: Any, size: str) -> None:
    import pypdfium2

    member.goto(f"{EVENT}/slips/101/")
    check = member.inner_text(".digests dd.figure")
    width, height = SIZES[size]
    paper = pypdfium2.PdfDocument(io.BytesIO(member.pdf(width=width, height=height)))
    assert len(paper) == 1
    said = " ".join(paper[0].get_textpage().get_text_range().split())
    for words in ("Boat ", "Total", "Angler", "Official", f"check figures {check}"):
        assert words in said, words
    for words in ("Its history", "To sign", "Correct it"):
        assert words not in said, words


@pytest.mark.parametrize("light", ["paper", "sun", "night"])
@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("path", ["pads/", "slips/101/"])
def test_everyone_can_read_them(member: Any, path: str, width: int, light: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    member.set_viewport_size({"width": width, "height": 900})
    member.goto(f"{EVENT}/{path}")
    member.click(f".light [value={light}]")
    found = Axe().run(member, options={"runOnly": AA})
    assert found.violations_count == 0, found.generate_report()
    assert member.evaluate("document.documentElement.scrollWidth <= innerWidth")

"""The widest tables stand whole on a laptop's screen: nothing is scrolled out of sight, no link to a row cut off."""

from typing import Any

import pytest

LAPTOP = {"viewport": {"width": 1180, "height": 800}}
SEASON = "/clubs/dunnock-valley-crappie-club/seasons/2026"
CUT_OFF = """() => [...document.querySelectorAll(".wide-table, .places")]
  .filter((box) => box.scrollWidth > box.clientWidth + 1)
  .map((box) => `${box.scrollWidth} in ${box.clientWidth}`)"""


@pytest.mark.parametrize(
    "where",
    [
        "/events/high-summer-2026/results/1/",
        "/events/dogwood-two-day-2026/results/1/",
        "/events/high-summer-2026/care/tanks/",
        "/events/leaf-fall-classic-2026/care/tanks/",
        f"{SEASON}/care/",
    ],
)
def test_no_column_is_cut_off_on_a_laptop(window: Any, site: Any, sign_in: Any, where: str) -> None:
    page = window(site.address, **LAPTOP)
    sign_in(page, "director")
    assert page.goto(where).status == 200
    assert page.locator(".wide-table tbody tr, .places tbody tr").count()
    assert page.evaluate(CUT_OFF) == []

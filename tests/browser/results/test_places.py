"""The one list of places on screens of every width and on paper: what is read for never leaves, and nothing scrolls."""

from typing import Any

import pytest

WIDTHS = (390, 700, 820, 1000, 1280)
PAGES = ("/results/dogwood-two-day-2026/official/1/", "/results/leaf-fall-classic-2026/standings/")
LONG = "Alexander Montgomery & Christopher Featherstonehaugh-Wigglesworth", "Llanfairpwllgwyngyllgogery" * 3
NAMED = "(names) => document.querySelectorAll('.ledger tbody .team').forEach((one, at) => { one.firstChild.textContent = names[at % 2]; })"
SEEN = """() => {
  const rows = [...document.querySelectorAll(".ledger tbody tr:has(.total:not(:empty))")];
  const within = (one) => { const box = one.getBoundingClientRect(); return box.width > 0 && box.right <= innerWidth + 1; };
  return {
    scrolls: document.documentElement.scrollWidth > innerWidth,
    lost: rows.filter((row) => ![...row.querySelectorAll(".team, .total, .prize:not(:empty)")].every(within)).length,
    rows: rows.length,
    high: document.documentElement.scrollHeight,
  };
}"""
PAPER = """() => [...document.querySelectorAll(".ledger thead th")].filter((one) => getComputedStyle(one).display === "none")
  .map((one) => one.textContent.trim())"""


@pytest.fixture
def shown(own_site: Any) -> Any:
    """The demo with its last event opened to everyone."""
    said = "from weighin.events.models import Event; from weighin.standings.services import set_public; "
    said += "set_public(Event.objects.get(slug='leaf-fall-classic-2026'), True, 'test')"
    assert own_site.manage("shell", "--verbosity", "0", "-c", said).returncode == 0
    return own_site


def test_total_and_prize_stay_at_every_width_with_the_longest_names(window: Any, shown: Any) -> None:
    for path in PAGES:
        for width in WIDTHS:
            page = window(shown.address, viewport={"width": width, "height": 900})
            page.goto(path)
            page.evaluate(NAMED, LONG)
            seen = page.evaluate(SEEN)
            assert seen["rows"] > 20 and not seen["scrolls"] and not seen["lost"], (path, width, seen)
            assert width > 390 or seen["high"] <= 8000, (path, seen)
            page.close()


def test_paper_has_every_column_and_every_row(window: Any, shown: Any) -> None:
    page = window(shown.address, viewport={"width": 700, "height": 900})
    for path in PAGES:
        page.goto(path)
        page.emulate_media(media="print")
        # Weights of days stand under the team's name on paper
        assert all(head.startswith("Day ") for head in page.evaluate(PAPER)), path
        assert page.locator(".ledger .prize, .ledger .weighed").first.is_visible()


def test_rows_beyond_the_first_open_at_a_press(window: Any, shown: Any) -> None:
    assert shown.manage("open_club", "dunnock-valley-crappie-club").returncode == 0
    page = window(shown.address, viewport={"width": 390, "height": 900})
    page.goto("/clubs/dunnock-valley-crappie-club/seasons/2026/")
    assert page.locator(".ledger").nth(1).locator("tbody tr:visible").count() <= 9
    first = page.locator(".ledger").first
    rows = first.locator("tbody tr:visible")
    assert rows.count() == 12 and page.evaluate("document.documentElement.scrollHeight") <= 8000
    page.locator("text=All 32 teams").click()
    assert rows.count() == 32


def test_sentences_of_results_break_where_a_name_is_one_long_word(window: Any, shown: Any) -> None:
    assert shown.manage("open_club", "dunnock-valley-crappie-club").returncode == 0
    for path in ("/", "/clubs/dunnock-valley-crappie-club/"):
        for width in (390, 820, 1280):
            page = window(shown.address, viewport={"width": width, "height": 900})
            page.goto(path)
            page.evaluate(
                "(name) => document.querySelectorAll('td.long').forEach((one) => { one.textContent = name; })", LONG[1]
            )
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), (path, width)
            page.close()

"""Pages of 40 boats with long names are no longer than is read at once: what is seldom read is folded, and paper has it whole."""

from collections.abc import Callable

import pytest
from browser.crawl.layout import misfits
from browser.crawl.long_names import ANGLERS, BOATS, TEAMS
from browser.crawl.sheet import FULL, first_sheet
from browser.crawl.walked import WINDOWS, Walker

CLUB = "/clubs/dunnock-valley-crappie-club"
OFFICIAL, GOING_ON = "/events/forty-official-2026", "/events/forty-going-on-2026"
DEMO = "/events/leaf-fall-classic-2026"
# As tall as any page may be, though each has 40 boats or has nothing to do with their number
ENDS = (
    f"{OFFICIAL}/rules/",
    f"{OFFICIAL}/money/",
    f"{OFFICIAL}/money/pay-outs/",
    f"{OFFICIAL}/mortality/",
    f"{GOING_ON}/desk/boats/",
    f"{GOING_ON}/planner/",
    f"{DEMO}/care/tanks/",
    f"{DEMO}/care/",
    f"{CLUB}/seasons/2026/points/",
    f"{CLUB}/",
    f"{CLUB}/seasons/2026/mortality/",
    f"{GOING_ON}/line/",
    "/planner/",
    f"{CLUB}/history/",
)
# A row a boat, each with what is pressed or read there: as tall for each boat as a page of 30 may be
GROWS = (
    f"{OFFICIAL}/teams/",
    f"{OFFICIAL}/care-plan/",
    f"{OFFICIAL}/standings/",
    f"{OFFICIAL}/slips/",
    f"{OFFICIAL}/care/",
    f"{GOING_ON}/standings/",
    f"{GOING_ON}/roll/",
)
PUBLIC = (f"{CLUB}/", f"{CLUB}/seasons/2026/")


def misfits_of(who: Walker, boats: int = BOATS) -> list[str]:
    """What does not fit or is too tall, for that many boats, on the page as it stands, in every width."""
    found = []
    for width, tallest in WINDOWS.items():
        who.at(width)
        found += [f"{width}: {kind}, {what}" for kind, what in misfits(who.page, tallest * boats // 30)]
    return found


@pytest.mark.parametrize(
    ("role", "address", "boats"),
    [
        *(("director", address, 30) for address in ENDS),
        *(("director", address, BOATS) for address in GROWS),
        *(("nobody", address, 30) for address in PUBLIC),
    ],
)
def test_a_page_fits_and_ends(walker: Callable[..., Walker], role: str, address: str, boats: int) -> None:
    who = walker(role)
    assert who.page.goto(address).status == 200
    wrong = misfits_of(who, boats)
    assert not wrong, "\n".join(wrong)


def test_the_points_of_a_season_fit_in_the_large_type_of_the_sun(walker: Callable[..., Walker]) -> None:
    who = walker("director")
    who.page.goto(f"{CLUB}/seasons/2026/points/")
    who.page.get_by_role("button", name="Sun", exact=True).first.click()
    wrong = [one for one in misfits_of(who) if "tall" not in one]
    who.at(820)
    gaps = who.page.evaluate("""() => [...document.querySelectorAll("tr:first-child td.event")].map((one, n, all) =>
      n && all[n - 1].offsetTop === one.offsetTop ? one.offsetLeft - all[n - 1].offsetLeft - all[n - 1].scrollWidth : 1)""")
    assert not wrong and len(gaps) > 4 and min(gaps) > 0, (wrong, gaps)


def test_a_list_to_import_fits_and_ends(walker: Callable[..., Walker]) -> None:
    who = walker("director")
    who.page.goto(f"{GOING_ON}/teams/import/")
    rows = ["Boat,Team,Angler 1,Angler 2,Flight,Phone,Email"]
    for boat in range(101, 101 + BOATS):
        rows.append(
            f"{boat},{TEAMS[boat % len(TEAMS)]} {boat},{ANGLERS[0]} {boat},{ANGLERS[1]} {boat},A,555 0{boat},somebody.of.boat.{boat}@club.example"
        )
    who.page.fill("[name=text]", "\n".join(rows))
    who.page.click("[name=act][value=look]")
    who.page.wait_for_selector("table.packs tbody tr")
    assert who.page.locator("table.packs tbody tr").count() == BOATS
    wrong = misfits_of(who)
    assert not wrong, "\n".join(wrong)


BROKEN_WORDS = """() => { const broken = [], range = document.createRange();
  const texts = document.createTreeWalker(document.querySelector(".entry.opening .margin"), NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) for (const word of texts.currentNode.data.matchAll(/\\S+/g)) {
    range.setStart(texts.currentNode, word.index); range.setEnd(texts.currentNode, word.index + word[0].length);
    if (new Set([...range.getClientRects()].map((box) => box.top)).size > 1) broken.push(word[0]); }
  return broken; }"""


@pytest.mark.parametrize(
    "address", [f"{CLUB}/import/", f"{DEMO}/rehearsal/", f"{DEMO}/results/", f"{DEMO}/care/tanks/treatments/new/"]
)
def test_words_of_the_margin_stay_whole_on_a_phone(walker: Callable[..., Walker], address: str) -> None:
    who = walker("director")
    who.at(390)
    assert who.page.goto(address).status == 200
    assert who.page.evaluate(BROKEN_WORDS) == []


def test_the_desks_list_lies_across_its_sheets(walker: Callable[..., Walker]) -> None:
    page = walker("director").page
    page.goto(f"{GOING_ON}/desk/boats/")
    # Upright its columns are so narrow that four boats fill a sheet
    sheets, full = first_sheet(page)
    assert sheets <= 6 and full >= FULL


@pytest.mark.parametrize(
    ("address", "last"),
    [(f"{OFFICIAL}/money/", ".prints tr:last-child th"), (f"{OFFICIAL}/rules/", ".prints:not([open]) li")],
)
def test_paper_has_what_the_screen_folds(walker: Callable[..., Walker], address: str, last: str) -> None:
    page = walker("director").page
    page.goto(address)
    folded = page.locator(last).first
    assert not folded.is_visible()
    page.emulate_media(media="print")
    assert folded.is_visible() and not page.locator(".prints > summary").first.is_visible()

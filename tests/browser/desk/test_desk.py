"""The desk by keyboard alone: every key that is no letter of a team is counted."""

import re
import statistics
import time
from pathlib import Path
from typing import Any

import pytest
import world
from second_reading.workbook import write
from served import Site

SLUG = "desk-morning-2027"
DESK = f"/events/{SLUG}/desk/"
TEAMS = 60
MOST_KEYS = 4  # beyond typing a team
# First words that begin one team each, as a club's do
FIRST = ("Alder", "Brook", "Cove", "Dock", "Elm", "Ferry", "Gull", "Heron", "Inlet", "Jetty", "Kelp", "Lake")
LAST = ("Anglers", "Pair", "Reed", "Slough", "Tide")


class Hands:
    """Types, and counts what is no letter of a team."""

    def __init__(self, page: Any) -> None:
        self.page, self.keys = page, 0

    def press(self, *keys: str) -> None:
        for key in keys:
            self.keys += 1
            self.page.keyboard.press(key)

    def type(self, words: str) -> None:
        self.page.keyboard.type(words)


def entered(site: Site, folder: Path) -> None:
    """An event of last season with sixty teams, and one of this season with none."""
    names = [f"{first} {last}" for first in FIRST for last in LAST]
    rows = [
        {"boat": str(n), "team": name, "angler_1": f"Ann {name}", "angler_2": f"Bob {name}"}
        for n, name in enumerate(names, start=1)
    ]
    said = {"club": "Dunnock Valley Crappie Club", "water": "Merrow Lake", "entry_fee": "60", "lake_temp": ""}
    for name, season, date, teams in (
        ("Desk before", "2026", "2026-10-03", rows),
        ("Desk morning", "2027", "2027-03-06", []),
    ):
        file = folder / f"{season}.xlsx"
        sheets = world.sheets(name, teams, rules={"big_fish_pot_fee": "10"}, season=season, date=date, **said)
        write(sheets, file)
        done = site.manage("import_event", str(file))
        assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture
def desk(window, own_site: Site, sign_in, tmp_path: Path) -> Any:
    entered(own_site, tmp_path)
    page = window(own_site.address)
    sign_in(page, "director")
    page.goto(DESK)
    page.wait_for_selector("#desk [data-save]:has-text('Save, and take $60.00')")
    return page


def focused(page: Any) -> str:
    name: str = page.evaluate("document.activeElement.name")
    return name


def chosen(page: Any, anglers: str) -> None:
    from playwright.sync_api import expect

    expect(page.locator("[name=anglers]")).to_have_value(anglers)


def kept(page: Any, team: str) -> None:
    page.wait_for_selector(f"[role=status]:has-text('{team}, is entered.')")
    page.wait_for_selector("#desk [role=combobox]:focus")


def test_sixty_known_teams_by_keys_alone(desk: Any) -> None:
    hands, page = Hands(desk), desk
    counts, took = [], []
    assert focused(page) == "name"
    for first in FIRST:
        for last in LAST:
            before, start = hands.keys, time.monotonic()
            hands.type(f"{first} {last[0]}".lower())
            hands.press("ArrowDown", "Enter")
            chosen(page, f"Ann {first} {last} & Bob {first} {last}")
            hands.press("Enter")
            kept(page, f"{first} {last}")
            assert focused(page) == "name"
            counts.append(hands.keys - before)
            took.append(time.monotonic() - start)
    assert max(counts) <= MOST_KEYS
    assert page.inner_text(".opening .figure") == str(TEAMS)
    print(f"{statistics.mean(counts):.1f} keys a team, {max(counts)} at most; {statistics.median(took):.2f} s a team")
    page.goto(f"/events/{SLUG}/money/")
    assert "Nobody owes anything." in page.inner_text("h1") and "$3,600.00 was received" in page.inner_text("main")


def test_new_teams_with_phone_and_emergency_by_keys_alone(desk: Any) -> None:
    hands, page = Hands(desk), desk
    teams = [("Zander Zeal", "Zoe Zeal & Zia Zeal", "555-0171", "Kay 555-0172"), ("Yew", "Yan Yew", "555-0173", "Lou")]
    for team, anglers, phone, emergency in teams:
        before = hands.keys
        for words in (team, anglers, phone):
            hands.type(words)
            hands.press("Tab")
        hands.type(emergency)
        hands.press("Enter")
        kept(page, team)
        assert hands.keys - before <= MOST_KEYS
    page.get_by_role("link", name="Correct").click()
    page.wait_for_url(re.compile(r"/teams/2/$"))
    assert page.input_value("[name=emergency]") == "Lou"


def test_pots_and_means_of_the_last_team_are_offered_again(desk: Any) -> None:
    hands, page = Hands(desk), desk
    hands.type("alder a")
    hands.press("ArrowDown", "Enter")
    chosen(page, "Ann Alder Anglers & Bob Alder Anglers")
    page.focus("[name=paid] >> nth=1")
    hands.press("Space")
    page.focus("[name=means][value=check]")
    hands.press("Space")
    page.wait_for_selector("[data-save]:has-text('Save, and take $70.00')")
    hands.press("Enter")
    kept(page, "Alder Anglers")
    page.wait_for_selector("[data-save]:has-text('Save, and take $70.00')")
    assert page.is_checked("[name=means][value=check]")


def test_what_is_wrong_is_said_while_it_is_typed_and_what_is_typed_stays(desk: Any) -> None:
    hands, page = Hands(desk), desk
    hands.type("alder p")
    hands.press("ArrowDown", "Enter")
    chosen(page, "Ann Alder Pair & Bob Alder Pair")
    hands.press("Enter")
    kept(page, "Alder Pair")
    hands.type("alder pair")
    page.wait_for_selector(".fault.now:has-text('Boat 1 is Alder Pair already')")
    hands.press("Tab")
    hands.type("New One & ann alder pair")
    page.wait_for_selector("#id_anglers_now:has-text('fishes in boat 1 already')")
    page.fill("[name=boat]", "1")
    page.wait_for_selector("#id_boat_now:has-text('Boat 1 is Alder Pair')")
    page.press("[name=boat]", "Enter")
    page.wait_for_selector("#faults")
    assert page.input_value("[name=anglers]") == "New One & ann alder pair" and focused(page) == "name"
    page.fill("[name=name]", "Newcomers")
    page.wait_for_selector("#id_name_now", state="hidden")


def test_an_angler_is_completed_in_the_line_of_all_and_escape_closes(desk: Any) -> None:
    hands, page = Hands(desk), desk
    hands.press("Tab")
    hands.type("Max New & bob alder t")
    page.wait_for_selector("[role=option]:has-text('Bob Alder Tide')")
    hands.press("ArrowDown", "Enter")
    assert page.input_value("[name=anglers]") == "Max New & Bob Alder Tide"
    hands.type(" & ann alder")
    page.wait_for_selector("[role=option]")
    hands.press("Escape")
    assert not page.is_visible("[role=listbox]")
    assert page.get_attribute("[name=anglers]", "aria-expanded") == "false"


def test_a_site_that_does_not_answer_is_said(desk: Any) -> None:
    desk.context.set_offline(True)
    desk.keyboard.type("ald")
    desk.wait_for_selector("[data-look-note]:has-text('The site does not answer.')")
    desk.context.set_offline(False)
    desk.keyboard.type("er")
    desk.wait_for_selector("[role=option]:has-text('Alder Anglers')")


def test_the_desk_fits_a_phone(window, site: Site, sign_in) -> None:
    page = window(site.address, viewport={"width": 390, "height": 844})
    sign_in(page, "director")
    for where in ("", "boats/", "boats/1/"):
        page.goto(f"/events/leaf-fall-classic-2026/desk/{where}")
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, where

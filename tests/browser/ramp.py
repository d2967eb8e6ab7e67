"""A phone at the ramp of the event that is fished today."""

import json
import sqlite3
from collections.abc import Callable
from typing import Any

import pytest
from browser.scales import API, SLUG
from served import Site

PAGE = f"/events/{SLUG}/ramp/"
PAIRED = f"/ramp/{SLUG}/"
PHONE = {"width": 390, "height": 844}


def care_token(site: Site, name: str = "Ramp") -> str:
    """Pair a station that may add care notes, and give its token."""
    done = site.manage("pair_station", SLUG, name, "--can", "care")
    assert done.returncode == 0, done.stderr
    return done.stdout.split()[-1]


@pytest.fixture(scope="session")
def ramp_token(lake: tuple[Site, str]) -> str:
    return care_token(lake[0])


@pytest.fixture
def phone(window: Callable[..., Any], lake: tuple[Site, str], ramp_token: str) -> Any:
    """A paired phone."""
    page = window(lake[0].address, viewport=PHONE)
    open_ramp(page, f"{PAIRED}#{ramp_token}")
    return page


def open_ramp(page: Any, address: str = PAGE) -> None:
    """Open the page and wait until it has the event."""
    page.goto(address)
    page.wait_for_selector("html[data-ready][data-papers]")


def choose(page: Any, boat: int) -> None:
    row = page.locator(f".boat[data-boat='{boat}']")
    if not row.is_visible():
        page.click("#noted-head")
    row.click()
    page.wait_for_selector("#note:not([hidden])")


def check(page: Any, boat: int) -> None:
    """A good boat: three taps."""
    choose(page, boat)
    page.click("#all-good")
    keep(page, boat)


def keep(page: Any, boat: int) -> None:
    page.click("#keep")
    page.wait_for_selector(f"#readback:has-text('Boat {boat},')")


def where(page: Any, words: str) -> None:
    page.wait_for_selector(f"#where-kept:has-text('{words}')")


def state(page: Any, boat: int, words: str) -> Any:
    row = page.locator(f"#notes > li:has(.boat:text-is('{boat}'))").first
    row.locator(f".state:has-text('{words}')").wait_for()
    return row


def sent(site: Site, *boats: int) -> list[tuple[int, bool, dict[str, Any]]]:
    """(boat, whether it stands, what it says) of every message that was kept, from the database itself."""
    with sqlite3.connect(site.data / "weighin.sqlite3") as database:
        found = database.execute(
            "select e.boat, s.stands, s.said from care_sentnote s join roster_entry e on e.id = s.entry_id "
            "join events_event v on v.id = s.event_id where v.slug = ? order by s.number",
            [SLUG],
        ).fetchall()
    return [(boat, bool(stands), json.loads(said)) for boat, stands, said in found if boat in boats]


def notes(site: Site, *boats: int) -> dict[int, dict[str, Any]]:
    """The care notes that stand, by boat."""
    with sqlite3.connect(site.data / "weighin.sqlite3") as database:
        database.row_factory = sqlite3.Row
        found = database.execute(
            "select e.boat, n.* from care_carenote n join roster_entry e on e.id = n.entry_id "
            "join events_event v on v.id = n.event_id where v.slug = ?",
            [SLUG],
        ).fetchall()
    return {row["boat"]: dict(row) for row in found if row["boat"] in boats}


def post(page: Any, secret: str, **values: Any) -> dict[str, Any]:
    """What another station sends."""
    answer = page.request.post(
        f"{API}/care", data={"notes": [{"day": 1, **values}]}, headers={"Authorization": f"Bearer {secret}"}
    )
    assert answer.status == 200, answer.text()
    found: dict[str, Any] = answer.json()["notes"][0]
    return found

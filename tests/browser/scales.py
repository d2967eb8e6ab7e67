"""An event that is fished today, its scales open, and a tablet at its table."""

import json
import re
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from urllib.parse import urljoin
from uuid import uuid4
from zoneinfo import ZoneInfo

import pytest
import world
from second_reading.workbook import write
from served import Site

SLUG = "today-on-the-slough-2026"
PAGE = f"/events/{SLUG}/table/"
PAIRED = f"/table/{SLUG}/"
API = f"/api/events/{SLUG}"
TEAMS = ("Ilse & Marlow", "Bracken & Thorne", "Quill & Sedge")
RULES = {
    "dead_fish_penalty": "0.25",
    "short_fish": "lose_largest",
    "late_penalty_per_minute": "1",
    "over_limit": "remove_largest",
}


def module(name: str) -> str:
    """An expression for a module of the page as the page itself has it, such as device/store; to be used in an async function."""
    loaded = "performance.getEntriesByType('resource').map((one) => one.name)"
    return f"(await import({loaded}.find((one) => one.includes('/js/{name}.'))))"


def named_in(site: Site, text: str) -> list[str]:
    """The static files that a page names, and those that its modules import."""
    found = dict.fromkeys(re.findall(r'(?:src|href|data-codes)="(/static/[^"]+)"', text))
    ahead = [one for one in found if "/js/" in one]
    while ahead:
        one = ahead.pop()
        for path in re.findall(r"""(?:^|;)import[^"'();]*?"(\.[^"]+)"(?=;)""", site.ask(one)[2], re.M):
            address = urljoin(one, path)
            if address not in found:
                found[address] = None
                ahead.append(address)
    return list(found)


def open_scales(site: Site, folder: Path, boats: int = 14, **rules: str) -> None:
    """Bring in an event of the demo's club that is fished today; nothing is weighed yet."""
    today = datetime.now(ZoneInfo("America/Chicago")).date().isoformat()
    named = dict(enumerate(TEAMS, start=1))
    teams = [row | {"team": named.get(n, row["team"])} for n, row in enumerate(world.pairs(boats), start=1)]
    said = {"club": "Dunnock Valley Crappie Club", "water": "Merrow Lake", "date": today, "start_time": "00:05"}
    said |= {"due_time": "23:55", "entry_fee": "", "lake_temp": ""}
    sheets = world.sheets("Today on the slough", teams, rules={**RULES, **rules}, **said)
    file = folder / "today.xlsx"
    write(sheets, file)
    done = site.manage("import_event", str(file))
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.split()[-1] == SLUG, done.stdout


def token(site: Site, name: str = "Table 1") -> str:
    """Pair a station and give its token."""
    code = (
        "from weighin.events.models import Event; from weighin.stations.services.stations import make_station; "
        f"print(make_station(Event.objects.get(slug={SLUG!r}), {name!r}, ['weigh', 'checkin'], 'test')[1])"
    )
    done = site.manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    return done.stdout.split()[-1]


def rows(site: Site) -> list[tuple[str, int, str]]:
    """(id, boat, weight) of every slip of the event, from the database itself."""
    with sqlite3.connect(site.data / "weighin.sqlite3") as database:
        return database.execute(
            "select s.id, e.boat, s.gross from slips_weighslip s join roster_entry e on e.id = s.entry_id "
            "join events_event v on v.id = s.event_id where v.slug = ? order by s.number",
            [SLUG],
        ).fetchall()


def document(site: Site, secret: str) -> dict[str, Any]:
    """What the site tells a station."""
    status, _, text = site.ask(f"/api/events/{SLUG}/station", Authorization=f"Bearer {secret}")
    assert status == 200, text
    found: dict[str, Any] = json.loads(text)
    return found


@pytest.fixture(scope="session")
def prepared(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """A data folder with an event of today, and a station's token."""
    data = tmp_path_factory.mktemp("prepared") / "data"
    shutil.copytree(loaded, data)
    site = Site(data)
    open_scales(site, tmp_path_factory.mktemp("workbook"), boats=90)
    return data, token(site)


def running(prepared: tuple[Path, str], folder: Path) -> Iterator[tuple[Site, str]]:
    shutil.copytree(prepared[0], folder)
    site = Site(folder, WEIGHIN_HOSTS="lake.test")
    site.start()
    yield site, prepared[1]
    if site.server is not None:
        assert site.stop() == 0
    assert "Traceback" not in site.said()


@pytest.fixture(scope="session")
def lake(prepared: tuple[Path, str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, str]]:
    """A site that all tests here share; each weighs boats of its own."""
    yield from running(prepared, tmp_path_factory.mktemp("lake") / "data")


@pytest.fixture
def own_lake(prepared: tuple[Path, str], tmp_path: Path) -> Iterator[tuple[Site, str]]:
    """A site that one test may stop and start."""
    yield from running(prepared, tmp_path / "data")


@pytest.fixture
def tablet(window: Callable[..., Any], lake: tuple[Site, str]) -> Any:
    """A paired tablet."""
    page = window(lake[0].address, viewport={"width": 1180, "height": 820})
    open_table(page, f"{PAIRED}#{lake[1]}")
    briefed(page)
    return page


def open_table(page: Any, address: str = PAGE) -> None:
    page.goto(address)
    ready(page)
    if not page.input_value("#official"):
        page.fill("#official", "R. Quill")
        page.focus("#boat")


def ready(page: Any) -> None:
    page.wait_for_selector("html[data-ready]")


def briefed(page: Any) -> None:
    """The tablet has the event's document."""
    page.wait_for_selector("html[data-papers]")


def key(page: Any, *words: str) -> None:
    """Type each word and go on with Enter."""
    for word in words:
        page.keyboard.type(word)
        page.keyboard.press("Enter")


def fresh(page: Any) -> None:
    """Load the page again and wait until it has asked the site what is new."""
    with page.expect_response(lambda answer: "/station?since=" in answer.url) as told:
        page.reload()
    ready(page)
    if told.value.status == 200:
        page.wait_for_selector(f"html[data-papers='{told.value.json()['revision']}']")
    briefed(page)


def asked(page: Any) -> None:
    """Wait until the question may be answered: a key that bounces answers none."""
    page.wait_for_selector("#keep:not([aria-disabled])")


def weigh(page: Any, boat: int, weight: str = "6.50", alive: str = "7") -> None:
    page.focus("#boat")
    key(page, str(boat), alive, "0", "0", weight, "")
    page.wait_for_selector(f"#readback:has-text('Boat {boat},')")


def where(page: Any, words: str) -> None:
    page.wait_for_selector(f"#where-kept:has-text('{words}')")


def state(page: Any, boat: int, words: str) -> Any:
    row = page.locator(f"#slips > li:has(.boat:text-is('{boat}'))").first
    row.locator(f".state:has-text('{words}')").wait_for()
    return row


def kept(site: Site, *boats: int) -> list[int]:
    """The boats of the rows in the database, as often as they stand there."""
    return sorted(boat for _, boat, _ in rows(site) if boat in boats)


def post(page: Any, secret: str, what: str, **values: Any) -> dict[str, Any]:
    """What another station sends."""
    now = datetime.now(UTC).isoformat()
    item = {"id": str(uuid4()), "day": 1, "official": "A. Nother", **values}
    if what == "slips":
        item = {"fish": 7, "alive": 7, "dead": 0, "gross": "6.00", "weighed": now, **item}
    answer = page.request.post(f"{API}/{what}", data={what: [item]}, headers={"Authorization": f"Bearer {secret}"})
    assert answer.status == 200, answer.text()
    found: dict[str, Any] = answer.json()[what][0]
    return found

"""A real server with the demo's clubs, and a real Chromium that reaches nothing but this machine."""

import json
import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from served import ROOT, Site

CHROMIUM = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
# lake.test is this machine under a name that is no secure context, as a tablet on the lake's Wi-Fi sees it.
RULES = "MAP lake.test 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost"
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    f"--host-resolver-rules={RULES}",
]
HERE = ("127.0.0.1", "localhost", "lake.test")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Whatever lies in this folder drives a browser."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """The browser; each test gets a window of its own from ``window`` or ``page``."""
    from playwright.sync_api import sync_playwright

    named = os.environ.get("WEIGHIN_CHROMIUM")
    path = named or next(filter(None, map(shutil.which, CHROMIUM)), None)
    if path is None:
        pytest.skip("no Chromium is installed")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with the demo loaded; copied, never changed."""
    data = tmp_path_factory.mktemp("loaded")
    site = Site(data)
    for words in (("migrate", "--verbosity", "0"), ("load_demo",)):
        done = site.manage(*words)
        assert done.returncode == 0, done.stdout + done.stderr
    return data


@pytest.fixture(scope="session")
def site(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """A site that tests read from; what one writes, all others see."""
    yield from _running(loaded, tmp_path_factory.mktemp("site") / "data")


@pytest.fixture
def own_site(loaded: Path, tmp_path: Path) -> Iterator[Site]:
    """A site for one test, which may write, stop and start it as it likes."""
    yield from _running(loaded, tmp_path / "data")


def _running(loaded: Path, data: Path) -> Iterator[Site]:
    shutil.copytree(loaded, data)
    site = Site(data, WEIGHIN_HOSTS="lake.test")
    site.start()
    yield site
    if site.server is not None:
        assert site.stop() == 0
    assert "Traceback" not in site.said()


@pytest.fixture
def window(chromium: Any) -> Iterator[Callable[..., Any]]:
    """Opens windows: ``window(address, **options)`` is a new page with its own storage.

    A test fails when a page asked another machine for anything, broke the content policy or raised an error.
    """
    wrong: list[str] = []
    contexts: list[Any] = []

    def open_window(address: str, **options: Any) -> Any:
        context = chromium.new_context(base_url=address, **options)
        contexts.append(context)
        context.on("request", lambda asked: wrong.append(f"asked {asked.url}") if _is_elsewhere(asked.url) else None)
        page = context.new_page()
        page.set_default_timeout(10_000)
        page.on("console", lambda said: wrong.append(said.text) if "Content Security Policy" in said.text else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        return page

    yield open_window
    for context in contexts:
        context.close()
    assert not wrong


@pytest.fixture
def page(window: Callable[..., Any], site: Site) -> Any:
    """A window on the shared site."""
    return window(site.address)


def _is_elsewhere(url: str) -> bool:
    from urllib.parse import urlsplit

    parts = urlsplit(url)
    return parts.scheme in ("http", "https", "ws", "wss") and parts.hostname not in HERE


@pytest.fixture(scope="session")
def people() -> dict[str, dict[str, str]]:
    """The demo's people by user name."""
    listed = json.loads((ROOT / "demo" / "people.json").read_text(encoding="utf-8"))
    return {person["username"]: person for person in listed}


@pytest.fixture
def sign_in(people: dict[str, dict[str, str]]) -> Callable[..., None]:
    """``sign_in(page, "director")``: sign one of the demo's people in, through the page."""

    def sign(page: Any, username: str) -> None:
        page.goto("/sign-in/")
        page.fill("[name=username]", username)
        page.fill("[name=password]", people[username]["password"])
        page.press("[name=password]", "Enter")
        page.wait_for_url(lambda url: "/sign-in/" not in url)

    return sign

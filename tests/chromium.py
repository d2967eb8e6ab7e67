"""A real Chromium that reaches nothing but this machine; a plugin of every test that drives a page."""

import os
import shutil
from collections.abc import Callable, Iterator
from typing import Any
from urllib.parse import urlsplit

import pytest
from patience import SECONDS

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


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """The browser; each test gets a window of its own from ``window`` or ``page``."""
    from playwright.sync_api import expect, sync_playwright

    named = os.environ.get("WEIGHIN_CHROMIUM")
    path = named or next(filter(None, map(shutil.which, CHROMIUM)), None)
    if path is None:
        pytest.skip("no Chromium is installed")
    # Playwright leaves an event loop in this thread, which Django takes for asynchronous code in every later test.
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "yes"
    expect.set_options(timeout=SECONDS * 1000)
    with sync_playwright() as playwright:
        browser: Any = playwright.chromium.launch(executable_path=path, args=FLAGS)
        opened = browser.new_context
        browser.new_context = lambda **options: _patient(opened(**options))
        yield browser
        browser.close()


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
        page.on("console", lambda said: wrong.append(said.text) if "Content Security Policy" in said.text else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        return page

    yield open_window
    for context in contexts:
        context.close()
    assert not wrong


def _patient(context: Any) -> Any:
    """Every page of it waits, whoever opens it: a tablet's lease alone, where a page was closed while it sent, is 25 s."""
    context.set_default_timeout(SECONDS * 1000)
    return context


def _is_elsewhere(url: str) -> bool:
    parts = urlsplit(url)
    return parts.scheme in ("http", "https", "ws", "wss") and parts.hostname not in HERE

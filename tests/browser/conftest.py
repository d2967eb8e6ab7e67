"""A real server with the demo's clubs, for the windows of chromium.py."""

import json
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from browser.ramp import phone, ramp_token  # noqa: F401  fixtures of the ramp
from browser.scales import lake, own_lake, prepared, tablet  # noqa: F401  fixtures of the scale table
from served import ROOT, Site


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Whatever lies in this folder drives a browser."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


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
def page(window: Callable[..., Any], site: Site) -> Any:
    """A window on the shared site."""
    return window(site.address)


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

"""The site that is walked: the demo, and two events of 40 boats."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from browser.crawl.site import built
from browser.crawl.walked import Walker
from served import Site


@pytest.fixture(scope="session")
def forty(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """It runs for all tests of this folder; what one writes, all others see."""
    site = built(tmp_path_factory.mktemp("crawl"))
    site.start()
    yield site
    assert site.stop() == 0 and "Traceback" not in site.said()


@pytest.fixture
def walker(window: Callable[..., Any], forty: Site) -> Callable[..., Walker]:
    """``walker("director")`` is somebody of that role in a window of their own, signed in; what follows goes to the window."""

    def start(role: str, **options: Any) -> Walker:
        who = Walker(window(forty.address, **options), role)
        who.sign_in()
        return who

    return start

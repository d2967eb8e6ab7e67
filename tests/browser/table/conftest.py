"""The scale table has a site of its own: what it weighs stands in nobody's way who checks boats or calls the line."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from browser.scales import running
from served import Site


@pytest.fixture(scope="package")
def lake(prepared: tuple[Path, str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, str]]:
    """A site that the tests of the table share; each weighs boats of its own."""
    yield from running(prepared, tmp_path_factory.mktemp("table") / "data")

"""Written at once by eight: no number twice, no position left out, nothing kept twice, the ledger whole."""

import json
from pathlib import Path

import pytest
from django.db import connection
from faults.writers import RIGHT, written_together
from served import ROOT, Site


def test_on_a_file_of_sqlite(tmp_path: Path) -> None:
    site = Site(tmp_path)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    tests = json.dumps(str(ROOT / "tests"))
    done = site.manage(
        "shell",
        "--verbosity",
        "0",
        "-c",
        f"import sys; sys.path.insert(0, {tests}); from faults.writers import say; say()",
    )
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout.splitlines()[-1]) == RIGHT


@pytest.mark.django_db(transaction=True)
def test_on_postgresql() -> None:
    if connection.vendor != "postgresql":
        pytest.skip("the same on SQLite needs a file, which the test beside this one makes")
    assert written_together() == RIGHT

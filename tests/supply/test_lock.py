"""The locks say what the ranges allow, by hash and without an index, and the table of licenses says what they bring."""

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from demo.environment import ROOT, RUN, TESTS
from tests.supply import licenses
from tests.supply.pins import pins

# What may run in the site: whoever hands weighin on, changed or not, may do so. The tests may need more.
FREE = {"MIT", "MIT-0", "MIT-CMU", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "Zlib", "CC0-1.0", "Apache-2.0", "PSF-2.0"}
FREE |= {"ZPL-2.1", "LGPL-3.0-only", "Bitstream-Vera"}


def _ranges(packages):
    lines = packages.ranges.read_text().splitlines()
    return [Requirement(line) for line in lines if line and not line.startswith("#")]


@pytest.mark.parametrize("packages", [RUN, TESTS], ids=["run", "tests"])
def test_every_range_has_its_release_in_the_lock(packages):
    locked = pins(packages.lock)
    for wanted in _ranges(packages):
        found = [pin for pin in locked if pin.name == canonicalize_name(wanted.name)]
        assert any(wanted.specifier.contains(pin.version) for pin in found), (
            f"{wanted} is not in {packages.lock.name}: run python tests/supply/lock.py --keep"
        )
        if wanted.marker is None:
            assert all(wanted.specifier.contains(pin.version) for pin in found), wanted


@pytest.mark.parametrize("packages", [RUN, TESTS], ids=["run", "tests"])
def test_every_line_of_a_lock_is_hashed_and_names_no_index(packages):
    for pin in pins(packages.lock):
        assert pin.hashes, pin
        assert all(one.startswith("sha256:") and len(one) == 71 for one in pin.hashes), pin
    assert "://" not in packages.lock.read_text() and "index" not in packages.lock.read_text()


def test_both_locks_agree_where_they_name_the_same():
    run = {(pin.name, pin.marker): pin.version for pin in pins(RUN.lock)}
    for pin in pins(TESTS.lock):
        assert run.get((pin.name, pin.marker), pin.version) == pin.version


def test_a_line_that_pins_nothing_is_refused(tmp_path):
    file = tmp_path / "lock.txt"
    file.write_text("tiny>=1\n")
    with pytest.raises(ValueError, match="tiny>=1"):
        pins(file)


def _table():
    """Heading -> its rows, without the heads of the columns."""
    parts = licenses.TABLE.read_text().split("\n## ")[1:]
    cells = [[tuple(line.strip("| ").split(" | ")) for line in part.splitlines()[4:] if line] for part in parts]
    return dict(zip([part.splitlines()[0] for part in parts], cells, strict=True))


def test_the_table_of_licenses_is_up_to_date():
    found = _table()
    run = [(pin.name, pin.version) for pin in pins(RUN.lock)]
    assert [row[:2] for row in found["What the site runs on"]] == run
    tests = [(pin.name, pin.version) for pin in pins(TESTS.lock)]
    assert [row[:2] for row in found["What the tests need beside it"]] == [pair for pair in tests if pair not in run]
    for row in [*found["What the site runs on"], *found["What the tests need beside it"]]:
        assert licenses.licensed_here(*row[:2]) in (None, row[2]), "run python tests/supply/lock.py --keep"


def test_no_license_is_unknown_and_what_the_site_runs_on_is_free():
    found = _table()
    assert all(row[2] and "UNKNOWN" not in row[2].upper() for rows in found.values() for row in rows)
    for name, _, words in [*found["What the site runs on"], *found["What comes in the tree"]]:
        for word in words.split(",")[0].replace(" OR ", " AND ").split(" AND "):
            assert word in FREE, f"{name}: look at {word}"


def test_what_comes_in_the_tree_is_there_with_the_text_of_its_license():
    vendored = {
        path for path in (ROOT / "weighin/ui/static/weighin/vendor").iterdir() if path.suffix in {".js", ".css"}
    }
    assert vendored <= {ROOT / path for path, *_ in licenses.BROUGHT}
    for path, _, _, text in licenses.BROUGHT:
        assert (ROOT / path).exists() and (ROOT / text).is_file()

"""The table of the Application Security Verification Standard says what is so: every line once, tests that are there, sums."""

import re
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent
TABLE = Path(__file__).with_name("asvs.md")
VERDICTS = ("held", "not applicable", "not held")
# Lines of levels 1 and 2 by section, counted in the standard's own CSV of version 5.0.0; higher lines of a section that
# are of level 3 come after them, but for those of which the numbers stand here
SECTIONS = {
    "1.1": 2, "1.2": 9, "1.3": 11, "1.4": 3, "1.5": 2, "2.1": 3, "2.2": 3, "2.3": 4, "2.4": 1, "3.2": 2, "3.3": 4,
    "3.4": 6, "3.5": 5, "3.7": 2, "4.1": 3, "4.2": 1, "4.3": 2, "4.4": 4, "5.1": 1, "5.2": 3, "5.3": 2, "5.4": 3,
    "6.1": 3, "6.2": 12, "6.3": 4, "6.4": 4, "6.5": 5, "6.6": 3, "6.8": 4, "7.1": 3, "7.2": 4, "7.3": 2, "7.4": 5,
    "7.5": 2, "7.6": 2, "8.1": 2, "8.2": 3, "8.3": 1, "8.4": 1, "9.1": 3, "9.2": 4, "10.1": 2, "10.2": 2, "10.3": 4,
    "10.4": 11, "10.5": 5, "10.6": 2, "10.7": 3, "11.1": 2, "11.2": 3, "11.3": 3, "11.4": 4, "11.5": 1, "11.6": 1,
    "12.1": 3, "12.2": 2, "12.3": 4, "13.1": 1, "13.2": 5, "13.3": 2, "13.4": 5, "14.1": 2, "14.2": 4, "14.3": 3,
    "15.1": 3, "15.2": 3, "15.3": 7, "16.1": 1, "16.2": 5, "16.3": 4, "16.4": 3, "16.5": 3, "17.1": 1, "17.2": 4,
    "17.3": 2,
}  # fmt: skip


def rows() -> list[list[str]]:
    lines = [
        [cell.strip() for cell in line.strip("| ").split("|")]
        for line in TABLE.read_text(encoding="utf-8").splitlines()
    ]
    return [cells for cells in lines if re.fullmatch(r"\d+\.\d+\.\d+", cells[0])]


def headings(file: str) -> set[str]:
    return set(re.findall(r"^#+ (.+)$", (ROOT / file).read_text(encoding="utf-8"), re.MULTILINE))


def test_every_line_of_levels_one_and_two_stands_once() -> None:
    wanted = [f"{section}.{n}" for section, count in SECTIONS.items() for n in range(1, count + 1)]
    assert [cells[0] for cells in rows()] == wanted and len(wanted) == 253
    assert all(len(cells) == 4 and all(cells) and cells[2] in VERDICTS for cells in rows())


@pytest.mark.parametrize("cells", [cells for cells in rows() if cells[2] == "held"], ids=lambda cells: cells[0])
def test_what_is_held_is_held_by_what_it_names(cells: list[str]) -> None:
    named = re.findall(r"`([^`]+)`", cells[3])
    assert named
    for where in named:
        file, _, heading = where.partition("#")
        if heading:
            assert heading in headings(file), where
        else:
            file, _, test = where.partition("::")
            assert re.search(rf"^(async )?def {test}\(", (ROOT / file).read_text(encoding="utf-8"), re.MULTILINE), where


def test_a_line_that_is_not_held_says_why() -> None:
    for cells in rows():
        assert cells[2] == "held" or len(cells[3].split()) > 1, cells[0]


def test_the_sums_are_right() -> None:
    said = dict(
        re.findall(
            r"^\| (held|not applicable|not held|all) \| (\d+) \|$", TABLE.read_text(encoding="utf-8"), re.MULTILINE
        )
    )
    counted = Counter(cells[2] for cells in rows())
    assert {name: int(count) for name, count in said.items()} == {**counted, "all": sum(counted.values())}


def test_the_developers_page_leads_to_it_and_says_the_same() -> None:
    counted = Counter(cells[2] for cells in rows())
    said = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert "tests/security/asvs.md" in said
    assert f"{counted['held']} held, {counted['not applicable']} not applicable, {counted['not held']} not held" in said

"""What the pages say of their sources, against the sources themselves."""

import re
from pathlib import Path

import pytest

import weighin

ROOT = Path(weighin.__file__).resolve().parent.parent
TOLD = {
    file: re.sub(r"[\"']\s*\n\s*f?[\"']", "", file.read_text(encoding="utf-8"))
    for folder in ("weighin", "templates")
    for file in sorted((ROOT / folder).rglob("*"))
    if file.suffix in (".py", ".html", ".js") and "migrations" not in file.parts
}


@pytest.mark.parametrize(
    ("named", "wanted", "around"),
    [
        # Hayward & Arnold (1996), Trans. Am. Fish. Soc. 125, 132-138: maximum consumption, so scope for growth.
        ("Hayward & Arnold", r"growth that was measured, not recovery.*Missouri", 300),
        # The Minnesota pilot counted fish that died or could not be released.
        ("Minnesota pilot", r"76 %.*could not be released|could not be released.*76 %", 300),
        # Ostrand et al. (1999): the clubs' own counts.
        ("Ostrand", r"themselves", 200),
        # Gilliland, Schramm & Shupp (2002).
        ("Gilliland", r"Gilliland, Schramm & Shupp", 60),
    ],
)
def test_a_source_is_told_as_it_is(named: str, wanted: str, around: int) -> None:
    found = 0
    for file, text in TOLD.items():
        plain = text.replace("&amp;", "&")
        for place in re.finditer(re.escape(named), plain):
            found += 1
            near = plain[max(0, place.start() - around) : place.end() + around]
            assert re.search(wanted, near, re.DOTALL), f"{file.relative_to(ROOT)}: {near}"
    assert found


def test_wilde_1998_is_in_fisheries() -> None:
    """Wilde (1998), Fisheries 23(3): not the North American Journal of Fisheries Management 18."""
    told = "".join(TOLD.values())
    assert "Wilde 1998, Fisheries 23" in told and not re.search(r"Wilde.{0,40}Fish\. Manage\. 18", told)


def test_nobody_calls_growth_recovery() -> None:
    for file, text in TOLD.items():
        assert not re.search(r"room left to (grow or )?recover", text), file


def test_kansas_asks_for_more_than_shade_and_salt() -> None:
    """K.A.R. 115-7-8 and the agency's page, read: electrolyte, circulation, hard bottom, September 1 to June 15."""
    tanks = TOLD[ROOT / "templates/planning/planner/tanks.html"]
    assert "electrolyte" in tanks and "September 1 to June 15" in tanks
    release = TOLD[ROOT / "templates/care/releases.html"]
    assert "circulates" in release and "bottom is hard" in release


def test_ammonia_says_whether_it_is_nitrogen() -> None:
    """17.031 / 14.007: as NH3 a kit's total ammonia nitrogen reads 22 % more."""
    said = TOLD[ROOT / "weighin/tanks/pages/tank_words.py"]
    assert round(17.031 / 14.007, 2) == 1.22 and "as NH₃ it is 22 %% more, the careful side" in said

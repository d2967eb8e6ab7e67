"""Every link of every role, and one page of each view in three widths and on paper.

``WEIGHIN_CRAWL=FILE`` walks further: more pages of each view, and what was found as lines in the file.
"""

import os
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from browser.crawl.said import FORMS
from browser.crawl.walked import Finding, Many, everybody
from served import Site

from weighin.accounts.domain.roles import Role

# Pages of a view, of them of one event, and how many are looked at. Who sees least and most goes first: their pages are
# those of all others, but for what a role may not do.
QUICK = {"nobody": Many(2, 1, 1), "director": Many(2, 1, 1)} | {
    role: Many(1, 1, 1) for role in (*Role.values[1:], "administrator")
}
WHOLE = {role: Many(4, 2, 2) for role in QUICK}
# Kinds that are found while pages are looked at, which takes long: the file is written each time
LATE = ("axe", "print", "sideways", "overlap", "beyond", "tall")


@pytest.fixture(scope="module")
def found(chromium: Any, forty: Site) -> list[Finding]:
    file = os.environ.get("WEIGHIN_CRAWL")
    found: dict[Finding, None] = {}
    for one in everybody(chromium, forty.address, WHOLE if file else QUICK):
        found[one] = None
        if file and one.kind in LATE:
            Path(file).write_text(_lines(list(found)), encoding="utf-8")
    if file:
        Path(file).write_text(_lines(list(found)), encoding="utf-8")
    return list(found)


def _lines(found: list[Finding]) -> str:
    """How much of each kind by view, then every finding."""
    sums = Counter((one.view, one.kind) for one in found)
    heads = [f"{view}\t{kind}\t{n}" for (view, kind), n in sorted(sums.items())]
    rows = sorted(found, key=lambda one: (one.view, one.kind, one.address, one.width))
    return "\n".join([*heads, *(f"{one.view}\t{one}" for one in rows)]) + "\n"


KINDS = ("status", "host", "cut", "overlap", "sideways", "beyond", "print", "axe", *FORMS, "words")


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_wrong(found: list[Finding], kind: str) -> None:
    wrong = [str(one) for one in found if one.kind == kind]
    assert not wrong, "\n".join(wrong)

"""Scripts and styles as they are served: without what only readers of the source need, and otherwise the same."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from weighin.ui.storage import lean

OURS = Path(__file__).parents[2] / "weighin" / "ui" / "static" / "weighin"
SCRIPTS = sorted((OURS / "js").rglob("*.js"))
STYLES = sorted(OURS.rglob("*.css"))
# Before the page is drawn, and in workers, a script is no module
CLASSIC = [OURS / "js" / name for name in ("site/light.js", "device/page-worker.js", "roll/worker.js")]


def test_comments_and_indents_go_and_the_rest_stays() -> None:
    source = '/* What it is. */\n"use strict";\n\n  /* Of\n     several lines. */\n  const a = 1;   /* why */\n\tb("/* said */"); // so\n/*! (c) */\n  const c = { d: "e: f" };    // why\n'
    assert (
        lean(source) == '"use strict";const a = 1;   /* why */\nb("/* said */"); // so\n/*! (c) */\nconst c={d:"e: f"};'
    )


@pytest.mark.parametrize("file", SCRIPTS, ids=lambda file: file.name)
def test_no_text_runs_over_several_lines(file: Path) -> None:
    bare = re.sub(r"\\.", "", re.sub(r"//.*|/\*.*?\*/", "", file.read_text(encoding="utf-8"), flags=re.S))
    for line in file.read_text(encoding="utf-8").splitlines():
        assert line.count("`") % 2 == 0, line
    assert bare.count("`") % 2 == 0


@pytest.mark.skipif(shutil.which("node") is None, reason="Node is not here to read the scripts")
def test_every_script_is_still_one(tmp_path: Path) -> None:
    for file in SCRIPTS:
        copy = tmp_path / f"{file.stem}{'.js' if file in CLASSIC else '.mjs'}"
        copy.write_text(lean(file.read_text(encoding="utf-8")), encoding="utf-8")
        done = subprocess.run(["node", "--check", copy], capture_output=True, text=True, check=False)
        assert done.returncode == 0, f"{file}: {done.stderr}"


@pytest.mark.parametrize("file", STYLES, ids=lambda file: file.name)
def test_every_rule_of_a_style_is_still_there(file: Path) -> None:
    source = file.read_text(encoding="utf-8")
    tokens = lambda text: re.sub(r"\s+", "", re.sub(r"/\*.*?\*/", "", text, flags=re.S))  # noqa: E731
    assert tokens(lean(source, style=True)) == tokens(source)

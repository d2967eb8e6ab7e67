"""Scripts and styles as they are served: without what only readers of the source need, and otherwise the same."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from weighin.ui.lean import lean_script, lean_style

OURS = Path(__file__).parents[2] / "weighin" / "ui" / "static" / "weighin"
SCRIPTS = sorted((OURS / "js").rglob("*.js"))
STYLES = sorted(OURS.rglob("*.css"))
# Before the page is drawn, and in workers, a script is no module
CLASSIC = [OURS / "js" / name for name in ("site/light.js", "device/page-worker.js", "roll/worker.js")]


def test_comments_and_indents_go_and_texts_stay() -> None:
    source = '/* What it is. */\n"use strict";\n\n  /* Of\n     several lines. */\n  const a = 1;   /* why */\n\tb("/* said */"); // so\n/*! (c) */\n  const c = { d: "e: f" };    // why\n'
    assert lean_script(source) == '"use strict";const a=1;b("/* said */");/*! (c) */\nconst c={d:"e: f"};'


def test_patterns_templates_and_what_stands_in_them_stay() -> None:
    source = 'const a = /[/ ]"  {2}/g, b = (c) => c / d / `${e ? `, ${f("}")}  ` : ""}  // g`;\nreturn /\'  /.test(h) ? - -i : j + +k;\n'
    assert (
        lean_script(source)
        == 'const a=/[/ ]"  {2}/g,b=c=>c / d / `${e ? `, ${f("}")}  ` : ""}  // g`;return /\'  /.test(h)?- -i:j + +k;'
    )


def test_what_the_type_checker_reads_goes_and_the_line_behind_it_stays() -> None:
    source = "const a = () => {\n  /** @type {A} */ (b).c = 1;\n  d(/** @type {B} */ (e));\n};\n/* End. */\nf();\n"
    assert lean_script(source) == "const a=()=>{(b).c=1;d((e))};f();"


def test_what_is_declared_one_after_another_is_declared_at_once() -> None:
    source = "const a = 1;\nconst { b } = c;\nif (b) {\n  const d = [1, 2];\n  const e = true;\n}\nlet f = 3;\nf = 4;\nconst g = 5;\n"
    assert lean_script(source) == "const a=1,{b}=c;if(b){const d=[1,2],e=!0}\nlet f=3;f=4;const g=5;"
    assert (
        lean_script("for (const a of b) c();\nconst d = { true: e.false };\n")
        == "for(const a of b)c();const d={true:e.false};"
    )


@pytest.mark.skipif(shutil.which("node") is None, reason="Node is not here to read the scripts")
def test_every_script_is_still_one(tmp_path: Path) -> None:
    for file in SCRIPTS:
        copy = tmp_path / f"{file.stem}{'.js' if file in CLASSIC else '.mjs'}"
        copy.write_text(lean_script(file.read_text(encoding="utf-8")), encoding="utf-8")
        done = subprocess.run(["node", "--check", copy], capture_output=True, text=True, check=False)
        assert done.returncode == 0, f"{file}: {done.stderr}"


@pytest.mark.parametrize("file", STYLES, ids=lambda file: file.name)
def test_every_rule_of_a_style_is_still_there(file: Path) -> None:
    source = file.read_text(encoding="utf-8")
    # The sign behind the last line of a rule ends nothing that the brace does not
    tokens = lambda text: re.sub(r"\s+", "", re.sub(r"/\*.*?\*/", "", text, flags=re.S)).replace(";}", "}")  # noqa: E731
    assert tokens(lean_style(source)) == tokens(source)


def test_nothing_moves_by_itself() -> None:
    """So a reader who asks for less motion has it already (WCAG 2.2, 2.2.2 and 2.3.3)."""
    moves = re.compile(
        r"\b(?:transition|animation)(?:-\w+)?\s*:|@keyframes|behavior:\s*\"?smooth|\.animate\(|<animate\b"
    )
    files = [*SCRIPTS, *STYLES, *(OURS.parents[3] / "templates").rglob("*.html")]
    assert len(files) > 200
    assert not [str(file) for file in files if moves.search(file.read_text(encoding="utf-8"))]

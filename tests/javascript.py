"""The site's JavaScript modules run outside a page: in Node where it is installed, else in Chromium."""

import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

import pytest

MODULES = Path(__file__).resolve().parent.parent / "weighin/ui/static/weighin/js"


def run(work: str, cases: Any, **modules: str) -> Any:
    """The value of ``work``, an expression over the named modules (``words="slip/words"``) and the ``cases``, in JSON."""
    node = shutil.which("node")
    if node:
        return _in_node(node, work, cases, modules)
    chromium = os.environ.get("WEIGHIN_CHROMIUM") or shutil.which("chromium")
    if not chromium:
        pytest.skip("neither Node nor Chromium is here to run the tablet's script")
    return _in_chromium(chromium, work, cases, modules)


def _in_node(node: str, work: str, cases: Any, modules: dict[str, str]) -> Any:
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder) / "js"
        shutil.copytree(MODULES, there)
        (there / "package.json").write_text('{"type": "module"}', encoding="utf-8")
        imports = [f"import * as {name} from '{(there / file).as_uri()}.js';" for name, file in modules.items()]
        program = (
            f"{''.join(imports)} import {{ readFileSync }} from 'node:fs'; const cases = JSON.parse(readFileSync(0, 'utf8'));"
            f"process.stdout.write(JSON.stringify({work}));"
        )
        command = [node, "--input-type=module", "-e", program]
        done = subprocess.run(command, input=json.dumps(cases), capture_output=True, text=True, check=True)
        return json.loads(done.stdout)


def _in_chromium(chromium: str, work: str, cases: Any, modules: dict[str, str]) -> Any:
    from playwright.sync_api import Route, sync_playwright

    def answer(route: Route) -> None:
        path = route.request.url.removeprefix("http://modules.test/")
        if path:
            route.fulfill(path=MODULES / path, content_type="text/javascript")
        else:
            route.fulfill(body="", content_type="text/html")

    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=chromium, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page()
        page.route("http://modules.test/**", answer)
        page.goto("http://modules.test/")
        imports = "".join(f"const {name} = await import('/{file}.js'); " for name, file in modules.items())
        found = page.evaluate(f"async (cases) => {{ {imports} return {work}; }}", cases)
        browser.close()
        return found

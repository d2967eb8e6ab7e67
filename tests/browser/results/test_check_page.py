"""Check this result, in a browser: on the site over plain http, from a saved file, and everything that differs by its row."""

import json
from pathlib import Path
from typing import Any

import pytest

SLUG = "high-summer-2026"
PAGE = f"/results/{SLUG}/check/"
AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


def proof_of(page: Any) -> dict[str, Any]:
    answer = page.request.get(f"/api/events/{SLUG}/proof")
    return dict(json.loads(answer.body()))


def written(folder: Path, proof: dict[str, Any]) -> Path:
    file = folder / "proof.json"
    file.write_text(json.dumps(proof), encoding="utf-8")
    return file


def test_the_page_works_the_result_out_and_asks_the_site(page: Any) -> None:
    page.goto(PAGE)
    assert "everything comes out the same" in page.inner_text("#checked")
    page.wait_for_selector("text=This site publishes just this result")
    code = page.request.get(f"/results/{SLUG}/check.svg")
    assert code.ok and code.body().startswith(b"<svg xmlns")


def test_a_tampered_proof_is_told_by_its_row_here_and_by_the_site(page: Any, tmp_path: Path) -> None:
    page.goto(PAGE)
    proof = proof_of(page)
    row = next(row for row in proof["slips"] if not row.get("void") and row["gross"])
    row["gross"] = "0.01"
    page.set_input_files("#file", written(tmp_path, proof))
    page.wait_for_selector("text=was altered after it was made")
    said = page.inner_text("#checked")
    assert f"boat {row['boat']}" in said.lower() or f"slip {row['slip']}" in said
    page.wait_for_selector(f"text=slip {row['slip']}: gross 0.01 in the file")


def test_a_saved_page_works_from_a_disk_without_a_network(window: Any, site: Any, page: Any, tmp_path: Path) -> None:
    saved = tmp_path / "check.html"
    saved.write_bytes(page.request.get(f"/results/{SLUG}/check.html").body())
    alone = window(site.address)
    alone.context.set_offline(True)
    asked: list[str] = []
    alone.on("request", lambda request: asked.append(request.url))
    alone.goto(saved.as_uri())
    said = alone.inner_text("#checked")
    assert "everything comes out the same" in said and "Not asked" in said
    proof = proof_of(page)
    proof["result"]["standings"][0]["payout"] = "1.23"
    alone.set_input_files("#file", written(tmp_path, proof))
    alone.wait_for_selector("text=payout 1.23 in the file")
    assert asked == [saved.as_uri()]


def test_a_page_that_the_browser_saved_works_too(window: Any, site: Any, page: Any, tmp_path: Path) -> None:
    """With the script beside it, as browsers save a page."""
    page.goto(PAGE)
    page.wait_for_selector("text=This site publishes just this result")
    (tmp_path / "check.js").write_bytes(page.request.get("/check/check.js").body())
    text = page.content().replace('src="/check/check.js"', 'src="check.js"')
    (tmp_path / "page.html").write_text(text, encoding="utf-8")
    alone = window(site.address)
    alone.goto((tmp_path / "page.html").as_uri())
    alone.wait_for_selector("text=Not asked")
    assert alone.inner_text("#checked").count("everything comes out the same") == 1


def test_what_is_no_proof_is_said(page: Any, tmp_path: Path) -> None:
    page.goto("/check/")
    (tmp_path / "old.json").write_bytes(page.request.get(f"/api/events/{SLUG}").body())
    page.set_input_files("#file", tmp_path / "old.json")
    page.wait_for_selector("text=This is an older file")
    page.set_input_files("#file", written(tmp_path, {"format": "weighin-proof-1"}))
    page.wait_for_selector("text=Parts of this proof are missing")
    (tmp_path / "table.png").write_bytes(b"\x89PNG\r\n\x1a\n\x00\x00")
    page.set_input_files("#file", tmp_path / "table.png")
    page.wait_for_selector("text=This file is no proof")


def test_a_file_that_cannot_be_read_leaves_no_finding_of_another(page: Any, tmp_path: Path) -> None:
    page.goto(PAGE)
    page.wait_for_selector("text=everything comes out the same")
    deep = json.dumps(proof_of(page))[:-1] + ', "more": ' + "[" * 100_000 + "]" * 100_000 + "}"
    (tmp_path / "deep.json").write_text(deep, encoding="utf-8")
    page.set_input_files("#file", tmp_path / "deep.json")
    page.wait_for_selector("text=This file is no proof")
    assert "comes out the same" not in page.inner_text("#checked")


@pytest.mark.parametrize("width", [390, 1280])
def test_everyone_can_read_it(window: Any, site: Any, width: int) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = window(site.address, viewport={"width": width, "height": 900})
    page.goto(PAGE)
    page.wait_for_selector("text=This site publishes just this result")
    found = Axe().run(page, options={"runOnly": AA})
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")

"""A club's site written as plain files, read in a browser from a disk: no page misses anything, and the check page works."""

from pathlib import Path
from typing import Any

CLUB = "dunnock-valley-crappie-club"
SLUG = "high-summer-2026"
ABORTED = "net::ERR_ABORTED"


def test_it_is_read_from_a_disk(window: Any, site: Any, tmp_path: Path) -> None:
    folder = tmp_path / "copy"
    done = site.manage("publish_static", CLUB, str(folder))
    assert done.returncode == 0, done.stdout + done.stderr
    alone = window(site.address)
    alone.context.set_offline(True)
    failed: list[str] = []
    # A page that is left takes back what it still asked for
    alone.on("requestfailed", lambda request: request.failure != ABORTED and failed.append(request.url))
    alone.on("pageerror", lambda error: failed.append(str(error)))
    alone.goto((folder / "index.html").as_uri())
    alone.click("text=High Summer")
    alone.click("nav.ways >> text=Standings")
    assert alone.locator("table.ledger tbody tr").count() > 10
    assert alone.evaluate("getComputedStyle(document.body).fontFamily") != "Times New Roman"
    alone.goto((folder / "results" / SLUG / "check" / "index.html").as_uri())
    said = alone.inner_text("#checked")
    assert "everything comes out the same" in said and "Not asked" in said
    alone.set_viewport_size({"width": 390, "height": 800})
    for page in ("index.html", f"clubs/{CLUB}/seasons/2026/index.html", f"results/{SLUG}/index.html"):
        alone.goto((folder / page).as_uri())
        assert alone.evaluate("document.documentElement.scrollWidth") <= 390, page
    assert not failed

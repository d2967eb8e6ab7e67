"""A table of 300 weighed boats on a slow tablet: it opens about as soon as one of 14, and a slip costs it a few bytes."""

from collections.abc import Callable
from pathlib import Path
from statistics import median
from typing import Any

import pytest
from bench.large_event import write_large_event
from browser.scales import SLUG, briefed
from served import Site
from stations.speaking import message

SLOWER = 6  # times the processor is slowed down: a cheap tablet
LARGE = "today-for-300-2026"
# When the document is read and the lines can be written
OPENED = """const look = setInterval(() => {
  if (document.documentElement?.dataset.papers) { window.opened = performance.now(); clearInterval(look); }
}, 5);"""


@pytest.fixture
def large(own_lake: tuple[Site, str], tmp_path: Path) -> tuple[Site, str]:
    """The site with a second event, of 300 boats that are all weighed, and its station's token."""
    site = own_lake[0]
    write_large_event(tmp_path / "large.xlsx", "Today for 300", 300, 1)
    done = site.manage("import_event", str(tmp_path / "large.xlsx"))
    assert done.returncode == 0 and done.stdout.split()[-1] == LARGE, done.stdout + done.stderr
    return site, site.manage("pair_station", LARGE, "Table 1").stdout.split()[-1]


def opening(window: Callable[..., Any], site: Site, slug: str, token: str) -> tuple[Any, float]:
    """The page, and milliseconds until it could be written on: the middle one of five times, the network's copy there."""
    page = window(site.address, viewport={"width": 1180, "height": 820})
    page.add_init_script(OPENED)
    page.goto(f"/table/{slug}/#{token}")
    briefed(page)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    times = []
    for _ in range(5):
        page.reload()
        briefed(page)
        times.append(
            page.evaluate(
                "new Promise((done) => { const look = () => (window.opened ? done(window.opened) : setTimeout(look, 5)); look(); })"
            )
        )
    return page, median(times)


def test_it_opens_about_as_soon_as_one_of_fewer_and_a_slip_is_little_to_read(
    window: Callable[..., Any], own_lake: tuple[Site, str], large: tuple[Site, str]
) -> None:
    _, few = opening(window, own_lake[0], SLUG, own_lake[1])
    page, many = opening(window, large[0], LARGE, large[1])
    print(f"opened at {SLOWER}x: 90 boats {few:.0f} ms, 300 weighed boats {many:.0f} ms")
    assert many < 2 * few
    # Another station's slip, and what this tablet reads of it
    sent = {"slips": [message(weighed="2026-06-20T15:10:00-05:00")]}
    answer = page.request.post(f"/api/events/{LARGE}/slips", data=sent, headers={"Authorization": f"Bearer {large[1]}"})
    assert answer.json()["slips"][0]["state"] == "second", answer.text()
    with page.expect_response(lambda heard: "station?since=" in heard.url and heard.status == 200) as told:
        page.evaluate("window.dispatchEvent(new Event('online'))")
    assert len(told.value.body()) < 2000

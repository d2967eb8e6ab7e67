"""The line at phone width: call a boat, its minutes count on, hold and let go on, with and without script."""

from typing import Any

import pytest

AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
PHONE = {"viewport": {"width": 390, "height": 844}}
# An event of today: boats 1 to 6 came in, boat 1 has had its bag for eleven minutes
TODAY = """
import sys
sys.path.insert(0, "tests")
from datetime import timedelta
from unittest.mock import patch
from zoneinfo import ZoneInfo
from django.utils import timezone
import world
from line.in_line import checked_in, said
from weighin.accounts.models import User
from weighin.clubs.models import Membership
now = timezone.now()
event = world.event("Today", 8, date=now.astimezone(ZoneInfo("America/Chicago")).date().isoformat())
for name, role in (("scales", "weigh_official"), ("fishcare", "fish_care_official"), ("reviewer", "club_reviewer")):
    Membership.objects.create(user=User.objects.get(username=name), club=event.club, role=role)
for boat in range(1, 7):
    checked_in(event, boat, now - timedelta(minutes=30 - boat))
with patch("django.utils.timezone.now", lambda: now - timedelta(minutes=11)):
    said(event, "bag_issued", 1)
print(event.slug)
"""


@pytest.fixture
def line(own_site: Any) -> str:
    """The address of today's line."""
    done = own_site.manage("shell", "--verbosity", "0", "-c", TODAY)
    assert done.returncode == 0, done.stderr
    return f"/events/{done.stdout.split()[-1]}/line/"


def test_a_boat_is_called_and_the_line_held_on_a_phone(window: Any, own_site: Any, sign_in: Any, line: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = window(own_site.address, **PHONE)
    sign_in(page, "scales")
    page.goto(line)
    assert "Boat 1 is over 10 minutes in the bag." in page.inner_text("main")
    page.click("#at_scales-1")
    page.wait_for_selector("text=Boat 1 is at the scales,")
    with page.expect_navigation():
        page.locator("button", has_text="Call boat 2: give a bag").dblclick()
    page.wait_for_selector("text=Bag given to boat 2")
    said = page.inner_text("main")
    assert said.count("Bag given to boat 2") == 2, said  # what was just done, and the log
    rows = page.locator(".bags-out > li")
    assert rows.count() == 2 and "min left of the limit" in rows.nth(1).inner_text()
    for light in ("paper", "sun", "night"):
        page.click(f".light [value={light}]")
        found = Axe().run(page, options={"runOnly": AA})
        assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    small = page.eval_on_selector_all(
        "main :is(button, .button, input:not([type=hidden]))",
        "all => all.filter(one => one.checkVisibility() && one.getBoundingClientRect().height < 43.5).map(one => one.textContent)",
    )
    assert small == []
    figure = page.eval_on_selector(".held .figure", "one => parseFloat(getComputedStyle(one).fontSize)")
    assert figure >= 60
    page.click("#hold-now")
    page.wait_for_selector("text=The line is held since")
    page.fill("[name=person]", "D. Reed")
    page.click("text=Resume the line")
    page.wait_for_selector("text=Line resumed by D. Reed")


def test_minutes_count_on_and_other_tablets_hear_of_it(window: Any, own_site: Any, sign_in: Any, line: str) -> None:
    page, other = window(own_site.address, **PHONE), window(own_site.address)
    for one, name in ((page, "scales"), (other, "fishcare")):
        sign_in(one, name)
    page.clock.install()
    page.goto(line)
    figure = page.locator("[data-since]")
    shown = int(figure.inner_text())
    assert shown >= 11
    page.route("**/line/now/*", lambda route: route.abort())  # the link is gone: the minutes count on
    page.clock.run_for(130_000)
    counted = int(figure.inner_text())
    assert counted - shown in (2, 3)
    assert f"Over the limit by {counted - 9} min" in page.inner_text(".bags-out")
    assert "no answer since" in page.inner_text("[data-live-note]")
    page.unroute("**/line/now/*")
    other.goto(line)
    other.click("#hold-now")
    other.wait_for_selector("text=The line is held since")
    with page.expect_response(lambda answer: "/line/now/" in answer.url and answer.status == 200):
        page.clock.run_for(11_000)
    page.wait_for_selector("text=The line is held since")
    page.fill("[name=person]", "A. Sedge")
    with page.expect_response(lambda answer: "/line/now/" in answer.url):
        page.clock.run_for(11_000)
    page.wait_for_timeout(300)
    assert page.input_value("[name=person]") == "A. Sedge"  # what is being written outlives the refresh


def test_it_works_without_script(window: Any, own_site: Any, sign_in: Any, line: str) -> None:
    page = window(own_site.address, java_script_enabled=False, **PHONE)
    sign_in(page, "scales")
    page.goto(line)
    page.click("#bag_back-1")
    assert "Bag of boat 1 returned unused" in page.inner_text("main")
    page.click("text=Call boat 1: give a bag")
    assert "Bag given to boat 1" in page.inner_text("main")
    page.click("#hold-now")
    page.click("text=Resume the line")
    assert "Write the name of whoever resumes the line." in page.inner_text("main")
    page.fill("[name=person]", "D. Reed")
    page.click("text=Resume the line")
    page.click("text=Refresh")
    assert "No more bags now" in page.inner_text("h1") or "Call boat 2" in page.inner_text("h1")


@pytest.mark.parametrize("width", [390, 1280])
def test_everyone_can_use_the_plan_and_the_end_of_a_line(window: Any, site: Any, sign_in: Any, width: int) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = window(site.address, viewport={"width": width, "height": 900})
    sign_in(page, "scales")
    for address in ("line/plan/", "line/plan/?boats=none", "line/"):
        page.goto(f"/events/high-summer-2026/{address}")
        found = Axe().run(page, options={"runOnly": AA})
        assert found.violations_count == 0, found.generate_report()
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), address
    assert "Nobody is in the line." in page.inner_text("h1")


def test_two_presses_call_one_boat(window: Any, own_site: Any, sign_in: Any, line: str) -> None:
    """After a call the big button names the next boat where it stood: it rests before it takes another press."""
    page = window(own_site.address, **PHONE)
    sign_in(page, "scales")
    page.goto(line)
    page.click("#at_scales-1")
    page.wait_for_selector("text=Boat 1 is at the scales,")
    with page.expect_navigation():
        page.click("#bag_issued-2")
    page.wait_for_selector("text=Bag given to boat 2")
    call = page.locator(".button.call")
    if call.count():
        assert call.is_disabled()
        page.wait_for_function("() => !document.querySelector('.button.call').disabled")

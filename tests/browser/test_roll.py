"""The roll on a phone: one tap with and without script, a link that breaks, words that other tablets send."""

import json
import sqlite3
from datetime import UTC, datetime, timedelta
from typing import Any
from urllib.request import Request, urlopen
from uuid import uuid4
from zoneinfo import ZoneInfo

import pytest
from browser.scales import API, SLUG, key, module, open_table
from patience import SECONDS
from playwright.sync_api import expect
from served import Site

ROLL = f"/events/{SLUG}/roll/"
PHONE = {"viewport": {"width": 390, "height": 844}}


def lines(site: Site, *boats: int) -> list[tuple[int, datetime | None]]:
    """Boat and time of coming in of every line that the database holds of these boats."""
    with sqlite3.connect(site.data / "weighin.sqlite3") as database:
        found = database.execute(
            "select e.boat, c.checked_in from checkin_checkin c join roster_entry e on e.id = c.entry_id "
            "join events_event v on v.id = c.event_id where v.slug = ? order by e.boat, c.number",
            [SLUG],
        ).fetchall()
    return [(boat, came and datetime.fromisoformat(f"{came}+00:00")) for boat, came in found if boat in boats]


def send(lake: tuple[Site, str], **said: Any) -> None:
    """A word from another tablet."""
    line = {"id": str(uuid4()), "day": 1, "official": "A. Sedge", **said}
    asked = Request(f"{lake[0].address}{API}/checkins", json.dumps({"checkins": [line]}).encode(), method="POST")
    asked.add_header("Content-Type", "application/json")
    asked.add_header("Authorization", f"Bearer {lake[1]}")
    with urlopen(asked) as answer:
        assert json.load(answer)["checkins"][0]["state"] == "kept"


def test_one_tap_without_script(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address, java_script_enabled=False, **PHONE)
    sign_in(page, "scales")
    page.goto(ROLL)
    page.click("#in-41")
    assert "Boat 41, Pair 41, is in at" in page.inner_text(".messages")
    assert page.locator("table #boat-41").count() == 1 and page.locator("#in-41").count() == 0
    page.fill("#boat", "42")
    page.click(".roll-in button")
    assert "Boat 42, Pair 42, is in at" in page.inner_text(".messages")
    assert [boat for boat, _ in lines(lake[0], 41, 42)] == [41, 42]


def test_taps_outlive_the_link_and_are_kept_once(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address, **PHONE)
    sign_in(page, "scales")
    page.goto(ROLL)
    page.wait_for_selector("#roll[data-ready]")
    page.wait_for_selector("html[data-alone]")
    before = page.inner_text("[data-due]")
    assert before.startswith("in ")
    page.context.set_offline(True)
    tapped = datetime.fromisoformat(page.evaluate("new Date().toISOString()"))
    for boat in (51, 52):
        page.click(f"#in-{boat}")
        page.click(f"#in-{boat}")
    page.fill("#boat", "53")
    page.press("#boat", "Enter")
    page.wait_for_selector("[data-roll-kept] li:nth-child(3)")
    assert "saved on this device, not sent yet" in page.inner_text("[data-roll-kept]")
    page.wait_for_selector("[data-roll-cut-off]:has-text('Carry on.')")
    assert not lines(lake[0], 51, 52, 53)
    # Loaded again without the network, the last copy of the page knows what was tapped
    page.reload()
    page.wait_for_selector("[data-roll-kept] li:nth-child(3)")
    assert page.get_attribute("#roll", "data-kept") is not None
    assert page.inner_text("#in-51").startswith("In at ")
    page.click("#in-54")
    page.wait_for_selector("[data-roll-kept] li:nth-child(4)")
    page.fill("#boat", "999")
    page.press("#boat", "Enter")
    assert "No boat 999 is on this page" in page.inner_text("[data-roll-said]")
    page.context.set_offline(False)
    page.wait_for_selector("table #boat-53")
    page.wait_for_selector("[data-roll-kept]", state="hidden")
    found = lines(lake[0], 51, 52, 53, 54)
    assert [boat for boat, _ in found] == [51, 52, 53, 54]
    moments = [tapped.replace(microsecond=0), *(came for _, came in found), datetime.now(UTC)]
    assert moments == sorted(moments)  # type: ignore[type-var]


def test_what_was_not_sent_goes_out_when_the_page_is_opened_again(
    window: Any, lake: tuple[Site, str], sign_in: Any
) -> None:
    page = window(lake[0].address, **PHONE)
    sign_in(page, "scales")
    page.goto(ROLL)
    page.wait_for_selector("#roll[data-ready]")
    page.context.set_offline(True)
    page.click("#in-57")
    page.wait_for_selector("[data-roll-kept] li")
    context = page.context
    page.close()
    context.set_offline(False)
    page = context.new_page()
    page.goto(ROLL)
    page.wait_for_selector("table #boat-57")
    assert [boat for boat, _ in lines(lake[0], 57)] == [57]


def test_another_tablets_word_comes_by_itself(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address)
    sign_in(page, "scales")
    page.goto(ROLL)
    page.wait_for_selector("#roll[data-ready]")
    out = int(page.inner_text("[data-roll-out]"))
    send(lake, boat=71, whereabouts="unaccounted", word="not seen since noon")
    send(lake, boat=73, whereabouts="in_by_road")
    page.wait_for_selector("#boat-71.missing")
    page.wait_for_selector("table #boat-73")
    assert int(page.inner_text("[data-roll-out]")) == out - 1
    assert page.inner_text("h1").startswith(f"{out - 1} of ")
    assert "not seen since noon" in page.inner_text("#boat-71")
    # Checked in elsewhere before this page knows: both times are kept and the roll says so
    page.context.set_offline(True)
    page.click("#in-72")
    page.wait_for_selector("[data-roll-kept] li")
    send(lake, boat=72, checked_in=datetime.now().astimezone().isoformat(timespec="seconds"))
    page.context.set_offline(False)
    page.wait_for_selector("[data-roll-kept] :text('somebody else entered a time too')")
    page.click("text=I have seen this")
    page.wait_for_selector("[data-roll-kept]", state="hidden")
    page.wait_for_selector("table #boat-72:has-text('Two check-in times')")


def test_a_reader_sees_the_roll_and_no_button(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address)
    sign_in(page, "reviewer")
    page.goto(ROLL)
    assert page.locator(".roll-out li").count() > 50 and page.locator("[data-roll-in]").count() == 0
    assert page.inner_text("[data-due]")


def test_the_table_sees_the_time_and_the_minutes_excused(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    today = datetime.now().astimezone()
    send(lake, boat=81, whereabouts="launched", told_at=(today - timedelta(minutes=3)).isoformat(timespec="seconds"))
    send(lake, boat=81, excused_minutes=20, note="towed boat 82 in")
    send(lake, boat=81, whereabouts="in_by_water", checked_in=today.isoformat(timespec="seconds"))
    page = window(lake[0].address)
    sign_in(page, "scales")
    open_table(page)
    page.focus("#boat")
    key(page, "81")
    here = today.astimezone(ZoneInfo("America/Chicago"))
    expect(page.locator("[name=checked_in]")).to_have_value(f"{here:%I:%M:%S %p}".lstrip("0"))
    expect(page.locator("[name=excused_minutes]")).to_have_value("20")


def test_signed_out_the_roll_cannot_be_read_without_the_network(
    window: Any, lake: tuple[Site, str], sign_in: Any
) -> None:
    page = window(lake[0].address, **PHONE)
    sign_in(page, "scales")
    page.goto(ROLL)
    page.wait_for_selector("#roll[data-ready]")
    page.wait_for_selector("html[data-alone]")
    kept = "async () => (await caches.keys()).filter((one) => one.startsWith('weighin-roll')).length"
    papers = """() => new Promise((done) => { const asked = indexedDB.open("weighin-checkins", 1); asked.onsuccess = () => {
        const found = asked.result.transaction("papers").objectStore("papers").count();
        found.onsuccess = () => { asked.result.close(); done(found.result); }; }; })"""
    page.wait_for_function(kept)
    page.wait_for_function(papers)
    page.locator("form[action*='sign-out'] button").first.click()
    page.wait_for_url("**/sign-in/?said=out")
    page.wait_for_function(f"async () => !(await ({kept})()) && !(await ({papers})())")
    page.context.set_offline(True)
    with pytest.raises(Exception, match="ERR_INTERNET_DISCONNECTED|ERR_FAILED"):
        page.goto(ROLL)


def test_the_copy_on_a_phone_has_no_phone_numbers(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    code = (
        "from weighin.roster.models import Entry; from weighin.roster.domain.contacts import ContactValues; "
        "from weighin.roster.services.contacts import keep_contact; "
        f"keep_contact(Entry.objects.get(event__slug={SLUG!r}, boat=78), ContactValues('555-0171', 'Kay Quill', ''), 't')"
    )
    done = lake[0].manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    page = window(lake[0].address, **PHONE)
    sign_in(page, "scales")
    for _ in range(2):  # first the worker's own copy, then the one that it keeps of a page it handed on
        page.goto(ROLL)
        page.wait_for_selector("html[data-alone]")
        assert "555-0171" in page.inner_text("#boat-78")
    kept = """async () => {
      const texts = [];
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const asked of await cache.keys()) texts.push(await (await cache.match(asked)).text());
      }
      return texts;
    }"""
    texts = page.evaluate(kept)
    assert any('id="boat-78"' in text for text in texts)
    assert not any("555-0171" in text or "Kay Quill" in text for text in texts)
    page.context.set_offline(True)
    page.reload()
    page.wait_for_selector("#roll[data-kept]")
    assert "Pair 78" in page.inner_text("#boat-78") and "555-0171" not in page.content()
    assert page.is_visible("text=Phone numbers are not saved on this device")


@pytest.mark.parametrize("off", [0, 3600, -3600])
def test_a_slow_answer_puts_no_clock_wrong_and_a_wrong_clock_is_put_right(
    window: Any, lake: tuple[Site, str], sign_in: Any, off: int
) -> None:
    page = window(lake[0].address, **PHONE)
    sign_in(page, "scales")
    # A device whose clock is ``off`` seconds wrong, and an answer that is 2 s under way
    page.add_init_script(
        f"const said = Date.now, begun = performance.timeOrigin, off = {off * 1000}; Date.now = () => said() + off; "
        "Object.defineProperty(performance, 'timeOrigin', { value: begun + off });"
    )

    def slow(route: Any) -> None:
        answer = route.fetch()
        page.wait_for_timeout(2000)
        route.fulfill(response=answer)

    page.route(f"**{ROLL}", slow)
    page.goto(ROLL)
    page.wait_for_selector("#roll[data-ready]")
    ahead = page.evaluate(f"async () => {module('roll/clock')}.ahead")
    # Right to the seconds for which the answer was under way; a clock that may be right is left alone
    assert abs(ahead + off * 1000) < SECONDS * 1000 if off else ahead == 0

"""Slips on the tablet outlive the link, the page, the browser and the server, and are never counted twice."""

import json
import re
from pathlib import Path
from typing import Any

from browser.scales import (
    PAGE,
    PAIRED,
    SLUG,
    briefed,
    kept,
    key,
    named_in,
    open_table,
    ready,
    state,
    token,
    weigh,
    where,
)
from served import Site


def test_ten_slips_weighed_offline_end_in_ten_rows(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address)
    context, boats = page.context, range(11, 21)
    sign_in(page, "scales")
    open_table(page)
    briefed(page)
    page.wait_for_selector("html[data-alone]")
    context.set_offline(True)
    for boat in boats[:5]:
        weigh(page, boat)
    where(page, "5 slips saved on this tablet")
    page.wait_for_selector("#band:has-text('Carry on weighing.')")
    assert "Do not load this page again" not in page.inner_text("#band")
    page.reload()
    ready(page)
    where(page, "5 slips saved on this tablet")
    for boat in boats[5:]:
        weigh(page, boat)
    page.close()
    page = context.new_page()
    page.goto(PAGE)
    ready(page)
    where(page, "10 slips saved on this tablet")
    assert page.evaluate("getComputedStyle(document.querySelector('.keep')).minHeight") == "64px", "styled offline"
    assert not kept(lake[0], *boats)
    context.set_offline(False)
    where(page, "all 10 slips are on the server")
    page.wait_for_selector("#band", state="hidden")
    assert kept(lake[0], *boats) == list(boats)


def test_slips_outlive_the_server_and_the_tablet_on_plain_http(
    chromium: Any, own_lake: tuple[Site, str], tmp_path: Path
) -> None:
    site, secret = own_lake
    context = chromium.new_context(base_url=f"http://lake.test:{site.port}")
    page = context.new_page()
    open_table(page, f"{PAIRED}#{secret}")
    briefed(page)
    assert not page.evaluate("isSecureContext")
    weigh(page, 2)
    where(page, "the slip is on the server")
    site.kill()
    weigh(page, 3)
    weigh(page, 4)
    page.wait_for_selector("#band:has-text('Do not load this page again meanwhile')")
    where(page, "2 slips saved on this tablet")
    page.close()
    site.start()
    page = context.new_page()
    page.goto(PAIRED)
    where(page, "all 3 slips are on the server")
    assert kept(site, 2, 3, 4) == [2, 3, 4]
    context.close()


def test_an_answer_that_is_lost_costs_nothing(tablet: Any, lake: tuple[Site, str]) -> None:
    lost: list[int] = []

    def lose(route: Any) -> None:
        lost.append(route.fetch().status)
        route.abort()

    tablet.route("**/slips", lose)
    weigh(tablet, 21)
    tablet.wait_for_selector("#band:not([hidden])")
    assert lost[0] == 200 and kept(lake[0], 21) == [21], "the site kept it, the tablet has not heard so"
    state(tablet, 21, "saved on this tablet")
    tablet.unroute("**/slips")
    row = state(tablet, 21, "on the server")
    assert kept(lake[0], 21) == [21]
    row.locator("summary").click()
    assert "it counts once" in row.inner_text()


def test_two_tabs_send_a_slip_once_and_both_say_so(tablet: Any, lake: tuple[Site, str]) -> None:
    other = tablet.context.new_page()
    other.goto(PAIRED)
    ready(other)
    weigh(tablet, 22)
    weigh(other, 23)
    for page in (tablet, other):
        where(page, "all 2 slips are on the server")
    assert kept(lake[0], 22, 23) == [22, 23]


def test_something_else_that_answers_is_no_link(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.route(
        "**/slips", lambda route: route.fulfill(status=200, content_type="text/html", body="<h1>Free Wi-Fi</h1>")
    )
    weigh(tablet, 24)
    tablet.wait_for_selector("#band:has-text('Something other than the site answers.')")
    tablet.unroute("**/slips")
    state(tablet, 24, "on the server")
    tablet.route("**/slips", lambda route: route.fulfill(status=200, json={"slips": [], "revision": 1}))
    weigh(tablet, 25)
    tablet.wait_for_selector("#band:has-text('did not name the slips')")
    state(tablet, 25, "saved on this tablet")
    tablet.unroute("**/slips")
    state(tablet, 25, "on the server")
    assert kept(lake[0], 24, 25) == [24, 25]


def test_a_paired_tablet_hides_its_token_and_says_when_it_is_withdrawn(tablet: Any, lake: tuple[Site, str]) -> None:
    assert lake[1] not in tablet.url and tablet.url.endswith(PAIRED)
    code = (
        "from weighin.events.models import Event; from weighin.stations.services.stations import withdraw_station; "
        f"withdraw_station(Event.objects.get(slug={SLUG!r}), 'Table 9', 'test')"
    )
    secret = token(lake[0], "Table 9")
    page = tablet.context.browser.new_context(base_url=lake[0].address).new_page()
    open_table(page, PAIRED)
    page.wait_for_selector("#notices:has-text('This tablet is not paired.')")
    open_table(page, f"{PAIRED}#{secret}")
    briefed(page)
    assert page.inner_text("#event-name") == "Today on the slough"
    done = lake[0].manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    weigh(page, 38)
    page.wait_for_selector("#notices:has-text('was withdrawn')")
    where(page, "1 slip saved on this tablet")
    assert not kept(lake[0], 38)
    open_table(page, f"{PAIRED}#{lake[1]}")
    page.evaluate(f"location.hash = '{lake[1]}'")
    where(page, "the slip is on the server")
    page.context.close()


def test_slips_are_kept_without_indexeddb(window: Any, lake: tuple[Site, str]) -> None:
    page = window(lake[0].address)
    page.context.add_init_script(
        "Object.defineProperty(window, 'indexedDB', { value: { open() { throw new Error('refused'); } } })"
    )
    open_table(page, f"{PAIRED}#{lake[1]}")
    page.wait_for_selector("html[data-alone][data-papers]")
    page.context.set_offline(True)
    weigh(page, 39)
    page.reload()
    where(page, "1 slip saved on this tablet")
    page.context.set_offline(False)
    where(page, "the slip is on the server")
    assert kept(lake[0], 39) == [39]


def test_a_tablet_that_can_keep_nothing_says_so(tablet: Any) -> None:
    tablet.evaluate(
        "() => { IDBObjectStore.prototype.put = () => { throw new Error('full'); };"
        "Storage.prototype.setItem = () => { throw new Error('full'); }; }"
    )
    key(tablet, "40", "7", "0", "0", "6.00", "")
    tablet.wait_for_selector(".fault:has-text('Write it on paper now')")
    assert tablet.input_value("#gross") == "6.00", "what was written stays in sight"


def test_the_page_is_small_and_the_worker_keeps_every_file_of_it(tablet: Any, lake: tuple[Site, str]) -> None:
    _, _, text = lake[0].ask(PAIRED)
    named = named_in(lake[0], text)
    _, headers, worker = lake[0].ask(f"{PAIRED}worker.js")
    found = re.search(r"const FILES = (\[.*\]);", worker)
    assert found is not None and headers["content-type"].startswith("text/javascript")
    assert sorted(json.loads(found[1])) == sorted(named)
    heavy = len(text.encode()) + len(worker.encode())
    loader = re.search(r'importScripts\("([^"]+)"\)', worker)
    assert loader is not None
    for address in (*named, loader[1]):
        status, _, body = lake[0].ask(address)
        assert status == 200
        heavy += len(body.encode())
    assert heavy < 148_600, f"{heavy} bytes, what draws codes among them"
    asked = tablet.evaluate("performance.getEntriesByType('resource').map((one) => new URL(one.name).pathname)")
    assert {one for one in asked if one.startswith("/static/")} <= set(named)
    (codes,) = (one for one in named if "/vendor/" in one)
    assert codes not in asked, "what draws codes is fetched when one is asked for"


def test_over_plain_http_the_token_is_never_sent(chromium: Any, own_lake: tuple[Site, str]) -> None:
    site, secret = own_lake
    context = chromium.new_context(base_url=f"http://lake.test:{site.port}")
    context.add_init_script(
        "{ const now = Date.now; Date.now = () => now() - 3 * 36e5; }"
    )  # a clock three hours behind
    page = context.new_page()
    sent: list[str] = []
    page.on("request", lambda asked: sent.append(json.dumps([asked.url, asked.headers, asked.post_data])))
    open_table(page, f"{PAIRED}#{secret}")
    briefed(page)
    weigh(page, 5)
    where(page, "the slip is on the server")
    assert kept(site, 5) == [5]
    shown = [json.loads(one)[1]["authorization"] for one in sent if "authorization" in one]
    assert len(shown) >= 2 and all(one.startswith("Signed ") for one in shown)
    assert not any(secret in one for one in sent)
    context.close()


def test_a_link_with_another_key_changes_nothing_unasked(tablet: Any, lake: tuple[Site, str]) -> None:
    other = token(lake[0], "Table 8")
    own = "localStorage.getItem('weighin-table.token.today-on-the-slough-2026')"
    for foreign in ("x" * 43, other):
        tablet.evaluate(f"location.hash = '{foreign}'")
        tablet.wait_for_selector("#notices:has-text('This link brings another key.')")
        assert tablet.evaluate(own) == lake[1] and foreign not in tablet.url
        tablet.click("text=Stay with its own")
        tablet.wait_for_selector("#notices:has-text('another key')", state="detached")
    weigh(tablet, 26)
    state(tablet, 26, "on the server")
    tablet.evaluate(f"location.hash = '{other}'")
    tablet.click("text=Use the other")
    weigh(tablet, 27)
    state(tablet, 27, "on the server")
    assert tablet.evaluate(own) == other


def test_slips_outlive_a_sign_out(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    """The sign-in is ended from another device while the tablet has no link: its slips wait for the next sign-in."""
    page = window(lake[0].address)
    sign_in(page, "scales")
    open_table(page)
    briefed(page)
    page.wait_for_selector("html[data-alone]")
    page.context.set_offline(True)
    for boat in (46, 47):
        weigh(page, boat)
    where(page, "2 slips saved on this tablet")
    elsewhere = window(lake[0].address)
    sign_in(elsewhere, "scales")
    elsewhere.goto("/devices/")
    elsewhere.click("text=Sign out all others")
    elsewhere.wait_for_selector("text=signed out.")
    with page.expect_response(lambda answer: answer.request.method == "POST" and answer.status == 401):
        page.context.set_offline(False)
    where(page, "2 slips saved on this tablet")
    assert not kept(lake[0], 46, 47)
    page.close()
    page = page.context.new_page()
    sign_in(page, "scales")
    page.goto(PAGE)
    ready(page)
    where(page, "all 2 slips are on the server")
    assert kept(lake[0], 46, 47) == [46, 47]

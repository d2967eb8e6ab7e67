"""A backup of the morning is restored in the middle of the day: what tablets wrote since comes up again, once each."""

import json
from datetime import datetime
from pathlib import Path
from typing import Any

from browser.ramp import PAIRED as RAMP
from browser.ramp import PHONE, care_token, check, open_ramp, sent
from browser.ramp import where as where_notes
from browser.scales import PAIRED, SLUG, briefed, kept, module, open_table, ready, weigh, where
from browser.test_roll import ROLL, lines
from served import Site


def test_nothing_is_lost_or_doubled(
    window: Any, own_lake: tuple[Site, str], people: Any, sign_in: Any, tmp_path: Path
) -> None:
    site, secret = own_lake
    care = care_token(site)
    table = window(site.address)
    open_table(table, f"{PAIRED}#{secret}")
    briefed(table)
    phone = window(site.address, viewport=PHONE)
    open_ramp(phone, f"{RAMP}#{care}")
    shore = window(site.address, viewport=PHONE)
    sign_in(shore, "scales")
    shore.goto(ROLL)
    shore.wait_for_selector("#roll[data-ready]")
    weigh(table, 11)
    check(phone, 21)
    shore.click("#in-31")
    shore.wait_for_selector("table #boat-31")
    where(table, "the slip is on the server")
    where_notes(phone, "the note is on the server")
    copy = tmp_path / "morning"
    done = site.manage("backup", str(copy))
    assert done.returncode == 0, done.stdout + done.stderr
    weigh(table, 12)
    weigh(table, 13)
    check(phone, 22)
    shore.click("#in-32")
    shore.wait_for_selector("table #boat-32")
    where(table, "all 3 slips are on the server")
    where_notes(phone, "all 2 notes are on the server")
    assert site.stop() == 0
    done = site.manage("restore", str(copy))
    assert done.returncode == 0, done.stdout + done.stderr
    assert kept(site, 11, 12, 13) == [11] and [boat for boat, *_ in sent(site, 21, 22)] == [21]
    site.start()
    for page in (table, phone, shore):
        page.evaluate("dispatchEvent(new Event('online'))")
    table.wait_for_selector("#notices:has-text('The site was put back to an older copy.')")
    where(table, "all 3 slips are on the server")
    phone.wait_for_selector("#notices:has-text('older copy')")
    where_notes(phone, "all 2 notes are on the server")
    shore.reload()
    shore.wait_for_selector("table #boat-32")
    assert kept(site, 11, 12, 13) == [11, 12, 13]
    assert [boat for boat, stands, _ in sent(site, 21, 22) if stands] == [21, 22]
    assert [boat for boat, _ in lines(site, 31, 32)] == [31, 32]


def test_a_site_that_cannot_write_is_said_so_and_asked_again(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.route(
        "**/slips",
        lambda route: route.fulfill(status=503, headers={"Retry-After": "1"}, json={"error": "No database."}),
    )
    weigh(tablet, 82)
    tablet.wait_for_selector("#band:has-text('The site cannot write just now. Carry on weighing.')")
    assert "stay on this tablet" in tablet.inner_text("#band") and "No link" not in tablet.inner_text("#band")
    tablet.unroute("**/slips")
    where(tablet, "the slip is on the server")
    assert kept(lake[0], 82) == [82]


def test_after_midnight_the_tablet_writes_the_evening_before(window: Any, lake: tuple[Site, str]) -> None:
    """Two nights, 5 PM to 12:45 AM: half an hour past midnight it is still the first night's day."""
    page = window(lake[0].address)

    def nights(route: Any) -> None:
        answer = route.fetch()
        if answer.status != 200:
            route.fulfill(response=answer)
            return
        told = answer.json()
        night = {**told["days"][0], "flights": {}}
        told["days"] = [
            {**night, "day": 1, "date": "2026-07-18", "start": "2026-07-18T17:00:00-05:00", "due": "2026-07-19T00:45:00-05:00"},
            {**night, "day": 2, "date": "2026-07-19", "start": "2026-07-19T17:00:00-05:00", "due": "2026-07-20T00:45:00-05:00"},
        ]  # fmt: skip
        told["server_time"] = "2026-07-19T00:50:00-05:00"
        route.fulfill(response=answer, body=json.dumps(told))

    page.clock.install(time=datetime.fromisoformat("2026-07-19T00:50:00-05:00"))
    page.route("**/station?since=*", nights)
    page.goto(f"{PAIRED}#{lake[1]}")
    ready(page)
    briefed(page)
    assert page.input_value("#day") == "1"
    page.select_option("#day", "2")
    page.wait_for_selector("#early:has-text('Day 2 has not begun. It starts Sun, July 19, 2026 at 5:00 PM.')")
    page.fill("#official", "R. Quill")
    page.fill("#boat", "83")
    page.fill("#alive", "7")
    page.fill("#gross", "6.50")
    page.click("#keep")
    assert page.locator("#slips > li").count() == 0 and page.input_value("#gross") == "6.50"
    page.click("#early button")
    assert page.input_value("#day") == "1" and page.input_value("#gross") == "6.50"


def test_times_are_taken_as_people_type_them(tablet: Any) -> None:
    found = tablet.evaluate(
        f"async () => {{ const times = {module('device/times')}; return "
        "['3pm', '3:05 PM', '15:05', '3.05.30 p.m.', '12am', '1505', '9:61', 'noon', '3'].map((one) => (times.read(one) || {}).whole); }"
    )
    assert found == ["15:00:00", "15:05:00", "15:05:00", "15:05:30", "00:00:00", "15:05:00", None, None, None]
    tablet.click("#more summary")
    tablet.fill("#checked_in", "3:05 PM")
    tablet.press("#checked_in", "Tab")
    assert tablet.input_value("#checked_in") == "3:05 PM"


def test_lists_do_not_scroll_sideways_on_a_phone(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address, viewport=PHONE)
    sign_in(page, "director")
    for address in (f"/events/{SLUG}/slips/", f"/events/{SLUG}/care/"):
        assert page.goto(address).status == 200
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, address
        found = page.evaluate(
            "Math.max(...[...document.querySelectorAll('.ask :is(input, select, button)')].map((one) => one.getBoundingClientRect().right))"
        )
        assert found <= 390, f"{address}: {found}"

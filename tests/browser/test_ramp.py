"""Boat checks and care notes on a phone: few taps, all kept without a link, nothing counted twice or written over."""

import json
import re
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from browser.ramp import (
    PAGE,
    PAIRED,
    PHONE,
    care_token,
    check,
    choose,
    keep,
    notes,
    open_ramp,
    post,
    sent,
    state,
    where,
)
from browser.scales import document, module, named_in
from served import Site

AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


def test_a_good_boat_takes_three_taps_and_is_kept_at_once(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address, viewport=PHONE)
    sign_in(page, "fishcare")
    open_ramp(page)
    page.evaluate("window.taps = 0; addEventListener('pointerdown', () => { taps += 1; }, true)")
    began = page.evaluate("performance.now()")
    check(page, 61)
    took = page.evaluate("performance.now()") - began
    assert page.evaluate("taps") == 3
    assert took < 15_000, took
    said = page.inner_text("#readback")
    assert "Pump runs, thermometer works, launched" in said, "nobody measured air or ice"
    assert page.locator("#lacking .boat[data-boat='61']").count() == 0, "it lacks a check no longer"
    where(page, "the note is on the server")
    (row,) = sent(lake[0], 61)
    assert row[1] and set(row[2]) == {"pump_ok", "thermometer_ok", "launched"}
    assert notes(lake[0], 61)[61]["pump_ok"] == 1


def test_five_boats_checked_offline_end_in_five_notes(window: Any, lake: tuple[Site, str], ramp_token: str) -> None:
    page = window(lake[0].address, viewport=PHONE)
    context, boats = page.context, range(71, 76)
    open_ramp(page, f"{PAIRED}#{ramp_token}")
    assert ramp_token not in page.url
    page.wait_for_selector("html[data-alone]")
    context.set_offline(True)
    for boat in boats[:3]:
        check(page, boat)
    where(page, "3 notes saved on this phone")
    page.wait_for_selector("#band:has-text('Carry on.')")
    assert "Do not load this page again" not in page.inner_text("#band")
    page.reload()
    page.wait_for_selector("html[data-ready][data-papers]")
    where(page, "3 notes saved on this phone")
    for boat in boats[3:]:
        check(page, boat)
    page.close()
    page = context.new_page()
    page.set_viewport_size(PHONE)
    page.goto(PAIRED)
    page.wait_for_selector("html[data-ready]")
    where(page, "5 notes saved on this phone")
    assert page.evaluate("getComputedStyle(document.querySelector('.stages button')).minHeight") == "56px", "styled"
    assert page.locator("#lacking .boat").count() > 0
    assert not {int(n) for n in page.locator("#lacking .boat b").all_inner_texts()} & set(boats)
    assert not sent(lake[0], *boats)
    context.set_offline(False)
    where(page, "all 5 notes are on the server")
    page.wait_for_selector("#band", state="hidden")
    assert [boat for boat, stands, _ in sent(lake[0], *boats) if stands] == list(boats)
    assert sorted(notes(lake[0], *boats)) == list(boats)


def test_notes_outlive_the_server_and_the_phone_on_plain_http(
    chromium: Any, own_lake: tuple[Site, str], tmp_path: Path
) -> None:
    site, secret = own_lake[0], care_token(own_lake[0])
    context = chromium.new_context(base_url=f"http://lake.test:{site.port}", viewport=PHONE)
    page = context.new_page()
    open_ramp(page, f"{PAIRED}#{secret}")
    assert not page.evaluate("isSecureContext")
    check(page, 2)
    where(page, "the note is on the server")
    site.kill()
    check(page, 3)
    page.wait_for_selector("#band:has-text('Do not load this page again meanwhile')")
    where(page, "1 note saved on this phone")
    page.close()
    site.start()
    page = context.new_page()
    page.goto(PAIRED)
    where(page, "all 2 notes are on the server")
    assert [boat for boat, _, _ in sent(site, 2, 3)] == [2, 3]
    context.close()


def test_an_answer_that_is_lost_costs_nothing(phone: Any, lake: tuple[Site, str]) -> None:
    lost: list[int] = []

    def lose(route: Any) -> None:
        lost.append(route.fetch().status)
        route.abort()

    phone.route("**/care", lose)
    check(phone, 62)
    phone.wait_for_selector("#band:not([hidden])")
    assert lost[0] == 200 and len(sent(lake[0], 62)) == 1, "the site kept it, the phone has not heard so"
    state(phone, 62, "saved on this phone")
    phone.unroute("**/care")
    state(phone, 62, "on the server").locator("summary").click()
    assert "it counts once" in phone.inner_text("#notes")
    assert len(sent(lake[0], 62)) == 1


def test_notes_are_kept_without_indexeddb(window: Any, lake: tuple[Site, str], ramp_token: str) -> None:
    page = window(lake[0].address, viewport=PHONE)
    page.context.add_init_script(
        "Object.defineProperty(window, 'indexedDB', { value: { open() { throw new Error('refused'); } } })"
    )
    open_ramp(page, f"{PAIRED}#{ramp_token}")
    page.wait_for_selector("html[data-alone]")
    page.context.set_offline(True)
    check(page, 63)
    page.reload()
    where(page, "1 note saved on this phone")
    page.context.set_offline(False)
    where(page, "the note is on the server")
    assert len(sent(lake[0], 63)) == 1


def test_a_failed_item_is_one_tap_more_with_words_if_one_likes(phone: Any, lake: tuple[Site, str]) -> None:
    choose(phone, 64)
    phone.click("#all-good")
    phone.click("[name=pump_ok][value=no]")
    phone.fill("#words", "impeller stuck")
    keep(phone, 64)
    assert "Something is wrong: pump not in order." in phone.inner_text("#readback")
    state(phone, 64, "on the server")
    row = notes(lake[0], 64)[64]
    assert (row["pump_ok"], row["thermometer_ok"], row["note"]) == (0, 1, "impeller stuck")
    phone.click("#noted-head")
    assert "Pump not in order." in phone.inner_text(".boat[data-boat='64']")


def test_the_afternoon_fills_in_and_a_change_carries_the_morning(phone: Any, lake: tuple[Site, str]) -> None:
    choose(phone, 65)
    phone.click("#all-good")
    phone.fill("#launched", "00:20")
    phone.fill("#words", "lid cracked")
    keep(phone, 65)
    state(phone, 65, "on the server")
    phone.click("[data-stage=table]")
    assert "lack a note at the table" in phone.inner_text("#finding")
    choose(phone, 65)
    assert "No slip of this boat counts on the site yet" in phone.inner_text("#care-counts")
    assert "pump runs" in phone.inner_text("#stands") and phone.input_value("#words") == "lid cracked"
    phone.click("#all-good")
    phone.fill("#first_fish", "00:40")
    phone.fill("#livewell_temp", "76.5")
    phone.click("#reflexes-head")
    phone.fill("#fish_tried", "2")
    phone.click("[data-step='1'][data-of='absent_2']")
    assert phone.is_hidden("#reason-part"), "nothing that was noted changes"
    keep(phone, 65)
    state(phone, 65, "on the server")
    where(phone, "all 2 notes are on the server")
    row = notes(lake[0], 65)[65]
    assert (row["pump_ok"], row["note"], row["livewell_temp"], row["deep_hooked"]) == (1, "lid cracked", "76.5 F", 0)
    assert (row["reflexes_absent"], row["reflexes_checked"]) == (1, 10)
    choose(phone, 65)
    phone.fill("#words", "lid cracked; pump loud at noon")
    assert "note. All else that was noted stays." in phone.inner_text("#reason-says")
    phone.fill("#reason", "")
    phone.click("#keep")
    phone.wait_for_selector(".fault:has-text('Write why')")
    phone.fill("#reason", "looked again at the table")
    keep(phone, 65)
    where(phone, "all 3 notes are on the server")
    after = notes(lake[0], 65)[65]
    assert after == {**row, "note": "lid cracked; pump loud at noon"}, "all else of the morning is carried"
    assert [stands for _, stands, _ in sent(lake[0], 65)] == [True] * 3
    choose(phone, 65)
    keep(phone, 65)
    assert "nothing new to save" in phone.inner_text("#readback") and len(sent(lake[0], 65)) == 3


def test_two_changes_made_offline_follow_each_other(phone: Any, lake: tuple[Site, str]) -> None:
    phone.wait_for_selector("html[data-alone]")
    phone.context.set_offline(True)
    check(phone, 66)
    for words in ("first look", "second look"):
        choose(phone, 66)
        phone.fill("#words", words)
        keep(phone, 66)
    choose(phone, 66)
    phone.click("[name=pump_ok][value=no]")
    keep(phone, 66)
    where(phone, "4 notes saved on this phone")
    phone.context.set_offline(False)
    where(phone, "all 4 notes are on the server")
    row = notes(lake[0], 66)[66]
    assert (row["pump_ok"], row["thermometer_ok"], row["note"]) == (0, 1, "second look")
    assert all(stands for _, stands, _ in sent(lake[0], 66))


def test_every_state_is_said_in_words(phone: Any, lake: tuple[Site, str], ramp_token: str) -> None:
    phone.wait_for_selector("html[data-alone]")
    phone.context.set_offline(True)
    for boat in (67, 68):
        choose(phone, boat)
        phone.click("[name=pump_ok][value=no]")
        keep(phone, boat)
    phone.route("**/care", lambda route: route.abort())
    phone.context.set_offline(False)
    waiting = phone.evaluate(
        f"async () => (await (await {module('device/store')}.openStore(document.body.dataset.event, 'notes')).all()).map((one) => one.note)"
    )
    first = next(one for one in waiting if one["boat"] == 67)
    assert post(phone, ramp_token, **{**first, "pump_ok": True})["state"] == "kept", "its id with other values"
    assert post(phone, ramp_token, id=str(uuid4()), boat=68, pump_ok=True)["state"] == "kept"
    phone.unroute("**/care")
    state(phone, 67, "differs, not saved")
    state(phone, 68, "waits for an official")
    assert notes(lake[0], 68)[68]["pump_ok"] == 1, "nothing is written over"
    assert "need you" in phone.inner_text("#where-kept")
    phone.locator("#notes > li:has(.boat:text-is('67')) summary").click()
    phone.click("#notes button:has-text('Set it aside')")
    state(phone, 67, "set aside")


def test_what_is_refused_is_put_right_on_the_phone(phone: Any, lake: tuple[Site, str]) -> None:
    phone.click("[data-stage=table]")
    choose(phone, 69)
    phone.fill("#livewell_temp", "24.5")
    phone.click("#keep")
    phone.wait_for_selector(".fault:has-text('look at the unit')")
    phone.select_option("#livewell_temp_unit", "C")
    phone.fill("#first_fish", "at dawn")
    phone.click("#keep")
    phone.wait_for_selector(".fault:has-text('Write the time as 7:10 AM or 07:10.')")
    phone.fill("#first_fish", "00:45")
    phone.fill("#livewell_do", "99")
    keep(phone, 69)
    row = state(phone, 69, "refused, not saved")
    row.locator("summary").click()
    assert "livewell do:" in row.inner_text()
    row.locator("button:has-text('Correct it')").click()
    assert phone.input_value("#livewell_do") == "99" and phone.input_value("#livewell_temp") == "24.5"
    phone.fill("#livewell_do", "9.9")
    keep(phone, 69)
    state(phone, 69, "on the server")
    where(phone, "the note is on the server")
    ((_, stands, said),) = sent(lake[0], 69)
    assert stands and said["livewell_do"] == "9.9" and said["livewell_temp"] == "24.5 C"


def test_what_cannot_be_true_beside_an_earlier_note_waits(phone: Any, lake: tuple[Site, str]) -> None:
    choose(phone, 70)
    phone.fill("#launched", "00:50")
    keep(phone, 70)
    state(phone, 70, "on the server")
    phone.click("[data-stage=table]")
    choose(phone, 70)
    phone.fill("#first_fish", "00:45")
    keep(phone, 70)
    state(phone, 70, "waits for an official")
    assert notes(lake[0], 70)[70]["first_fish"] is None


def test_what_the_page_of_fish_care_says_is_not_written_over(
    phone: Any, lake: tuple[Site, str], window: Any, sign_in: Any
) -> None:
    desk = window(lake[0].address)
    sign_in(desk, "fishcare")
    desk.goto(f"{PAGE.replace('/ramp/', '/care/')}1/60/")
    desk.fill("[name=ice_lb]", "10")
    desk.click("main form.care-form .button:not(.plain)")
    desk.wait_for_url("**/care/")
    phone.reload()
    phone.wait_for_selector("#noted .boat[data-boat='60']", state="attached")
    choose(phone, 60)
    assert "10 lb of ice" in phone.inner_text("#stands")
    phone.fill("#ice_lb", "30")
    assert "Yours waits beside it until an official decides" in phone.inner_text("#reason-says")
    keep(phone, 60)
    state(phone, 60, "waits for an official")
    assert notes(lake[0], 60)[60]["ice_lb"] == "10"
    desk.reload()
    desk.click(".heed:has-text('of boat 60') a")
    desk.fill("[name=reason]", "counted the bags")
    desk.click("button[name=holds][value=sent]")
    desk.wait_for_url("**/care/1/60/")
    assert notes(lake[0], 60)[60]["ice_lb"] == "30"
    phone.reload()
    state(phone, 60, "on the server")


@pytest.mark.parametrize("light", ["paper", "night", "sun"])
def test_the_page_can_be_used_by_all(phone: Any, light: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    phone.click(f".light [value={light}]")
    found = []

    def look() -> None:
        results = Axe().run(phone, options={"runOnly": AA})
        found.extend(violation["id"] for violation in results.response["violations"])
        wide = phone.evaluate("document.documentElement.scrollWidth")
        assert wide <= PHONE["width"], wide
        small = phone.evaluate(
            "[...document.querySelectorAll('main button, main select, main input:not([type=radio])')]"
            ".filter((one) => one.offsetParent && one.getBoundingClientRect().height < 44).map((one) => one.outerHTML)"
        )
        assert not small, small

    for stage in ("ramp", "table"):
        phone.click(f"[data-stage={stage}]")
        look()
        choose(phone, 90)
        for more in phone.locator("#note summary").all():
            if more.is_visible():
                more.click()
        look()
        phone.click("#back")
    assert not found, found


def test_the_worker_keeps_every_file_of_the_page(lake: tuple[Site, str]) -> None:
    _, _, text = lake[0].ask(PAIRED)
    named = named_in(lake[0], text)
    _, headers, worker = lake[0].ask(f"{PAIRED}worker.js")
    found = re.search(r"const FILES = (\[.*\]);", worker)
    assert found is not None and headers["content-type"].startswith("text/javascript")
    assert sorted(json.loads(found[1])) == sorted(named)
    heavy = len(text.encode()) + sum(len(lake[0].ask(address)[2].encode()) for address in named)
    assert heavy < 120_000, heavy


def test_a_station_that_may_not_write_notes_is_told_so(window: Any, lake: tuple[Site, str]) -> None:
    page = window(lake[0].address, viewport=PHONE)
    assert document(*lake)["station"]["can"]
    page.goto(f"{PAIRED}#{lake[1]}")
    page.wait_for_selector("#notices:has-text('cannot')")


def test_without_javascript_the_written_form_is_named(chromium: Any, lake: tuple[Site, str]) -> None:
    context = chromium.new_context(base_url=lake[0].address, java_script_enabled=False)
    page = context.new_page()
    page.goto(PAIRED)
    assert page.get_attribute("noscript a", "href") == PAGE.replace("/ramp/", "/care/")
    context.close()

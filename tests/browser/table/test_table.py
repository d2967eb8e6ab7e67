"""The page at the scale table: one slip at a time, scored as it is typed, doubted but never held up."""

import json
import re
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from browser.scales import (
    PAIRED,
    asked,
    briefed,
    document,
    fresh,
    kept,
    key,
    open_table,
    post,
    rows,
    state,
    weigh,
    where,
)
from served import Site

AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


def test_a_slip_is_keyed_in_twelve_strokes_and_its_figures(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address, viewport={"width": 1180, "height": 820})
    sign_in(page, "scales")
    open_table(page)
    briefed(page)
    assert page.evaluate("document.activeElement.id") == "boat"
    page.evaluate(
        "window.strokes = 0; addEventListener('keydown', (event) => { if (!/^[0-9.]$/.test(event.key)) strokes += 1; }, true)"
    )
    key(page, "1")
    assert page.inner_text("#team") == "Ilse & Marlow", "the team is named before there is a weight"
    key(page, "6", "1", "0", "9.84", "1.62")
    assert page.evaluate("document.activeElement.name") == "big_fish_alive"
    page.keyboard.press("Space")
    assert "9.59" in page.inner_text("#sum") and "1 dead fish at 0.25" in page.inner_text("#sum")
    page.keyboard.press("Enter")
    key(page, "RQ")
    page.wait_for_selector("#readback:has-text('Boat 1, Ilse & Marlow')")
    assert page.evaluate("strokes") <= 12 + 2, "two of them are the initials of those who judged the fish"
    said = page.inner_text("#readback")
    assert "7 fish: 6 alive, 1 dead, 0 short, 9.84 on the scale, big fish 1.62." in said and "Total 9.59 lb" in said
    assert page.evaluate("document.activeElement.id") == "boat" and page.input_value("#gross") == ""
    state(page, 1, "on the server")
    (slip,) = [one for one in document(*lake)["slips"] if one["boat"] == 1]
    assert (slip["alive"], slip["dead"], slip["gross"], slip["big_fish"]) == (6, 1, "9.84", "1.62")
    assert (
        slip["big_fish_alive"] is True and slip["note"] == "Judged dead by RQ." and slip["official"] == "Odile Varnham"
    )


def test_a_second_slip_is_said_before_and_after(tablet: Any, lake: tuple[Site, str]) -> None:
    post(tablet, lake[1], "slips", boat=31)
    fresh(tablet)
    key(tablet, "31", "7", "0", "0", "6.10", "")
    tablet.wait_for_selector(".doubt:has-text('Boat 31 has slip')")
    assert tablet.inner_text("#keep") == "Save a second slip for boat 31 all the same"
    assert tablet.evaluate("document.activeElement.id") == "keep"
    asked(tablet)
    tablet.keyboard.press("Enter")
    state(tablet, 31, "second slip")
    assert "1 needs you" in tablet.inner_text("#where-kept")
    assert "neither counts until the director settles it" in tablet.inner_text("#readback")
    assert kept(lake[0], 31) == [31, 31]
    row = state(tablet, 31, "second slip")
    row.locator("summary").click()
    row.locator("button", has_text="It is settled").click()
    state(tablet, 31, "on the server")
    assert "needs you" not in tablet.inner_text("#where-kept")


def test_a_refused_slip_is_put_right_under_its_id(tablet: Any, lake: tuple[Site, str]) -> None:
    key(tablet, "991", "7", "0", "0", "6.20", "")
    tablet.wait_for_selector(".doubt:has-text('not on this tablet')")
    asked(tablet)
    tablet.keyboard.press("Enter")
    row = state(tablet, 991, "refused, not saved")
    id = row.get_attribute("data-id")
    row.locator("summary").click()
    assert "boat" in row.inner_text().lower() and "6.20 lb" in row.inner_text()
    row.locator("button", has_text="Correct it").click()
    assert tablet.input_value("#gross") == "6.20"
    tablet.fill("#boat", "32")
    tablet.click("#keep")
    state(tablet, 32, "on the server")
    assert [one for one, boat, _ in rows(lake[0]) if boat == 32] == [id.replace("-", "")]
    assert tablet.locator("#slips > li").count() == 1
    (slip,) = [one for one in document(*lake)["slips"] if one["boat"] == 32]
    assert slip["note"] is None, "the doubt about the wrong boat is gone with it"


def test_a_slip_that_differs_is_said_and_set_aside(tablet: Any, lake: tuple[Site, str]) -> None:
    def before(route: Any) -> None:
        for slip in json.loads(route.request.post_data)["slips"]:
            if slip["boat"] == 33 and not kept(lake[0], 33):
                post(tablet, lake[1], "slips", id=slip["id"], boat=33, gross="9.99")
        route.continue_()

    tablet.route("**/slips", before)
    weigh(tablet, 33)
    row = state(tablet, 33, "differs, not saved")
    row.locator("summary").click()
    assert "Show both to the director" in row.inner_text()
    row.locator("button", has_text="Set it aside").click()
    state(tablet, 33, "set aside")
    assert [weight for _, boat, weight in rows(lake[0]) if boat == 33] == ["9.99"]


@pytest.mark.parametrize(
    ("figures", "words", "label"),
    [
        (("7", "0", "0", "98.4", ""), "98.4 is 14.06 lb a fish", "Save 98.4 all the same"),
        (("9", "0", "0", "8.40", "1.5", "1.4", ""), "9 fish, and the limit is 7", "Save 9 fish all the same"),
        (("7", "0", "0", "0.40", ""), "0.40 is 0.06 lb a fish", "Save 0.40 all the same"),
        (("7", "0", "0", "9.40", "4.1"), "4.1 is heavier than the fish one expects", "Save 4.1 all the same"),
    ],
)
def test_the_unlikely_is_doubted_and_can_be_kept(tablet: Any, figures: Any, words: str, label: str) -> None:
    tablet.context.set_offline(True)
    key(tablet, "34", *figures)
    tablet.wait_for_selector(f".doubt:has-text('{words}')")
    assert tablet.inner_text("#keep") == label
    assert tablet.locator("#slips > li").count() == 0
    tablet.fill("#gross", tablet.input_value("#gross") + "1")
    assert tablet.inner_text("#keep") == "Save boat 34’s slip" and tablet.locator(".doubt").count() == 0
    tablet.fill("#gross", figures[3])
    tablet.click("#keep")
    assert tablet.inner_text("#keep") == label
    tablet.click("#keep")
    where(tablet, "1 slip saved on this tablet")
    row = tablet.locator("#slips > li").first
    row.locator("summary").click()
    assert "Saved all the same: " in row.inner_text()


def test_what_cannot_be_is_said_at_its_line_and_keeps_nothing(tablet: Any) -> None:
    key(tablet, "35", "7", "0", "0", "9,84", "")
    tablet.wait_for_selector(".fault:has-text('a point, not a comma')")
    assert tablet.evaluate("document.activeElement.id") == "gross"
    tablet.fill("#gross", "")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault:has-text('Write what the scale shows.')")
    tablet.fill("#alive", "")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault:has-text('Count the live fish.')")
    tablet.fill("#official", "")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault:has-text('Write who reads the scale.')")
    assert tablet.locator("#slips > li").count() == 0


def test_the_largest_are_asked_for_when_the_rules_take_them(tablet: Any, lake: tuple[Site, str]) -> None:
    key(tablet, "36", "7", "0")
    assert not tablet.is_visible("#largest")
    key(tablet, "1", "9.00")
    assert tablet.inner_text("#largest-says") == "The rules take the largest fish: weigh it alone, heaviest first"
    assert tablet.inner_text("#on-scale") == "6 fish go on the scale; 1 (short) does not."
    assert "waits for the largest fish" in tablet.inner_text("#sum")
    key(tablet, "1.71", "")
    state(tablet, 36, "on the server")
    assert "7.29" in tablet.inner_text("#readback")
    (slip,) = [one for one in document(*lake)["slips"] if one["boat"] == 36]
    assert slip["largest_weights"] == ["1.71"] and slip["short"] == 1


def test_a_late_boat_loses_its_minutes_on_the_tablet(tablet: Any, lake: tuple[Site, str]) -> None:
    post(tablet, lake[1], "checkins", boat=37, minutes_late=3)
    fresh(tablet)
    key(tablet, "37")
    tablet.wait_for_selector("#late:has-text('3 min late')")
    key(tablet, "7", "0", "0", "9.00")
    assert "3 minutes late at 1.00" in tablet.inner_text("#sum") and "6.00" in tablet.inner_text("#sum .total")


def test_the_pad_and_the_steps_write_for_wet_hands(tablet: Any) -> None:
    tablet.click("#pad-switch")
    press = lambda *keys: [tablet.click(f"#pad button:text-is('{one}')") for one in keys]  # noqa: E731
    tablet.focus("#boat")
    press("4", "9", "⌫", "1", "Next")
    for name in ("alive", "alive", "dead"):
        tablet.click(f"[data-step='1'][data-of={name}]")
    tablet.click("[data-step='-1'][data-of=dead]")
    tablet.focus("#gross")
    press("3", ".", "2", "5", "Next", "Next")
    tablet.wait_for_selector("#readback:has-text('Boat 41,')")
    assert "2 fish: 2 alive, 0 dead, 0 short, 3.25 on the scale." in tablet.inner_text("#readback")
    assert tablet.get_attribute("#gross", "inputmode") == "none", "the tablet's own keyboard stays away"


@pytest.mark.parametrize("light", ["paper", "sun", "night"])
@pytest.mark.parametrize("size", [(390, 844), (820, 1180), (1180, 820)], ids=["phone", "upright", "lying"])
def test_everyone_can_use_it(tablet: Any, size: tuple[int, int], light: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    tablet.set_viewport_size({"width": size[0], "height": size[1]})
    tablet.click(f".light [value={light}]")
    tablet.click("#pad-switch")
    tablet.context.set_offline(True)
    weigh(tablet, 42)
    tablet.wait_for_selector("#band:not([hidden])")
    tablet.locator("#slips summary").first.click()
    tablet.focus("#boat")
    key(tablet, "43", "8", "2", "1", "98.4", "", "", "", "1.5")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault, .doubt")
    found = Axe().run(tablet, options={"runOnly": AA})
    assert found.violations_count == 0, found.generate_report()
    assert tablet.evaluate("document.documentElement.scrollWidth <= innerWidth")
    for name in ("boat", "alive", "dead", "short", "gross", "big_fish"):
        tablet.focus(f"#{name}")
        line, bar = tablet.locator(f"#{name}").bounding_box(), tablet.locator("#slip .keep-bar").bounding_box()
        assert line["y"] + line["height"] <= bar["y"] + 1, f"Keep covers {name}"
        assert bar["y"] + bar["height"] <= size[1] + 1, "Keep stays in sight"
    covered = tablet.evaluate(
        "(() => { const box = document.querySelector('#keep').getBoundingClientRect();"
        "return document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2).id; })()"
    )
    assert covered == "keep"
    small = tablet.eval_on_selector_all(
        ".at-scales :is(input:not([type=radio]), select, button), .at-scales summary",
        "all => all.filter(one => one.checkVisibility() && Math.min(one.getBoundingClientRect().height, one.getBoundingClientRect().width) < 43.5).map(one => one.name || one.textContent)",
    )
    assert not small


def test_a_clock_that_is_days_off_is_said_with_both_dates(window: Any, lake: tuple[Site, str]) -> None:
    page = window(lake[0].address, viewport={"width": 1180, "height": 820})
    wrong = datetime.now(ZoneInfo("America/Chicago")) + timedelta(days=10)
    page.clock.install(time=wrong)
    page.goto(f"{PAIRED}#{lake[1]}")
    page.wait_for_selector("#notices .heed:has-text('No day of this event is today.')")
    assert f"This tablet says {wrong:%a, %B} {wrong.day}, {wrong.year}, the event is on" in page.inner_text("#notices")
    assert not re.search(r"[0-9]{4}-[0-9]{2}", page.inner_text("#notices"))

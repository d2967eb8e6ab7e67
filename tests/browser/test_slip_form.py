"""The slip form at the table: everything from the keyboard, in the order of the work, on the demo."""

import re
from typing import Any

import pytest

EVENT = "/events/leaf-fall-classic-2026"


@pytest.fixture
def table(window, site, sign_in) -> Any:
    """The form as the weigh official has it before them; nothing is kept here, so the site is shared."""
    page = window(site.address)
    sign_in(page, "scales")
    page.goto(f"{EVENT}/slips/new/")
    return page


def keys(page: Any, *words: str) -> None:
    """Type each word and go on to the next line."""
    for word in words:
        page.keyboard.type(word)
        page.keyboard.press("Tab")


def test_a_slip_is_written_with_the_keyboard_alone(window, own_site, sign_in) -> None:
    page = window(own_site.address)
    sign_in(page, "scales")
    page.goto(f"{EVENT}/slips/new/")
    assert page.evaluate("document.activeElement.name") == "boat"
    keys(page, "1")
    page.wait_for_selector("#whose .name")
    assert "has slip" in page.inner_text("#whose")
    keys(page, "5", "1")
    page.wait_for_selector("#on-scale:has-text('6 fish go on the scale.')")
    assert page.evaluate("document.activeElement.name") == "short"
    keys(page, "", "")
    assert page.evaluate("document.activeElement.name") == "gross"
    keys(page, "6.84")
    page.wait_for_selector(".comes-to .sum .total .figure")
    assert "1 dead fish" in page.inner_text(".comes-to")
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile(r"/slips/\d+/$"))
    said = page.inner_text("main")
    assert "is saved." in said and "both stay, and neither counts" in said and "1 dead fish" in said


def test_a_fault_takes_the_hand_to_its_line_and_keeps_the_rest(table: Any) -> None:
    page = table
    page.fill("[name=boat]", "2")
    page.fill("[name=alive]", "7")
    page.fill("[name=dead]", "0")
    page.fill("[name=gross]", "9,47")
    page.fill("[name=note]", "wet cardboard")
    page.click("text=Save the slip")
    page.wait_for_selector("#faults")
    assert page.evaluate("document.activeElement.name") == "gross"
    assert page.input_value("[name=gross]") == "9,47" and page.input_value("[name=note]") == "wet cardboard"
    # The way to keep it stays in sight, whatever is being written.
    box = page.locator(".keep").bounding_box()
    assert box["y"] + box["height"] <= page.viewport_size["height"] + 1


def test_the_sum_says_when_the_server_does_not_answer(table: Any) -> None:
    page = table
    page.fill("[name=boat]", "3")
    page.wait_for_selector("#whose .name")
    page.context.set_offline(True)
    page.fill("[name=alive]", "7")
    page.wait_for_selector("[data-live-note]:has-text('no answer since')")
    page.context.set_offline(False)
    page.fill("[name=dead]", "0")
    page.wait_for_selector("#on-scale:has-text('7 fish go on the scale.')")


def test_the_keep_bar_never_covers_the_line_being_written_on_a_phone(window, site, sign_in) -> None:
    page = window(site.address, viewport={"width": 390, "height": 700})
    sign_in(page, "scales")
    page.goto(f"{EVENT}/slips/new/")
    for name in (
        "boat",
        "alive",
        "dead",
        "short",
        "fish",
        "gross",
        "tare",
        "big_fish",
        "checked_in",
        "weighed",
        "official",
        "note",
    ):
        page.focus(f"[name={name}]")
        line = page.locator(f"[name={name}]").bounding_box()
        bar = page.locator(".keep").bounding_box()
        assert line["y"] + line["height"] <= bar["y"] + 1 or line["y"] >= bar["y"] + bar["height"] - 1, name

"""The roll and the publish page with the keyboard alone: all is reached by Tab, and where one is can be seen."""

import re
from collections.abc import Callable
from typing import Any

from browser.crawl.walked import Walker

HERE = """() => { const one = document.activeElement, style = getComputedStyle(one);
  return { tag: one.tagName, type: one.type ?? "", name: one.name ?? "", words: (one.textContent || one.value || "").trim().replace(/\\s+/g, " "),
    seen: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0
      || style.boxShadow !== "none" || parseFloat(style.borderBottomWidth) >= 2 }; }"""
MOST = 150


def tab_to(page: Any, wanted: Callable[[dict[str, Any]], bool]) -> list[dict[str, Any]]:
    """Press Tab until what has the focus is ``wanted``; all that had it on the way. Each is marked, or the test fails."""
    way: list[dict[str, Any]] = []
    for _ in range(MOST):
        page.keyboard.press("Tab")
        way.append(page.evaluate(HERE))
        assert way[-1]["seen"], f"nothing shows that this has the focus: {way[-1]}"
        if wanted(way[-1]):
            return way
    raise AssertionError(f"not reached by {MOST} keys: {[one['words'][:30] for one in way]}")


def test_a_boat_comes_in_by_keys_alone(walker: Callable[..., Walker]) -> None:
    page = walker("weigh_official").page
    page.goto("/events/forty-going-on-2026/roll/")
    page.wait_for_selector("#roll[data-ready]")
    if page.evaluate(HERE)["name"] != "boat":
        tab_to(page, lambda one: one["name"] == "boat")
    page.keyboard.type("31")
    page.keyboard.press("Enter")
    page.wait_for_selector("#roll :text('Boat 31'), [data-roll-said]:has-text('31')")
    page.goto("/events/forty-going-on-2026/roll/")
    page.wait_for_selector("#roll[data-ready]")
    page.wait_for_selector("#in-31", state="detached")
    way = tab_to(page, lambda one: one["tag"] == "BUTTON" and page.evaluate("document.activeElement.id") == "in-32")
    assert len(way) < MOST
    page.keyboard.press("Enter")
    page.wait_for_selector("#in-32:has-text('In at'), table #boat-32")


def test_a_result_is_published_by_keys_alone(walker: Callable[..., Walker]) -> None:
    page = walker("director").page
    page.goto("/events/five-to-publish-2026/publish/")
    for _ in range(MOST):
        here = tab_to(
            page,
            lambda one: one["type"] in ("text", "textarea", "checkbox") or one["words"].startswith("Publish version"),
        )[-1]
        if here["tag"] == "BUTTON":
            break
        if here["type"] == "checkbox":
            page.keyboard.press("Space")
        else:
            page.keyboard.type("an invented event")
    assert here["words"] == "Publish version 1"
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile(r"/five-to-publish-2026/results/"))
    assert "ersion 1" in page.inner_text("main")

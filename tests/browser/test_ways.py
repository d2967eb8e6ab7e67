"""The ways of an event on a phone: the current one is in view, and a sign says where more are."""

from typing import Any

PHONE = {"viewport": {"width": 390, "height": 844}}
IN_VIEW = """() => {
  const ways = document.querySelector(".ways").getBoundingClientRect();
  const current = document.querySelector(".ways [aria-current]").getBoundingClientRect();
  return current.left >= ways.left && current.right <= ways.right;
}"""
MORE = "() => document.querySelector('.ways').dataset.more"
SIGN = "() => getComputedStyle(document.querySelector('.ways'), '::after').content"


def test_every_page_of_an_event_is_marked_in_view_and_more_is_said(window: Any, site: Any, sign_in: Any) -> None:
    page = window(site.address, **PHONE)
    sign_in(page, "director")
    page.goto("/clubs/")
    page.click("main a.button")
    event = page.url.rstrip("/")
    for under, more in (("", "after"), ("/standings/", "after"), ("/mortality/", ""), ("/results/", "before"), ("/history/", "before")):  # fmt: skip
        answer = page.goto(f"{event}{under}")
        if answer.status == 404:
            continue
        page.wait_for_function("() => 'more' in document.querySelector('.ways').dataset")
        assert page.evaluate(IN_VIEW), under
        assert more in page.evaluate(MORE), under
    page.goto(f"{event}/")
    assert "more" in page.evaluate(SIGN)
    page.evaluate("document.querySelector('.ways').scrollLeft = 9999")
    page.wait_for_function("() => document.querySelector('.ways').dataset.more === 'before'")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")

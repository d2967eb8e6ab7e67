"""The ways in a browser: one line on a screen, the foot of a phone, and every way within two taps."""

from typing import Any

PHONE = {"viewport": {"width": 390, "height": 844}}
ONE_LINE = "() => document.querySelector('.ways').getBoundingClientRect().height < 60"
NO_SCROLL = "() => document.documentElement.scrollWidth <= innerWidth"
IN_VIEW = """() => {
  const current = document.querySelector(".ways > [aria-current]").getBoundingClientRect();
  return current.width > 0 && current.left >= 0 && current.right <= innerWidth && current.bottom <= innerHeight;
}"""


def of_an_event(page: Any, sign_in: Any) -> str:
    sign_in(page, "director")
    page.goto("/clubs/")
    page.click("main h2 a")
    page.click("main tbody a")
    return str(page.url).rstrip("/")


def test_on_a_phone_every_way_is_two_taps_away(window: Any, site: Any, sign_in: Any) -> None:
    page = window(site.address, **PHONE)
    event = of_an_event(page, sign_in)
    for under in ("/", "/standings/", "/mortality/", "/pads/", "/care/holding/"):
        page.goto(f"{event}{under}")
        assert page.evaluate(IN_VIEW), under
        assert page.evaluate(NO_SCROLL), under
    page.tap(".all-ways summary") if page.evaluate("'ontouchstart' in window") else page.click(".all-ways summary")
    shown = page.locator(".all-ways li a")
    assert shown.count() > 30 and page.evaluate(NO_SCROLL)
    page.click(".all-ways li a[href$='/care/tanks/']")
    page.wait_for_url("**/care/tanks/")


def test_on_a_phone_no_way_is_cut_in_the_longest_words(window: Any, site: Any) -> None:
    page = window(site.address, **PHONE, locale="es-MX")
    page.goto("/")
    event = page.locator("main tbody a").first.get_attribute("href")
    for under in ("", "standings/", "fish/"):
        page.goto(f"{event}{under}")
        rights = page.locator(".ways > a").evaluate_all("all => all.map(one => one.getBoundingClientRect().right)")
        assert len(rights) == 5 and max(rights) <= 390, under


def test_more_shuts_at_escape_and_at_a_press_beside_it(window: Any, site: Any, sign_in: Any) -> None:
    page = window(site.address)
    of_an_event(page, sign_in)
    is_open = "() => document.querySelector('.all-ways').open"
    page.click(".all-ways summary")
    assert page.evaluate(is_open)
    page.keyboard.press("Escape")
    assert not page.evaluate(is_open) and page.evaluate("document.activeElement.localName") == "summary"
    page.click(".all-ways summary")
    page.mouse.click(600, 880)
    assert not page.evaluate(is_open)


def test_on_a_screen_the_ways_stand_in_one_line(window: Any, site: Any, sign_in: Any) -> None:
    for wide in (1180, 1280):
        page = window(site.address, viewport={"width": wide, "height": 900})
        event = of_an_event(page, sign_in)
        club = page.locator(".crumbs a").first.get_attribute("href")
        for path in (
            f"{event}/",
            f"{event}/stations/",
            club,
            f"{club}seasons/2026/mortality/",
            f"{club}seasons/2026/releases/",
        ):
            page.goto(path)
            assert page.evaluate(ONE_LINE), (wide, path)

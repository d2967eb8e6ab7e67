"""Pages in states that no link leads to: refusals, forms sent back, codes shown once; the reader's own colours."""

from collections.abc import Callable

import pyotp
import pytest
from browser.crawl.said import wrong_words
from browser.crawl.walked import ZOOMED, Walker
from served import Site
from walking import Opened

EVENT = "/events/forty-going-on-2026"
CLUB = "/clubs/dunnock-valley-crappie-club"
Start = Callable[..., Walker]
# Sent without what the browser would ask for first
SEND = """() => { const form = [...document.querySelectorAll("main form[method=post]")].at(-1);
  form.querySelectorAll("input:not([type=hidden]), textarea").forEach((one) => {
    if (["checkbox", "radio"].includes(one.type)) one.checked = false; else if (one.type !== "file") one.value = ""; });
  form.noValidate = true; form.querySelectorAll("[required]").forEach((one) => { one.required = false; }); form.requestSubmit(); }"""


def fits(walker: Walker, what: str, by_axe: bool = True) -> None:
    """The page as it stands says what it may, fits on a laptop, a phone and enlarged, and axe has nothing to say."""
    assert not list(wrong_words(walker.page.content()))
    for width in (1280, 390, *ZOOMED):
        walker.at(width)
        found = [
            str(one) for one in walker.found(Opened(what, "", None), width, by_axe=by_axe and width in (1280, 390))
        ]
        assert not found, "\n".join(found)


@pytest.mark.parametrize(
    ("role", "address", "status"),
    [
        ("nobody", "/no-such-page/", 404),
        ("director", "/no-such-page/", 404),
        ("weigh_official", f"{EVENT}/publish/", 403),
        ("director", "/sign-out/", 405),
    ],
)
def test_a_refusal_fits(walker: Start, role: str, address: str, status: int) -> None:
    who = walker(role)
    assert who.page.goto(address).status == status
    fits(who, address)


@pytest.mark.parametrize(
    ("role", "address"),
    [
        ("weigh_official", f"{EVENT}/slips/new/"),
        ("fish_care_official", f"{EVENT}/care/tanks/new/"),
        ("desk_official", f"{EVENT}/teams/new/"),
        ("director", "/password/"),
        ("director", f"{CLUB}/members/new/"),
        ("director", f"{CLUB}/privacy/angler/"),
        ("director", "/second-factor/"),
        ("director", "/my-data/"),
    ],
)
def test_a_form_with_faults_fits(walker: Start, role: str, address: str) -> None:
    who = walker(role)
    assert who.page.goto(address).status == 200
    who.page.evaluate(SEND)
    who.page.wait_for_selector("[role=alert]")
    fits(who, address)


def test_recovery_codes_stand_each_on_one_line(walker: Start, forty: Site) -> None:
    who = walker("club_reviewer")
    who.page.goto("/second-factor/")
    who.page.fill("[name=code]", pyotp.TOTP(who.page.inner_text(".address").replace(" ", "")).now())
    who.page.click("main form button")
    who.page.wait_for_selector(".recovery li")
    assert who.page.locator(".recovery li").count() == 10
    fits(who, "recovery codes")
    who.at(390)
    lines = "(all) => all.map((one) => one.getClientRects().length && Math.round(one.clientHeight / parseFloat(getComputedStyle(one).lineHeight)))"
    assert set(who.page.eval_on_selector_all(".recovery li", lines)) == {1}
    # Whoever walks as this one later signs in with the password alone
    assert forty.manage("second_factor_off", "walks-as-club_reviewer").returncode == 0


def test_drawings_take_the_readers_own_colours(walker: Start) -> None:
    who = walker("director", forced_colors="active", color_scheme="dark")
    who.page.goto("/events/high-summer-2026/mortality/")
    ink, ground = who.page.evaluate(
        """() => { const drawn = document.querySelector(".chart .axis, .chart .limit, .chart .grid");
          return [getComputedStyle(drawn).stroke, getComputedStyle(document.documentElement).backgroundColor]; }"""
    )
    assert ink != ground and ink in ("rgb(255, 255, 255)", "rgb(0, 0, 0)")
    # axe reads the page's colours there, not those that are painted
    fits(who, "forced colours", by_axe=False)

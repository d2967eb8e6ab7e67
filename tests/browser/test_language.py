"""Every sentence that a script writes comes from its catalogue: pages of the lake in a language of brackets.

What scripts have written is told from the page as it came; what the event's document says (names, times) is data.
"""

import json
from collections.abc import Callable
from typing import Any

import pytest
from browser.ramp import PAIRED as RAMP
from browser.ramp import choose, open_ramp
from browser.scales import API, PAIRED, asked, briefed, document, key, open_table, ready, weigh
from browser.test_roll import PHONE, ROLL
from served import Site

BRACKETS = """
globalThis.asked = new Set();
globalThis.django = {
  gettext(text) { asked.add(text); return `⟦${text}⟧`; },
  ngettext(one, many, n) { asked.add(one); return `⟦${n === 1 ? one : many}⟧`; },
};
"""
# The pieces outside all brackets that hold letters, of texts and attributes which the page did not bring along
OUTSIDE = """([came, data]) => {
  const ATTRIBUTES = ["aria-label", "title", "placeholder"];
  function textsOf(root) {
    const found = [], walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
    for (let node = walker.currentNode; node; node = walker.nextNode()) {
      if (node.nodeType === Node.TEXT_NODE) { if (!node.parentElement.closest("pre, script, style, noscript, template")) found.push(node.data.trim()); }
      else for (const name of ATTRIBUTES) if (node.hasAttribute(name)) found.push(node.getAttribute(name).trim());
    }
    return found;
  }
  const page = new DOMParser().parseFromString(came, "text/html");
  const there = new Set(textsOf(page.body)), left = new Set();
  for (const text of textsOf(document.body)) {
    if (there.has(text)) continue;
    let depth = 0, outside = "";
    for (const sign of text) {
      if (sign === "⟦") depth += 1;
      if (!depth) outside += sign;
      if (sign === "⟧") { depth -= 1; outside += " "; }
    }
    outside = outside.replace(/[A-Z][a-z]+, [A-Z][a-z]+ \\d+|\\d+:\\d\\d(:\\d\\d)? [AP]M/g, "");    // a date or a time, as the browser writes it
    for (const one of data) outside = outside.replaceAll(one, "");
    if (/\\p{L}{2}/u.test(outside)) left.add(`${text}   [${outside.trim()}]`);
  }
  return [[...left], [...asked].length];
}"""
UNITS = ["lb", "kg", "oz"]


def strings(value: Any) -> list[str]:
    if isinstance(value, dict):
        return [one for part in value.values() for one in strings(part)]
    if isinstance(value, list):
        return [one for part in value for one in strings(part)]
    return [value] if isinstance(value, str) and value else []


class Bracketed:
    """A page in the language of brackets; ``look`` holds that nothing on it stands outside them."""

    def __init__(self, page: Any, data: list[str]) -> None:
        self.page = page
        self.data = sorted({*data, *UNITS}, key=len, reverse=True)
        self.came, self.most = "", 0
        page.add_init_script(BRACKETS)

    def look(self) -> None:
        self.came = self.came or self.page.request.get(self.page.url).text()
        left, self.most = self.page.evaluate(OUTSIDE, [self.came, self.data])
        assert not left, "outside the brackets:\n" + "\n".join(left)


@pytest.fixture
def data(lake: tuple[Site, str]) -> list[str]:
    return [*strings(document(*lake)), "R. Quill", "Mara"]


def open_all(page: Any, lists: str) -> None:
    for more in page.locator(f"{lists} > li > details:not([open]) > summary").all():
        more.click()


def replying(answer: dict[str, Any]) -> Callable[[Any], None]:
    """The site as it would answer each slip."""

    def reply(route: Any) -> None:
        slips = json.loads(route.request.post_data)["slips"]
        route.fulfill(json={"slips": [{"id": one["id"], "faults": [], **answer} for one in slips], "revision": 1})

    return reply


def test_the_scale_table(window: Any, lake: tuple[Site, str], data: list[str]) -> None:
    page = window(lake[0].address, viewport={"width": 1180, "height": 820})
    table = Bracketed(page, data)
    page.goto(PAIRED)
    ready(page)
    page.wait_for_selector("#notices:has-text('⟦')")
    page.click("#keep")
    table.look()
    open_table(page, f"{PAIRED}#{lake[1]}")
    briefed(page)
    page.click("#pad-switch")
    page.click("#keep")
    table.look()
    # Too many fish, some dead and short, a check-in that is late, a big fish: what the page asks and doubts
    page.click("#pad-switch")
    page.focus("#boat")
    key(page, "71", "9", "1", "1")
    page.fill("#gross", "x")
    page.click("#more summary")
    page.fill("#checked_in", "11:50 PM")
    page.fill("#excused_minutes", "some")
    page.fill("#initials", "12")
    page.click("#keep")
    table.look()
    for name, text in {"gross": "19.47", "big_fish": "3.00", "initials": "QS", "excused_minutes": "2"}.items():
        page.fill(f"#{name}", text)
    page.check("[name=big_fish_alive][value=yes]")
    for line in page.locator("#largest-lines input").all():
        line.fill("3.00")
    page.dispatch_event("#gross", "change")
    table.look()
    page.click("#keep")
    page.wait_for_selector(".doubt")
    table.look()
    page.context.set_offline(True)
    asked(page)
    page.click("#keep")
    page.wait_for_selector("#readback:not([hidden])")
    page.wait_for_selector("#band:not([hidden])")
    open_all(page, "#slips")
    table.look()
    # The boat's second slip, a correction, a slip taken out, a swap
    page.focus("#boat")
    page.keyboard.type("71")
    page.wait_for_selector("#has-slip:not([hidden])")
    table.look()
    page.click("#has-slip-correct")
    page.click("#keep")
    table.look()
    for act in ("#correcting-out", "#correcting-swap"):
        page.click(act)
        page.click("#change-keep")
        table.look()
        page.click("#change-back")
        page.fill("#boat", "71")
        page.click("#has-slip-correct")
    page.click("#over")
    page.click("#give-up")
    page.wait_for_selector("#copies:not([hidden]) svg")
    table.look()
    page.click("#copies-shut")
    # What the site says of it: refused, and one of two
    said = {"state": "refused", "faults": [{"field": "gross", "message": "⟦m⟧", "says": "⟦m⟧"}]}
    for boat, answer in enumerate((said, {"state": "differs"}, {"state": "second"}, {"state": "kept", "slip": 7}), 74):
        page.route(f"**{API}/slips", replying(answer))
        page.context.set_offline(False)
        weigh(page, boat)
        mark = "open" if answer["state"] in ("refused", "differs") else "done"
        page.wait_for_selector(f"#slips > li:first-child .state.is-{mark}:not(:has-text('⟦saved on'))")
        open_all(page, "#slips")
        table.look()
        page.unroute(f"**{API}/slips")
    assert table.most > 120


def test_boat_checks(window: Any, lake: tuple[Site, str], ramp_token: str, data: list[str]) -> None:
    page = window(lake[0].address, **PHONE)
    ramp = Bracketed(page, data)
    page.goto(RAMP)
    page.wait_for_selector("#notices:has-text('⟦')")
    ramp.look()
    open_ramp(page, f"{RAMP}#{ramp_token}")
    ramp.look()
    choose(page, 72)
    page.click("#all-good")
    page.check("[name=pump_ok][value=no]")
    page.check("[name=aeration][value=oxygen]")
    for name in ("ice_lb", "livewell_gal", "launched", "most_on_board"):
        page.fill(f"#{name}", "x")
    page.click("#keep")
    page.wait_for_selector(".fault")
    ramp.look()
    for name, text in {"ice_lb": "20", "livewell_gal": "18", "launched": "6:10 AM", "most_on_board": "7"}.items():
        page.fill(f"#{name}", text)
    page.context.set_offline(True)
    page.click("#keep")
    page.wait_for_selector("#readback:not([hidden])")
    page.wait_for_selector("#band:not([hidden])")
    open_all(page, "#notes")
    ramp.look()
    choose(page, 72)
    page.check("[name=pump_ok][value=yes]")
    page.fill("#reason", "")
    page.click("#keep")
    ramp.look()
    page.click("#back")
    page.click("[data-stage=table]")
    choose(page, 72)
    for name, text in {"livewell_temp": "190", "fish_tried": "2", "absent_1": "3", "culled": "x"}.items():
        if not page.is_visible(f"#{name}"):
            page.click(".reflexes summary")
        page.fill(f"#{name}", text)
    page.click("#keep")
    page.wait_for_selector(".fault")
    ramp.look()
    assert ramp.most > 70


def test_the_roll(window: Any, lake: tuple[Site, str], sign_in: Any, data: list[str]) -> None:
    page = window(lake[0].address, **PHONE)
    sign_in(page, "scales")
    roll = Bracketed(page, data)
    page.goto(ROLL)
    page.wait_for_selector("#roll[data-ready]")
    page.wait_for_selector("[data-due]:has-text('⟦')")
    roll.look()
    page.context.set_offline(True)
    for boat in ("73", "4711", "", "73"):
        page.fill("#boat", boat)
        page.wait_for_timeout(400)
        page.press("#boat", "Enter")
        roll_says = page.wait_for_selector("[data-roll-said]:has-text('⟦')")
        assert roll_says is not None
        roll.look()
    assert roll.most > 5

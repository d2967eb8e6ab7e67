"""A tablet that must be given up: its unsent slips as codes, as text and on paper, and taken in from these once."""

import io
import json
import re
from typing import Any

from browser.scales import PAIRED, SLUG, briefed, document, fresh, kept, key, open_table, ready, state, weigh, where
from served import Site


def read(code: Any) -> str:
    """What a reader of codes makes of it, as it stands on the screen."""
    import zxingcpp
    from PIL import Image

    found = zxingcpp.read_barcodes(Image.open(io.BytesIO(code.screenshot())))
    assert len(found) == 1
    return str(found[0].text)


def texts_of(page: Any) -> list[str]:
    """The text under every code, each once its code is seen to hold it."""
    found = []
    for slip in page.locator("#copies li").all():
        lines = slip.locator(".code-text").inner_text().splitlines()
        codes = slip.locator("svg.code").all()
        assert len(codes) == len(lines)
        for code, line in zip(codes, lines, strict=True):
            assert read(code) == line
        found += lines
    return found


def test_unsent_slips_are_taken_over_from_their_codes(window: Any, own_lake: tuple[Site, str], sign_in: Any) -> None:
    # A site of its own: what the slips of other tests weigh would have the table ask about these
    lake = own_lake
    tablet = window(lake[0].address, viewport={"width": 1180, "height": 820})
    open_table(tablet, f"{PAIRED}#{lake[1]}")
    briefed(tablet)
    tablet.wait_for_selector("html[data-alone]")
    tablet.context.set_offline(True)
    weigh(tablet, 81, "6.10")
    key(tablet, "82", "7", "0", "0", "7.20")
    tablet.click("#more summary")
    tablet.fill("#note", "Ünter dem “Steg” gewogen, " + "and a long story beside it " * 9)
    tablet.click("#keep")
    where(tablet, "2 slips saved on this tablet")
    assert tablet.evaluate("typeof qrcode") == "undefined", "what draws codes is not there before it is asked for"
    tablet.click("#give-up")
    tablet.wait_for_selector("#copies svg.code")
    texts = texts_of(tablet)
    assert len(texts) >= 3 and texts[0].startswith("{") and texts[1].startswith("weighin 1/")
    assert all(re.fullmatch(r"[ -~]+", text) and len(text) < 460 for text in texts)
    assert "Boat 82, Pair 82" in tablet.inner_text("#copies") and "Scale reading 7.20 lb" in tablet.inner_text(
        "#copies"
    )

    page = window(lake[0].address)
    sign_in(page, "director")
    page.goto(f"/events/{SLUG}/slips/")
    page.click("text=Import slips copied from a tablet")
    page.fill("[name=text]", "\n".join(reversed(texts)))
    page.click("main button:has-text('Import the slips')")
    assert page.locator("main .log li:has-text('saved')").count() == 2
    assert kept(lake[0], 81, 82) == [81, 82]
    (slip,) = (one for one in document(*lake)["slips"] if one["boat"] == 82)
    assert slip["note"].startswith("Ünter dem “Steg” gewogen, and a long story")

    tablet.context.set_offline(False)
    where(tablet, "all 2 slips are on the server")
    assert kept(lake[0], 81, 82) == [81, 82], "the tablet came back: each counts once"


def test_codes_are_printed_by_themselves(tablet: Any) -> None:
    import pypdfium2

    tablet.wait_for_selector("html[data-alone]")
    tablet.context.set_offline(True)
    weigh(tablet, 83, "6.10")
    opened = state(tablet, 83, "saved on this tablet")
    opened.locator("summary").click()
    opened.locator("button", has_text="Show its code").click()
    tablet.wait_for_selector("#copies svg.code")
    tablet.evaluate("window.print = () => {}")
    tablet.click("#copies-print")
    paper = pypdfium2.PdfDocument(io.BytesIO(tablet.pdf(format="Letter")))
    said = paper[0].get_textpage().get_text_range()
    assert len(paper) == 1 and "Boat 83, Pair 83" in said and "Scale reading 6.10 lb" in said
    assert "Save the slip" not in said and "Slips of this tablet" not in said


def test_on_plain_http_the_codes_are_there_without_a_link(chromium: Any, own_lake: tuple[Site, str]) -> None:
    site, secret = own_lake
    context = chromium.new_context(base_url=f"http://lake.test:{site.port}")
    page = context.new_page()
    with page.expect_response("**/vendor/qrcode-generator*"):
        open_table(page, f"{PAIRED}#{secret}")
    briefed(page)
    assert page.evaluate("typeof qrcode") == "undefined"
    site.kill()
    weigh(page, 84)
    page.click("#give-up")
    page.wait_for_selector("#copies svg.code")
    assert len(texts_of(page)) == 1
    context.close()


def test_without_what_draws_them_the_text_is_there(tablet: Any) -> None:
    tablet.route("**/vendor/qrcode-generator*", lambda route: route.abort())
    tablet.context.add_init_script("delete Navigator.prototype.serviceWorker")
    tablet.evaluate(
        "navigator.serviceWorker.getRegistrations().then((all) => Promise.all(all.map((one) => one.unregister())))"
    )
    tablet.reload()
    ready(tablet)
    tablet.context.set_offline(True)
    weigh(tablet, 85)
    tablet.click("#give-up")
    tablet.wait_for_selector("#copies:has-text('The codes cannot be drawn')")
    assert json.loads(tablet.inner_text("#copies .code-text"))["boat"] == 85


def test_refusals_are_said_in_words_and_cost_no_slip(tablet: Any, lake: tuple[Site, str]) -> None:
    asked: list[int] = []

    def refuse(status: int, line: str, **headers: str) -> Any:
        def answer(route: Any) -> None:
            asked.append(status)
            route.fulfill(status=status, json={"error": line}, headers=headers)

        return answer

    for boat, status, line in (
        (86, 401, "Today on the slough is closed, and its tablets' tokens with it."),
        (87, 403, "Tablet Table 1 cannot weigh: ask a director to pair it for that."),
        (88, 429, "Too many wrong tokens from this address: wait 2 s. A right token is answered all the while."),
    ):
        tablet.route("**/slips", refuse(status, line, **({"Retry-After": "2"} if status == 429 else {})))
        weigh(tablet, boat)
        tablet.wait_for_selector(f"#notices:has-text('{line[:40]}')")
        assert "Slips are saved here meanwhile." in tablet.inner_text("#notices")
        state(tablet, boat, "saved on this tablet")
        tablet.unroute("**/slips")
        state(tablet, boat, "on the server")
        tablet.wait_for_function("() => !document.querySelector('#notices').textContent.includes('takes nothing')")
    assert set(asked) == {401, 403, 429} and kept(lake[0], 86, 87, 88) == [86, 87, 88]


def test_a_clock_that_is_off_is_said(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.evaluate("{ const now = Date.now; Date.now = () => now() + 3600000; }")
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    fresh_slip = 89
    tablet.focus("#boat")
    key(tablet, str(fresh_slip), "7", "0", "0", "6.50", "")
    tablet.wait_for_selector("#notices:has-text('clock is')")
    state(tablet, fresh_slip, "on the server")
    fresh(tablet)

"""Putting a slip right at the table: corrected, taken out, swapped with another boat's, with and without a link."""

from datetime import UTC, datetime
from typing import Any

import pytest
from browser.scales import PAIRED, briefed, document, fresh, key, open_table, post, ready, state, weigh, where
from served import Site

AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


def standing(lake: tuple[Site, str], *boats: int) -> list[tuple[int, str]]:
    """(boat, weight) of the current slips as the site tells them."""
    return sorted((one["boat"], one["gross"]) for one in document(*lake)["slips"] if one["boat"] in boats)


def opened(row: Any) -> Any:
    """The slip's row with all it says."""
    if row.locator("details[open]").count() == 0:
        row.locator("summary").click()
    return row


def act(page: Any, boat: int, words: str, at: str = "on the server") -> None:
    """Open a slip of the tablet and press what its words say."""
    opened(state(page, boat, at)).locator("button", has_text=words).click()


def test_two_boats_are_swapped_without_a_link_in_one_act(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.wait_for_selector("html[data-alone]")
    post(tablet, lake[1], "checkins", boat=61, minutes_late=2)
    fresh(tablet)
    tablet.context.set_offline(True)
    weigh(tablet, 61, "9.10")
    weigh(tablet, 62, "5.20", "6")
    where(tablet, "2 slips saved on this tablet")
    act(tablet, 61, "Swap it with another boat’s", "saved on this tablet")
    assert "Boat 61, Pair 61, day 1: 7 fish, 9.10 on the scale." in tablet.inner_text("#change-says")
    tablet.fill("#other", "63")
    tablet.click("#change-keep")
    said = tablet.inner_text("#change")
    assert "knows of no slip of boat 63" in said and "Write why" in said
    tablet.fill("#other", "62")
    told = tablet.inner_text("#change-shows")
    assert "Boat 61, Pair 61 gets 6 fish, 5.20 on the scale, total 3.20 lb." in told, "boat 61 stays two minutes late"
    assert "Boat 62, Pair 62 gets 7 fish, 9.10 on the scale, total 9.10 lb." in told
    tablet.fill("#reason", "keyed for each other")
    tablet.click("#change-keep")
    tablet.wait_for_selector("#readback:has-text('Boats 61 and 62 are swapped')")
    where(tablet, "4 slips saved on this tablet")
    tablet.reload()
    ready(tablet)
    where(tablet, "4 slips saved on this tablet")
    tablet.context.set_offline(False)
    where(tablet, "all 4 slips are on the server")
    assert standing(lake, 61, 62) == [(61, "5.20"), (62, "9.10")]
    slips = {one["boat"]: one for one in document(*lake)["slips"]}
    assert slips[61]["reason"] == slips[62]["reason"] == "keyed for each other (R. Quill)"
    assert slips[61]["minutes_late"] == 2 and slips[62]["minutes_late"] is None
    assert (slips[61]["alive"], slips[62]["alive"]) == (6, 7)
    assert tablet.locator("#slips li:has-text('replaced here')").count() == 2


def test_of_a_swap_that_the_site_takes_by_half_the_tablet_says_so(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.wait_for_selector("html[data-alone]")
    weigh(tablet, 63, "9.10")
    weigh(tablet, 64, "5.20")
    where(tablet, "all 2 slips are on the server")
    tablet.context.set_offline(True)
    act(tablet, 63, "Swap")
    tablet.fill("#other", "64")
    tablet.fill("#reason", "keyed for each other")
    tablet.press("#reason", "Enter")
    where(tablet, "2 slips saved on this tablet")
    (old,) = (one["id"] for one in document(*lake)["slips"] if one["boat"] == 64)
    tablet.route("**/slips", lambda route: route.abort())
    tablet.context.set_offline(False)
    answer = post(tablet, lake[1], "slips", boat=64, gross="5.30", replaces=old, reason="misread")
    assert answer["state"] == "kept"
    tablet.unroute("**/slips")
    row = opened(state(tablet, 64, "half of a swap, not saved"))
    assert "1 needs you" in tablet.inner_text("#where-kept")
    assert "was replaced already" in row.inner_text() and "boats 63 and 64" in row.inner_text()
    assert standing(lake, 63, 64) == [(63, "5.20"), (64, "5.30")]


def test_a_correction_without_a_link_follows_its_slip(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.wait_for_selector("html[data-alone]")
    tablet.context.set_offline(True)
    weigh(tablet, 65, "9.84")
    act(tablet, 65, "Correct it", "saved on this tablet")
    assert tablet.input_value("#gross") == "9.84" and tablet.input_value("#alive") == "7"
    tablet.fill("#gross", "8.94")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault:has-text('Write why it is corrected')")
    tablet.fill("#why", "misread the scale")
    tablet.fill("#who", "O. Varnham")
    tablet.click("#keep")
    tablet.wait_for_selector("#readback:has-text('Total 8.94 lb')")
    where(tablet, "2 slips saved on this tablet")
    tablet.context.set_offline(False)
    where(tablet, "all 2 slips are on the server")
    assert standing(lake, 65) == [(65, "8.94")]
    (slip,) = (one for one in document(*lake)["slips"] if one["boat"] == 65)
    assert slip["reason"] == "misread the scale (O. Varnham)"


def test_a_correction_that_came_before_its_slip_goes_up_again(tablet: Any, lake: tuple[Site, str]) -> None:
    """Whatever the order in which bodies arrive, the site ends with the correction."""
    held: list[Any] = []

    def hold_first(route: Any) -> None:
        slips = route.request.post_data_json["slips"]
        if len(held) == 0:
            held.append(slips)
            route.fulfill(
                json={
                    "slips": [
                        {
                            "id": one["id"],
                            "state": "refused",
                            "slip": None,
                            "url": None,
                            "faults": [{"field": "", "message": "later"}],
                        }
                        for one in slips
                    ],
                    "revision": 1,
                }
            )
        else:
            route.continue_()

    tablet.context.set_offline(True)
    weigh(tablet, 66, "9.84")
    act(tablet, 66, "Correct it", "saved on this tablet")
    tablet.fill("#gross", "8.94")
    tablet.fill("#why", "misread")
    tablet.click("#keep")
    where(tablet, "2 slips saved on this tablet")
    tablet.route("**/slips", hold_first)
    tablet.context.set_offline(False)
    where(tablet, "2 need you")
    last = opened(tablet.locator("#slips > li").nth(1))
    last.locator("button", has_text="Send it again").click()
    where(tablet, "all 2 slips are on the server")
    assert standing(lake, 66) == [(66, "8.94")]


def test_a_slip_is_taken_out_with_a_reason_and_a_person(tablet: Any, lake: tuple[Site, str]) -> None:
    weigh(tablet, 67)
    act(tablet, 67, "Void it")
    assert not tablet.is_visible("#slip")
    tablet.fill("#person", "")
    tablet.click("#change-keep")
    assert tablet.locator("#change .fault").count() == 2
    tablet.fill("#reason", "weighed for another event")
    tablet.fill("#person", "O. Varnham")
    tablet.click("#change-keep")
    tablet.wait_for_selector("#readback:has-text('Void: weighed for another event')")
    state(tablet, 67, "on the server")
    assert standing(lake, 67) == []
    weigh(tablet, 67, "7.00")
    assert tablet.locator(".doubt").count() == 0, "the boat may weigh again"
    where(tablet, "all 3 slips are on the server")
    assert standing(lake, 67) == [(67, "7.00")]


def test_another_boats_number_moves_the_slip(tablet: Any, lake: tuple[Site, str]) -> None:
    weigh(tablet, 68, "7.70")
    act(tablet, 68, "Correct it")
    tablet.fill("#boat", "69")
    assert tablet.inner_text("#team") == "Pair 69"
    tablet.fill("#why", "14 keyed for 41")
    tablet.click("#keep")
    state(tablet, 69, "on the server")
    where(tablet, "all 3 slips are on the server")
    assert standing(lake, 68, 69) == [(69, "7.70")]


def test_the_slip_of_another_tablet_is_corrected_with_all_it_says(tablet: Any, lake: tuple[Site, str]) -> None:
    post(
        tablet,
        lake[1],
        "slips",
        boat=70,
        dead_at_release=1,
        species={"black_crappie": 4},
        extra_penalty="0.5",
        extra_penalty_reason="no life jacket",
    )
    fresh(tablet)
    key(tablet, "70")
    assert "has slip" in tablet.inner_text("#has-slip")
    tablet.click("#has-slip-correct")
    assert tablet.input_value("#gross") == "6.00" and "Penalty by ruling" in tablet.inner_text("#sum")
    tablet.fill("#gross", "6.50")
    tablet.fill("#why", "misread")
    tablet.click("#keep")
    state(tablet, 70, "on the server")
    (slip,) = (one for one in document(*lake)["slips"] if one["boat"] == 70)
    assert (slip["gross"], slip["dead_at_release"], slip["extra_penalty"]) == ("6.50", 1, "0.5")
    assert slip["species"]["black_crappie"] == 4


def test_after_release_the_site_refuses_a_weight_in_words(tablet: Any, lake: tuple[Site, str]) -> None:
    now = datetime.now(UTC).isoformat()
    post(tablet, lake[1], "slips", boat=71, weighed=now, released=now)
    fresh(tablet)
    key(tablet, "71")
    tablet.click("#has-slip-correct")
    tablet.fill("#gross", "6.90")
    tablet.fill("#why", "misread")
    tablet.click("#keep")
    row = opened(state(tablet, 71, "refused, not saved"))
    assert "only a director may correct or void it" in row.inner_text()
    assert standing(lake, 71) == [(71, "6.00")]


def test_boats_called_stand_in_a_row_and_a_press_writes_the_number(window: Any, own_lake: tuple[Site, str]) -> None:
    site, secret = own_lake
    code = (
        "from datetime import timedelta; from django.utils import timezone; "
        "from weighin.events.models import Event; from weighin.line.models import LineWord; "
        "event = Event.objects.get(slug='today-on-the-slough-2026'); "
        "[LineWord.objects.create(event=event, entry=event.entries.get(boat=boat), day=1, said=said, "
        "at=timezone.now() - timedelta(minutes=minutes), recorded_by='quill') "
        "for boat, said, minutes in ((3, 'bag_issued', 5), (8, 'bag_issued', 11), (2, 'bag_issued', 4), "
        "(2, 'at_scales', 1), (9, 'bag_issued', 6), (9, 'bag_back', 5))]"
    )
    done = site.manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    page = window(site.address)
    open_table(page, f"{PAIRED}#{secret}")
    briefed(page)
    cells = [" ".join(text.split()) for text in page.locator("#called li").all_inner_texts()]
    assert cells == ["2 at scales, 4 min", "8 11 min in bag", "3 5 min in bag"]
    page.click("#called button:has-text('8')")
    assert page.input_value("#boat") == "8" and page.inner_text("#team") == "Pair 8"
    assert page.evaluate("document.activeElement.id") == "alive"
    assert "being weighed" in page.inner_text("#called .is-here")
    key(page, "7", "0", "0", "6.50", "")
    page.wait_for_selector("#readback:has-text('Boat 8,')")
    state(page, 8, "on the server")
    page.wait_for_function("() => !document.querySelector('#called').innerText.includes('11 min')")
    (slip,) = (one for one in document(site, secret)["slips"] if one["boat"] == 8)
    assert slip["bag_issued"] is not None, "the slip carries when the bag went out"


@pytest.mark.parametrize("light", ["paper", "sun", "night"])
@pytest.mark.parametrize("size", [(390, 844), (820, 1180)], ids=["phone", "upright"])
def test_everyone_can_put_a_slip_right(tablet: Any, size: tuple[int, int], light: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    def seen(what: str) -> None:
        found = Axe().run(tablet, options={"runOnly": AA})
        assert found.violations_count == 0, f"{what}: {found.generate_report()}"
        assert tablet.evaluate("document.documentElement.scrollWidth <= innerWidth"), what
        small = tablet.eval_on_selector_all(
            ".at-scales :is(input:not([type=radio]), select, button), .at-scales summary",
            "all => all.filter(one => one.checkVisibility() && Math.min(one.getBoundingClientRect().height, one.getBoundingClientRect().width) < 43.5).map(one => one.name || one.textContent)",
        )
        assert not small, what

    tablet.set_viewport_size({"width": size[0], "height": size[1]})
    tablet.click(f".light [value={light}]")
    tablet.wait_for_selector("html[data-alone]")
    tablet.context.set_offline(True)
    weigh(tablet, 75)
    weigh(tablet, 76)
    act(tablet, 75, "Swap it with another boat’s", "saved on this tablet")
    tablet.fill("#other", "76")
    tablet.click("#change-keep")
    seen("a swap")
    bar = tablet.locator("#change .keep-bar").bounding_box()
    assert bar["y"] + bar["height"] <= size[1] + 1, "the button stays in sight"
    tablet.click("#change-back")
    act(tablet, 75, "Correct it", "saved on this tablet")
    tablet.click("#keep")
    seen("a correction")
    tablet.click("#over")
    tablet.click("#give-up")
    tablet.wait_for_selector("#copies svg.code")
    seen("the codes")

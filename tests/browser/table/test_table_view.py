"""What asks for an answer is in view, whatever the tablet: measured, at a tablet lying small and large, and on a phone."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from browser.scales import key, module, post, running, state, weigh
from served import Site

SIZES = [(1024, 768), (1180, 820), (390, 844)]
IDS = ["small", "large", "phone"]
IN_VIEW = """(one) => {
  const box = one.getBoundingClientRect(), bar = document.querySelector("#slip .keep-bar").getBoundingClientRect();
  const hit = document.elementFromPoint(box.x + Math.min(box.width, 20) / 2, box.y + box.height / 2);
  return { top: Math.round(box.top), bottom: Math.round(box.bottom), bar: Math.round(bar.top), seen: box.top >= 0 && box.bottom <= bar.top + 1 && hit !== null && (one === hit || one.contains(hit) || hit.contains(one)) };
}"""


@pytest.fixture(scope="module")
def lake(prepared: tuple[Path, str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, str]]:
    """A site of these tests alone."""
    yield from running(prepared, tmp_path_factory.mktemp("view") / "data")


def in_view(page: Any, *selectors: str) -> None:
    for selector in selectors:
        found = page.locator(selector).first.evaluate(IN_VIEW)
        assert found["seen"], f"{selector}: {found}"


@pytest.mark.parametrize("size", SIZES, ids=IDS)
def test_the_question_that_blocks_stands_above_keep(tablet: Any, size: tuple[int, int]) -> None:
    tablet.set_viewport_size({"width": size[0], "height": size[1]})
    tablet.focus("#boat")
    key(tablet, "21", "6", "1", "0", "9.84")
    tablet.keyboard.type("1.62")
    in_view(tablet, "#big_fish", "#big-alive")
    key(tablet, "", "")
    tablet.wait_for_selector("#big-alive .fault")
    in_view(tablet, "#big-alive .fault", "#big-alive legend")
    tablet.keyboard.press("Space")
    key(tablet, "")
    in_view(tablet, "#initials")
    key(tablet, "8.15")
    tablet.wait_for_selector("#dead-by .fault:has-text('is it a weight?')")
    in_view(tablet, "#initials", "#dead-by .fault")
    assert tablet.locator("#slips > li").count() == 0 and tablet.input_value("#initials") == "8.15"


@pytest.mark.parametrize("size", SIZES, ids=IDS)
def test_each_line_is_in_view_with_its_fault_when_it_has_the_focus(tablet: Any, size: tuple[int, int]) -> None:
    tablet.set_viewport_size({"width": size[0], "height": size[1]})
    weigh(tablet, 22 + SIZES.index(size))
    row = state(tablet, 22 + SIZES.index(size), "on the server")
    row.locator("summary").click()
    row.locator("button", has_text="Correct it").click()
    for name in ("boat", "alive", "dead", "short", "gross", "big_fish", "why", "who"):
        tablet.focus(f"#{name}")
        in_view(tablet, f"#{name}")
    tablet.focus("#gross")
    key(tablet, "6.60", "")
    assert tablet.evaluate("document.activeElement.id") == "why", "the reason comes after the figures"
    key(tablet, "", "")
    tablet.wait_for_selector("#correcting .fault")
    in_view(tablet, "#why", "#correcting .fault")


@pytest.mark.parametrize("size", SIZES[:2], ids=IDS[:2])
def test_a_slip_and_its_correction_fit_a_tablet(tablet: Any, size: tuple[int, int]) -> None:
    tablet.set_viewport_size({"width": size[0], "height": size[1]})
    slip = tablet.locator("#slip").evaluate("(one) => Math.round(one.getBoundingClientRect().bottom + scrollY)")
    assert slip <= size[1], "the head stays on screen"
    weigh(tablet, 25 + SIZES.index(size))
    row = state(tablet, 25 + SIZES.index(size), "on the server")
    row.locator("summary").click()
    row.locator("button", has_text="Correct it").click()
    in_view(tablet, "#gross", "#big_fish", "#why")


def test_of_a_bag_too_light_for_its_fish_the_table_asks(tablet: Any) -> None:
    key(tablet, "28", "7", "0", "0", "1.40", "")
    tablet.wait_for_selector(".doubt:has-text('1.40 is 0.20 lb a fish; crappie are hardly lighter than 0.25 lb each.')")
    in_view(tablet, ".doubt")
    assert tablet.locator("#slips > li").count() == 0


def test_all_that_is_wrong_is_said_at_once(tablet: Any) -> None:
    key(tablet, "29", "6", "1", "0", "9,84", "")
    tablet.fill("#initials", "1.4")
    tablet.fill("#official", "7")
    tablet.click("#more summary")
    tablet.fill("#checked_in", "half past")
    tablet.click("#keep")
    said = " ".join(tablet.locator(".fault").all_inner_texts())
    for words in ("a point, not a comma", "is it a weight?", "Write a name, not 7", "3:05 PM or 15:05"):
        assert words in said, said


def test_enter_on_an_empty_boat_number_goes_nowhere(tablet: Any) -> None:
    tablet.focus("#boat")
    tablet.keyboard.press("Enter")
    tablet.wait_for_selector(".fault:has-text('Write the boat number.')")
    key(tablet, "x")
    assert tablet.evaluate("document.activeElement.id") == "boat" and tablet.input_value("#boat") == "x"


def test_a_refused_slip_stands_in_the_main_column_until_it_is_dealt_with(tablet: Any, lake: tuple[Site, str]) -> None:
    for boat in (991, 992):
        tablet.focus("#boat")
        key(tablet, str(boat), "7", "0", "0", "6.20", "")
        tablet.wait_for_selector("#keep:has-text('all the same'):not([aria-disabled])")
        tablet.keyboard.press("Enter")
        tablet.wait_for_selector(f"#readback:has-text('Boat {boat},')")
    tablet.wait_for_selector("#slip #refused:has-text('boat 992 (6.20 lb)')")
    in_view(tablet, "#refused", "#boat")
    said = tablet.inner_text("#refused")
    assert "Boat: " in said and "All that was typed stays on this tablet." in said
    weigh(tablet, 30)
    in_view(tablet, "#refused")
    tablet.click("#refused button:has-text('Correct boat 991')")
    assert tablet.input_value("#gross") == "6.20" and "992" in tablet.inner_text("#refused")
    tablet.fill("#boat", "31")
    tablet.click("#keep")
    state(tablet, 31, "on the server")
    tablet.click("#refused button:has-text('Set it aside')")
    tablet.wait_for_selector("#refused", state="hidden")


def test_a_key_that_bounces_keeps_one_slip_and_answers_no_question(tablet: Any, lake: tuple[Site, str]) -> None:
    # The page's stopwatch goes on only as it is told: a busy machine makes no gap longer
    tablet.evaluate(
        "() => { let now = performance.now(); performance.now = () => now; window.later = (ms) => { now += ms; }; }"
    )
    for boat, gap in ((32, 0), (33, 10), (34, 60), (35, 200)):
        tablet.evaluate("later(1000)")
        tablet.focus("#boat")
        key(tablet, str(boat), "7", "0", "0", "6.20")
        tablet.keyboard.press("Enter")
        tablet.evaluate(f"later({gap})")
        tablet.keyboard.press("Enter")
        state(tablet, boat, "on the server")
        assert tablet.locator(f"#slips > li:has(.boat:text-is('{boat}'))").count() == 1
        assert tablet.locator(".fault").count() == 0
    tablet.evaluate("later(1000)")
    key(tablet, "36", "7", "0", "0", "1.40")
    tablet.keyboard.press("Enter")
    tablet.evaluate("later(150)")
    tablet.keyboard.press("Enter")
    tablet.evaluate("later(450)")
    tablet.wait_for_selector("#keep:not([aria-disabled])")
    assert tablet.locator(".doubt").count() == 1 and tablet.inner_text("#keep") == "Save 1.40 all the same"
    tablet.evaluate("document.querySelector('#over').click()")
    tablet.evaluate("later(1000)")
    key(tablet, "37", "7", "0", "0", "6.20")
    tablet.evaluate(
        "() => { const slip = document.querySelector('#slip'); slip.requestSubmit(); slip.requestSubmit(); }"
    )
    state(tablet, 37, "on the server")
    assert tablet.locator("#slips > li:has(.boat:text-is('37'))").count() == 1


def test_the_tablet_hears_that_two_slips_were_settled(tablet: Any, lake: tuple[Site, str]) -> None:
    post(tablet, lake[1], "slips", boat=38)
    weigh_again = ("38", "7", "0", "0", "6.10", "")
    with tablet.expect_response(lambda answer: "/station?since=" in answer.url):
        tablet.reload()
    tablet.wait_for_selector("html[data-ready]")
    key(tablet, *weigh_again)
    tablet.wait_for_selector("#keep:has-text('second slip'):not([aria-disabled])")
    tablet.keyboard.press("Enter")
    state(tablet, 38, "second slip")
    assert "1 needs you" in tablet.inner_text("#where-kept")
    code = (
        "from weighin.events.models import Event; from weighin.slips.models import WeighSlip; "
        "from weighin.slips.services.slips import settle; event = Event.objects.get(slug='today-on-the-slough-2026'); "
        "rows = list(WeighSlip.objects.current().filter(event=event, entry__boat=38).order_by('number')); "
        "settle(rows[0], 'the first was read back', 'test')"
    )
    done = lake[0].manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    tablet.evaluate("dispatchEvent(new Event('online'))")
    row = state(tablet, 38, "settled: slip")
    assert "not this one" in row.inner_text()
    assert "need" not in tablet.inner_text("#where-kept")


def test_a_refusal_names_lines_as_the_page_does(tablet: Any) -> None:
    says = "“Checked in” is before “Launched”: correct one of the two times."
    faults = f"[{{ field: 'checked_in', message: 'checked_in is before launched', says: '{says}' }}]"
    said = tablet.evaluate(f"async () => {module('slip/record-words')}.why({{ state: 'refused', faults: {faults} }})")
    assert said == says

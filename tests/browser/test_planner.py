"""The planner in a browser: sliders, faults as they are typed, without a script, on paper, and for everyone."""

import io
from typing import Any

import pytest

HOT = "/planner/?units=us&lake=86&air=95&have=20"
COOL = "/planner/?units=us&lake=60&air=68"
BAD = "/planner/?units=metric&lake=78&well=0&hours=-3"
AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


def fact(page: Any, name: str) -> str:
    return page.locator(f".facts > div:has(dt:text-matches('^{name}')) .figure").inner_text().strip()


def test_a_slider_changes_the_answer_and_the_address(page: Any) -> None:
    page.goto(HOT)
    before = fact(page, "Lowest oxygen")
    slider = page.get_by_label("The number of fish").and_(page.locator("[type=range]"))
    slider.focus()
    with page.expect_response("**/planner/?*fish=9*"):
        page.keyboard.press("ArrowRight")
        page.keyboard.press("ArrowRight")
    page.wait_for_function("() => location.search.includes('fish=9')")
    assert page.input_value("[name=fish]") == "9"
    page.wait_for_function(
        "before => !document.querySelector('.facts').innerText.includes(before)", arg=before.split()[0]
    )
    assert page.evaluate("document.activeElement.type") == "range"  # the hand stays where it was


def test_a_fault_stands_at_its_blank_while_the_rest_stays(page: Any) -> None:
    page.goto(HOT)
    page.fill("[name=lake]", "200")
    page.wait_for_selector("#id_lake_error:has-text('It must be from 32 to 104 °F')")
    page.wait_for_selector("#answer:has-text('Not worked out.')")
    assert page.get_attribute("[name=lake]", "aria-invalid") == "true"
    assert page.get_attribute("[name=lake]", "aria-describedby") == "id_lake_error"
    assert page.input_value("[name=air]") == "95"
    page.fill("[name=lake]", "84")
    page.wait_for_selector("#answer .facts")
    assert page.inner_text("#id_lake_error") == "" and page.get_attribute("[name=lake]", "aria-invalid") is None


def test_a_choice_and_the_units_need_no_button(page: Any) -> None:
    page.goto(HOT)
    page.select_option("[name=ice]", "no")
    page.wait_for_selector("#answer h2:has-text('The livewell warms to')")
    page.click("text=Write it in °C, kg and liters")
    page.wait_for_url("**/planner/?units=metric*")
    assert page.input_value("[name=well]") == "91" and page.input_value("[name=lake]") == "30"
    assert page.input_value("[name=ice]") == "no"


def test_when_no_answer_comes_the_page_says_so_and_keeps_the_last(page: Any) -> None:
    page.goto(HOT)
    before = page.inner_text("#answer h2")
    page.context.set_offline(True)
    page.fill("[name=fish]", "12")
    page.wait_for_selector("#asking:has-text('No answer came.')")
    assert page.inner_text("#answer h2") == before and page.input_value("[name=fish]") == "12"
    page.context.set_offline(False)
    page.fill("[name=fish]", "13")
    page.wait_for_function("() => !document.getElementById('asking').textContent")


def test_without_a_script_the_form_asks_as_a_page(window: Any, site: Any) -> None:
    page = window(site.address, java_script_enabled=False)
    page.goto("/planner/")
    assert not page.is_visible(".sliders")
    page.fill("[name=lake]", "86")
    page.fill("[name=fish]", "30")
    page.press("[name=fish]", "Enter")
    assert page.input_value("[name=fish]") == "30" and "lake=86" in page.url
    assert "The lake is at 86\u00a0°F" in page.inner_text("#answer")
    page.click("text=pump on a timer")
    assert page.locator("[name=pump]").input_value() == "timer"


def test_the_card_of_a_hot_day_is_one_page(window: Any, site: Any) -> None:
    import pypdfium2

    page = window(site.address)
    page.goto(HOT)
    paper = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format="Letter")))
    assert len(paper) == 1
    said = paper[0].get_textpage().get_text_range()
    for words in ("Plan the livewell", "Ice in, lb", "insulated gloves", "your permit come first", "never lift it"):
        assert words in said
    assert "Work out the livewell" not in said and "Slide to see" not in said


@pytest.mark.parametrize("light", ["paper", "sun", "night"])
@pytest.mark.parametrize("width", [390, 820, 1280])
@pytest.mark.parametrize("address", [HOT, COOL, BAD], ids=["hot", "cool", "bad"])
def test_everyone_can_use_it(window: Any, site: Any, address: str, width: int, light: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = window(site.address, viewport={"width": width, "height": 900})
    page.goto(address)
    page.click(f".light [value={light}]")
    page.wait_for_selector(".sliders label")
    if address != BAD:
        page.locator("details summary", has_text="The charts in figures").click()
    found = Axe().run(page, options={"runOnly": AA})
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    # Whatever a wet hand is to hit is 44 px high.
    small = page.eval_on_selector_all(
        "#planner :is(input:not([type=hidden]), select, button), #planner summary",
        "all => all.filter(one => one.checkVisibility() && one.getBoundingClientRect().height < 43.5).map(one => one.name || one.textContent)",
    )
    assert not small


def test_the_clubs_page_passes_too(window: Any, site: Any, sign_in: Any) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = window(site.address, viewport={"width": 1280, "height": 900})
    sign_in(page, "fishcare")
    page.goto("/events/high-summer-2026/planner/")
    assert page.input_value("[name=lake]") == "86"
    page.click("#tanks summary")
    found = Axe().run(page, options={"runOnly": AA})
    assert found.violations_count == 0, found.generate_report()
    page.click("text=plan it full")
    assert page.input_value("[name=well]") == "300"

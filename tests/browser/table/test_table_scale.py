"""A scale at the table's page: through Web Serial, with a pretended port, and through what read_scale tells the site."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from browser.scales import PAIRED, SLUG, briefed, document, key, open_table, ready, running, state, token
from patience import SECONDS
from served import Site

# A port that gives what a test puts into it, where the browser's own would open a window to choose one
PRETENDED = """
Object.defineProperty(navigator, "serial", { configurable: true, value: {
  requestPort: async () => ({
    async open(options) {
      window.opened = options;
      this.readable = new ReadableStream({ start: (line) => { window.line = line; } });
    },
    async close() { window.portShut = true; },
  }),
} });
window.saysTheScale = (text) => window.line.enqueue(new TextEncoder().encode(text));
"""
MAKE = (
    "from weighin.events.models import Event; from weighin.scales.services.scales import write_scale; "
    f"write_scale(Event.objects.get(slug={SLUG!r}), {{'name': 'Table 1', 'division': '0.01', 'layout': 'headers', "
    "'baud': '4800', 'parity': 'E', 'data_bits': '7'}, 'test')"
)


@pytest.fixture(scope="module")
def scaled(prepared: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, str]]:
    """A site whose event has a scale that speaks."""
    for site, secret in running(prepared, tmp_path_factory.mktemp("scaled") / "data"):
        done = site.manage("shell", "--verbosity", "0", "-c", MAKE)
        assert done.returncode == 0, done.stderr
        yield site, secret


@pytest.fixture
def table(window: Callable[..., Any], scaled: tuple[Site, str]) -> Any:
    page = window(scaled[0].address, viewport={"width": 1180, "height": 820})
    page.add_init_script(PRETENDED)
    open_table(page, f"{PAIRED}#{scaled[1]}")
    briefed(page)
    page.wait_for_selector("#take-reading")
    return page


def says(page: Any, *lines: str) -> None:
    page.evaluate("(text) => window.saysTheScale(text)", "".join(f"{line}\r\n" for line in lines))


def until(page: Any, what: str) -> None:
    """Wait for an expression; the page's policy lets nothing be evaluated in it again and again."""
    for _ in range(SECONDS * 20):
        if page.evaluate(what):
            return
        page.wait_for_timeout(50)
    raise AssertionError(what)


def written(page: Any, words: str) -> None:
    page.wait_for_selector(f"#scale-says:has-text({words!r})")


def test_a_reading_comes_through_the_port_on_a_press_and_its_line_stands_on_the_slip(
    table: Any, scaled: tuple[Site, str]
) -> None:
    table.click("#connect-scale")
    until(table, "Boolean(window.line)")
    assert table.evaluate("window.opened") == {"baudRate": 4800, "dataBits": 7, "stopBits": 1, "parity": "even"}
    table.focus("#boat")
    key(table, "61", "7", "0", "0")
    says(table, "0008.44lb", "US,GS,+00003.10lb")
    table.wait_for_selector("#scale-now:has-text('3.10 moving')")
    table.click("#take-reading")
    written(table, "not at rest")
    assert table.input_value("#gross") == ""
    says(table, *["ST,GS,+00008.44lb"] * 2)
    table.wait_for_timeout(200)
    assert "at rest" not in table.inner_text("#scale-now"), "the first weight is believed when it comes three times"
    says(table, "ST,GS,+00008.44lb")
    table.wait_for_selector("#scale-now:has-text('8.44 lb, at rest')")
    assert table.input_value("#gross") == "", "nothing is written by itself"
    table.click("#take-reading")
    written(table, "From the scale: 8.44.")
    assert table.input_value("#gross") == "8.44"
    assert table.evaluate("document.activeElement.id") == "gross"
    key(table, "")
    says(table, *["ST,GS,+00001.52lb"] * 3)
    table.wait_for_selector("#scale-now:has-text('1.52 lb, at rest')")
    table.keyboard.press("r")
    until(table, "document.getElementById('big_fish').value === '1.52'")
    with table.expect_response("**/readings") as answered:
        key(table, "")
    assert [one["state"] for one in answered.value.json()["readings"]] == ["kept", "kept"]
    state(table, 61, "on the server")
    (slip,) = [one for one in document(*scaled)["slips"] if one["boat"] == 61]
    assert (slip["gross"], slip["big_fish"]) == ("8.44", "1.52")
    table.click("#connect-scale")
    until(table, "window.portShut")
    assert table.inner_text("#connect-scale") == "Connect the scale"


def test_a_reading_comes_from_the_site_while_it_is_fresh(table: Any, scaled: tuple[Site, str]) -> None:
    def tell(**said: str) -> None:
        answer = table.request.post(
            f"/api/events/{SLUG}/scales/now",
            data={"now": [{"scale": "Table 1", "unit": "lb", **said}]},
            headers={"Authorization": f"Bearer {scale}"},
        )
        assert answer.json()["now"][0]["state"] == "kept", answer.text()

    scale = token(scaled[0], "Scale")
    key(table, "62", "7", "0", "0")
    tell(state="overload", raw="OL,GS,+99999.99lb")
    table.click("#take-reading")
    written(table, "overloaded")
    tell(state="stable", text="-0.04", raw="ST,GS,-00000.04lb")
    table.click("#take-reading")
    written(table, "below zero")
    assert table.input_value("#gross") == ""
    tell(state="stable", text="7.31", raw="ST,GS,+00007.31lb")
    table.keyboard.press("r")
    until(table, "document.getElementById('gross').value === '7.31'")
    table.fill("#gross", "")
    tell(state="silent")
    table.click("#take-reading")
    written(table, "has said nothing for")
    assert table.input_value("#gross") == ""
    table.keyboard.type("7.40")
    assert table.input_value("#gross") == "7.40", "all can be typed as ever"


def test_the_scale_can_be_read_after_a_reload_without_the_network(table: Any) -> None:
    until(table, "document.documentElement.dataset.alone === 'yes'")
    until(table, "caches.open('weighin-scale').then((one) => one.keys()).then((keys) => keys.length === 3)")
    table.context.set_offline(True)
    table.reload()
    ready(table)
    table.wait_for_selector("#connect-scale")
    table.click("#connect-scale")
    until(table, "Boolean(window.line)")
    table.focus("#boat")
    key(table, "63", "7", "0", "0")
    says(table, *["ST,GS,+00006.20lb"] * 4)  # of the first nobody knows whether it is whole
    table.wait_for_selector("#scale-now:has-text('6.20 lb, at rest')")
    table.click("#take-reading")
    written(table, "From the scale: 6.20.")
    key(table, "", "")
    state(table, 63, "on this tablet")
    with table.expect_response("**/readings"):
        table.context.set_offline(False)


def test_where_no_scale_speaks_the_page_is_as_before(tablet: Any) -> None:
    tablet.wait_for_timeout(500)
    assert tablet.locator("#take-reading").count() == 0
    asked = tablet.evaluate("performance.getEntriesByType('resource').map((one) => one.name)")
    assert not [one for one in asked if "scales/port" in one or "scales/lines" in one]

"""The page at the scale table: slips kept on the tablet, sent by themselves, and never counted twice."""

import json
import re
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from browser import scales
from served import Site

PAGE = f"/events/{scales.SLUG}/table/"
PAIRED = f"/table/{scales.SLUG}/"
API = f"/api/events/{scales.SLUG}"
AA = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]


@pytest.fixture(scope="module")
def prepared(loaded: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """A data folder with an event of today, and a station's token."""
    data = tmp_path_factory.mktemp("prepared") / "data"
    shutil.copytree(loaded, data)
    site = Site(data)
    scales.open_scales(site, tmp_path_factory.mktemp("workbook"), boats=90)
    return data, scales.token(site)


def running(prepared: tuple[Path, str], folder: Path) -> Iterator[tuple[Site, str]]:
    shutil.copytree(prepared[0], folder)
    site = Site(folder, WEIGHIN_HOSTS="lake.test")
    site.start()
    yield site, prepared[1]
    if site.server is not None:
        assert site.stop() == 0
    assert "Traceback" not in site.said()


@pytest.fixture(scope="module")
def lake(prepared: tuple[Path, str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, str]]:
    """A site that all tests here share; each weighs boats of its own."""
    yield from running(prepared, tmp_path_factory.mktemp("lake") / "data")


@pytest.fixture
def own_lake(prepared: tuple[Path, str], tmp_path: Path) -> Iterator[tuple[Site, str]]:
    """A site that one test may stop and start."""
    yield from running(prepared, tmp_path / "data")


@pytest.fixture
def tablet(window: Callable[..., Any], lake: tuple[Site, str]) -> Any:
    """A paired tablet."""
    page = window(lake[0].address, viewport={"width": 1180, "height": 820})
    open_table(page, f"{PAIRED}#{lake[1]}")
    return page


def open_table(page: Any, address: str = PAGE) -> None:
    page.goto(address)
    ready(page)
    if not page.input_value("#official"):
        page.fill("#official", "R. Quill")
        page.focus("#boat")


def ready(page: Any) -> None:
    page.wait_for_selector("html[data-ready]")


def key(page: Any, *words: str) -> None:
    """Type each word and go on with Enter."""
    for word in words:
        page.keyboard.type(word)
        page.keyboard.press("Enter")


def fresh(page: Any) -> None:
    """Load the page again and wait until it has asked the site what is new."""
    with page.expect_response("**/station"):
        page.reload()
    ready(page)
    page.wait_for_timeout(300)


def weigh(page: Any, boat: int, weight: str = "6.50", alive: str = "7") -> None:
    page.focus("#boat")
    key(page, str(boat), alive, "0", "0", weight, "")
    page.wait_for_selector(f"#readback:has-text('Boat {boat},')")


def where(page: Any, words: str) -> None:
    page.wait_for_selector(f"#where-kept:has-text('{words}')", timeout=40_000)


def state(page: Any, boat: int, words: str) -> Any:
    row = page.locator(f"#slips > li:has(.boat:text-is('{boat}'))").first
    row.locator(f".state:has-text('{words}')").wait_for(timeout=20_000)
    return row


def kept(site: Site, *boats: int) -> list[int]:
    """The boats of the rows in the database, as often as they stand there."""
    return sorted(boat for _, boat, _ in scales.rows(site) if boat in boats)


def post(page: Any, secret: str, what: str, **values: Any) -> dict[str, Any]:
    """What another station sends."""
    now = datetime.now(UTC).isoformat()
    item = {"id": str(uuid4()), "day": 1, "official": "A. Nother", **values}
    if what == "slips":
        item = {"fish": 7, "alive": 7, "dead": 0, "gross": "6.00", "weighed": now, **item}
    answer = page.request.post(f"{API}/{what}", data={what: [item]}, headers={"Authorization": f"Bearer {secret}"})
    assert answer.status == 200, answer.text()
    found: dict[str, Any] = answer.json()[what][0]
    return found


def test_a_slip_is_keyed_in_twelve_strokes_and_its_figures(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address, viewport={"width": 1180, "height": 820})
    sign_in(page, "scales")
    open_table(page)
    assert page.evaluate("document.activeElement.id") == "boat"
    page.evaluate(
        "window.strokes = 0; addEventListener('keydown', (event) => { if (!/^[0-9.]$/.test(event.key)) strokes += 1; }, true)"
    )
    key(page, "1")
    assert page.inner_text("#team") == "Ilse & Marlow", "the team is named before there is a weight"
    key(page, "6", "1", "0", "RQ", "9.84", "1.62")
    assert page.evaluate("document.activeElement.name") == "big_fish_alive"
    page.keyboard.press("Space")
    assert "9.59" in page.inner_text("#sum") and "1 dead fish at 0.25" in page.inner_text("#sum")
    page.keyboard.press("Enter")
    page.wait_for_selector("#readback:has-text('Boat 1, Ilse & Marlow')")
    assert page.evaluate("strokes") <= 12 + 2, "two of them are the initials of those who judged the fish"
    said = page.inner_text("#readback")
    assert "7 fish: 6 alive, 1 dead, 0 short, 9.84 on the scale, big fish 1.62." in said and "Total 9.59 lb" in said
    assert page.evaluate("document.activeElement.id") == "boat" and page.input_value("#gross") == ""
    state(page, 1, "on the server")
    (slip,) = [one for one in scales.document(*lake)["slips"] if one["boat"] == 1]
    assert (slip["alive"], slip["dead"], slip["gross"], slip["big_fish"]) == (6, 1, "9.84", "1.62")
    assert slip["big_fish_alive"] is True and slip["note"] == "Judged dead by RQ." and slip["official"] == "Odile Varnham"


def test_ten_slips_weighed_offline_end_in_ten_rows(window: Any, lake: tuple[Site, str], sign_in: Any) -> None:
    page = window(lake[0].address)
    context, boats = page.context, range(11, 21)
    sign_in(page, "scales")
    open_table(page)
    page.wait_for_selector("html[data-alone]")
    context.set_offline(True)
    for boat in boats[:5]:
        weigh(page, boat)
    where(page, "5 slips kept on this tablet")
    page.wait_for_selector("#band:has-text('Carry on weighing.')")
    assert "Do not load this page again" not in page.inner_text("#band")
    page.reload()
    ready(page)
    where(page, "5 slips kept on this tablet")
    for boat in boats[5:]:
        weigh(page, boat)
    page.close()
    page = context.new_page()
    page.goto(PAGE)
    ready(page)
    where(page, "10 slips kept on this tablet")
    assert page.evaluate("getComputedStyle(document.querySelector('.keep')).minHeight") == "84px", "styled offline"
    assert not kept(lake[0], *boats)
    context.set_offline(False)
    where(page, "all 10 slips are on the server")
    page.wait_for_selector("#band", state="hidden")
    assert kept(lake[0], *boats) == list(boats)


def test_slips_outlive_the_server_and_the_tablet_on_plain_http(chromium: Any, own_lake: tuple[Site, str], tmp_path: Path) -> None:
    site, secret = own_lake
    context = chromium.new_context(base_url=f"http://lake.test:{site.port}")
    page = context.new_page()
    open_table(page, f"{PAIRED}#{secret}")
    assert not page.evaluate("isSecureContext")
    weigh(page, 2)
    where(page, "the slip is on the server")
    site.kill()
    weigh(page, 3)
    weigh(page, 4)
    page.wait_for_selector("#band:has-text('Do not load this page again meanwhile')")
    where(page, "2 slips kept on this tablet")
    page.close()
    site.start()
    page = context.new_page()
    page.goto(PAIRED)
    where(page, "all 3 slips are on the server")
    assert kept(site, 2, 3, 4) == [2, 3, 4]
    context.close()


def test_an_answer_that_is_lost_costs_nothing(tablet: Any, lake: tuple[Site, str]) -> None:
    lost: list[int] = []

    def lose(route: Any) -> None:
        lost.append(route.fetch().status)
        route.abort()

    tablet.route("**/slips", lose)
    weigh(tablet, 21)
    tablet.wait_for_selector("#band:not([hidden])")
    assert lost[0] == 200 and kept(lake[0], 21) == [21], "the site kept it, the tablet has not heard so"
    state(tablet, 21, "kept on this tablet")
    tablet.unroute("**/slips")
    row = state(tablet, 21, "on the server")
    assert kept(lake[0], 21) == [21]
    row.locator("summary").click()
    assert "it counts once" in row.inner_text()


def test_two_tabs_send_a_slip_once_and_both_say_so(tablet: Any, lake: tuple[Site, str]) -> None:
    other = tablet.context.new_page()
    other.goto(PAIRED)
    ready(other)
    weigh(tablet, 22)
    weigh(other, 23)
    for page in (tablet, other):
        where(page, "all 2 slips are on the server")
    assert kept(lake[0], 22, 23) == [22, 23]


def test_something_else_that_answers_is_no_link(tablet: Any, lake: tuple[Site, str]) -> None:
    tablet.route("**/slips", lambda route: route.fulfill(status=200, content_type="text/html", body="<h1>Free Wi-Fi</h1>"))
    weigh(tablet, 24)
    tablet.wait_for_selector("#band:has-text('Something other than the site answers.')")
    tablet.unroute("**/slips")
    state(tablet, 24, "on the server")
    tablet.route("**/slips", lambda route: route.fulfill(status=200, json={"slips": [], "revision": 1}))
    weigh(tablet, 25)
    tablet.wait_for_selector("#band:has-text('did not name the slips')")
    state(tablet, 25, "kept on this tablet")
    tablet.unroute("**/slips")
    state(tablet, 25, "on the server")
    assert kept(lake[0], 24, 25) == [24, 25]


def test_a_second_slip_is_said_before_and_after(tablet: Any, lake: tuple[Site, str]) -> None:
    post(tablet, lake[1], "slips", boat=31)
    fresh(tablet)
    key(tablet, "31", "7", "0", "0", "6.10", "")
    tablet.wait_for_selector(".doubt:has-text('Boat 31 has slip')")
    assert tablet.inner_text("#keep") == "Keep a second slip for boat 31 all the same"
    assert tablet.evaluate("document.activeElement.id") == "keep"
    tablet.keyboard.press("Enter")
    state(tablet, 31, "second slip")
    assert "1 needs you" in tablet.inner_text("#where-kept")
    assert "neither counts until the director settles it" in tablet.inner_text("#readback")
    assert kept(lake[0], 31) == [31, 31]


def test_a_refused_slip_is_put_right_under_its_id(tablet: Any, lake: tuple[Site, str]) -> None:
    key(tablet, "991", "7", "0", "0", "6.20", "")
    tablet.wait_for_selector(".doubt:has-text('not on this tablet')")
    tablet.keyboard.press("Enter")
    row = state(tablet, 991, "refused, not kept")
    id = row.get_attribute("data-id")
    row.locator("summary").click()
    assert "boat" in row.inner_text().lower() and "6.20 lb" in row.inner_text()
    row.locator("button", has_text="Put it right").click()
    assert tablet.input_value("#gross") == "6.20"
    tablet.fill("#boat", "32")
    tablet.click("#keep")
    state(tablet, 32, "on the server")
    assert [one for one, boat, _ in scales.rows(lake[0]) if boat == 32] == [id.replace("-", "")]
    assert tablet.locator("#slips > li").count() == 1


def test_a_slip_that_differs_is_said_and_set_aside(tablet: Any, lake: tuple[Site, str]) -> None:
    def before(route: Any) -> None:
        for slip in json.loads(route.request.post_data)["slips"]:
            if slip["boat"] == 33 and not kept(lake[0], 33):
                post(tablet, lake[1], "slips", id=slip["id"], boat=33, gross="9.99")
        route.continue_()

    tablet.route("**/slips", before)
    weigh(tablet, 33)
    row = state(tablet, 33, "differs, not kept")
    row.locator("summary").click()
    assert "Show both to the director" in row.inner_text()
    row.locator("button", has_text="Set it aside").click()
    state(tablet, 33, "set aside")
    assert [weight for _, boat, weight in scales.rows(lake[0]) if boat == 33] == ["9.99"]


@pytest.mark.parametrize(
    ("figures", "words", "label"),
    [
        (("7", "0", "0", "98.4", ""), "98.4 is 14.06 lb a fish", "Keep 98.4 all the same"),
        (("9", "0", "0", "8.40", "1.5", "1.4", ""), "9 fish, and the limit is 7", "Keep 9 fish all the same"),
        (("7", "0", "0", "0.40", ""), "0.40 is 0.06 lb a fish", "Keep 0.40 all the same"),
        (("7", "0", "0", "9.40", "4.1"), "4.1 is heavier than the fish one expects", "Keep 4.1 all the same"),
    ],
)
def test_the_unlikely_is_doubted_and_can_be_kept(tablet: Any, figures: Any, words: str, label: str) -> None:
    tablet.wait_for_selector("#event-name:has-text('Today on the slough')")
    tablet.context.set_offline(True)
    key(tablet, "34", *figures)
    tablet.wait_for_selector(f".doubt:has-text('{words}')")
    assert tablet.inner_text("#keep") == label
    assert tablet.locator("#slips > li").count() == 0
    tablet.fill("#gross", tablet.input_value("#gross") + "1")
    assert tablet.inner_text("#keep") == "Keep boat 34’s slip" and tablet.locator(".doubt").count() == 0
    tablet.fill("#gross", figures[3])
    tablet.click("#keep")
    assert tablet.inner_text("#keep") == label
    tablet.click("#keep")
    where(tablet, "1 slip kept on this tablet")
    row = tablet.locator("#slips > li").first
    row.locator("summary").click()
    assert "Kept all the same: " in row.inner_text()


def test_what_cannot_be_is_said_at_its_line_and_keeps_nothing(tablet: Any) -> None:
    key(tablet, "35", "7", "0", "0", "9,84", "")
    tablet.wait_for_selector(".fault:has-text('a point, not a comma')")
    assert tablet.evaluate("document.activeElement.id") == "gross"
    tablet.fill("#gross", "")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault:has-text('Write what the scale shows.')")
    tablet.fill("#alive", "")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault:has-text('Count the live fish.')")
    tablet.fill("#official", "")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault:has-text('Write who reads the scale.')")
    assert tablet.locator("#slips > li").count() == 0


def test_the_largest_are_asked_for_when_the_rules_take_them(tablet: Any, lake: tuple[Site, str]) -> None:
    key(tablet, "36", "7", "0")
    assert not tablet.is_visible("#largest")
    key(tablet, "1", "9.00")
    assert tablet.inner_text("#largest-says") == "The rules take the largest fish: weigh it alone, heaviest first"
    assert tablet.inner_text("#on-scale") == "6 fish go on the scale; 1 (short) does not."
    assert "waits for the largest fish" in tablet.inner_text("#sum")
    key(tablet, "1.71", "")
    state(tablet, 36, "on the server")
    assert "7.29" in tablet.inner_text("#readback")
    (slip,) = [one for one in scales.document(*lake)["slips"] if one["boat"] == 36]
    assert slip["largest_weights"] == ["1.71"] and slip["short"] == 1


def test_a_late_boat_loses_its_minutes_on_the_tablet(tablet: Any, lake: tuple[Site, str]) -> None:
    post(tablet, lake[1], "checkins", boat=37, minutes_late=3)
    fresh(tablet)
    key(tablet, "37")
    tablet.wait_for_selector("#team-note:has-text('3 minutes late')")
    key(tablet, "7", "0", "0", "9.00")
    assert "3 minutes late at 1.00" in tablet.inner_text("#sum") and "6.00" in tablet.inner_text("#sum .total")


def test_a_paired_tablet_hides_its_token_and_says_when_it_is_withdrawn(tablet: Any, lake: tuple[Site, str]) -> None:
    assert lake[1] not in tablet.url and tablet.url.endswith(PAIRED)
    code = (
        "from weighin.events.models import Event; from weighin.scale.stations import withdraw_station; "
        f"withdraw_station(Event.objects.get(slug={scales.SLUG!r}), 'Table 9', 'test')"
    )
    secret = scales.token(lake[0], "Table 9")
    page = tablet.context.browser.new_context(base_url=lake[0].address).new_page()
    open_table(page, PAIRED)
    page.wait_for_selector("#notices:has-text('This tablet is not paired.')")
    open_table(page, f"{PAIRED}#{secret}")
    page.wait_for_selector("#event-name:has-text('Today on the slough')")
    done = lake[0].manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    weigh(page, 38)
    page.wait_for_selector("#notices:has-text('was withdrawn')")
    where(page, "1 slip kept on this tablet")
    assert not kept(lake[0], 38)
    open_table(page, f"{PAIRED}#{lake[1]}")
    page.evaluate(f"location.hash = '{lake[1]}'")
    where(page, "the slip is on the server")
    page.context.close()


def test_slips_are_kept_without_indexeddb(window: Any, lake: tuple[Site, str]) -> None:
    page = window(lake[0].address)
    page.context.add_init_script("Object.defineProperty(window, 'indexedDB', { value: { open() { throw new Error('refused'); } } })")
    open_table(page, f"{PAIRED}#{lake[1]}")
    page.wait_for_selector("html[data-alone]")
    page.context.set_offline(True)
    weigh(page, 39)
    page.reload()
    where(page, "1 slip kept on this tablet")
    page.context.set_offline(False)
    where(page, "the slip is on the server")
    assert kept(lake[0], 39) == [39]


def test_a_tablet_that_can_keep_nothing_says_so(tablet: Any) -> None:
    tablet.evaluate(
        "() => { IDBObjectStore.prototype.put = () => { throw new Error('full'); };"
        "Storage.prototype.setItem = () => { throw new Error('full'); }; }"
    )
    key(tablet, "40", "7", "0", "0", "6.00", "")
    tablet.wait_for_selector(".fault:has-text('Write it on paper now')")
    assert tablet.input_value("#gross") == "6.00", "what was written stays in sight"


def test_the_pad_and_the_steps_write_for_wet_hands(tablet: Any) -> None:
    tablet.click("#pad-switch")
    press = lambda *keys: [tablet.click(f"#pad button:text-is('{one}')") for one in keys]  # noqa: E731
    tablet.focus("#boat")
    press("4", "9", "⌫", "1", "Next")
    for name in ("alive", "alive", "dead"):
        tablet.click(f"[data-step='1'][data-of={name}]")
    tablet.click("[data-step='-1'][data-of=dead]")
    tablet.focus("#gross")
    press("3", ".", "2", "5", "Next", "Next")
    tablet.wait_for_selector("#readback:has-text('Boat 41,')")
    assert "2 fish: 2 alive, 0 dead, 0 short, 3.25 on the scale." in tablet.inner_text("#readback")
    assert tablet.get_attribute("#gross", "inputmode") == "none", "the tablet's own keyboard stays away"


def test_the_page_is_small_and_the_worker_keeps_every_file_of_it(tablet: Any, lake: tuple[Site, str]) -> None:
    _, _, text = lake[0].ask(PAIRED)
    named = re.findall(r'(?:src|href)="(/static/[^"]+)"', text)
    _, headers, worker = lake[0].ask(f"{PAIRED}worker.js")
    found = re.search(r"const FILES = (\[.*\]);", worker)
    assert found is not None and headers["content-type"].startswith("text/javascript")
    assert sorted(json.loads(found[1])) == sorted(named)
    heavy = len(text.encode()) + len(worker.encode())
    loader = re.search(r'importScripts\("([^"]+)"\)', worker)
    assert loader is not None
    for address in (*named, loader[1]):
        status, _, body = lake[0].ask(address)
        assert status == 200
        heavy += len(body.encode())
    assert heavy < 150_000, heavy
    asked = tablet.evaluate("performance.getEntriesByType('resource').map((one) => new URL(one.name).pathname)")
    assert {one for one in asked if one.startswith("/static/")} <= set(named)


@pytest.mark.parametrize("light", ["paper", "sun", "night"])
@pytest.mark.parametrize("size", [(390, 844), (820, 1180), (1180, 820)], ids=["phone", "upright", "lying"])
def test_everyone_can_use_it(tablet: Any, size: tuple[int, int], light: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    tablet.set_viewport_size({"width": size[0], "height": size[1]})
    tablet.click(f".light [value={light}]")
    tablet.click("#pad-switch")
    tablet.context.set_offline(True)
    weigh(tablet, 42)
    tablet.wait_for_selector("#band:not([hidden])")
    tablet.locator("#slips summary").first.click()
    tablet.focus("#boat")
    key(tablet, "43", "8", "2", "1", "98.4", "", "", "", "1.5")
    tablet.click("#keep")
    tablet.wait_for_selector(".fault, .doubt")
    found = Axe().run(tablet, options={"runOnly": AA})
    assert found.violations_count == 0, found.generate_report()
    assert tablet.evaluate("document.documentElement.scrollWidth <= innerWidth")
    for name in ("boat", "alive", "dead", "short", "gross", "big_fish"):
        tablet.focus(f"#{name}")
        line, bar = tablet.locator(f"#{name}").bounding_box(), tablet.locator(".keep-bar").bounding_box()
        assert line["y"] + line["height"] <= bar["y"] + 1, f"Keep covers {name}"
        assert bar["y"] + bar["height"] <= size[1] + 1, "Keep stays in sight"
    covered = tablet.evaluate(
        "(() => { const box = document.querySelector('#keep').getBoundingClientRect();"
        "return document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2).id; })()"
    )
    assert covered == "keep"
    small = tablet.eval_on_selector_all(
        ".at-scales :is(input:not([type=radio]), select, button), .at-scales summary",
        "all => all.filter(one => one.checkVisibility() && Math.min(one.getBoundingClientRect().height, one.getBoundingClientRect().width) < 43.5).map(one => one.name || one.textContent)",
    )
    assert not small

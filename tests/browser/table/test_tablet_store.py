"""What a tablet keeps: each kind by itself, and what the site has had for a day is let go, never what is unsent."""

from typing import Any

from browser.scales import PAIRED, SLUG, module, open_table, state, weigh, where

STORE = module("device/store")
OPEN = f"const store = await {STORE}.openStore('{SLUG}', kind);"
DAY = 24 * 60 * 60 * 1000


def put(page: Any, kind: str, **record: Any) -> None:
    row = {"id": "", "keptAt": 0, "state": "waiting", **record}
    page.evaluate(f"async ([kind, row, age]) => {{ {OPEN} row.answeredAt = age === null ? undefined : Date.now() - age; "
                  "await store.keep(row); }", [kind, row, record.get("age")])  # fmt: skip


def held(page: Any, kind: str) -> list[str]:
    found: list[str] = page.evaluate(
        f"async ([kind]) => {{ {OPEN} return (await store.all()).map((row) => row.id).sort(); }}", [kind]
    )
    return found


def test_a_slip_that_the_site_has_had_for_a_day_is_let_go_an_unsent_one_never(tablet: Any) -> None:
    weigh(tablet, 51)
    state(tablet, 51, "on the server")
    (fresh,) = held(tablet, "table")
    slip = {"boat": 52, "fish": 7, "alive": 7, "dead": 0, "weighed": "2026-06-01T12:00:00Z"}
    put(tablet, "table", id="a-old-and-kept", state="kept", age=2 * DAY, slip=slip)
    put(tablet, "table", id="b-old-and-had-already", state="already", age=2 * DAY, slip=slip)
    put(tablet, "table", id="c-old-second-settled", state="second", age=2 * DAY, asideAt=1, slip=slip)
    stays = {
        "d-second-to-settle": {"state": "second", "age": 2 * DAY},
        "e-refused": {"state": "refused", "age": 2 * DAY},
        "f-differs": {"state": "differs", "age": 2 * DAY, "asideAt": 1},
        "g-refused-and-set-aside": {"state": "refused", "age": 2 * DAY, "asideAt": 1},
        "h-kept-within-the-day": {"state": "kept", "age": DAY - 60_000},
        "i-kept-by-no-answer": {"state": "kept", "age": None},
    }
    for name, record in stays.items():
        put(tablet, "table", id=name, slip=slip, **record)
    with tablet.expect_response(lambda answer: "/station?since=" in answer.url):
        tablet.reload()
    tablet.wait_for_function(
        f"async () => !(await (await {STORE}.openStore(document.body.dataset.event)).all()).some((r) => r.id[1] === '-' && r.id < 'd')"
    )
    assert set(held(tablet, "table")) == {fresh, *stays}


def test_old_slips_stay_while_there_is_no_link(window: Any, lake: Any) -> None:
    page = window(lake[0].address)
    open_table(page, f"{PAIRED}#{lake[1]}")
    page.wait_for_selector("html[data-alone][data-papers]")
    page.context.set_offline(True)
    weigh(page, 53)
    put(page, "table", id="a-old", state="kept", age=2 * DAY, slip={"boat": 54, "weighed": "2026-06-01T12:00:00Z"})
    page.reload()
    where(page, "1 slip saved on this tablet")
    assert "a-old" in held(page, "table") and len(held(page, "table")) == 2
    page.context.set_offline(False)
    where(page, "the slip is on the server")
    page.wait_for_function(
        f"async () => (await (await {STORE}.openStore(document.body.dataset.event)).all()).length === 1"
    )


def test_kinds_do_not_mix(tablet: Any) -> None:
    put(tablet, "notes", id="a-note")
    put(tablet, "checkins", id="a-check-in")
    assert held(tablet, "notes") == ["a-note"] and held(tablet, "checkins") == ["a-check-in"]
    assert not {"a-note", "a-check-in"} & set(held(tablet, "table"))

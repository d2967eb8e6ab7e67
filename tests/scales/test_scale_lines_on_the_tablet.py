"""The tablet's reader of indicator lines against the site's: both hear the same generated lines, whole and damaged."""

from decimal import Decimal
from random import Random
from typing import Any

import javascript

from weighin.scales.domain.layouts import LAYOUTS, Layout, as_data, layout_of
from weighin.scales.domain.lines import Listener
from weighin.scales.domain.reading import Reading, read

LINES = 3000
OWN = (
    "{pounds}lb {ounces}oz {state}",
    "W1: {figures} kg {state}",
    "{mode} {figures} {unit} {rest}",
    "<{figures}lb>{any}",
)


def line_of(rng: Random, layout: Layout) -> str:
    """A line as the layout's scale might write it, or near it."""
    weight = Decimal(rng.randint(-300, 120_000)) / rng.choice([1, 10, 100, 1000])
    unit = rng.choice(["lb", "LB", "kg", "g", "oz", "lbs", "t", "", "xx"])
    state = rng.choice([*(layout.states or {}), "XX"])
    mode = rng.choice(["GS", "NT", "TR", "gs"])
    gap = " " * rng.randint(0, 4)
    a, b, c = (chr(0x20 | rng.randrange(size)) for size in (32, 96, 16))
    lines = {
        "headers": f"{state},{mode},{weight:+09}{rng.choice(['', ',', gap])}{unit}",
        "header": f"{state},{weight:+09}{gap}{unit}",
        "sics": f"S {state}{gap} {weight} {unit}",
        "mark": f"{gap}{weight} {unit} {gap}{rng.choice(['?', '', 'NET'])}",
        "continuous": f"{rng.choice(['', 'q'])}\x02{a}{b}{c}{abs(int(weight)) % 10**6:>6}{rng.randrange(10**6):06}",
        "own": rng.choice(
            [
                f"{gap}{rng.randint(0, 40)}lb {rng.randint(0, 17)}.5oz {state}",
                f"W1: {weight} kg {state}",
                f"{mode}{gap}{weight} {unit}{gap}?",
                f"<{weight}lb>{gap}{state}",
            ]
        ),
    }
    text = rng.choice(["\x02", "", ""]) + lines[layout.name] if layout.name != "continuous" else lines["continuous"]
    for _ in range(rng.choice([0, 0, 0, 1, 2])):
        place = rng.randrange(len(text) + 1)
        text = (
            text[:place] + rng.choice(["", chr(rng.randrange(256)), "0", " ", "."]) + text[place + rng.randint(0, 1) :]
        )
    return text.replace("\r", "").replace("\n", "")


def said(reading: Reading | None) -> list[Any] | None:
    return [reading.text, reading.unit, reading.state, reading.stable, reading.raw] if reading else None


def test_tablet_and_site_read_the_same_lines_and_streams() -> None:
    rng = Random("lines")
    layouts = [*LAYOUTS.values(), *(layout_of("own", pattern) for pattern in OWN)]
    singles = [(layout, line_of(rng, layout)) for layout in layouts for _ in range(LINES // len(layouts))]
    streams = []
    for layout in layouts:
        for once in (True, False):
            lines = [line_of(rng, layout) + rng.choice(["\r\n", "\r", "\n"]) for _ in range(40)]
            text = "".join(line * rng.choice([1, 1, 2, 3]) for line in lines)
            streams.append((layout, once, [text[place : place + 7] for place in range(0, len(text), 7)]))
    tell = "(one) => one && [one.text, one.unit, one.state, one.stable, one.raw]"
    work = (
        f"(() => {{ const tell = {tell}; return [cases.singles.map(([l, line]) => tell(lines.read(l, line))), "
        "cases.streams.map(([l, once, parts]) => { const hear = lines.listener(l, once); "
        "return parts.flatMap((part) => hear(part)).map(tell); })]; })()"
    )
    read_there, heard_there = javascript.run(
        work,
        {
            "singles": [[as_data(layout), line] for layout, line in singles],
            "streams": [[as_data(layout), once, parts] for layout, once, parts in streams],
        },
        lines="scales/lines",
    )
    sound = 0
    for (layout, line), there in zip(singles, read_there, strict=True):
        here = said(read(layout, line))
        assert there == here, (layout.name, layout.patterns, line)
        sound += here is not None
    assert LINES // 6 < sound < LINES - LINES // 6, "some lines must be sound and some must not"
    heard = 0
    for (layout, once, parts), there in zip(streams, heard_there, strict=True):
        listener = Listener(layout, once)
        here = [said(one) for part in parts for one in listener.hear(part.encode("latin-1"))]
        assert there == here, (layout.name, layout.patterns, once)
        heard += len(here)
    assert heard > 100

"""Lines of indicators: what each layout says, and that damage never makes another weight of one."""

from decimal import Decimal
from random import Random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from weighin.rules.faults import Faults
from weighin.scales.domain.layouts import LAYOUTS, MOTION, OVERLOAD, STABLE, UNDERLOAD, UNZEROED, layout_of
from weighin.scales.domain.lines import Listener
from weighin.scales.domain.reading import Reading, read, why_not

CONTINUOUS = "\x02\x2c{b}\x20{weight:>6}   000"


def said(name: str, line: str, pattern: str = "") -> tuple[str, str, str] | None:
    found = read(layout_of(name, pattern), line)
    return (found.text, found.unit, found.state) if found else None


# The examples of the makers' manuals; each layout's source stands beside it in weighin/scales/domain/layouts.py
@pytest.mark.parametrize(
    ("name", "line", "expected"),
    [
        # Selleton SL-7516 manual, communication mode; A&D AD-4329A manual, 11.1.1
        ("headers", "ST,GS,+00009.47lb", ("9.47", "lb", STABLE)),
        ("headers", "US,GS,+00009.47lb", ("9.47", "lb", MOTION)),
        # A&D AD-4404 manual, 9.2.6
        ("headers", "ST,NT,+0012.34kg", ("12.34", "kg", STABLE)),
        ("headers", "OL,GS,    .  kg", ("", "", OVERLOAD)),
        ("headers", "ST,TR,+00000.32lb", None),
        # Dini Argeo DGT4X technical manual, standard string
        ("headers", "ST,GS,     0.0,kg", ("0.0", "kg", STABLE)),
        ("headers", "UL,GS,    -9.9,kg", ("-9.9", "kg", UNDERLOAD)),
        # A&D GC series manual, 16.2; EK-L series manual, 9-2
        ("header", "ST,+0001.234 kg", ("1.234", "kg", STABLE)),
        ("header", "ST,+001234.5  g", ("1234.5", "g", STABLE)),
        ("header", "QT,+00012345 PC", None),
        ("header", "OL,+999999.9  g", ("999999.9", "g", OVERLOAD)),
        ("header", "OL,+9999999E+19", ("", "", OVERLOAD)),
        # Mettler-Toledo, AT balances operating instructions, command S
        ("sics", "S S     100.00 g", ("100.00", "g", STABLE)),
        ("sics", "S D     100.00 g", ("100.00", "g", MOTION)),
        ("sics", "S +", ("", "", OVERLOAD)),
        ("sics", "S -", ("", "", UNDERLOAD)),
        ("sics", "S I", ("", "", "refused")),
        # Ohaus RS232 Interface manual, output examples
        ("mark", "        0.00 g     ", ("0.00", "g", STABLE)),
        ("mark", "       12.73 g    ?", ("12.73", "g", MOTION)),
        ("mark", "           3 PCS  ?", None),
        # Rockwell user guide, appendix D, and Mettler-Toledo user's manual (12/00), tables 6-9 to 6-11
        ("continuous", CONTINUOUS.format(b=" ", weight=947), ("9.47", "lb", STABLE)),
        ("continuous", CONTINUOUS.format(b="(", weight=947), ("9.47", "lb", MOTION)),
        ("continuous", CONTINUOUS.format(b="$", weight=947), ("9.47", "lb", OVERLOAD)),
        ("continuous", CONTINUOUS.format(b='"', weight=4), ("-0.04", "lb", STABLE)),
        ("continuous", CONTINUOUS.format(b="0", weight=4295), ("42.95", "kg", STABLE)),
        ("continuous", CONTINUOUS.format(b="`", weight=947), ("9.47", "lb", UNZEROED)),
        ("continuous", "Q" + CONTINUOUS.format(b=" ", weight=947), ("9.47", "lb", STABLE)),
        ("continuous", CONTINUOUS.format(b=" ", weight=947)[:-1], None),
        ("continuous", CONTINUOUS.format(b=" ", weight=947)[1:], None),
        ("continuous", "\x02\x2d  004295000000", ("4.295", "lb", STABLE)),
    ],
)
def test_published_lines(name: str, line: str, expected: tuple[str, str, str] | None) -> None:
    assert said(name, line) == expected


def test_own_patterns() -> None:
    assert said("own", "  9lb  7.5oz S", "{pounds}lb {ounces}oz {state}") == ("9-07.5", "lb-oz", STABLE)
    assert said("own", "  9lb 16.0oz S", "{pounds}lb {ounces}oz {state}") is None
    assert said("own", "W1: 4.295 kg M", "W1: {figures} kg {state}") == ("4.295", "kg", MOTION)
    assert said("own", "W1: 4.295 kg X", "W1: {figures} kg {state}") is None
    assert said("own", "W2: 4.295 kg S", "W1: {figures} kg {state}") is None
    found = read(layout_of("own", "{pounds}lb {ounces}oz"), "9lb 7.5oz")
    assert found is not None and found.weight == Decimal("9.46875")


@pytest.mark.parametrize(
    ("pattern", "words"),
    [
        ("", "write what it sends"),
        ("{figures}", "must have a unit"),
        ("{figures} lb kg", "must have a unit"),
        ("{figures} {unit} {figures}", "stands twice"),
        ("{weight} lb", "no piece of a pattern"),
        ("{figures lb", "brace stands alone"),
        ("{pounds} lb", "one weight"),
        ("{figures} {pounds} {ounces}", "one weight"),
        ("{pounds}lb {ounces}oz {unit}", "goes with {figures}"),
        ("{state}{rest}{figures}lb", "use one of them"),
        ("{figures} l\u00df", "plain letters"),
    ],
)
def test_patterns_that_cannot_be(pattern: str, words: str) -> None:
    with pytest.raises(Faults) as refused:
        layout_of("own", pattern)
    (fault,) = refused.value.faults
    assert fault.field == "pattern" and words in fault.message


def test_no_layout_of_that_name() -> None:
    with pytest.raises(Faults):
        layout_of("somebody's")


def test_why_a_reading_is_not_taken() -> None:
    def why(line: str, unit: str = "lb") -> str:
        found = read(layout_of("headers"), line)
        assert found is not None
        return why_not(found, unit)

    assert why("ST,GS,+00009.47lb") == ""
    assert "not at rest" in why("US,GS,+00009.47lb")
    assert "overloaded" in why("OL,GS,+00009.47lb")
    assert "below its range" in why("UL,GS,+00009.47lb")
    assert "below zero" in why("ST,GS,-00000.04lb") and why("ST,GS,-00000.00lb") == ""
    assert "reads lb, the event weighs in kg" in why("ST,GS,+00009.47lb", "kg")
    assert "reads g, the event weighs in kg" in why("ST,GS,+00009.47g", "kg")
    assert "reads lb, the event weighs in lb-oz" in why("ST,GS,+00009.47lb", "lb-oz")
    assert "more than 999" in why("ST,GS,+01000.00lb")


def test_lines_come_in_pieces_with_any_line_end_and_are_believed_the_second_time_the_first_the_third() -> None:
    for end in (b"\r\n", b"\r", b"\n", b"\r\r\n"):
        listener = Listener(layout_of("headers"))
        heard: list[Reading] = []
        stream = b"0009.47lb" + end + (b"ST,GS,+00009.47lb" + end) * 3 + b"US,GS,+00009.50lb" + end
        stream += (b"ST,GS,+00009.51lb" + end) * 2
        for place in range(0, len(stream), 5):
            heard += listener.hear(stream[place : place + 5])
        assert [(one.text, one.state) for one in heard] == [
            ("9.47", STABLE),
            ("9.50", MOTION),
            ("9.51", STABLE),
        ]


def test_a_scale_with_a_key_says_everything_once() -> None:
    assert [one.text for one in Listener(layout_of("headers"), once=True).hear(b"ST,GS,+00009.47lb\r\n")] == ["9.47"]


def test_a_line_without_end_never_fills_the_memory() -> None:
    listener = Listener(layout_of("headers"))
    for _ in range(1000):
        assert listener.hear(b"ST,GS,+00009.47lb " * 100) == []
    assert len(listener._held) < 1000


def frame(weight: Decimal) -> str:
    return CONTINUOUS.format(b=" ", weight=int(weight * 100))


WRITERS = {
    "headers": lambda w: f"ST,GS,+{w:08.2f}lb",
    "header": lambda w: f"ST,+{w:08.2f} lb",
    "sics": lambda w: f"S S {w:10.2f} lb",
    "mark": lambda w: f"{w:11.2f} lb    ",
    "continuous": frame,
}
WEIGHTS = st.integers(1, 99999).map(lambda n: Decimal(n) / 100)


@given(st.sampled_from(sorted(LAYOUTS)), WEIGHTS)
def test_what_is_written_is_read(name: str, weight: Decimal) -> None:
    found = read(layout_of(name), WRITERS[name](weight))
    assert found is not None and found.stable and (found.weight, found.unit) == (weight, "lb")


@settings(max_examples=400)
@example("header", [Decimal("0.01"), Decimal(1), Decimal(1)], 186397735)
@given(st.sampled_from(sorted(LAYOUTS)), st.lists(WEIGHTS, min_size=1, max_size=4), st.integers(0, 2**32))
def test_damage_on_the_way_never_makes_another_weight(name: str, real: list[Decimal], seed: int) -> None:
    """Every line comes three times; signs are lost, doubled and turned into others, at a rate of one in thirty."""
    rng = Random(seed)
    stream = "".join((WRITERS[name](weight) + "\r\n") * 3 for weight in real)
    damaged = ""
    for sign in stream:
        kind = rng.randrange(120)
        damaged += {0: "", 1: sign * 2, 2: chr(rng.randrange(256)), 3: sign + chr(rng.randrange(32))}.get(kind, sign)
    for found in Listener(layout_of(name)).hear(damaged.encode("latin-1")):
        assert not found.stable or found.weight in real, found


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        # A figure doubled in one line, another turned in the next: the same wrong weight
        ("header", ["ST,+00001.00 lb", "ST,+00001.00 lb", "ST,+000011.00 lb", "ST,+00011.00 lb"]),
        # The same figure lost, or doubled, in two lines that follow each other
        ("headers", ["ST,GS,+00009.47lb", "ST,GS,+00009.47lb", "ST,GS,+00009.7lb", "ST,GS,+00009.7lb"]),
        ("mark", ["       9.47 lb    ", "       9.47 lb    ", "       99.47 lb    ", "       99.47 lb    "]),
        # Before a weight was believed, after a line that is as long by damage
        ("headers", ["ST,GS,+00001.00lb\x0f", "ST,GS,+00000.001lb", "ST,GS,+00000.001lb"]),
        # What the manual fixes the width of, even said by a scale with a key
        ("header", ["ST,+000011.00 lb"] * 3),
        ("sics", ["S S       9.477 lb"] * 3),
    ],
)
def test_lines_damaged_alike_are_not_believed(name: str, lines: list[str]) -> None:
    heard = Listener(layout_of(name)).hear("\r\n".join(["", *lines, ""]).encode())
    assert {one.text for one in heard} <= {"9.47", "1.00"}


def test_a_line_that_grows_with_the_weight_is_believed_the_third_time() -> None:
    lines = ["9lb 7.5oz"] * 3 + ["10lb 0.5oz"] * 3
    listener = Listener(layout_of("own", "{pounds}lb {ounces}oz"))
    assert [one.text for one in listener.hear("\r".join(["", *lines, ""]).encode())] == ["9-07.5", "10-00.5"]


@settings(max_examples=400)
@given(st.sampled_from(sorted(LAYOUTS)), st.binary(max_size=400))
def test_noise_is_no_weight(name: str, noise: bytes) -> None:
    assert not [one for one in Listener(layout_of(name)).hear(noise) if one.stable]


@given(st.sampled_from(["headers", "header", "sics", "continuous"]), WEIGHTS, st.integers(1, 20), st.booleans())
def test_half_a_line_is_no_weight_even_said_once(name: str, weight: Decimal, cut: int, front: bool) -> None:
    line = WRITERS[name](weight)
    half = line[cut:] if front else line[:-cut]
    if half == line.rstrip() or half == line.lstrip():
        return
    assert read(layout_of(name), half) is None

"""Names that a reader takes for another's: letters of other scripts, unseen signs, other widths."""

import pytest

from weighin.rules.faults import Wrong
from weighin.rules.look_alikes import look_of, name_line


@pytest.mark.parametrize(
    "name",
    [
        "Ольга",
        "Μαρία",
        "Nguyễn Văn A",
        "Łukasz & Żaneta",
        "湖の会",
        "Ольга & Μαρία",
        "O’Neill",
        "Pair 12",
        "Δ Team",
        "محمد",
    ],
)
def test_names_in_a_script_of_their_own_stay(name: str) -> None:
    assert name_line(name) == name


@pytest.mark.parametrize("name", ["P\u0435rch", "C\u03bfve", "\u0420erch", "Реrch", "ｐ\u0435rch"])
def test_two_scripts_in_a_word_are_refused(name: str) -> None:
    with pytest.raises(Wrong, match="mixes letters of two scripts"):
        name_line(name)


@pytest.mark.parametrize("sign", ["\u200b", "\u200d", "\u200e", "\u2060", "\ufeff", "\u00ad", "\u061c", "\u180e"])
def test_unseen_signs_are_refused(sign: str) -> None:
    with pytest.raises(Wrong, match="nobody sees"):
        name_line(f"Per{sign}ch")


@pytest.mark.parametrize("sign", ["\n", "\x00", "\x85", "\u202e", "\u2066"])
def test_control_characters_are_refused(sign: str) -> None:
    with pytest.raises(Wrong, match="control characters"):
        name_line(f"Per{sign}ch")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("оса", "oca"),
        ("ΝΑΝΑ", "NANA"),
        ("Ｐerch", "perch"),
        ("ﬁn", "fin"),
        ("рассо", "pacco"),
        ("ІО", "IO"),
        ("A  b", "a B"),
    ],
)
def test_names_of_one_look(one: str, other: str) -> None:
    assert look_of(one) == look_of(other)

"""Two rule sheets side by side, rule by rule."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet.key import Key
from weighin.rules.sheet.keys import KEYS
from weighin.rules.weights import as_pounds
from weighin.rules.words.sheet import sheet_in_words


@dataclass(frozen=True)
class Pair:
    """A rule as each sheet writes it, in its own unit."""

    key: Key
    one: str
    other: str
    differs: bool


@dataclass(frozen=True)
class SectionPair:
    """A section in which the sheets differ: its rules that do, and the sentences that stand in one sheet alone."""

    name: str
    pairs: list[Pair]
    one: list[str]
    other: list[str]


def compared(one: Rulebook, other: Rulebook) -> list[Pair]:
    """Every rule; of weights what they weigh is compared, so 0.25 lb and 0-04 are the same."""
    written = one.written(), other.written()
    return [
        Pair(key, written[0][key.name], written[1][key.name], _meant(key, one) != _meant(key, other)) for key in KEYS
    ]


def differing_sections(one: Rulebook, other: Rulebook) -> list[SectionPair]:
    """The sections in which something differs, in the order of the sheet."""
    pairs = [pair for pair in compared(one, other) if pair.differs]
    words = dict(sheet_in_words(one)), dict(sheet_in_words(other))
    return [
        SectionPair(
            name,
            [pair for pair in pairs if pair.key.section == name],
            _only(words[0][name], words[1][name]),
            _only(words[1][name], words[0][name]),
        )
        for name in dict.fromkeys(pair.key.section for pair in pairs)
    ]


def _only(sentences: Iterable[str], others: Iterable[str]) -> list[str]:
    return [sentence for sentence in sentences if sentence not in set(others)]


def _meant(key: Key, rules: Rulebook) -> Any:
    value: Any = getattr(rules, key.name)
    if key.kind == "weight":
        return as_pounds(value, rules.unit)
    if key.kind == "weights":
        return tuple(as_pounds(item, rules.unit) for item in _without_repeats(value))
    return value


def _without_repeats(steps: tuple[Decimal, ...]) -> tuple[Decimal, ...]:
    """The last step repeats by itself, so writing it twice says nothing more."""
    while len(steps) > 1 and steps[-1] == steps[-2]:
        steps = steps[:-1]
    return steps

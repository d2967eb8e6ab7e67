"""The kinds of fish that tournaments hold: how a rule sheet names them, and what one fish may weigh."""

import re
from dataclasses import dataclass
from decimal import Decimal

from weighin.rules.weights import KG_PER_LB

SAYS_NOTHING = {"and", "or", "any", "both", "of", "the", "only", "adult", "species", "black", "white"}


@dataclass(frozen=True)
class Kind:
    """One kind. Weights of one fish in lb, from memory: state records stand above the heaviest."""

    name: str
    words: str
    pattern: str
    lightest_lb: Decimal
    heaviest_lb: Decimal


KINDS = (
    Kind("crappie", "crappie", r"crappies?", Decimal("0.25"), Decimal("3.5")),
    Kind("largemouth_bass", "largemouth bass", r"large ?mouth( bass)?", Decimal("0.5"), Decimal(12)),
    Kind("smallmouth_bass", "smallmouth bass", r"small ?mouth( bass)?", Decimal("0.5"), Decimal(9)),
    Kind("walleye", "walleye", r"walleyes?", Decimal("0.5"), Decimal(14)),
    Kind("channel_catfish", "channel catfish", r"channel cats?(fish)?", Decimal("0.5"), Decimal(25)),
)
BLACK_BASS = re.compile(r"\b(?<!white )(black )?bass\b")  # said alone it is the largemouth or the smallmouth


def kinds_of(species: str) -> tuple[Kind, ...]:
    """The kinds that a rule sheet's ``species`` names; empty where it names one that is not among ``KINDS``.

    >>> [kind.name for kind in kinds_of("Black and white crappie, walleye")]
    ['crappie', 'walleye']
    >>> [kind.name for kind in kinds_of("bass")]
    ['largemouth_bass', 'smallmouth_bass']
    >>> kinds_of("crappie and white bass")
    ()
    """
    left, found = species.lower(), []
    for kind in KINDS:
        left, times = re.subn(rf"\b{kind.pattern}\b", " ", left)
        if times:
            found.append(kind)
    left, times = BLACK_BASS.subn(" ", left)
    if times:
        found += [kind for kind in KINDS if kind.name.endswith("_bass") and kind not in found]
    return () if set(re.findall(r"[^\W\d_]+", left)) - SAYS_NOTHING else tuple(found)


@dataclass(frozen=True)
class Believable:
    """What one fish may weigh, in the event's ``unit``: outside, the scale table asks; it never refuses."""

    words: str
    unit: str
    lightest: Decimal
    heaviest: Decimal


def believable(species: str, unit: str) -> Believable | None:
    """What one fish of a rule sheet's ``species`` may weigh; None where the kind is not known.

    ``unit`` is ``lb``, ``lb-oz`` (in pounds) or ``kg``.

    >>> asked = believable("crappie", "lb")
    >>> asked.words, asked.lightest, asked.heaviest
    ('crappie', Decimal('0.25'), Decimal('3.5'))
    """
    kinds = kinds_of(species)
    if not kinds:
        return None
    per_lb = KG_PER_LB if unit == "kg" else Decimal(1)
    return Believable(
        words=" or ".join(kind.words for kind in kinds),
        unit=unit,
        lightest=min(kind.lightest_lb for kind in kinds) * per_lb,
        heaviest=max(kind.heaviest_lb for kind in kinds) * per_lb,
    )

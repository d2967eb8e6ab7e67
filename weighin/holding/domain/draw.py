"""Draw the boats that give fish to the pens, by a number that anyone can draw with again."""

import random
from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext


@dataclass(frozen=True)
class Drawn:
    """The ``place`` in which a boat is called for a fish, and the ``pen`` (1, 2, ...) that the fish goes to."""

    place: int
    boat: int
    pen: int


def draw(boats: Sequence[int], *, pens: int, fish_per_pen: int, number: int) -> list[Drawn]:
    """Which boats give one living fish each, in which order, and to which pen.

    Boats come in random order; when more fish are needed than there are boats, every boat has given one before any
    gives a second. Pens are dealt in rounds, each round in random order, so that early and late boats are spread over
    all of them. The same ``number`` gives the same draw.

    Raises ValueError without boats, or when pens or fish are fewer than one.
    """
    if not boats:
        raise ValueError(gettext("no boat is entered: enter the teams first"))
    if pens < 1 or fish_per_pen < 1:
        raise ValueError(gettext("at least one pen and one fish"))
    luck = random.Random(number)
    order: list[int] = []
    while len(order) < pens * fish_per_pen:
        order += luck.sample(sorted(boats), len(boats))
    rounds = [pen for _ in range(fish_per_pen) for pen in luck.sample(range(1, pens + 1), pens)]
    return [Drawn(place, boat, pen) for place, (boat, pen) in enumerate(zip(order, rounds, strict=False), start=1)]

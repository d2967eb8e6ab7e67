"""Seeded chance that hands out a further generator by name, so that one draw more shifts nothing else."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import TypeVar

T = TypeVar("T")


class Chance(Random):
    """A generator known by its name. What stands under one name is drawn from nothing that another name uses."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(name)

    def of(self, *names: object) -> Chance:
        """The generator of a part: the same for the same names, whatever was drawn before."""
        return Chance("/".join(map(str, (self.name, *names))))

    def pick(self, name: str, values: Sequence[T]) -> T:
        """One of the values, by the name of what is picked."""
        return self.of(name).choice(values)

    def happens(self, name: str, share: float) -> bool:
        """Whether something comes about that does so in this share of the cases."""
        return self.of(name).random() < share

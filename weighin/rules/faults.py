"""Faults: what is wrong with an input, where, and what to do about it."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """One thing wrong: the field it stands in and a sentence that says what to do.

    ``field`` may be empty when the whole row or sheet is meant; ``also`` names other fields that play a part.
    """

    field: str
    message: str
    also: tuple[str, ...] = ()


class Faults(ValueError):
    """All faults of one input at once, never only the first."""

    def __init__(self, faults: Iterable[Fault]):
        self.faults = tuple(faults)
        super().__init__("; ".join(f"{f.field}: {f.message}" if f.field else f.message for f in self.faults))

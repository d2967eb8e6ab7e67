"""Delayed mortality: what an event's own holding study shows of the fish that were released alive."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from django.utils.translation import gettext, ngettext

from weighin.holding.models import HoldingPen
from weighin.survival.delayed import abbott, uncorrected
from weighin.survival.estimates import Estimate

REFERENCE, NO_REFERENCE = "reference", "no_reference"
MOST_REFERENCE_DEAD = Fraction(1, 5)  # the usual limit for Abbott's correction in bioassays
FEWEST_PENS = 3  # of either kind, to show how pens differ


class Pen(Protocol):
    """A pen's counts: a finished row, or a pen under way as it stands."""

    @property
    def kind(self) -> str: ...
    @property
    def held(self) -> int: ...
    @property
    def dead(self) -> int: ...
    @property
    def missing(self) -> int: ...
    @property
    def hours(self) -> str: ...
    @property
    def species(self) -> str: ...


@dataclass(frozen=True)
class Pens:
    """The pens of one kind: fish dead, fish looked at (held less missing), fish missing, and how many pens."""

    dead: int
    fish: int
    missing: int
    pens: int


@dataclass(frozen=True)
class HoldingStudy:
    """A holding study in figures.

    ``delayed`` is the share of released fish that died of the tournament, with 95 % limits for fish of a pen dying
    together; it may be negative, and is None when more than a fifth of the reference fish died. ``basis`` is ``reference`` (corrected by
    Abbott's formula), ``no_reference`` (the deaths of holding are in it) or None.
    """

    tournament: Pens
    reference: Pens
    delayed: Estimate | None
    basis: str | None
    hours: tuple[str, ...]
    species: tuple[str, ...]
    reference_species: tuple[str, ...]

    @property
    def unusable(self) -> str:
        """Why no delayed mortality can be given; empty where it can."""
        if self.delayed is not None:
            return ""
        beside = self.reference
        return gettext(
            "%(dead)s of %(fish)s reference fish died (%(share)s %%), over the 20 %% up to which Abbott’s formula may "
            "correct: holding alone killed too many to tell"
        ) % {"dead": beside.dead, "fish": beside.fish, "share": f"{100 * beside.dead / beside.fish:.0f}"}

    @property
    def few_pens(self) -> str:
        """Said where fewer than three pens of a kind leave open how pens differ; else empty."""
        few = [
            said % {"n": pens.pens}
            for pens, said in (
                (self.tournament, ngettext("%(n)s tournament pen", "%(n)s tournament pens", self.tournament.pens)),
                (self.reference, ngettext("%(n)s reference pen", "%(n)s reference pens", self.reference.pens)),
            )
            if 0 < pens.pens < FEWEST_PENS
        ]
        return (
            gettext("Only %(few)s, fewer than three: the range can hardly show how pens differ.")
            % {"few": gettext(" and ").join(few)}
            if few
            else ""
        )


def holding_study(pens: Iterable[Pen]) -> HoldingStudy | None:
    """The study of an event's pens, or None when no tournament fish was held."""
    kinds: dict[str, list[Pen]] = {kind: [] for kind in HoldingPen.Kind.values}
    for pen in pens:
        kinds[pen.kind].append(pen)
    held, beside = kinds[HoldingPen.Kind.TOURNAMENT], kinds[HoldingPen.Kind.REFERENCE]
    tournament, reference = _sum(held), _sum(beside)
    if tournament.fish == 0:
        return None
    delayed, basis = _delayed(held, beside, reference)
    return HoldingStudy(
        tournament=tournament,
        reference=reference,
        delayed=delayed,
        basis=basis,
        hours=_different(pen.hours for pen in held),
        species=_different(pen.species for pen in held),
        reference_species=_different(pen.species for pen in beside),
    )


def _delayed(held: list[Pen], beside: list[Pen], reference: Pens) -> tuple[Estimate | None, str | None]:
    treated = [pen.dead for pen in held], [pen.held - pen.missing for pen in held]
    if reference.fish == 0:
        return uncorrected(*treated), NO_REFERENCE
    if reference.dead > MOST_REFERENCE_DEAD * reference.fish:
        return None, None
    control = [pen.dead for pen in beside], [pen.held - pen.missing for pen in beside]
    return abbott(*treated, *control), REFERENCE


def _sum(pens: list[Pen]) -> Pens:
    return Pens(
        dead=sum(pen.dead for pen in pens),
        fish=sum(pen.held - pen.missing for pen in pens),
        missing=sum(pen.missing for pen in pens),
        pens=sum(pen.held > pen.missing for pen in pens),
    )


def _different(words: Iterable[str]) -> tuple[str, ...]:
    """The words that are not blank, each once, in order."""
    return tuple(dict.fromkeys(word.strip() for word in words if word.strip()))

"""The catch by species, as far as the slips tell the fish apart."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from django.utils.translation import gettext, gettext_noop

KNOWN = {
    "black_crappie": gettext_noop("black crappie"),
    "white_crappie": gettext_noop("white crappie"),
    "other_species": gettext_noop("other species"),
}


@dataclass(frozen=True)
class Bag:
    """One slip's fish: ``told`` counts by species, the rest of ``fish`` was not told apart; ``pounds`` its net weight."""

    told: dict[str, int]
    fish: int
    dead: int
    kept: int
    pounds: Decimal


@dataclass(frozen=True)
class SpeciesCatch:
    """Fish and pounds of one species; ``mixed`` is the line of what the slips do not tell apart.

    ``fish`` were told apart when they were counted. ``pounds``, ``dead``, ``kept`` and ``released`` are of bags that held
    this species alone, or (``kept`` and ``released``) of bags of which every fish went back: of other bags nobody wrote
    down which fish was which, and they stand in the mixed line.
    """

    name: str
    fish: int = 0
    pounds: Decimal = Decimal(0)
    dead: int = 0
    kept: int = 0
    released: int = 0
    mixed: bool = False


def by_species(bags: Iterable[Bag], rule_sheet: str, unnamed_dead: int = 0) -> tuple[SpeciesCatch, ...]:
    """The catch by species. Every sum over the lines is the sum over the bags.

    ``rule_sheet`` is the species that the rule sheet names, for fish that nobody told apart. ``unnamed_dead`` died in
    mixed batches at the release, of no boat's own bag: they are taken off the released fish of the mixed line, which goes
    below zero where every other fish was told apart; of an event with one species they are that species.
    """
    found = {name: SpeciesCatch(gettext(name)) for name in KNOWN.values()}
    rest = SpeciesCatch(rule_sheet, mixed=True)
    for bag in bags:
        told = {name: count for name, count in bag.told.items() if count}
        left = bag.fish - sum(told.values())
        alone = next(iter(told)) if len(told) == 1 and not left else None
        all_back = not bag.dead and not bag.kept
        for name, count in told.items():
            one = found[name]
            whole = name == alone
            found[name] = replace(
                one,
                fish=one.fish + count,
                pounds=one.pounds + (bag.pounds if whole else 0),
                dead=one.dead + (bag.dead if whole else 0),
                kept=one.kept + (bag.kept if whole else 0),
                released=one.released + (count - bag.dead - bag.kept if whole else count if all_back else 0),
            )
        if alone is None:
            back = bag.fish - bag.dead - bag.kept
            rest = replace(
                rest,
                fish=rest.fish + left,
                pounds=rest.pounds + bag.pounds,
                dead=rest.dead + bag.dead,
                kept=rest.kept + bag.kept,
                released=rest.released + (left if all_back else back),
            )
    named = [one for one in found.values() if one.fish]
    if len(named) == 1 and not rest.fish:
        named = [_less(named[0], unnamed_dead)]
    else:
        rest = _less(rest, unnamed_dead)
    if named:
        rest = replace(rest, name=gettext("%(species)s, not told apart") % {"species": rule_sheet})
    empty = not (rest.fish or rest.pounds or rest.dead or rest.kept or rest.released)
    return tuple(named) if named and empty else (*named, rest)


def _less(one: SpeciesCatch, dead: int) -> SpeciesCatch:
    return replace(one, dead=one.dead + dead, released=one.released - dead)


def added(parts: Iterable[tuple[SpeciesCatch, ...]]) -> tuple[SpeciesCatch, ...]:
    """Several events' catches by species added up by name."""
    sums: dict[str, SpeciesCatch] = {}
    for one in (one for part in parts for one in part):
        was = sums.get(one.name, SpeciesCatch(one.name, mixed=one.mixed))
        sums[one.name] = replace(
            was,
            fish=was.fish + one.fish,
            pounds=was.pounds + one.pounds,
            dead=was.dead + one.dead,
            kept=was.kept + one.kept,
            released=was.released + one.released,
        )
    return tuple(sums.values())

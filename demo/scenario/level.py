"""Who stands where before the workbook is written: for the cut, and to make two teams level at the money."""

from collections.abc import Collection
from dataclasses import replace

from .catch import Catch


def total(catch: Catch, dead_penalty: int) -> int:
    """The day's total in scale steps of a plain catch: nothing short, late or over the limit."""
    return max(0, catch.net - catch.dead * dead_penalty)


def leaders(catches: dict[str, Catch], keep: int, dead_penalty: int) -> set[str]:
    """The teams whose total is at least the ``keep``-th largest."""
    totals = sorted((total(catch, dead_penalty) for catch in catches.values()), reverse=True)
    return {name for name, catch in catches.items() if total(catch, dead_penalty) >= totals[keep - 1]}


def tie_at(catches: dict[str, Catch], place: int, paid: Collection[str], dead_penalty: int) -> tuple[str, str]:
    """Make the team behind the paid team of that place level with it: total, big fish and live fish alike."""
    ranked = sorted((c for c in catches.values() if c.team in paid), key=lambda c: -total(c, dead_penalty))
    first, second = ranked[place - 1 : place + 1]
    weights = [weight for weight, _ in first.fish]
    weights[1], weights[-1] = weights[1] - 1, weights[-1] + 1
    second.fish = [(weight, dead) for weight, (_, dead) in zip(weights, first.fish, strict=True)]
    second.tare, second.black = first.tare + 1, first.black
    return first.team, second.team


def one_more(catch: Catch, weight: int) -> Catch:
    """The same catch with a live fish over the limit, smaller than the others."""
    return replace(catch, fish=[*catch.fish, (weight, False)])

"""The attack on sums: which boats must, or cannot, be among those that a published sum counts."""

from collections import Counter
from collections.abc import Sequence

Well = tuple[int, int]  # fish, dead


def decided(wells: Sequence[Well], sums: tuple[int, int, int]) -> dict[Well, bool]:
    """The kinds of livewell (fish, dead) whose place is certain: True, all in the sum; False, none.

    ``wells`` are all that may be in the sum, ``sums`` its number of livewells, fish and dead. Exact: every choice of
    livewells that adds up is asked, all at once, as bits of one large number.
    """
    kinds = Counter(wells)
    more_fish, more_dead = sum(fish for fish, _ in wells) + 1, sum(dead for _, dead in wells) + 1

    def bit(number: int, fish: int, dead: int) -> int:
        return (number * more_fish + fish) * more_dead + dead

    def reach(left: Counter[Well]) -> int:
        found = 1
        for (fish, dead), count in left.items():
            for _ in range(count):
                found |= found << bit(1, fish, dead)
        return found

    target = bit(*sums)
    assert reach(kinds) >> target & 1, "the published sum is none of these livewells'"
    certain: dict[Well, bool] = {}
    for kind in kinds:
        rest = reach(kinds - Counter([kind]))
        with_it = target - bit(1, *kind)
        may_be_in = with_it >= 0 and bool(rest >> with_it & 1)
        may_be_out = bool(rest >> target & 1)
        if may_be_in != may_be_out:
            certain[kind] = may_be_in
    return certain

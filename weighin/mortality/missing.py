"""What is not in a count of dead fish, and how far it could bend the rate."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from weighin.mortality.catches import Catch
from weighin.mortality.words import between, counted, number
from weighin.roster.models import Entry
from weighin.survival.intervals import Interval
from weighin.survival.missing import bounds


@dataclass(frozen=True)
class Missing:
    """What an event's count leaves out.

    ``waiting_days`` are boats and days with two slips, of which neither counts, with ``waiting_fish`` at most;
    ``unweighed`` of ``boats`` entered have no slip. ``release_unwritten`` of ``slips`` with living fish have no time of
    release, on the slip or in the release record, for ``release_fish`` fish. ``shared_dead`` were found dead in batches
    of several boats and on no slip; of ``uncounted`` slips nobody counted the dead at the release. ``lowest_highest`` is the rate if the waiting fish were all alive, or all dead.
    """

    waiting_days: int
    waiting_fish: int
    unweighed: int
    boats: int
    slips: int
    release_unwritten: int
    release_fish: int
    has_lake: bool
    has_study: bool
    lowest_highest: Interval | None
    shared_dead: int = 0
    uncounted: int = 0


def missing_of(
    counting: Sequence[Catch],
    waiting: Sequence[Catch],
    entries: Iterable[tuple[int, str]],
    has_lake: bool,
    has_study: bool,
) -> Missing:
    """From catches parted by ``catches.parted``, (boat, status) of every entry."""
    most: dict[tuple[int, int], int] = {}
    for catch in waiting:
        most[catch.boat, catch.day] = max(catch.fish, most.get((catch.boat, catch.day), 0))
    weighed = {catch.boat for catch in (*counting, *waiting)}
    entered = [boat for boat, status in entries if status == Entry.Status.ENTERED]
    to_release = [catch for catch in counting if catch.fish > catch.dead + catch.kept]
    unwritten = [catch for catch in to_release if catch.released is None]
    presented, dead = sum(catch.fish for catch in counting), round(sum(catch.lost for catch in counting))
    waiting_fish = sum(most.values())
    return Missing(
        waiting_days=len(most),
        waiting_fish=waiting_fish,
        unweighed=sum(boat not in weighed for boat in entered),
        boats=len(entered),
        slips=len(to_release),
        release_unwritten=len(unwritten),
        release_fish=sum(catch.fish - catch.dead - catch.kept for catch in unwritten),
        has_lake=has_lake,
        has_study=has_study,
        lowest_highest=bounds(dead, presented, waiting_fish) if presented and waiting_fish else None,
        uncounted=sum(catch.told_at_release is None for catch in to_release),
        shared_dead=int(sum((catch.shared for catch in counting), Fraction(0))),
    )


def missing_said(missing: Missing, is_over: bool) -> list[tuple[str, str]]:
    """What is missing as (what, how it could bend the answer)."""
    said: list[tuple[str, str]] = []
    if missing.waiting_days:
        slips = "boat has" if missing.waiting_days == 1 else "boats have"
        ends = ""
        if missing.lowest_highest:
            low, high = missing.lowest_highest.low, missing.lowest_highest.high
            ends = f" Were they all alive or all dead, the rate would lie {between(low, high)}."
        said.append(
            (
                f"{number(missing.waiting_days).capitalize()} {slips} two slips for a day.",
                f"Neither counts until the director settles it: {counted(missing.waiting_fish, 'fish', 'fish')} at most are "
                f"left out.{ends}",
            )
        )
    if missing.unweighed:
        state = "have no slip" if is_over else "are not weighed yet"
        if missing.unweighed == 1:
            state = "has no slip" if is_over else "is not weighed yet"
        said.append(
            (
                f"{missing.unweighed:,} of {counted(missing.boats, 'boat')} {state}.",
                "Fish they may have had aboard are in no count here, dead or alive.",
            )
        )
    if missing.release_unwritten:
        which = "No slip has" if missing.release_unwritten == missing.slips else ""
        which = which or f"{missing.release_unwritten:,} of {missing.slips:,} slips with living fish have no"
        which = f"{which} a time of release." if which.startswith("No") else f"{which} time of release."
        said.append(
            (
                which,
                f"Of {counted(missing.release_fish, 'fish', 'fish')} alive at the table nobody wrote when they went back, so "
                "one that died in between may have been missed.",
            )
        )
    if missing.uncounted:
        which = "No slip says" if missing.uncounted == missing.slips else ""
        which = which or f"{missing.uncounted:,} of {missing.slips:,} slips with living fish do not say"
        said.append(
            (
                f"{which} how many fish were dead at the release.",
                "Nobody counted, which is not none: the rate is of those that were seen dead.",
            )
        )
    if missing.shared_dead:
        were = "was" if missing.shared_dead == 1 else "were"
        said.append(
            (
                f"{counted(missing.shared_dead, 'fish', 'fish')} {were} found dead when a batch of several boats went back.",
                "Whose they were nobody knows: they count among the event’s dead, and for the range they are shared out "
                "by the live fish each boat handed on.",
            )
        )
    if not missing.has_study:
        said.append(("No holding study.", "Fish that died after their release are not known; they are not none."))
    if not missing.has_lake:
        said.append(("No lake temperature.", "The event cannot be compared with days alike."))
    return said

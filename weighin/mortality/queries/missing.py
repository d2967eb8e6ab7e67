"""What is not in a count of dead fish, and how far it could bend the rate."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from django.utils.translation import gettext, ngettext

from weighin.mortality.domain.words import between, counted, number
from weighin.mortality.queries.catches import Catch
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
        left_out = gettext("Neither counts until the director settles it: %(fish)s at most are left out.") % {
            "fish": counted(missing.waiting_fish, "fish")
        }
        if missing.lowest_highest:
            ends = gettext("Were they all alive or all dead, the rate would lie %(between)s.")
            left_out += " " + ends % {"between": between(missing.lowest_highest.low, missing.lowest_highest.high)}
        with_two = ngettext(
            "%(boats)s boat has two slips for a day.", "%(boats)s boats have two slips for a day.", missing.waiting_days
        )
        said.append((with_two % {"boats": number(missing.waiting_days).capitalize()}, left_out))
    if missing.unweighed:
        if is_over:
            unweighed = ngettext(
                "%(n)s of %(boats)s has no slip.", "%(n)s of %(boats)s have no slip.", missing.unweighed
            )
        else:
            unweighed = ngettext(
                "%(n)s of %(boats)s is not weighed yet.", "%(n)s of %(boats)s are not weighed yet.", missing.unweighed
            )
        said.append(
            (
                unweighed % {"n": f"{missing.unweighed:,}", "boats": counted(missing.boats, "boat")},
                gettext("Fish they may have had aboard are in no count here, dead or alive."),
            )
        )
    slips = {"slips": f"{missing.slips:,}"}
    if missing.release_unwritten:
        untimed = (
            gettext("No slip has a time of release.")
            if missing.release_unwritten == missing.slips
            else gettext("%(n)s of %(slips)s slips with living fish have no time of release.")
        )
        nobody = gettext(
            "For %(fish)s alive at the table no release is recorded, so one that died in between may be missed."
        )
        said.append(
            (
                untimed % {"n": f"{missing.release_unwritten:,}", **slips},
                nobody % {"fish": counted(missing.release_fish, "fish")},
            )
        )
    if missing.uncounted:
        untold = (
            gettext("No slip says how many fish were dead at the release.")
            if missing.uncounted == missing.slips
            else gettext("%(n)s of %(slips)s slips with living fish do not say how many fish were dead at the release.")
        )
        said.append(
            (
                untold % {"n": f"{missing.uncounted:,}", **slips},
                gettext("Nobody counted, which is not none: the rate is of those that were seen dead."),
            )
        )
    if missing.shared_dead:
        shared = ngettext(
            "%(fish)s was found dead when a batch of several boats went back.",
            "%(fish)s were found dead when a batch of several boats went back.",
            missing.shared_dead,
        )
        said.append(
            (
                shared % {"fish": counted(missing.shared_dead, "fish")},
                gettext(
                    "Whose they were nobody knows: they count among the event’s dead, and for the range they are shared out by "
                    "the live fish each boat handed on."
                ),
            )
        )
    if not missing.has_study:
        said.append(
            (
                gettext("No holding study."),
                gettext("Fish that died after their release are not known; they are not none."),
            )
        )
    if not missing.has_lake:
        said.append((gettext("No lake temperature."), gettext("The event cannot be compared with days alike.")))
    return said

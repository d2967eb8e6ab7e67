"""Releases in words: what they add up to, and how they stand to the slips, so that no fish is counted twice."""

from collections.abc import Sequence

from weighin.tanks.queries.releases import Releases, Site
from weighin.ui.templatetags.ui import SPACE, counted, in_words

FISH = "fish"
FEW_PLACES = 0.5  # where most of a season's fish went to one place, say so


def headline(found: Releases) -> str:
    """The finding."""
    if not found.releases:
        return "No release is written down yet."
    places = len(found.sites)
    where = "at one place" if places == 1 else f"at {in_words(places)} places"
    return f"{counted(found.alive, FISH)} let go alive {where}."


def against_slips(found: Releases) -> list[str]:
    """How the releases' counts stand to the slips', a sentence each; empty while there is nothing to compare."""
    slips = found.slips
    said = []
    if found.releases and slips.alive:
        said.append(
            f"By the slips {counted(slips.for_the_lake, FISH)} went back alive; "
            f"by the releases {found.alive:,}{_difference(found.alive - slips.for_the_lake)}."
        )
    if found.releases:
        said.append(_dead_said(found))
    if found.kept or slips.kept:
        said.append(
            f"By the slips {counted(slips.kept, FISH)} {_were(slips.kept)} kept alive from the lake; "
            f"what became of {found.kept_alive:,} is written here{_difference(found.kept_alive - slips.kept)}."
        )
    gone = slips.dead + slips.dead_at_release
    if gone or found.gone_dead:
        said.append(
            f"By the slips {counted(gone, FISH)} {_were(gone)} dead; where {found.gone_dead:,} of them went is written here"
            f"{_difference(found.gone_dead - gone)}."
        )
    if found.lent_out:
        said.append(
            f"{counted(found.lent_out, FISH).capitalize()} lent to a display or a photo {_have(found.lent_out)} not come back."
        )
    return said


def sites_said(found: Sequence[Site]) -> str:
    """How a season's fish were spread."""
    total = sum(site.fish for site in found)
    if not total:
        return "No release is written down this season."
    most = max(found, key=lambda site: site.fish)
    share = most.fish / total
    if len(found) == 1:
        return f"All {counted(total, FISH)} were brought to {most.place}."
    if share > FEW_PLACES:
        return f"{100 * share:.0f}{SPACE}% of {counted(total, FISH)} were brought to one place, {most.place}."
    return f"{counted(total, FISH)} were brought to {in_words(len(found))} places, at most {100 * share:.0f}{SPACE}% to one."


def _dead_said(found: Releases) -> str:
    here, there = found.dead, found.slips.dead_at_release
    said = f"{counted(here, FISH).capitalize()} {_were(here)} found dead when let go; the slips have {there:,} dead at release."
    if here > there:
        more = here - there
        return f"{said} {in_words(more).capitalize()} of them {'is' if more == 1 else 'are'} on no slip: {'it counts' if more == 1 else 'they count'} in the mortality too."
    if here == there and here:
        return f"{said} They are the same fish and count once."
    return said


def _difference(off: int) -> str:
    if off == 0:
        return ", the same"
    return f", {abs(off):,} {'more' if off > 0 else 'fewer'}"


def _were(count: int) -> str:
    return "was" if count == 1 else "were"


def _have(count: int) -> str:
    return "has" if count == 1 else "have"

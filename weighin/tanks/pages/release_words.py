"""Releases in words: what they add up to, and how they stand to the slips, so that no fish is counted twice."""

from collections.abc import Sequence

from django.utils.translation import gettext, ngettext

from weighin.tanks.queries.releases import Releases, Site
from weighin.ui.templatetags.ui import counted, in_words

FEW_PLACES = 0.5  # where most of a season's fish went to one place, say so


def headline(found: Releases) -> str:
    """The finding."""
    if not found.releases:
        return gettext("No release yet.")
    places = len(found.sites)
    return ngettext("%(fish)s let go alive at one place.", "%(fish)s let go alive at %(places)s places.", places) % {
        "fish": counted(found.alive, "fish"),
        "places": in_words(places),
    }


def against_slips(found: Releases) -> list[str]:
    """How the releases' counts stand to the slips', a sentence each; empty while there is nothing to compare."""
    slips = found.slips
    said = []
    if found.releases and slips.alive:
        back = gettext("By the slips %(fish)s went back alive; by the releases %(alive)s, %(difference)s.")
        said.append(
            back
            % {
                "fish": counted(slips.for_the_lake, "fish"),
                "alive": f"{found.alive:,}",
                "difference": _difference(found.alive - slips.for_the_lake),
            }
        )
    if found.releases:
        said.append(_dead_said(found))
    if found.kept or slips.kept:
        kept = ngettext(
            "By the slips %(fish)s was kept alive from the lake; what became of %(told)s is recorded here, %(difference)s.",
            "By the slips %(fish)s were kept alive from the lake; what became of %(told)s is recorded here, %(difference)s.",
            slips.kept,
        )
        said.append(
            kept
            % {
                "fish": counted(slips.kept, "fish"),
                "told": f"{found.kept_alive:,}",
                "difference": _difference(found.kept_alive - slips.kept),
            }
        )
    dead = slips.dead + slips.dead_at_release
    if dead or found.gone_dead:
        gone = ngettext(
            "By the slips %(fish)s was dead; where %(told)s of them went is recorded here, %(difference)s.",
            "By the slips %(fish)s were dead; where %(told)s of them went is recorded here, %(difference)s.",
            dead,
        )
        said.append(
            gone
            % {
                "fish": counted(dead, "fish"),
                "told": f"{found.gone_dead:,}",
                "difference": _difference(found.gone_dead - dead),
            }
        )
    if found.lent_out:
        lent = ngettext(
            "%(fish)s lent to a display or a photo has not come back.",
            "%(fish)s lent to a display or a photo have not come back.",
            found.lent_out,
        )
        said.append(lent % {"fish": counted(found.lent_out, "fish")})
    return said


def sites_said(found: Sequence[Site]) -> str:
    """How a season's fish were spread."""
    total = sum(site.fish for site in found)
    if not total:
        return gettext("No release is recorded this season.")
    most = max(found, key=lambda site: site.fish)
    share = most.fish / total
    if len(found) == 1:
        return gettext("All %(fish)s were brought to %(place)s.") % {
            "fish": counted(total, "fish"),
            "place": most.place,
        }
    if share > FEW_PLACES:
        return gettext("%(share)s %% of %(fish)s were brought to one place, %(place)s.") % {
            "share": f"{100 * share:.0f}",
            "fish": counted(total, "fish"),
            "place": most.place,
        }
    return gettext("%(fish)s were brought to %(places)s places, at most %(share)s %% to one.") % {
        "fish": counted(total, "fish"),
        "places": in_words(len(found)),
        "share": f"{100 * share:.0f}",
    }


def _dead_said(found: Releases) -> str:
    here, there = found.dead, found.slips.dead_at_release
    said = ngettext(
        "%(fish)s was found dead when let go; the slips have %(there)s dead at release.",
        "%(fish)s were found dead when let go; the slips have %(there)s dead at release.",
        here,
    ) % {"fish": counted(here, "fish"), "there": f"{there:,}"}
    if here > there:
        more = here - there
        on_no_slip = ngettext(
            "%(more)s of them is on no slip: it counts in the mortality too.",
            "%(more)s of them are on no slip: they count in the mortality too.",
            more,
        ) % {"more": in_words(more).capitalize()}
        return f"{said} {on_no_slip}"
    if here == there and here:
        return f"{said} " + gettext("They are the same fish and count once.")
    return said


def _difference(off: int) -> str:
    if off == 0:
        return gettext("the same")
    return (gettext("%(n)s more") if off > 0 else gettext("%(n)s fewer")) % {"n": f"{abs(off):,}"}

"""A holding study in words: what it shows, through how many hours it speaks, and what it does not tell."""

from datetime import datetime

from django.utils.translation import gettext, ngettext

from weighin.holding.queries import CAUTION, PenSoFar, Study, late
from weighin.ui.figures import SPACE
from weighin.ui.templatetags.ui import counted, percent


def headline(study: Study) -> str:
    """The finding."""
    found = study.result
    if found is None:
        return (
            gettext("No fish of this event are held yet.")
            if not study.under_way
            else gettext("Fish are held; no check yet.")
        )
    if found.delayed is None:
        return gettext("Too many reference fish died: no estimate is given.")
    rate = found.delayed.rate
    if rate <= 0:
        said = (
            gettext("No increase of deaths after release is shown so far.")
            if study.so_far
            else gettext("No increase of deaths after release is shown.")
        )
    elif study.corrected:
        said = (
            gettext(
                "About %(rate)s of the tournament fish died after release beyond what the reference fish did so far."
            )
            if study.so_far
            else gettext("About %(rate)s of the tournament fish died after release beyond what the reference fish did.")
        )
    else:
        said = (
            gettext("About %(rate)s died after release so far, deaths of holding among them.")
            if study.so_far
            else gettext("About %(rate)s died after release, deaths of holding among them.")
        )
    return said % {"rate": percent(rate, 0)}


def figure(study: Study) -> str:
    """The one big figure, without its sign; empty where no rate is given or none is shown."""
    found = study.result
    if found is None or found.delayed is None or not study.gives_estimate or found.delayed.rate <= 0:
        return ""
    return f"{100 * found.delayed.rate:.0f}"


def range_said(study: Study) -> str:
    """The range, and what it counts."""
    found = study.result
    if found is None or found.delayed is None or not study.gives_estimate:
        return ""
    low, high = found.delayed.low, found.delayed.high
    reach = (
        gettext("anywhere from no increase to %(high)s") if low <= 0 else gettext("anywhere from %(low)s to %(high)s")
    ) % {"low": percent(low), "high": percent(max(high, 0.0))}
    said = (
        gettext(
            "Read it as %(reach)s (95 %%): %(pens)s beside %(reference)s of reference fish, fish of one pen taken to live or "
            "die together."
        )
        if found.reference.pens
        else gettext("Read it as %(reach)s (95 %%): %(pens)s, fish of one pen taken to live or die together.")
    )
    return said % {
        "reach": reach,
        "pens": counted(found.tournament.pens, "pen"),
        "reference": counted(found.reference.pens, "pen"),
    }


def hours_said(study: Study) -> str:
    """Through how many hours the study speaks."""
    if study.hours is None:
        return ""
    shortest, longest = study.hours
    if shortest == 0:
        return gettext("One pen was watched for no time at all: the study speaks of no hours after release.")
    said = gettext("The study speaks through %(hours)s in the pens, and of nothing later.") % {
        "hours": _hours(shortest)
    }
    if longest > shortest:
        said += " " + gettext("Some pens were watched for %(hours)s; the shortest sets the limit.") % {
            "hours": _hours(longest)
        }
    return said


def counts_said(study: Study) -> str:
    """The counts it rests on."""
    found = study.result
    if found is None:
        return ""
    if found.reference.fish:
        died = gettext(
            "%(dead)s of %(fish)s of the tournament died, and %(reference_dead)s of %(reference)s that never saw it"
        )
    else:
        died = gettext("%(dead)s of %(fish)s of the tournament died")
    died %= {
        "dead": found.tournament.dead,
        "fish": counted(found.tournament.fish, "fish"),
        "reference_dead": found.reference.dead,
        "reference": counted(found.reference.fish, "fish"),
    }
    gone = found.tournament.missing + found.reference.missing
    if not gone:
        return f"{died}."
    return ngettext(
        "%(died)s; %(fish)s went missing or escaped and is left out.",
        "%(died)s; %(fish)s went missing or escaped and are left out.",
        gone,
    ) % {"died": died, "fish": counted(gone, "fish")}


def cautions(study: Study) -> list[tuple[str, str]]:
    """What stands against the result: (what, what it means), the gravest first."""
    found = study.result
    if found is None:
        return []
    said = []
    share = study.reference_share
    if share is None:
        said.append(
            (
                gettext("No reference fish."),
                gettext("Deaths of being held cannot be told from those of the tournament, and are in the figure."),
            )
        )
    elif found.unusable:
        said.append(
            (
                gettext("%(share)s of the reference fish died.") % {"share": percent(share)},
                gettext("%(unusable)s. Counts stay as recorded.") % {"unusable": found.unusable},
            )
        )
    elif share > CAUTION:
        said.append(
            (
                gettext("%(share)s of the reference fish died.") % {"share": percent(share)},
                gettext(
                    "Above %(caution)s check the pens first: crowding, mesh, oxygen, heat. The correction is large."
                )
                % {"caution": percent(CAUTION, 0)},
            )
        )
    if found.few_pens:
        said.append((gettext("Few pens."), found.few_pens))
    if found.reference_species and set(found.reference_species) != set(found.species):
        said.append((gettext("The reference fish are of another species."), gettext("Read the difference with care.")))
    if study.so_far:
        said.append(
            (
                gettext("Pens are still under way."),
                gettext("The figure changes with every check. Only ended pens count in the mortality."),
            )
        )
    return said


def late_said(pens: list[PenSoFar], now: datetime) -> str:
    """Which pens wait for somebody."""
    waiting = late(pens, now)
    if not waiting:
        return ""
    names = ", ".join(pen.row.pen for pen in waiting)
    return (
        gettext("Pen %(names)s: a check is due.") % {"names": names}
        if len(waiting) == 1
        else gettext("Pens %(names)s: a check is due.") % {"names": names}
    )


def _hours(hours: float) -> str:
    return f"{hours:g}{SPACE}" + gettext("hours")

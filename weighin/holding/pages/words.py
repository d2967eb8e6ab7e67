"""A holding study in words: what it shows, through how many hours it speaks, and what it does not tell."""

from datetime import datetime

from weighin.holding.queries import CAUTION, PenSoFar, Study, late
from weighin.ui.templatetags.ui import SPACE, counted, percent

FISH = "fish"


def headline(study: Study) -> str:
    """The finding."""
    found = study.result
    if found is None:
        return "No fish of this event are held yet." if not study.under_way else "Fish are held; nobody has looked yet."
    if found.delayed is None:
        return "Too many reference fish died: no estimate is given."
    rate = found.delayed.rate
    so_far = " so far" if study.so_far else ""
    if rate <= 0:
        return f"No increase of deaths after release is shown{so_far}."
    if study.corrected:
        return f"About {percent(rate, 0)} of the tournament fish died after release beyond what the reference fish did{so_far}."
    return f"About {percent(rate, 0)} died after release{so_far}, deaths of holding among them."


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
    if low <= 0:
        reach = f"anywhere from no increase to {percent(max(high, 0.0))}"
    else:
        reach = f"anywhere from {percent(low)} to {percent(high)}"
    pens = f"{counted(found.tournament.pens, 'pen')}"
    beside = f" beside {counted(found.reference.pens, 'pen')} of reference fish" if found.reference.pens else ""
    return f"Read it as {reach} (95{SPACE}%): {pens}{beside}, fish of one pen taken to live or die together."


def hours_said(study: Study) -> str:
    """Through how many hours the study speaks."""
    if study.hours is None:
        return ""
    shortest, longest = study.hours
    if shortest == 0:
        return "One pen was watched for no time at all: the study speaks of no hours after release."
    said = f"The study speaks through {_hours(shortest)} after the fish were put in, and of nothing later."
    if longest > shortest:
        said += f" Some pens were watched for {_hours(longest)}; the shortest sets the limit."
    return said


def counts_said(study: Study) -> str:
    """The counts it rests on."""
    found = study.result
    if found is None:
        return ""
    said = f"{found.tournament.dead} of {counted(found.tournament.fish, FISH)} of the tournament died"
    if found.reference.fish:
        said += f", and {found.reference.dead} of {counted(found.reference.fish, FISH)} that never saw it"
    gone = found.tournament.missing + found.reference.missing
    return said + (
        f"; {counted(gone, FISH)} went missing or escaped and {'is' if gone == 1 else 'are'} left out." if gone else "."
    )


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
                "No reference fish.",
                "Deaths of being held cannot be told from those of the tournament, and are in the figure.",
            )
        )
    elif found.unusable:
        said.append((f"{percent(share)} of the reference fish died.", f"{found.unusable}. Counts stay as written."))
    elif share > CAUTION:
        said.append(
            (
                f"{percent(share)} of the reference fish died.",
                f"Above {percent(CAUTION, 0)} look at the pens first: crowding, mesh, oxygen, heat. The correction is large.",
            )
        )
    if found.few_pens:
        said.append(("Few pens.", found.few_pens))
    if found.reference_species and set(found.reference_species) != set(found.species):
        said.append(("The reference fish are of another species.", "Read the difference with care."))
    if study.so_far:
        said.append(
            (
                "Pens are still under way.",
                "The figure will change with every look; only ended pens enter the mortality pages.",
            )
        )
    return said


def late_said(pens: list[PenSoFar], now: datetime) -> str:
    """Which pens wait for somebody."""
    waiting = late(pens, now)
    if not waiting:
        return ""
    names = ", ".join(pen.row.pen for pen in waiting)
    return f"Pen {names} waits for its look." if len(waiting) == 1 else f"Pens {names} wait for their look."


def _hours(hours: float) -> str:
    return f"{hours:g}{SPACE}hours"

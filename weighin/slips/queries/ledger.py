"""The ledger of slips: what of a slip is chained, and the check that nothing was altered."""

from collections.abc import Iterable
from typing import Any

from django.utils.translation import gettext

from weighin.audit.domain.chain import START, link
from weighin.audit.domain.lines import Line, Sealed, named
from weighin.events.models import Event
from weighin.records.domain.rows import chained
from weighin.slips.domain.fields import FIELDS
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import ledger_head

SLIPS = "slips"


def content(slip: WeighSlip) -> dict[str, Any]:
    """Everything of a slip that the chain protects, in plain values."""
    return chained(FIELDS, slip)


def link_at(event: Event, position: int) -> str | None:
    """The link of the slip at a position; None where there is none."""
    return WeighSlip.objects.filter(event=event, position=position).values_list("link", flat=True).first()


def slips_seal(event: Event) -> dict[str, str | None]:
    """How many slips are kept, and the last one's link, for the history: an act that rests on them binds it."""
    length, head = ledger_head(event)
    return {SLIPS: f"{length}:{head}"}


def unlike_history(slips: Iterable[WeighSlip], lines: Iterable[Line], bound: Sealed) -> list[str]:
    """What slips say otherwise than the lines of the history that were written with them, in words.

    Slips up to the last ones that an act bound as a whole (``slips_seal``) need no line of their own: a workbook brings
    in many at once.
    """
    told: dict[str, dict[str, Any]] = {}
    for line in lines:
        if line.position is not None and line.act.startswith("slip.") and "position" in line.details:
            told[line.details["id"]] = line.details
    found, kept = [], {}
    whole, head = 0, START
    if SLIPS in bound and (sealed := bound[SLIPS][0]):
        length, _, head = sealed.partition(":")
        whole = int(length)
    for slip in slips:
        kept[str(slip.pk)] = slip
        said, boat = told.get(str(slip.pk)), slip.entry.boat
        if said is None:
            if slip.position > whole:
                found.append(
                    gettext("slip %(number)s of boat %(boat)s: the history does not know it")
                    % {"number": slip.number, "boat": boat}
                )
            continue
        now = content(slip)
        found += [
            gettext("slip %(number)s of boat %(boat)s: %(name)s is %(now)s, and was written as %(was)s")
            % {"number": slip.number, "boat": boat, "name": name.replace("_", " "), "now": now.get(name), "was": was}
            for name, was in said.items()
            if now.get(name) != was
        ]
    found += [
        gettext("slip %(number)s of boat %(boat)s is missing; the history has it")
        % {"number": said["number"], "boat": said["boat"]}
        for pk, said in told.items()
        if pk not in kept
    ]
    links = {slip.position: slip.link for slip in kept.values()}
    if whole and links.get(whole) != head:
        found.append(
            gettext("the first %(n)s slips are not those that stood when %(line)s was written")
            % {"n": whole, "line": named(bound[SLIPS][1])}
        )
    return found


def check_figures(link: str) -> str:
    """Eight figures of a slip's link, to tell by eye that a printed slip and the ledger agree.

    They change with anything that the slip or one before it says. They are no proof: whoever wants one compares the
    whole link.

    >>> check_figures("0" * 62 + "ff")
    '0000 0255'
    """
    figures = f"{int(link, 16) % 100_000_000:08d}"
    return f"{figures[:4]} {figures[4:]}"


def breaks(slips: Iterable[WeighSlip]) -> list[str]:
    """What does not fit in an event's ledger, in words; empty when nothing was altered, removed or put between.

    ``slips`` are all of the event's in order of position, with their entries.
    """
    found = []
    before, position = START, 0
    for slip in slips:
        position += 1
        if slip.position != position:
            found.append(f"position {position} is missing: slip {slip.number} stands at {slip.position}")
            position = slip.position
        if link(before, content(slip)) != slip.link:
            found.append(
                f"slip {slip.number} (position {slip.position}) does not fit: it, or one before it, was altered"
            )
        before = slip.link
    return found

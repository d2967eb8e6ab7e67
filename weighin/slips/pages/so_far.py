"""What is known of a slip while it is still being written: the team, the fish for the scale, the score or what it waits for."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction

from django.utils.translation import gettext

from weighin.events.domain.clock import clock
from weighin.events.domain.table import Table
from weighin.roster.models import Entry
from weighin.rules import values
from weighin.rules.faults import Fault, Faults
from weighin.rules.words.scores import status_in_words
from weighin.slips.domain.doubts import Doubt, doubts
from weighin.slips.domain.explaining import Scored, scored
from weighin.slips.domain.hints import goes_on_scale
from weighin.slips.domain.in_words import LABELS
from weighin.slips.models import WeighSlip
from weighin.slips.parsing import read_slip


@dataclass(frozen=True)
class SoFar:
    """``faults`` are of fields that hold something; the blank ones that must not be are what the total waits for."""

    entry: Entry | None = None
    no_such_boat: bool = False
    team_note: str = ""
    others: tuple[WeighSlip, ...] = ()
    on_scale: str = ""
    scored: Scored | None = None
    waits_for: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def so_far(
    written: Mapping[str, str],
    table: Table,
    entries: Mapping[int, Entry],
    others: Collection[WeighSlip],
    usual: Fraction | None = None,
) -> SoFar:
    """``others`` are the current slips of the same boat and day, without the one being corrected.

    ``usual`` is the weight per fish that the event's slips show; what is far from it is doubted.
    """
    boat = _whole(written.get("boat"))
    entry = entries.get(boat) if boat is not None else None
    made, faults = _score(written, table)
    filled = [fault for fault in faults if written.get(fault.field, "").strip()]
    # The number of fish is worked out from the counts, so the total never waits for it
    blank = [fault.field for fault in faults if fault not in filled and fault.field != "fish"]
    return SoFar(
        entry=entry,
        no_such_boat=boat is not None and entry is None,
        team_note=_team_note(entry, written, table) if entry else "",
        others=tuple(others),
        on_scale=_on_scale(written, table),
        scored=made,
        waits_for=tuple(LABELS.get(name, name).lower() for name in blank),
        faults=tuple(fault.in_labels(LABELS) for fault in filled),
        doubts=tuple(doubts(table.rules, made.slip, usual)) if made else (),
    )


def _score(written: Mapping[str, str], table: Table) -> tuple[Scored | None, tuple[Fault, ...]]:
    try:
        return scored(read_slip(written, table), table), ()
    except Faults as found:
        return None, found.faults


def _on_scale(written: Mapping[str, str], table: Table) -> str:
    alive, dead, short = (_whole(written.get(name)) for name in ("alive", "dead", "short"))
    if alive is None or dead is None or (short or 0) > alive + dead:
        return ""
    return goes_on_scale(table.rules, alive, dead, short or 0)


def _team_note(entry: Entry, written: Mapping[str, str], table: Table) -> str:
    parts = []
    if entry.flight_name:
        parts.append(gettext("flight %(flight)s") % {"flight": entry.flight_name})
    day = _whole(written.get("day"))
    if day in table.calendar.days:
        parts.append(
            gettext("due %(time)s") % {"time": clock(table.calendar.due(day, entry.flight_name), table.calendar, day)}
        )
    if entry.status != Entry.Status.ENTERED:
        parts.append(status_in_words(entry.status))
    text = ", ".join(parts)
    return text[:1].upper() + text[1:]


def _whole(text: str | None) -> int | None:
    try:
        return values.whole(text or "", most=2_000_000_000)
    except ValueError:
        return None

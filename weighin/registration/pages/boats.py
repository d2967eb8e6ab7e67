"""The desk's list of boats, and one of them: what was seen in words, what is missing, what can be done."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from django.urls import reverse
from django.utils.timezone import localtime
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.registration.queries.boats import BoatAtDesk, asked_of
from weighin.roster.domain.kinds import named_in_forms
from weighin.roster.domain.seen_fields import ASKABLE
from weighin.roster.models import DeskAsks, Seen
from weighin.rules.words.scores import status_in_words
from weighin.ui import figures
from weighin.ui.nouns import recorder

SAFETY = "safety"
LABELS: Mapping[str, object] = dict(ASKABLE)


@dataclass(frozen=True)
class Cell:
    """One thing that the desk asks for, of one boat: who saw it and when, else the value that its button sends."""

    label: str
    said: str = ""
    press: str = ""
    row: Seen | None = None


@dataclass(frozen=True)
class Line:
    """A boat in the list."""

    boat: BoatAtDesk
    team: str
    cells: tuple[Cell, ...]
    missing: str

    @property
    def owes(self) -> Decimal:
        """What it owes; 0 where it does not fish."""
        return self.boat.owes if self.boat.fishes and self.boat.owes > 0 else Decimal(0)

    @property
    def status(self) -> str:
        """Words for a team that does not fish."""
        return "" if self.boat.fishes else status_in_words(self.boat.entry.status)

    @property
    def address(self) -> str:
        """Its page at the desk."""
        return reverse("registration:desk_boat", args=[self.boat.entry.event.slug, self.team])


def heads(event: Event) -> list[str]:
    """The columns of what the desk asks for: each paper, and the safety check as one."""
    asked = asked_of(event)
    papers = [str(LABELS[name]) for name in asked if name not in Seen.SAFETY and name != DeskAsks.CONTACT]
    return [*papers, *([gettext("Safety check")] if any(name in Seen.SAFETY for name in asked) else [])]


def line_of(event: Event, boat: BoatAtDesk, asked: tuple[str, ...]) -> Line:
    """A boat in words, for the list."""
    team = named_in_forms(boat.entry)
    papers = [name for name in asked if name not in Seen.SAFETY and name != DeskAsks.CONTACT]
    cells = [cell(boat, name) for name in papers]
    parts = [name for name in asked if name in Seen.SAFETY]
    if parts:
        cells.append(_safety(boat, parts))
    return Line(boat, team, tuple(cells), _missing(boat, parts))


def _missing(boat: BoatAtDesk, parts: list[str]) -> str:
    """What is missing in words; the safety check as one where nothing of it was seen."""
    none_seen = parts and all(name in boat.missing for name in parts)
    names = [name for name in boat.missing if not none_seen or name not in parts]
    labels = [str(LABELS[name]) for name in names]
    if none_seen:
        labels.insert(len([name for name in names if name != DeskAsks.CONTACT]), gettext("Safety check"))
    return ", ".join(labels)


def cell(boat: BoatAtDesk, name: str) -> Cell:
    """One thing that was seen, or not."""
    label, row = str(LABELS[name]), boat.seen.get(name)
    if row is not None:
        return Cell(label, who_and_when(row), row=row)
    return Cell(label, press=f"{named_in_forms(boat.entry)}|{name}" if boat.fishes else "")


def _safety(boat: BoatAtDesk, parts: list[str]) -> Cell:
    label, rows = gettext("Safety check"), [boat.seen[name] for name in parts if name in boat.seen]
    if len(rows) == len(parts):
        return Cell(label, who_and_when(rows[-1]), row=rows[-1])
    said = gettext("%(n)s of %(all)s seen") % {"n": len(rows), "all": len(parts)} if rows else ""
    return Cell(label, said, f"{named_in_forms(boat.entry)}|{SAFETY}" if boat.fishes else "")


def who_and_when(row: Seen) -> str:
    """Who saw it, and when by the event's clock."""
    at = figures.moment(localtime(row.received_at))
    return gettext("%(at)s, %(who)s") % {"at": at, "who": recorder(row.recorded_by)}

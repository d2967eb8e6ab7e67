"""The draws of an event put together for the page on which they are made, and for the launch sheet."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from weighin.events.models import Event
from weighin.registration.domain.drawing import BOATS, FLIGHTS, LAUNCH, LOTS, PURPOSES
from weighin.registration.forms.draws import DrawForm, VoidForm
from weighin.registration.models import Draw
from weighin.registration.pages.draw_words import head_of
from weighin.registration.queries.draws import are_shown, draws_of, everybody, flights_in_order, recipe_of
from weighin.registration.tables import DrawnTable, LaunchTable, ProofTable
from weighin.roster.models import Entry
from weighin.rules.words.scores import status_in_words

ABOUT: Mapping[str, str | Promise] = {
    BOATS: gettext_lazy("Teams without a boat number get the free ones. This closes the entries."),
    LAUNCH: gettext_lazy("Every entered team gets a place in the launch order. This closes the entries."),
    FLIGHTS: gettext_lazy("Entered teams are dealt in turn to the flights. This closes the entries."),
    LOTS: gettext_lazy("Every entered team gets a lot. It decides only the ties that the rules leave to it."),
}


@dataclass(frozen=True)
class Shown:
    """A draw as readers see it."""

    draw: Draw
    recipe: str
    table: DrawnTable
    proof: ProofTable

    @classmethod
    def of(cls, draw: Draw) -> "Shown":
        """The draw with its tables."""
        return cls(draw, recipe_of(draw), DrawnTable(draw.order, head_of(draw)), ProofTable(draw.order))


@dataclass(frozen=True)
class Section:
    """One purpose: the draw that stands, those that were voided, else who would be in it and the form to draw."""

    purpose: str
    title: str
    about: str | Promise
    standing: Shown | None
    voided: list[Shown]
    teams: list[Entry]
    draw_form: DrawForm
    void_form: VoidForm


def sections_of(event: Event, bound: DrawForm | VoidForm | None = None) -> list[Section]:
    """Every purpose; ``bound`` is the form that was sent, in the place of an empty one."""
    draws, entered = list(draws_of(event)), list(everybody(event).filter(status=Entry.Status.ENTERED))
    flights = flights_in_order(event)
    found = []
    for purpose in PURPOSES:
        mine = [draw for draw in draws if draw.purpose == purpose]
        standing = next((draw for draw in mine if not _is_void(draw)), None)
        draw_form: DrawForm = DrawForm(purpose)
        void_form: VoidForm = VoidForm(purpose)
        if bound is not None and bound.purpose == purpose:
            if isinstance(bound, DrawForm):
                draw_form = bound
            else:
                void_form = bound
        found.append(
            Section(
                purpose=purpose,
                title=str(Draw.Purpose(purpose).label),
                about=ABOUT[purpose],
                standing=Shown.of(standing) if standing else None,
                voided=[Shown.of(draw) for draw in mine if _is_void(draw)],
                teams=_in_it(purpose, entered, flights),
                draw_form=draw_form,
                void_form=void_form,
            )
        )
    return found


def _is_void(draw: Draw) -> bool:
    return getattr(draw, "replaced_by", None) is not None


def _in_it(purpose: str, entered: list[Entry], flights: list[str]) -> list[Entry]:
    if purpose == BOATS:
        return [entry for entry in entered if entry.waits]
    return [] if purpose == FLIGHTS and not flights else entered


@dataclass(frozen=True)
class LaunchSheet:
    """What is read at the ramp and can be checked at home: the launch order, and every draw that stands."""

    drawn: bool
    rows: list[dict[str, Any]]
    draws: list[Shown]
    voided: list[Draw]

    @property
    def table(self) -> LaunchTable:
        """The launch order in rows."""
        return LaunchTable(self.rows)


def launch_sheet(event: Event) -> LaunchSheet:
    """The launch order, by boat number where none is drawn, and the draws that stand."""
    draws = list(draws_of(event))
    standing = sorted((draw for draw in draws if not _is_void(draw)), key=lambda draw: PURPOSES.index(draw.purpose))
    launch = next((draw for draw in standing if draw.purpose == LAUNCH), None)
    entries = {entry.number: entry for entry in everybody(event)}
    places = {row["entry"]: row["result"] for row in launch.order} if launch else {}
    listed = [entry for entry in entries.values() if entry.number in places or entry.status == Entry.Status.ENTERED]
    listed.sort(key=lambda entry: (places.get(entry.number, len(places) + 1), entry.waits, entry.boat or entry.number))
    rows = [
        {
            "place": places.get(entry.number),
            "boat": entry.boat,
            "team": entry.name,
            "flight": entry.flight_name,
            "status": "" if entry.status == Entry.Status.ENTERED else status_in_words(entry.status),
        }
        for entry in listed
    ]
    return LaunchSheet(
        launch is not None, rows, [Shown.of(draw) for draw in standing], [draw for draw in draws if _is_void(draw)]
    )


def public_sheet(event: Event) -> LaunchSheet | None:
    """The launch sheet where the public may see it; None where the director does not show it."""
    return launch_sheet(event) if are_shown(event) else None

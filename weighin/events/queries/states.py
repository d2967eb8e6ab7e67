"""The state of an event in words. What decides it stands above the events and registers itself; until then all are planned."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy

from weighin.events.models import Event


class Stage(TextChoices):
    """How far an event is, from its planning to its official result."""

    PLANNED = "planned", gettext_lazy("planned")
    ENTRIES_OPEN = "entries_open", gettext_lazy("entries open")
    ENTRIES_CLOSED = "entries_closed", gettext_lazy("entries closed")
    TODAY = "today", gettext_lazy("today")
    WEIGHING = "weighing", gettext_lazy("being weighed")
    PAST = "past", gettext_lazy("past, no boat weighed")
    PROVISIONAL = "provisional", gettext_lazy("provisional")
    OFFICIAL = "official", gettext_lazy("official")
    CANCELLED = "cancelled", gettext_lazy("cancelled")
    POSTPONED = "postponed", gettext_lazy("postponed")


# What is still to come, on the day too
BEFORE = frozenset({Stage.PLANNED, Stage.ENTRIES_OPEN, Stage.ENTRIES_CLOSED, Stage.TODAY, Stage.POSTPONED})
LOOKS = {Stage.TODAY: "going", Stage.WEIGHING: "going", Stage.PROVISIONAL: "going"} | {
    stage: look
    for look, stages in {"done": (Stage.OFFICIAL,), "none": (Stage.CANCELLED, Stage.PAST)}.items()
    for stage in stages
}


@dataclass(frozen=True)
class State:
    """The stage of an event, and what more is to be said of it: after which day a result stands, the new date."""

    stage: Stage = Stage.PLANNED
    more: str = ""

    @property
    def words(self) -> str:
        """The state in words."""
        return f"{self.stage.label}{self.more}"

    @property
    def look(self) -> str:
        """How a page marks it beside the words."""
        return LOOKS.get(self.stage, "open")


StatesOf = Callable[[Sequence[Event]], Mapping[int, State]]

Told = Callable[[Event], str]

_known: list[StatesOf] = []
_told: list[Told] = []


def register(states: StatesOf, told: Told) -> None:
    """Ask these from now on: for the states of events, and for what the teams of one were told."""
    _known[:], _told[:] = [states], [told]


def states_of(events: Sequence[Event]) -> Mapping[int, State]:
    """The state of each event, by primary key; the same number of queries for one and for many."""
    return _known[0](events) if _known else {event.pk: State() for event in events}


def told_of(event: Event) -> str:
    """What the teams were told of an event that is cancelled or postponed, in a sentence; empty while it takes place."""
    return _told[0](event) if _told else ""

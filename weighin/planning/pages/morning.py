"""What the morning's set of paper holds for one day of an event."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import time

from weighin.events.models import Event, EventDay
from weighin.planning.pages.boat_cards import BoatCard, BoatTimes, boat_cards, boat_times
from weighin.planning.pages.care_plan import CarePlanPage
from weighin.roster.models import Entry
from weighin.slips.models import PaperPad


@dataclass(frozen=True)
class Morning:
    """A day's set: the boats by number, ``launching`` by launch; teams that wait for a number are only counted."""

    event: Event
    day: EventDay
    several_days: bool
    places: Mapping[int, int]
    boats: tuple[BoatTimes, ...]
    cards: tuple[BoatCard, ...]
    pads: tuple[PaperPad, ...]
    waiting: int
    care: CarePlanPage | None
    care_faults: tuple[tuple[str, str], ...]

    @property
    def launching(self) -> list[BoatTimes]:
        """By the flights' launch, then as drawn, else by number; in a night event the small hours come last."""
        start, places = self.day.start_time or self.event.start_time, self.places

        def order(boat: BoatTimes) -> tuple[bool, time, int, int]:
            drawn = places.get(boat.entry.number, len(places) + 1)
            return boat.launch < start, boat.launch, drawn, boat.entry.boat

        return sorted(self.boats, key=order)


def morning_of(
    event: Event,
    day: EventDay,
    address: str,
    places: Mapping[int, int],
    care: CarePlanPage | None,
    care_faults: tuple[tuple[str, str], ...],
) -> Morning:
    """The set of a day; ``address`` is the event's public page, ``places`` what the launch draw gave to each entry.

    ``care_faults`` are what the care plan wants first (label, words).
    """
    everyone = Entry.everyone.filter(event=event, status=Entry.Status.ENTERED)
    return Morning(
        event=event,
        day=day,
        several_days=event.event_days.count() > 1,
        places=places,
        boats=tuple(boat_times(event, day.number)),
        cards=tuple(boat_cards(event, day.number, address)),
        pads=tuple(event.paper_pads.all()),
        waiting=everyone.filter(boat=None).count(),
        care=care,
        care_faults=care_faults,
    )

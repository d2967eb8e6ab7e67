"""What events and the roster ask of slips: what is kept, what holds a day's date, which boat numbers stand."""

from collections.abc import Iterable

from weighin.checkin.domain import care_times
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.faults import WEIGHED_BEFORE_START
from weighin.events.domain.weighed import Slips
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.rules.faults import Fault
from weighin.slips.models import WeighSlip
from weighin.ui import figures


def _first(event: Event) -> int | None:
    return event.slips.order_by("position").values_list("number", flat=True).first()


def _count(event: Event, day: int | None = None, current: bool = False) -> int:
    slips = WeighSlip.objects.current() if current else WeighSlip.objects.all()
    return slips.filter(event=event, **({} if day is None else {"day": day})).count()


def _begun(events: Iterable[int]) -> frozenset[int]:
    return frozenset(Event.everyone.filter(pk__in=list(events), slips__isnull=False).values_list("pk", flat=True))


def _too_late(event: Event, calendar: Calendar) -> list[Fault]:
    """Where a care note says when the boat launched or had its first fish, the day's start is not asked."""
    own = care_times.of_event(event)
    kept = event.slips.filter(replaced_by=None, void=False).values_list(
        "number", "entry_id", "day", "weighed", "released"
    )
    for number, entry, day, weighed, released in kept:
        end = released or weighed
        if end and day in calendar.fished and (day, entry) not in own and end < calendar.start(day):
            at = figures.clock(end, calendar.zone)
            return [WEIGHED_BEFORE_START.at("start_time", slip=number, day=day, at=at)]
    return []


def is_on_slips(entry: Entry) -> bool:
    """Whether the entry's boat number stands on a slip of its event, as its own or as whose fish they were."""
    return entry.slips.exists() or entry.event.slips.filter(well_boat=entry.boat).exists()


FOR_EVENTS = Slips(_first, _count, _begun, _too_late)

"""When boats launched and had their first fish, as their care notes tell, for the roll and the slips."""

from datetime import UTC, datetime

from weighin.audit.database.statements import run
from weighin.care.models import CareNote
from weighin.checkin.domain.care_times import CareTimes
from weighin.events.models import Event

_OF_BOAT = "SELECT launched, first_fish FROM care_carenote WHERE entry_id = %s AND day = %s"


def _of_event(event: Event, **only: object) -> dict[tuple[int, int], dict[str, datetime]]:
    notes = CareNote.objects.filter(event=event, **only).values_list("day", "entry_id", "launched", "first_fish")
    return {(day, entry): found for day, entry, *moments in notes if (found := _told(moments))}


def _of_boat(entry: int, day: int) -> dict[str, datetime]:
    """Written out, since every slip waits for it."""
    return _told(run(_OF_BOAT, (entry, day)) or (None, None))


def _told(moments: "tuple[datetime | None, ...] | list[datetime | None]") -> dict[str, datetime]:
    named = zip(("launched", "first_fish"), moments, strict=True)
    return {name: _aware(moment) for name, moment in named if moment is not None}


def _aware(moment: datetime) -> datetime:
    """SQLite keeps moments in UTC and does not say so."""
    return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment


CARE_TIMES = CareTimes(_of_event, _of_boat)

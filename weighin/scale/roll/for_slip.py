"""What the roll knows of a boat's coming in, for the slip that is written of it."""

from collections.abc import Mapping

from weighin.events.calendar import Calendar
from weighin.events.models import Event
from weighin.scale.models import CheckIn
from weighin.scale.reading import boat_and_day
from weighin.scale.roll.arrival import arrival_of


def arrival_texts(event: Event, day: int, boat: int, calendar: Calendar) -> dict[str, str]:
    """``checked_in`` or ``minutes_late``, and ``excused_minutes``, as a slip's form has them; those that are known."""
    lines = CheckIn.objects.current().filter(event=event, day=day, entry__boat=boat).order_by("number")
    arrival = arrival_of(day, lines) if day in calendar.days else None
    if arrival is None:
        return {}
    found = {
        "checked_in": calendar.write(day, arrival.checked_in) if arrival.checked_in else "",
        "minutes_late": "" if arrival.minutes_late is None else str(arrival.minutes_late),
        "excused_minutes": arrival.excused_minutes,
    }
    return {name: text for name, text in found.items() if text}


def with_arrival(event: Event, written: Mapping[str, str], calendar: Calendar) -> dict[str, str]:
    """A new slip's texts, with the roll's time and excused minutes where those lines are blank.

    Whole minutes late that are written leave nothing to fill in: they stand for both.
    """
    wanted = boat_and_day(written)
    blank = {name for name in ("checked_in", "minutes_late", "excused_minutes") if not written.get(name, "").strip()}
    if wanted is None or "minutes_late" not in blank:
        return dict(written)
    boat, day = wanted
    known = arrival_texts(event, day, boat, calendar)
    if "checked_in" not in blank:
        known.pop("minutes_late", None)
    return {**written, **{name: text for name, text in known.items() if name in blank}}

"""The roll in words."""

from collections.abc import Iterable
from datetime import datetime, time, timedelta
from typing import Any

from weighin.checkin.models import CheckIn, DueNotice
from weighin.checkin.queries.roll import BoatOnRoll
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock

WHERE = {
    **dict(CheckIn.Whereabouts.choices),
    "in": "In",
    "heard": "Heard of",
    "weighed": "Weighed, not noted in",
    "": "No word",
}
MOST_NAMED = 12


def named(boats: Iterable[BoatOnRoll]) -> str:
    """``boat 7``, ``boats 7, 9 and 12``."""
    numbers = [str(boat.entry.boat) for boat in boats]
    if len(numbers) > MOST_NAMED:
        return f"boats {', '.join(numbers[:MOST_NAMED])} and {len(numbers) - MOST_NAMED} more"
    if len(numbers) == 1:
        return f"boat {numbers[0]}"
    return f"boats {', '.join(numbers[:-1])} and {numbers[-1]}"


def refusal(out: list[BoatOnRoll]) -> str:
    """Why an event cannot be closed or its result made official; empty when every boat is accounted for."""
    if not out:
        return ""
    missing = [boat for boat in out if boat.where == CheckIn.Whereabouts.UNACCOUNTED]
    others = [boat for boat in out if boat not in missing]
    parts = []
    for boats, state in ((missing, "unaccounted for"), (others, "still out by the roll")):
        for day in sorted({boat.day for boat in boats}):
            of_day = [boat for boat in boats if boat.day == day]
            parts.append(f"{named(of_day)} {'is' if len(of_day) == 1 else 'are'} {state} on day {day}")
    return f"{'; '.join(parts)}: check each one in on the roll, or mark a team absent that never launched"


def unheard_said(boats: list[BoatOnRoll]) -> str:
    """Why an event of today is not closed by one press: nobody says that these boats came back."""
    silent, weighed = [boat for boat in boats if not boat.slips], [boat for boat in boats if boat.slips]
    parts = [f"nobody kept the roll, and of {named(silent)} there is neither a word nor a slip"] if silent else []
    if weighed:
        parts.append(f"{weighed_said(weighed)}, and a slip does not prove that a boat is in")
    return (
        f"{'; '.join(parts)}: check them in on the roll, mark teams absent that never launched, or say here that every "
        "boat is accounted for"
    )


def weighed_said(boats: list[BoatOnRoll]) -> str:
    """That boats were weighed of which the roll has no word."""
    return f"{named(boats)} {'was' if len(boats) == 1 else 'were'} weighed but not noted in"


def in_doubt_said(boat: BoatOnRoll) -> str:
    """``Boat 7, day 1: its slip says 15:02:10, the check-in 15:04.``; of a boat whose slip differs."""
    assert boat.slip_differs is not None and boat.arrival is not None
    calendar = boat.table.calendar

    def said(of: Any) -> str:
        minutes = f"{of.minutes_late} min late" if of.minutes_late is not None else ""
        time = clock(of.checked_in, calendar, boat.day) if of.checked_in else minutes or "no time of its own"
        return f"{time}, {of.excused_minutes} min excused" if of.excused_minutes else time

    return f"Boat {boat.entry.boat}, day {boat.day}: its slip says {said(boat.slip_differs)}, the check-in {said(boat.arrival)}."


def left(due: datetime, now: datetime) -> str:
    """``in 42 minutes``, ``in 2 h 5 min``, ``8 minutes ago``; whole minutes, begun ones while it is still to come."""
    seconds = round((due - now).total_seconds())
    ahead, minutes = seconds > 0, (seconds + 59) // 60 if seconds > 0 else -seconds // 60
    if not ahead and minutes == 0:
        return "just now"
    size = (
        f"{minutes // 60} h {minutes % 60} min"
        if minutes >= 120
        else "1 minute"
        if minutes == 1
        else f"{minutes} minutes"
    )
    return f"in {size}" if ahead else f"{size} ago"


def flight_said(name: str, alone: bool) -> str:
    """``Flight A``; ``The field`` where nobody is in a flight, ``The group without a flight`` where others are."""
    return f"Flight {name}" if name else "The field" if alone else "The group without a flight"


def shortened_said(notice: DueNotice, calendar: Calendar, day: int) -> list[str]:
    """For a notice that moved the day's end earlier: how much of its hours is left, flight by flight; else nothing."""
    found = []
    for flight, (was, now) in sorted(notice.moved.items()):
        if not flight and len(notice.moved) > 1:
            continue
        start = calendar.start(day)
        before, after = (calendar.at(day, time.fromisoformat(clock)) - start for clock in (was, now))
        if timedelta() < after < before:
            share = round(after / before * 100)
            name = f"Flight {flight}: " if flight else ""
            found.append(f"{name}{_hours(after)} of {_hours(before)}, {share} %")
    return found


def _hours(span: timedelta) -> str:
    minutes = round(span.total_seconds() / 60)
    return f"{minutes // 60} h {minutes % 60} min" if minutes % 60 else f"{minutes // 60} h"

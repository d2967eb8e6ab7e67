"""The roll in words."""

from collections.abc import Iterable
from datetime import datetime, time, timedelta
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.checkin.domain.faults import (
    NO_ROLL_KEPT,
    NOT_HEARD_OF,
    OUT_THAT_DAY,
    STILL_OUT,
    UNACCOUNTED_THAT_DAY,
    WEIGHED_NOT_IN,
    WEIGHED_ONLY,
)
from weighin.checkin.models import CheckIn, DueNotice
from weighin.checkin.queries.roll import BoatOnRoll
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock
from weighin.rules.faults import Listed, Parts, Said, Together

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

WHERE: dict[str, "StrOrPromise"] = {
    **dict(CheckIn.Whereabouts.choices),
    "in": gettext_lazy("In"),
    "heard": gettext_lazy("Reported"),
    "weighed": gettext_lazy("Weighed, not checked in"),
    "": gettext_lazy("Not heard from"),
}
MOST_NAMED = 12


def named(boats: Iterable[BoatOnRoll]) -> str:
    """``boat 7``, ``boats 7, 9 and 12``."""
    numbers = tuple(boat.entry.boat for boat in boats)
    if len(numbers) > MOST_NAMED:
        more = {"boats": Listed(numbers[:MOST_NAMED]), "n": len(numbers) - MOST_NAMED}
        return gettext("boats %(boats)s and %(n)s more") % more
    return ngettext("boat %(boats)s", "boats %(boats)s", len(numbers)) % {"boats": Together(numbers)}


def refusal(out: list[BoatOnRoll]) -> Said | None:
    """Why an event cannot be closed or its result made official; None when every boat is accounted for."""
    if not out:
        return None
    missing = [boat for boat in out if boat.where == CheckIn.Whereabouts.UNACCOUNTED]
    others = [boat for boat in out if boat not in missing]
    parts = []
    for boats, sentence in ((missing, UNACCOUNTED_THAT_DAY), (others, OUT_THAT_DAY)):
        for day in sorted({boat.day for boat in boats}):
            of_day = [boat for boat in boats if boat.day == day]
            parts.append(sentence.says(n=len(of_day), boats=named(of_day), day=day))
    return STILL_OUT.says(boats=Parts(tuple(parts)))


def unheard_said(boats: list[BoatOnRoll]) -> Said:
    """Why an event of today is not closed by one press: nobody says that these boats came back."""
    silent, weighed = [boat for boat in boats if not boat.slips], [boat for boat in boats if boat.slips]
    parts = [NO_ROLL_KEPT.says(boats=named(silent))] if silent else []
    if weighed:
        parts.append(WEIGHED_ONLY.says(weighed=weighed_said(weighed)))
    return NOT_HEARD_OF.says(what=Parts(tuple(parts)))


def weighed_said(boats: list[BoatOnRoll]) -> Said:
    """That boats were weighed of which the roll has no word."""
    return WEIGHED_NOT_IN.says(n=len(boats), boats=named(boats))


def in_doubt_said(boat: BoatOnRoll) -> str:
    """``Boat 7, day 1: its slip says 15:02:10, the check-in 15:04.``; of a boat whose slip differs."""
    assert boat.slip_differs is not None and boat.arrival is not None
    calendar = boat.table.calendar

    def said(of: Any) -> str:
        if of.checked_in:
            time = clock(of.checked_in, calendar, boat.day)
        elif of.minutes_late is not None:
            time = gettext("%(minutes)s min late") % {"minutes": of.minutes_late}
        else:
            time = gettext("no time of its own")
        if not of.excused_minutes:
            return time
        return gettext("%(time)s, %(minutes)s min excused") % {"time": time, "minutes": of.excused_minutes}

    differ = gettext("Boat %(boat)s, day %(day)s: its slip says %(slip)s, the check-in %(check_in)s.")
    times = {"slip": said(boat.slip_differs), "check_in": said(boat.arrival)}
    return differ % {"boat": boat.entry.boat, "day": boat.day, **times}


def left(due: datetime, now: datetime) -> str:
    """``in 42 minutes``, ``in 2 h 5 min``, ``8 minutes ago``; whole minutes, begun ones while it is still to come."""
    seconds = round((due - now).total_seconds())
    ahead, minutes = seconds > 0, (seconds + 59) // 60 if seconds > 0 else -seconds // 60
    if not ahead and minutes == 0:
        return gettext("just now")
    if minutes >= 120:
        size = _hours(timedelta(minutes=minutes), always=True)
    else:
        size = ngettext("%(n)s minute", "%(n)s minutes", minutes) % {"n": minutes}
    return (gettext("in %(time)s") if ahead else gettext("%(time)s ago")) % {"time": size}


def flight_said(name: str, alone: bool) -> str:
    """``Flight A``; ``The field`` where nobody is in a flight, ``The group without a flight`` where others are."""
    if name:
        return gettext("Flight %(flight)s") % {"flight": name}
    return gettext("The field") if alone else gettext("The group without a flight")


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
            left_of_it = {"flight": flight, "left": _hours(after), "all": _hours(before), "share": share}
            said = gettext("%(left)s of %(all)s, %(share)s %%")
            if flight:
                said = gettext("Flight %(flight)s: %(left)s of %(all)s, %(share)s %%")
            found.append(said % left_of_it)
    return found


def _hours(span: timedelta, always: bool = False) -> str:
    """``2 h 5 min``, ``2 h``; ``always`` with the minutes."""
    hours, minutes = divmod(round(span.total_seconds() / 60), 60)
    if minutes or always:
        return gettext("%(hours)s h %(minutes)s min") % {"hours": hours, "minutes": minutes}
    return gettext("%(hours)s h") % {"hours": hours}

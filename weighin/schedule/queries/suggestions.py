"""What the next event is probably called, and when it probably is."""

import re
from datetime import date, timedelta

from weighin.events.models import Event

WEEK = timedelta(weeks=1)
FOUR_WEEKS = timedelta(weeks=4)  # the same weekday in the next month; common practice, no source
LONGEST_GAP = timedelta(weeks=9)
LONGEST_NAME = 120


def next_date(event: Event, today: date) -> date:
    """The same weekday, as long after the event as it was after the one before it; four weeks where that is no whole
    weeks or over nine of them. Weeks are added until it lies ahead."""
    before = Event.objects.filter(season=event.season_id, date__lt=event.date).order_by("-date")
    last = before.values_list("date", flat=True).first()
    gap = event.date - last if last else FOUR_WEEKS
    found = event.date + (gap if gap % WEEK == timedelta(0) and gap <= LONGEST_GAP else FOUR_WEEKS)
    while found <= today:
        found += WEEK
    return found


def next_name(event: Event) -> str:
    """The event's name with the next number that its season has free: ``Event 3`` follows ``Event 2``."""
    taken = {name.casefold() for name in Event.objects.filter(season=event.season_id).values_list("name", flat=True)}
    found = re.fullmatch(r"(?P<words>.*?)\s+(?P<number>[0-9]{1,3})", event.name)
    words, number = (found["words"], int(found["number"])) if found else (event.name, 1)
    while True:
        number += 1
        name = f"{words[: LONGEST_NAME - 5]} {number}"
        if name.casefold() not in taken:
            return name

"""A day of the line drawn and said: how long bags were out and how many boats were in line."""

from collections.abc import Sequence
from datetime import UTC, datetime, time, timedelta

from django.utils.translation import gettext, ngettext

from weighin.events.domain.calendar import Calendar
from weighin.events.domain.clock import clock
from weighin.line.domain.day import Way, in_line
from weighin.ui import charts
from weighin.ui.charts import Drawings
from weighin.ui.nouns import counted


def day_said(seen: Sequence[Way], weighed: int | None = None) -> str:
    """The finding: how many boats were ``weighed`` (else those seen), the longest bag and line; blank of none seen."""
    if not seen:
        return ""
    boats = len(seen) if weighed is None else weighed
    return ngettext(
        "%(n)s boat was weighed. The longest time in a bag was %(longest)s min, the longest line %(most)s.",
        "%(n)s boats were weighed. The longest time in a bag was %(longest)s min, the longest line %(most)s.",
        boats,
    ) % {
        "n": boats,
        "longest": f"{max(way.in_bag for way in seen):.0f}",
        "most": counted(max(long for _, long in in_line(seen)), "boat"),
    }


def day_rows(seen: Sequence[Way], calendar: Calendar, day: int) -> list[tuple[int, str, str, str, str]]:
    """Behind the drawing: boat, checked in, bag given, weighed, minutes in the bag."""
    begins = datetime.combine(calendar.days[day].date, time(0), calendar.zone).astimezone(UTC)

    def said(minute: float) -> str:
        return clock(begins + timedelta(minutes=int(minute)), calendar, day)

    return [
        (way.boat, said(way.checked_in), said(way.bag_issued), said(way.weighed), f"{way.in_bag:.0f}") for way in seen
    ]


def day_drawn(seen: Sequence[Way], limit: float, weighed: int | None = None) -> Drawings | None:
    """Minutes in the bag by the time of weighing over how many boats were in line; None of fewer than two boats."""
    if len(seen) < 2:
        return None
    in_bag = charts.DayLine(
        gettext("in the bag"),
        gettext("%(minutes)s min") % {"minutes": f"{seen[-1].in_bag:.0f}"},
        tuple((way.weighed, way.in_bag) for way in seen),
    )
    long = in_line(seen)
    line = charts.DayLine(
        gettext("in line"), counted(long[-1][1], "boat"), tuple((minute, float(boats)) for minute, boats in long)
    )
    return charts.drawn(
        charts.over_the_day,
        [
            charts.Panel(
                gettext("min"), (in_bag,), limit, gettext("our limit, %(limit)s min") % {"limit": f"{limit:.0f}"}
            ),
            charts.Panel(gettext("boats"), (line,)),
        ],
        title=gettext("Minutes in the bag and boats in line over the day"),
        description=day_said(seen, weighed),
    )

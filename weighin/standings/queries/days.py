"""An event's days counted: how many boats of each are weighed, which day is today, and after which day a result stands.

Everything that asks whether a day is in, or whether the event's last day is over, asks here.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from django.conf import settings
from django.utils import translation
from django.utils.translation import gettext, ngettext

from weighin.roster.models import Entry
from weighin.rules.words.scores import days_lost_said, status_in_words
from weighin.standings.queries.standings import Standings
from weighin.ui import figures

WEIGHED_BY = timedelta(hours=6)  # ours: a weigh-in that began at the due time is over by then


@dataclass(frozen=True)
class DayCount:
    """One day: its moments (``due`` is that of the last flight), the boats it awaits and those that have a slip."""

    number: int
    date: date
    start: datetime
    due: datetime
    cancelled: bool
    boats: frozenset[int]
    weighed: frozenset[int]

    @property
    def missing(self) -> list[int]:
        """Boats that the day awaits and that have no slip of it."""
        return sorted(self.boats - self.weighed)

    @property
    def begun(self) -> bool:
        """Whether a slip is kept."""
        return bool(self.weighed)

    @property
    def is_in(self) -> bool:
        """Whether every boat that the day awaits has its slip."""
        return self.begun and not self.missing


def days_of(standings: Standings) -> list[DayCount]:
    """The event's days, first to last. After a cut a day awaits the teams that made it and any other with a slip."""
    calendar, rules = standings.table.calendar, standings.rules
    cut = {row.result.team.boat for row in standings.outcome.ranked if row.made_cut is False}
    flights = set(standings.table.boats.values()) | {""}
    found = []
    for number in sorted(calendar.days):
        weighed = frozenset(boat for boat, day in standings.slips if day == number)
        gone = cut if rules.cut_after_day is not None and number > rules.cut_after_day else set()
        found.append(
            DayCount(
                number=number,
                date=calendar.days[number].date,
                start=calendar.start(number),
                due=max(calendar.due(number, flight) for flight in flights),
                cancelled=calendar.days[number].cancelled,
                boats=frozenset(standings.entered - gone) | weighed,
                weighed=weighed,
            )
        )
    return found


def fished(days: Sequence[DayCount]) -> list[DayCount]:
    """The days that were not cancelled."""
    return [day for day in days if not day.cancelled]


def last_day_is_in(days: Sequence[DayCount]) -> bool:
    """Whether every boat of the event's last day is weighed."""
    left = fished(days)
    return bool(left) and left[-1].is_in


def is_over(days: Sequence[DayCount], now: datetime) -> bool:
    """Whether nothing more is to come: the last day is in, or its weigh-in is long past."""
    left = fished(days)
    return bool(left) and (left[-1].is_in or now > left[-1].due + WEIGHED_BY)


def stage_of(days: Sequence[DayCount], now: datetime | None = None) -> str:
    """After which day places stand, such as ``after day 1 of 2``; empty for an event of one day and once the last is in.

    With ``now`` (an official result) the last day counts as in from its due time on, whoever stayed away.
    """
    left = fished(days)
    if len(left) < 2:
        return ""
    last = left[-1]
    begun = [day for day in left if day.begun]
    if not begun:
        return gettext("before day %(day)s of %(last)s") % {"day": left[0].number, "last": last.number}
    latest = begun[-1]
    if latest is last and (latest.is_in or (now is not None and now >= latest.due)):
        return ""
    if latest is last or not latest.is_in:
        return gettext("on day %(day)s of %(last)s, %(weighed)s of %(boats)s weighed") % {
            "day": latest.number,
            "last": last.number,
            "weighed": len(latest.weighed),
            "boats": _boats(len(latest.boats)),
        }
    return gettext("after day %(day)s of %(last)s") % {"day": latest.number, "last": last.number}


def stage_to_keep(days: Sequence[DayCount], now: datetime) -> str:
    """``stage_of`` an official result in the site's language, whoever asks: a version keeps it and is compared by it."""
    with translation.override(settings.LANGUAGE_CODE):
        return stage_of(days, now)


def days_said(days: Sequence[DayCount], zone: ZoneInfo, now: datetime | None = None) -> str:
    """Every day counted and the next one named; ``now`` adds which day is today. Empty for an event of one day.

    Without ``now`` the words hold until the next write, so a shared page may keep them.
    """
    if len(days) < 2:
        return ""
    said = []
    today = None if now is None else _today(days, zone, now)
    if today is not None:
        said.append(gettext("Today is day %(day)s of %(last)s.") % {"day": today.number, "last": days[-1].number})
    for day in days:
        if day.cancelled:
            said.append(gettext("Day %(number)s is cancelled.") % {"number": day.number})
        elif day.begun:
            counted = gettext("%(weighed)s of %(boats)s") % {"weighed": len(day.weighed), "boats": len(day.boats)}
            said.append(
                gettext("Day %(number)s is in: %(counted)s.") % {"number": day.number, "counted": counted}
                if day.is_in
                else gettext("Day %(number)s: %(counted)s weighed.") % {"number": day.number, "counted": counted}
            )
    ahead = [day for day in days if not day.cancelled and not day.begun]
    if ahead:
        said.append(_ahead(ahead[0], zone, now))
    return " ".join(said)


def statuses_said(standings: Standings) -> dict[int, str]:
    """The status in words of every boat without a place.

    A boat whose every day so far is lost is disqualified by the contract's word; it fishes on, so until the event's last
    day is in it is shown by the days it lost.
    """
    going_on = not last_day_is_in(days_of(standings)) and len(standings.table.calendar.fished) > 1
    found = {}
    for row in standings.outcome.ranked:
        boat, lost = row.result.team.boat, [day.day for day in row.result.days if day.score.lost]
        if row.place is None:
            ruled_out = standings.entries[boat].status != Entry.Status.ENTERED
            shown = going_on and row.result.status == "disqualified" and not ruled_out
            found[boat] = days_lost_said(lost) if shown else status_in_words(row.result.status)
    return found


def _today(days: Sequence[DayCount], zone: ZoneInfo, now: datetime) -> DayCount | None:
    """The day being fished: of a night event the one that began the evening before, until its boats are due."""
    local = now.astimezone(zone).date()
    running = next((day for day in days if day.start <= now <= day.due), None)
    return running or next((day for day in days if day.date == local), None)


def _ahead(day: DayCount, zone: ZoneInfo, now: datetime | None) -> str:
    if now is not None and now > day.due:
        return gettext("Day %(day)s has no slip.") % {"day": day.number}
    start = day.start.astimezone(zone)
    away = None if now is None else (start.date() - now.astimezone(zone).date()).days
    if away == 0:
        when = gettext("today")
    elif away == 1:
        when = gettext("tomorrow")
    else:
        when = gettext("on %(date)s") % {"date": figures.short_day(start)}
    said = (
        gettext("Day %(day)s started %(time)s %(when)s.")
        if now is not None and now >= day.start
        else gettext("Day %(day)s starts %(time)s %(when)s.")
    )
    return said % {"day": day.number, "time": figures.clock(start), "when": when}


def _boats(count: int) -> str:
    return ngettext("%(n)s boat", "%(n)s boats", count) % {"n": count}

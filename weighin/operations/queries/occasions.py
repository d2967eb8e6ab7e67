"""What there is to say to the teams of an event now, and what was said already, when and by whom."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils import timezone

from weighin.accounts.domain.roles import Can
from weighin.audit.models import HistoryEntry
from weighin.checkin.models import DueNotice
from weighin.checkin.queries.roll import BoatOnRoll, still_out
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.standings.models import OfficialResult, Posting
from weighin.standings.queries.protests import latest_posting

TOLD = "teams.told"
A_DAY = timedelta(hours=24)  # after its start a day's due times and boats are told of no more


@dataclass(frozen=True)
class Occasion:
    """Something to say: ``about`` it, and the row or the boats ``of`` which it is said; who may say it."""

    about: str
    of: OfficialResult | Posting | DueNotice | tuple[BoatOnRoll, ...]
    can: Can


@dataclass(frozen=True)
class Told:
    """That a word was said: by e-mail or otherwise, to these teams, each by its ``Reached.who``."""

    at: datetime
    by: str
    by_mail: bool
    teams: frozenset[str]


def occasions(event: Event) -> list[Occasion]:
    """What stands now, the most urgent first; what was overtaken by a later word is none. Of a rehearsal nobody is told.

    An event called off is told with the act, by ``schedule.services.calling_off``.
    """
    found: list[Occasion] = []
    if event.rehearsal_of_id is not None:
        return found
    calendar, now = calendar_of(event), timezone.now()
    if event.closed_at is None:
        going = {day for day in calendar.days if calendar.start(day) <= now < calendar.start(day) + A_DAY}
        out: dict[int, list[BoatOnRoll]] = defaultdict(list)
        for boat in still_out(event) if going else ():
            # A team that was weighed is looked for on shore first
            due = calendar.due(boat.day, boat.entry.flight_name)
            if boat.day in going and boat.where != "weighed" and due <= now:
                out[boat.day].append(boat)
        found += [Occasion(f"out {day}", tuple(boats), Can.SEE_CONTACTS) for day, boats in sorted(out.items())]
        moved = {row.day: row for row in DueNotice.objects.filter(event=event).order_by("number")}
        found += [
            Occasion(f"due {row.pk}", row, Can.MANAGE_EVENT)
            for day, row in sorted(moved.items())
            if day in calendar.days and now < calendar.start(day) + A_DAY
        ]
    result = OfficialResult.objects.filter(event=event).first() or latest_posting(event)
    if result is not None and event.is_public:
        kind = f"result {result.version}" if isinstance(result, OfficialResult) else f"posting {result.pk}"
        found.append(Occasion(kind, result, Can.PUBLISH))
    return found


def told(event: Event) -> dict[str, list[Told]]:
    """What was said of an event already, by what it was about, the first first."""
    found: dict[str, list[Told]] = defaultdict(list)
    for line in HistoryEntry.objects.filter(event_id=event.pk, act=TOLD).order_by("id").defer("bound"):
        said = line.details
        found[said["about"]].append(Told(line.at, line.actor, said["by_mail"], frozenset(said["teams"])))
    return found


def told_teams(event: Event, about: str) -> frozenset[str]:
    """The teams to whom a word was said already."""
    return frozenset[str]().union(*(one.teams for one in told(event).get(about, ())))

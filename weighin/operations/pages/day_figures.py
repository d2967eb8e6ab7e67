"""What is going on, in figures: a line each for check-in, line, slips, tanks, care notes and tablets, with its time."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext, ngettext

from weighin.accounts.domain.roles import Can
from weighin.checkin.queries.roll import roll_of
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.events.queries.states import BEFORE, Stage
from weighin.line.pages.words import plain
from weighin.line.queries import Line
from weighin.operations.queries.day import Day
from weighin.stations.queries.stations import station_rows
from weighin.tanks.queries.tanks import tanks_of
from weighin.ui import figures
from weighin.ui.nouns import counted


@dataclass(frozen=True)
class Figure:
    """One line: its name, what there is to say, the time of the last of it (empty: none), and its page."""

    name: str
    words: str
    at: str
    url: str


def day_figures(event: Event, day: Day, cans: Collection[Can]) -> list[Figure]:
    """The lines, nothing before the day; what is over is said of the past. A constant number of queries."""
    stage = day.state.stage
    if stage in BEFORE - {Stage.TODAY} or stage == Stage.CANCELLED:
        return []
    going = event.closed_at is None and stage in (Stage.TODAY, Stage.WEIGHING)
    line = day.line
    found = [*_check_in(event, line, going), *_line(event, line, going), *_slips(event, day, going)]
    found += [*_tanks(event, line.day, going), *_notes(event, day, going)]
    return found + list(_tablets(event)) if going and Can.MANAGE_EVENT in cans else found


def _check_in(event: Event, line: Line, going: bool) -> Iterator[Figure]:
    roll = roll_of(event, line.day)
    if not roll.boats or not (going or roll.kept):
        return
    boats, out = counted(len(roll.boats), "boat"), len(roll.out)
    last = max((boat.came for boat in roll.boats if boat.came), default=None)
    dues = {flight.due for flight in roll.flights if flight.out}
    if not out:
        words = gettext("All %(boats)s in") if going else gettext("All %(boats)s came in")
    elif going:
        words = ngettext("%(out)s of %(boats)s out, due %(due)s", "%(out)s of %(boats)s out, due %(due)s", out)
        if len(dues) > 1:
            words = gettext("%(out)s of %(boats)s out, first due %(due)s")
    else:
        words = ngettext("%(out)s of %(boats)s was never checked in", "%(out)s of %(boats)s were never checked in", out)
    due = _time(event, min(dues, default=line.now))
    yield _figure(event, gettext("Check-in"), words % {"out": out, "boats": boats, "due": due}, last, "checkin:roll")


def _line(event: Event, line: Line, going: bool) -> Iterator[Figure]:
    minutes = line.bag_minutes
    if going:
        said = []
        if line.hold is not None:
            said.append(gettext("On hold"))
        if line.waiting:
            said.append(ngettext("%(n)s boat waits", "%(n)s boats wait", len(line.waiting)) % {"n": len(line.waiting)})
        said += [
            gettext("boat %(boat)s in the bag %(minutes)s min")
            % {"boat": one.boat, "minutes": int(one.minutes_in_bag(line.now))}
            for one in line.with_bag[:2]
        ]
        words = ", ".join(said) or gettext("No boat waits")
    elif minutes.boats:
        words = ngettext(
            "%(over)s of %(boats)s was over %(limit)s min in the bag",
            "%(over)s of %(boats)s were over %(limit)s min in the bag",
            minutes.over,
        ) % {"over": minutes.over, "boats": counted(minutes.boats, "boat"), "limit": plain(minutes.limit)}
    else:
        return
    yield _figure(event, gettext("Line"), words, line.last_weighed if going else None, "line:line")


def _slips(event: Event, day: Day, going: bool) -> Iterator[Figure]:
    count = day.latest_count
    if count is None or not (going or count.weighed):
        return
    words = gettext("%(weighed)s of %(boats)s weighed") % {
        "weighed": len(count.weighed),
        "boats": counted(len(count.boats), "boat"),
    }
    twice = len(day.whole.standings.waiting)
    if twice:
        words += ngettext(
            "; %(n)s boat has two slips, and neither counts",
            "; %(n)s boats have two slips each, and neither counts",
            twice,
        ) % {"n": twice}
    yield _figure(event, gettext("Slips"), words, max((s.received_at for s in day.latest), default=None), "slips:slips")


def _tanks(event: Event, number: int, going: bool) -> Iterator[Figure]:
    readings = list(event.tank_readings.order_by("day", "time", "id"))
    tanks = tanks_of(care_context_of(event), number, readings, ()) if readings else []
    if not tanks:
        if going:
            yield _figure(event, gettext("Tanks"), gettext("Not read yet"), None, "tanks:tanks")
        return
    said = [counted(len(tanks), "tank")]
    low = min((tank.now.do for tank in tanks if tank.now.do is not None), default=None)
    if low is not None:
        said.append(gettext("lowest oxygen %(low)s mg/L") % {"low": f"{low:.1f}"})
    yield _figure(event, gettext("Tanks"), ", ".join(said), max(tank.now.at for tank in tanks), "tanks:tanks")


def _notes(event: Event, day: Day, going: bool) -> Iterator[Figure]:
    weighed, lacking = len(day.whole.standings.slips), len(day.lacking_care)
    if not weighed:
        return
    words = (
        ngettext("%(n)s of %(boats)s has no care note", "%(n)s of %(boats)s have no care note", lacking)
        if lacking
        else gettext("All %(boats)s have one")
    )
    noun = "weighed boat-day" if day.several else "weighed boat"
    yield _figure(
        event, gettext("Care notes"), words % {"n": lacking, "boats": counted(weighed, noun)}, None, "care:notes"
    )


def _tablets(event: Event) -> Iterator[Figure]:
    live = [row for row in station_rows(event) if row.live]
    words = ngettext("%(n)s paired", "%(n)s paired", len(live)) % {"n": len(live)} if live else gettext("None paired")
    heard = max((row.last for row in live if row.last), default=None)
    yield _figure(event, gettext("Tablets"), words, heard, "stations:stations")


def _figure(event: Event, name: str, words: str, at: datetime | None, page: str) -> Figure:
    return Figure(name, words, _time(event, at) if at else "", reverse(page, args=[event.slug]))


def _time(event: Event, moment: datetime) -> str:
    return figures.clock(moment, ZoneInfo(event.time_zone))

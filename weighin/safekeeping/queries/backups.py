"""What is known of the backups that the server makes by itself: when the last good one was made, where, and what is wrong."""

import json
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import connection
from django.utils.translation import gettext

from weighin import environment
from weighin.events.models import Event, EventDay

EVERY, OTHERWISE = timedelta(minutes=5), timedelta(days=1)
# A night event's day goes on after midnight
INTO_THE_NIGHT = timedelta(hours=8)
TOLD = "by-itself.json"
DRILLED = "drilled.json"


@dataclass(frozen=True)
class Copy:
    """A place that backups go to: its folder, the last good one there and its moment, and what was wrong the last time."""

    folder: Path
    name: str = ""
    at: datetime | None = None
    wrong: str = ""


def own_folder() -> Path:
    """Where backups go first: the data folder's."""
    return environment.folder(Path(settings.DATA) / "backups")


def folders() -> list[Path]:
    """Where backups go: the data folder's, and the second disk or stick of WEIGHIN_BACKUP_TO."""
    second = settings.BACKUP_TO
    return [own_folder(), *([second] if second is not None else [])]


def copies() -> list[Copy]:
    """What the server said last of each place; a place of which nothing was said yet has no moment."""
    told = _read(TOLD)
    return [_copy(folder, told.get(str(folder), {})) for folder in folders()]


def can_drill() -> bool:
    """Whether a restore is tried here: a database of PostgreSQL has tools of its own."""
    return connection.vendor == "sqlite"


def drilled() -> tuple[datetime, str, bool] | None:
    """When a restore was tried last, of which backup, and whether it held; None before the first.

    What was tried before a move to PostgreSQL says nothing of the site as it is.
    """
    if not can_drill():
        return None
    told = _read(DRILLED)
    try:
        return datetime.fromisoformat(told["at"]), str(told["name"]), bool(told["held"])
    except (KeyError, TypeError, ValueError):
        return None


def event_today(now: datetime, event: Event | None = None) -> bool:
    """Whether it is the day of the event, or of any, by its own clock."""
    about = [now.date() + timedelta(days=days) for days in (-2, -1, 0, 1)]
    days = EventDay.objects.filter(date__in=about, event__closed_at=None, event__rehearsal_of=None).exclude(
        status=EventDay.Status.CANCELLED
    )
    if event is not None:
        days = days.filter(event=event)
    return any(
        date in {(moment.astimezone(ZoneInfo(zone))).date() for moment in (now, now - INTO_THE_NIGHT)}
        for date, zone in days.values_list("date", "event__time_zone")
    )


def every(now: datetime) -> timedelta:
    """How long after the last backup the next is due."""
    return EVERY if event_today(now) else OTHERWISE


def warnings(now: datetime) -> list[str]:
    """What is wrong with the backups on the day of an event, each in a sentence that says what to do."""
    said = []
    for one in copies():
        if one.wrong:
            said.append(gettext("No backup at %(folder)s: %(wrong)s") % {"folder": one.folder, "wrong": one.wrong})
        elif one.at is None or now - one.at > 3 * EVERY:
            said.append(
                gettext("The last backup at %(folder)s is older than %(n)s minutes: is the server running?")
                % {"folder": one.folder, "n": 3 * EVERY // timedelta(minutes=1)}
            )
    return said


def _copy(folder: Path, told: Any) -> Copy:
    try:
        at = datetime.fromisoformat(told["at"]) if told.get("at") else None
        return Copy(folder, str(told.get("name", "")), at, str(told.get("wrong", "")))
    except (AttributeError, TypeError, ValueError):
        return Copy(folder)


def _read(name: str) -> dict[str, Any]:
    try:
        told = json.loads((own_folder() / name).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return told if isinstance(told, dict) else {}

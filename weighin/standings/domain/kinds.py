"""Kinds of written values of protests."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.utils import timezone

from weighin.events.domain.calendar import EARLIEST, LATEST
from weighin.events.domain.kinds import Moment
from weighin.records.domain.kinds import Beside
from weighin.standings.domain.faults import NO_MOMENT, NOT_COME_YET
from weighin.ui import figures
from weighin.ui.parsing import typed


@dataclass(frozen=True)
class NearNow(Moment):
    """A moment that has come: a time of day (the last one that was), or a date and a time, by the event's clock."""

    def read(self, text: str, beside: Beside) -> datetime:
        zone, now = beside.context.calendar.zone, timezone.now()
        written = typed.clock(text.strip())
        try:
            found = datetime.fromisoformat(
                written if "-" in written else f"{now.astimezone(zone):%Y-%m-%d}T{written:0>5}"
            )
        except ValueError:
            raise NO_MOMENT.wrong(written=text) from None
        if not EARLIEST <= found.date() <= LATEST:
            raise NO_MOMENT.wrong(written=text)
        found = found if found.tzinfo else found.replace(tzinfo=zone)
        if "-" not in written and found > now + timedelta(minutes=1):
            found -= timedelta(days=1)
        if found > now + timedelta(minutes=1):
            raise NOT_COME_YET.wrong(written=figures.dated_moment(found.astimezone(zone)))
        return found

    def text(self, value: Any) -> str:
        return "" if value is None else f"{timezone.localtime(value):%Y-%m-%d %H:%M}"

    def compared(self, value: Any, beside: Beside) -> Any:
        return None if value is None else value.replace(second=0, microsecond=0)

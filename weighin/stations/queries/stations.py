"""The event's stations as their page shows them: what each may do, when it last sent, and how its clock goes."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.db.models import Max
from django.utils import timezone
from django.utils.translation import ngettext

from weighin.checkin.models import CheckIn
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.stations.domain.cans import CANS
from weighin.stations.domain.ends import token_ends
from weighin.stations.models import Station


@dataclass(frozen=True)
class StationRow:
    """One station, its last message (None before the first) and how far its clock was off then (None: well)."""

    station: Station
    may: str
    last: datetime | None
    off: timedelta | None
    ends: datetime

    @property
    def ended(self) -> bool:
        """Whether its token has ended by itself."""
        return timezone.now() >= self.ends

    @property
    def live(self) -> bool:
        """Whether it may write."""
        return self.station.withdrawn_at is None and not self.ended

    @property
    def clock(self) -> str:
        """The clock in words; empty when it goes well or nothing is known of it."""
        if self.off is None:
            return ""
        minutes = round(abs(self.off).total_seconds() / 60)
        said = ngettext("its clock was %(n)s minute behind", "its clock was %(n)s minutes behind", minutes)
        if self.off > timedelta(0):
            said = ngettext("its clock was %(n)s minute ahead", "its clock was %(n)s minutes ahead", minutes)
        return said % {"n": minutes}


def station_rows(event: Event) -> list[StationRow]:
    """Every station, live ones first, the last message seen in slips and check-ins."""
    stations = sorted(
        Station.objects.filter(event=event),
        key=lambda one: (one.withdrawn_at is not None, one.name, -one.made_at.timestamp()),
    )
    latest = _latest(event)
    last_day = max((day.date for day in event.event_days.all()), default=None)
    return [_row(station, latest, token_ends(last_day, station.made_at, event.time_zone)) for station in stations]


def _row(station: Station, latest: dict[str, Any], ends: datetime) -> StationRow:
    may = ", ".join(str(words) for one, words in CANS.items() if one in station.cans)
    # A name stands for a place at the table: what came before this token was made is the one's before it
    last = latest.get(f"station {station.name}")
    if last is None or station.withdrawn_at is not None or last.received_at < station.made_at:
        return StationRow(station, may, None, None, ends)
    return StationRow(station, may, last.received_at, last.clock_off, ends)


def _latest(event: Event) -> dict[str, Any]:
    """The last slip or check-in of each sender."""
    found: dict[str, Any] = {}
    for model in (WeighSlip, CheckIn):
        rows = model._default_manager.filter(event=event, recorded_by__startswith="station ")
        newest = rows.values("recorded_by").annotate(at=Max("received_at")).order_by()
        at = {row["recorded_by"]: row["at"] for row in newest}
        for row in rows.filter(received_at__in=at.values()):
            if row.received_at == at[row.recorded_by]:
                kept = found.get(row.recorded_by)
                if kept is None or kept.received_at < row.received_at:
                    found[row.recorded_by] = row
    return found

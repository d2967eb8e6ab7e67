"""Stations and their tokens: made, asked for, withdrawn.

A token belongs to one event. Only its SHA-256 digest is kept: a token is 256 random bits, so no slow hash is needed.
"""

import secrets
from collections.abc import Iterable
from hashlib import sha256

from django.utils import timezone

from weighin.accounts.models import SecurityEntry
from weighin.accounts.services.security_log import log_security
from weighin.audit.services import log_history, writing
from weighin.events.models import Event
from weighin.events.services.revision import lock_open_event, raise_revision
from weighin.rules.faults import Fault, Faults, Listed, Wrong
from weighin.rules.values import line
from weighin.stations.domain.cans import CANS
from weighin.stations.domain.faults import (
    CAN_DO_NOTHING,
    NO_STATIONS,
    NO_SUCH_STATION,
    NOTHING_IT_CAN,
    STATION_WITHOUT_NAME,
)
from weighin.stations.models import Station
from weighin.stations.queries.paired import Paired, paired

TOKEN_BYTES = 32
TOKEN_LENGTH = 43


def make_station(event: Event, name: str, can: Iterable[str], by: str) -> tuple[Station, str]:
    """Make a station and its token, which is told here and never again.

    A station of the same name is withdrawn by it: the name stands for the place at the table. Raises Faults for
    ``name`` and ``can``, and when the event is closed.
    """
    asked = list(dict.fromkeys(can))
    faults = _name_faults(name)
    unknown = [one for one in asked if one not in CANS]
    if unknown or not asked:
        cans = Listed(tuple(CANS))
        faults.append(
            NOTHING_IT_CAN.at("can", can=unknown[0][:40], cans=cans) if unknown else CAN_DO_NOTHING.at("can", cans=cans)
        )
    if faults:
        raise Faults(faults)
    token = secrets.token_urlsafe(TOKEN_BYTES)
    with writing():
        held = lock_open_event(event)
        _withdraw(held, name.strip(), by)
        station = Station.objects.create(
            event=held,
            name=name.strip(),
            token_digest=_digest(token),
            can=",".join(one for one in CANS if one in asked),
            made_by=by,
        )
        _note(held, "station.paired", f"Tablet {station.name} can {_in_words(station)}", station.name, by)
    return station, token


def withdraw_station(event: Event, name: str, by: str) -> None:
    """Take a station's token back: it is dead at the next request. Raises Faults for ``name`` when there is none."""
    with writing():
        held = Event.everyone.select_for_update(of=("self",)).select_related("season").get(pk=event.pk)
        if not _withdraw(held, name.strip(), by):
            names = tuple(station.name for station in live_stations(held))
            stations = Listed(names) if names else NO_STATIONS.says()
            raise Faults([NO_SUCH_STATION.at("name", event=held.name, station=name.strip()[:80], stations=stations)])


def withdraw_all(event: Event, by: str) -> None:
    """Take every token of the event back, as when it is closed; call inside ``writing``."""
    for station in live_stations(event):
        _withdraw(event, station.name, by)


def stations_as_before(before: Iterable[Station]) -> None:
    """After a restore: tokens withdrawn since the backup stay dead, and those made since it work; call inside ``writing``.

    ``before`` are the stations that the site had. Those of an event that the backup does not have are gone with it.
    """
    events = dict(Event.everyone.values_list("pk", "slug"))
    closed = set(Event.everyone.filter(closed_at__isnull=False).values_list("pk", flat=True))
    for station in sorted(before, key=lambda one: one.withdrawn_at is None):
        if events.get(station.event_id) != station.event.slug:
            continue
        if station.withdrawn_at is None:
            others = Station.objects.filter(event=station.event_id, name=station.name, withdrawn_at__isnull=True)
            others.exclude(token_digest=station.token_digest).update(
                withdrawn_at=timezone.now(), withdrawn_by=station.made_by
            )
        state = {"withdrawn_at": station.withdrawn_at, "withdrawn_by": station.withdrawn_by}
        if Station.objects.filter(token_digest=station.token_digest).update(**state) or station.event_id in closed:
            continue
        kept = {
            name: getattr(station, name) for name in ("event_id", "name", "token_digest", "can", "made_at", "made_by")
        }
        Station.objects.create(**kept, **state)


def live_stations(event: Event) -> list[Station]:
    """The event's stations whose tokens were not withdrawn, by name."""
    return list(Station.objects.filter(event=event, withdrawn_at__isnull=True))


def station_of(token: str) -> Paired | None:
    """The station of a token, withdrawn ones too; None for a token that was never made here."""
    if len(token) != TOKEN_LENGTH or not token.isascii():
        return None
    return paired(_digest(token))


def _withdraw(event: Event, name: str, by: str) -> bool:
    found = Station.objects.filter(event=event, name=name, withdrawn_at__isnull=True)
    if not found.update(withdrawn_at=timezone.now(), withdrawn_by=by):
        return False
    _note(event, "station.withdrawn", f"Tablet {name} withdrawn: its token no longer works", name, by)
    return True


def _note(event: Event, act: str, sentence: str, name: str, by: str) -> None:
    raise_revision(event)
    kind = SecurityEntry.Kind.PAIRED if act == "station.paired" else SecurityEntry.Kind.WITHDRAWN
    log_security(kind, actor=by, club_id=event.season.club_id, about=f"{event.name}: {sentence}")
    log_history(by, act, sentence, club_id=event.season.club_id, event_id=event.pk, subject=f"station {name}")


def _in_words(station: Station) -> str:
    return ", ".join(str(words) for one, words in CANS.items() if one in station.cans)


def _name_faults(name: str) -> list[Fault]:
    try:
        return [] if line(name, 80) else [STATION_WITHOUT_NAME.at("name")]
    except Wrong as error:
        return [error.at("name")]


def _digest(token: str) -> str:
    return sha256(token.encode()).hexdigest()

"""The station of a token, in one statement: every delivery waits for it."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from weighin.audit.database.statements import run
from weighin.stations.domain.ends import token_ends

_STATION = """
SELECT s.token_digest, s.name, s.can, s.withdrawn_at IS NOT NULL, e.id, e.slug, e.name, e.closed_at IS NOT NULL,
    e.time_zone, s.made_at, (SELECT MAX(d.date) FROM events_eventday d WHERE d.event_id = e.id)
FROM stations_station s JOIN events_event e ON e.id = s.event_id WHERE s.token_digest """
_BY_DIGEST = f"{_STATION} = %s"
_BY_NAME = f"{_STATION} >= %s AND s.token_digest < %s"


@dataclass(frozen=True)
class Paired:
    """A station with what its token is good for."""

    name: str
    cans: frozenset[str]
    withdrawn: bool
    event_id: int
    event_slug: str
    event_name: str
    closed: bool
    ends: datetime


def paired(token_digest: str) -> Paired | None:
    """The station of a token's digest, withdrawn ones too."""
    found = run(_BY_DIGEST, (token_digest,))
    return None if found is None else _paired(found)


def paired_by_name(name: str) -> tuple[str, Paired] | None:
    """The digest that begins with these figures, and its station, withdrawn ones too."""
    found = run(_BY_NAME, (name, name + "g"))
    return None if found is None else (found[0], _paired(found))


def _paired(found: Any) -> Paired:
    _, name, can, withdrawn, event_id, slug, event_name, closed, zone, made, last = found
    # SQLite keeps moments and dates as texts, moments in UTC
    made_at = datetime.fromisoformat(made) if isinstance(made, str) else made
    last_day = date.fromisoformat(last) if isinstance(last, str) else last
    ends = token_ends(last_day, made_at, zone)
    return Paired(name, frozenset(can.split(",")), bool(withdrawn), event_id, slug, event_name, bool(closed), ends)

"""The station of a token, in one statement: every delivery waits for it."""

from dataclasses import dataclass

from weighin.audit.database.statements import run

_STATION = """
SELECT s.name, s.can, s.withdrawn_at IS NOT NULL, e.id, e.slug, e.name, e.closed_at IS NOT NULL
FROM stations_station s JOIN events_event e ON e.id = s.event_id WHERE s.token_digest = %s
"""


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


def paired(token_digest: str) -> Paired | None:
    """The station of a token's digest, withdrawn ones too."""
    found = run(_STATION, (token_digest,))
    if found is None:
        return None
    name, can, withdrawn, event_id, slug, event_name, closed = found
    return Paired(name, frozenset(can.split(",")), bool(withdrawn), event_id, slug, event_name, bool(closed))

"""The statements that every slip waits for, written out: having them worked out anew costs more than running them.

They run on SQLite and PostgreSQL alike; ``tests/slips`` holds them to what the queries say.
"""

from dataclasses import dataclass
from datetime import UTC, datetime
from uuid import UUID

from django.db import connection

from weighin.audit.database.statements import run
from weighin.audit.domain.chain import START
from weighin.slips.models import WeighSlip

_LOOK = """
SELECT EXISTS (SELECT 1 FROM slips_weighslip WHERE id = %s),
  EXISTS (SELECT 1 FROM slips_weighslip s WHERE s.event_id = %s AND s.entry_id = %s AND s.day = %s AND NOT s.void
    AND NOT EXISTS (SELECT 1 FROM slips_weighslip r WHERE r.replaces_id = s.id)),
  (SELECT MAX(number) FROM slips_weighslip WHERE event_id = %s),
  last.position, last.link
FROM (SELECT 1 AS one) one
  LEFT JOIN (SELECT position, link FROM slips_weighslip WHERE event_id = %s ORDER BY position DESC LIMIT 1) last ON TRUE
"""
_CARE = "SELECT launched, first_fish FROM care_carenote WHERE entry_id = %s AND day = %s"


@dataclass(frozen=True)
class LedgerEnd:
    """Where an event's ledger ends: the last position and link, and the largest number in use."""

    position: int
    link: str
    number: int


@dataclass(frozen=True)
class Look:
    """Whether an id is kept already, whether the boat has a current slip for the day, and where the ledger ends."""

    known: bool
    another: bool
    end: LedgerEnd


def look(slip_id: UUID, event_id: int, entry_id: int, day: int) -> Look:
    """What must be known before a slip is kept; call after ``lock_event``."""
    key = WeighSlip._meta.pk.get_db_prep_value(slip_id, connection)
    known, another, number, position, link = run(_LOOK, (key, event_id, entry_id, day, event_id, event_id))
    return Look(bool(known), bool(another), LedgerEnd(position or 0, link or START, number or 0))


def care_moments(entry_id: int, day: int) -> dict[str, datetime]:
    """When the boat launched and had its first fish that day, as far as its care note says."""
    found = run(_CARE, (entry_id, day)) or (None, None)
    moments = dict(zip(("launched", "first_fish"), found, strict=True))
    return {name: _aware(moment) for name, moment in moments.items() if moment is not None}


def _aware(moment: datetime) -> datetime:
    """SQLite keeps moments in UTC and does not say so."""
    return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment

"""Write transactions, and the history entry that goes with every write that matters."""

import threading
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connection, connections, transaction
from django.utils import timezone

from weighin.audit.database.in_use import refuse_another_file
from weighin.audit.database.statements import add, run
from weighin.audit.domain.aside import fresh_salt, mark_of
from weighin.audit.domain.chain import START
from weighin.audit.domain.lines import Chain, digest, next_link
from weighin.audit.models import HistoryEntry, KeptAside
from weighin.ui.outages import NotNow, Outage

_one_writer = threading.RLock()
# A tablet hangs up after 15 seconds, and shall hear before that to ask again
WAIT_SECONDS = 10.0
# Written out, since every row waits for it
_END = "SELECT position, link FROM audit_historyentry WHERE {} AND position > 0 ORDER BY position DESC LIMIT 1"
_ENDS = {chain: _END.format(" AND ".join(chain.condition)) for chain in Chain}


@contextmanager
def writing() -> Iterator[None]:
    """One write transaction. On SQLite an in-process lock goes round it.

    SQLite has one writer at a time; queueing in the process keeps the slowest answers many times
    shorter than letting the connections poll for the file's lock. Raises OperationalError when somebody else holds the
    database for longer than a tablet waits for an answer, and when its file is gone.
    """
    here = connections[DEFAULT_DB_ALIAS]
    if here.vendor == "sqlite":
        if not _one_writer.acquire(timeout=WAIT_SECONDS):
            raise NotNow(Outage.LOCKED, "others have waited to write for too long")
        try:
            refuse_another_file(here)
            with transaction.atomic():
                yield
        finally:
            _one_writer.release()
    else:
        with transaction.atomic():
            yield


def log_history(
    actor: str,
    act: str,
    sentence: str,
    *,
    club_id: int | None = None,
    event_id: int | None = None,
    subject: str = "",
    details: Mapping[str, Any] | None = None,
    personal: Mapping[str, Sequence[str]] | None = None,
    bound: Mapping[str, str | None] | None = None,
) -> HistoryEntry:
    """Add a history entry; call it inside the ``writing`` of the write it speaks of.

    ``act`` is a stable name such as ``slip.recorded``; ``sentence`` is for people; ``details`` is plain JSON.
    ``personal`` holds what tells of a person, such as anglers' names: it is kept aside, and the details hold its marks.
    ``bound`` are the seals of what the act left behind, where that is checked by them (``domain.lines.seal``).
    """
    said = dict(details or {})
    if personal:
        said["aside"] = {name: keep_aside(words, club_id, event_id) for name, words in personal.items() if words}
    entry = HistoryEntry(
        at=timezone.now(),
        actor=actor,
        act=act,
        club_id=club_id,
        event_id=event_id,
        subject=subject[:120],
        sentence=sentence[:500],
        details=said,
        bound=dict(bound) if bound else None,
    )
    chain, key = Chain.of(club_id, event_id)
    position, before = _end(chain, key)
    entry.position = position + 1
    entry.digest = digest(entry)
    entry.link = next_link(before, entry.position, entry.digest)
    add(entry)
    return entry


def _end(chain: Chain, key: Sequence[int]) -> tuple[int, str]:
    """The position and link at the end of a chain, which is held until the transaction ends."""
    if connection.vendor == "postgresql":
        run("SELECT pg_advisory_xact_lock(%s, %s)", (chain.value, key[0] % 2**31 if key else 0))
    return run(_ENDS[chain], key) or (0, START)


def keep_aside(words: Sequence[str], club_id: int | None, event_id: int | None) -> list[str]:
    """Keep words about a person beside the history; the marks that it says instead."""
    rows = []
    for each in words:
        salt = fresh_salt()
        row = KeptAside(mark=mark_of(salt, each), salt=salt, words=each[:500], club_id=club_id, event_id=event_id)
        rows.append(row)
    KeptAside.objects.bulk_create(rows)
    return [row.mark for row in rows]

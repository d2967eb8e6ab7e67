"""What a public page depends on; this place alone says it, and nothing else is asked before a kept page is shown.

Every write that concerns an event raises its revision: slips, check-ins, words of the line, teams, rules, texts, the club
and its waters, what is published and held back. So a page is that of a revision, of the moment from which places are held
back once it has come, and, since some pages tell the time or go by the date, of so many seconds of the clock. Another life
of the database has revisions of its own.
"""

from datetime import UTC, datetime
from functools import cache

from django.utils import timezone

from weighin.audit.database.life import life_column
from weighin.audit.database.statements import run
from weighin.ui.kept import State


def state_of_event(slug: str, seconds: int) -> State | None:
    """What the public pages of an event depend on for ``seconds`` of the clock at most; None where nobody may read them.

    Whether its places are held back is the guard: a page that shows more is never shown on.
    """
    found = run(_statements()[0], [slug])
    if found is None:
        return None
    pk, revision, life, since = found
    now = timezone.now()
    return State((pk, life, _begun(since, now)), (revision, now.timestamp() // seconds))


def state_of_site(seconds: int) -> State:
    """What the list of published events depends on: any write to any event. All of it is guard."""
    return State((*run(_statements()[1], []), timezone.now().timestamp() // seconds))


def _begun(since: datetime | None, now: datetime) -> datetime | None:
    if since is not None and since.tzinfo is None:  # as SQLite keeps it
        since = since.replace(tzinfo=UTC)
    return since if since is not None and since <= now else None


@cache
def _statements() -> tuple[str, str]:
    life = life_column()
    held = "(SELECT h.since FROM standings_holdback h WHERE h.event_id = e.id ORDER BY h.id DESC LIMIT 1)"
    return (
        f"SELECT e.id, e.revision, {life}, {held} FROM events_event e WHERE e.slug = %s AND e.is_public",  # noqa: S608
        f"SELECT COUNT(*), MAX(id), SUM(revision), {life} FROM events_event",  # noqa: S608 names of our own
    )

"""What a public page depends on; this place alone says it, and nothing else is asked before a kept page is shown.

Every write that concerns an event raises its revision: slips, check-ins, words of the line, teams, rules, texts, the club
and its waters, what is published and held back. So a page is that of a revision, of the moment from which places are held
back once it has come, and, since some pages tell the time or go by the date, of so many seconds of the clock. Another life
of the database has revisions of its own.
"""

from datetime import UTC, datetime
from functools import cache

from django.utils import timezone
from django.utils.translation import get_language

from weighin.audit.database.life import life_column
from weighin.audit.database.statements import run
from weighin.events.models import Event
from weighin.standings.queries.embargo import has_begun
from weighin.standings.queries.standings import Standings, standings_of
from weighin.ui.kept import KEEPER, State

ABOUT_STANDINGS = 2 * 1024 * 1024  # bytes; those of 300 boats


def state_of_event(slug: str, seconds: int) -> State | None:
    """What the public pages of an event depend on for ``seconds`` of the clock at most; None where nobody may read them.

    Whether its places are held back is the guard: a page that shows more is never shown on.
    """
    found = _found(slug)
    if found is None:
        return None
    pk, revision, life, since = found
    return State((pk, life, since), (revision, timezone.now().timestamp() // seconds))


def _found(slug: str) -> tuple[int, int, str, datetime | None] | None:
    """The key of a public event, its revision, the database's life, and since when places are held back now."""
    found = run(_statements()[0], [slug])
    if found is None:
        return None
    pk, revision, life, since, ends = found
    if since is not None:
        since = since if since.tzinfo else since.replace(tzinfo=UTC)  # as SQLite keeps it
        since = since if has_begun(pk, since, ends is not None) else None
    return pk, revision, life, since


def standings_shown(event: Event, held: datetime | None) -> Standings:
    """The standings that the public pages of an event show, worked out once for all of them: to be read, never changed."""
    found = _found(event.slug)
    # Read before a write that was done meanwhile, the event would make standings that are those of no revision
    if found is None or found[1] != event.revision:
        return standings_of(event, held)
    key = ("standings", event.pk, held, get_language())
    made: Standings = KEEPER.exact(key, State(found), lambda: standings_of(event, held), ABOUT_STANDINGS)
    return made


def state_of_site(seconds: int) -> State:
    """What the list of published events and open clubs depends on: any write to any event, and how many clubs are open.
    All of it is guard."""
    return State((*run(_statements()[1], []), timezone.now().timestamp() // seconds))


def state_of_club(slug: str, seconds: int) -> State | None:
    """What the public pages of a club depend on: its name, any write to any of its events, and so many seconds of the
    clock; None where it is not open. All of it is guard."""
    found = run(_statements()[2], [slug])
    return None if found is None else State((*found, timezone.now().timestamp() // seconds))


@cache
def _statements() -> tuple[str, str, str]:
    life = life_column()
    held = ", ".join(
        f"(SELECT h.{name} FROM standings_holdback h WHERE h.event_id = e.id ORDER BY h.id DESC LIMIT 1)"  # noqa: S608
        for name in ("since", "ends")
    )
    return (
        f"SELECT e.id, e.revision, {life}, {held} FROM events_event e WHERE e.slug = %s AND e.is_public",  # noqa: S608
        "SELECT COUNT(*), MAX(id), SUM(revision), (SELECT SUM(id) FROM clubs_club WHERE is_open), "  # noqa: S608 names of our own
        f"{life} FROM events_event",
        f"SELECT c.id, c.name, COUNT(e.id), MAX(e.id), SUM(e.revision), {life} FROM"  # noqa: S608 names of our own
        "  clubs_club c LEFT JOIN clubs_season s ON s.club_id = c.id "
        "LEFT JOIN events_event e ON e.season_id = s.id WHERE c.slug = %s AND c.is_open GROUP BY c.id, c.name",
    )

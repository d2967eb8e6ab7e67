"""Move anglers' names and notes of teams out of history entries that an earlier version wrote with them.

Only those entries are written again, and only by ``migrate``: from then on the history holds marks in their place.
"""

from typing import Any

from django.apps import AppConfig
from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper

from weighin.audit.database.triggers import install, remove
from weighin.audit.domain.aside import PERSONAL, changed_aside, fresh_salt, listed, mark_of
from weighin.audit.domain.changes import in_words
from weighin.audit.models import HistoryEntry, KeptAside

ACTS = ("entry.added", "entry.changed")


def put_names_aside(entries: Any, kept: Any, connection: BaseDatabaseWrapper) -> int:
    """Rewrite what ``entries`` (the history's model) say of persons to marks of rows of ``kept``; how many it were."""
    found = [entry for entry in entries.objects.filter(act__in=ACTS) if _in_the_clear(entry.details)]
    if not found:
        return 0
    table = entries._meta.db_table
    remove(connection, table)
    for entry in found:
        sentence, details, personal = _without_names(entry.sentence, entry.details)
        details["aside"] = {}
        for name, words in personal.items():
            rows = [(fresh_salt(), each) for each in words]
            details["aside"][name] = [mark_of(salt, each) for salt, each in rows]
            kept.objects.bulk_create(
                kept(mark=mark_of(salt, each), salt=salt, words=each, club_id=entry.club_id, event_id=entry.event_id)
                for salt, each in rows
            )
        with connection.cursor() as cursor:
            field = entries._meta.get_field("details")
            cursor.execute(
                f"UPDATE {connection.ops.quote_name(table)} SET sentence = %s, details = %s WHERE id = %s",  # noqa: S608 names of our own
                [sentence, field.get_db_prep_save(details, connection), entry.pk],
            )
    install(connection, table)
    return len(found)


def put_aside_after_migrate(sender: AppConfig, using: str, **kwargs: Any) -> None:
    """Signal handler of post_migrate: the same for entries that came over from a database of an earlier layout."""
    connection = connections[using]
    tables = set(connection.introspection.table_names())
    if sender.label == "audit" and {HistoryEntry._meta.db_table, KeptAside._meta.db_table} <= tables:
        put_names_aside(HistoryEntry, KeptAside, connection)


def _in_the_clear(details: Any) -> bool:
    if not isinstance(details, dict):
        return False
    changed = details.get("changed")
    return any(name in details or (isinstance(changed, dict) and name in changed) for name in PERSONAL)


def _without_names(sentence: str, details: dict[str, Any]) -> tuple[str, dict[str, Any], dict[str, list[str]]]:
    """A sentence and details without what tells of a person, and that."""
    left = {name: value for name, value in details.items() if name not in PERSONAL}
    personal = {name: listed(details[name]) for name in PERSONAL if name in details}
    changed = details.get("changed")
    if isinstance(changed, dict):
        # A database may give them back in another order than they were said in
        changed = dict(sorted(changed.items(), key=lambda item: sentence.find(in_words(dict([item]))[:40])))
        said = in_words(changed)
        start = sentence.find(said[:40])
        head = sentence[:start] if start > 0 else sentence.split(": ", 1)[0] + ": "
        sentence = head + in_words(changed, PERSONAL)
        personal |= changed_aside(changed)
        left["changed"] = {name: values for name, values in changed.items() if name not in PERSONAL}
    return sentence, left, {name: words for name, words in personal.items() if words}

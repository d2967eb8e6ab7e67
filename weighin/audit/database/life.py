"""Which life the database is in, so that whoever holds rows it has acknowledged knows when it may have lost them.

A restore begins another life: the restore of this site writes a new key. PostgreSQL's own tools write the old key back,
but make the table anew (``pg_restore --clean``), make the database anew, or go on along another timeline; a file of
SQLite copied into place by hand is another file. Each of them gives another id. A server that takes over from another,
or a folder moved, does so too: what is sent again then does no harm.
"""

import os
import uuid
from hashlib import sha256

from django.db import connection

from weighin.audit.models import DatabaseLife

_PLACE = (
    "SELECT d.oid, 'audit_databaselife'::regclass::oid, (SELECT timeline_id FROM pg_control_checkpoint()) "
    "FROM pg_database d WHERE d.datname = current_database()"
)


def database_life() -> str:
    """The id of the database's present life, as a text."""
    key = DatabaseLife.objects.values_list("key", flat=True).first()
    return sha256(repr((key, _place())).encode()).hexdigest()[:32]


def life_column() -> str:
    """The column by which a statement of its own hears that a restore has put the database back under this process."""
    row = "l.key" if connection.vendor == "sqlite" else "l.key::text || l.tableoid"
    return f"(SELECT {row} FROM audit_databaselife l)"  # noqa: S608 names of our own


def begin_another_life() -> None:
    """Say that rows which were acknowledged may be gone; call inside ``writing``."""
    DatabaseLife.objects.update_or_create(pk=1, defaults={"key": uuid.uuid4()})


def _place() -> object:
    if connection.vendor == "sqlite":
        try:
            return os.stat(connection.settings_dict["NAME"]).st_ino
        except OSError:  # in memory
            return None
    with connection.cursor() as cursor:
        cursor.execute(_PLACE)
        return cursor.fetchone()

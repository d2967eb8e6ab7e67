"""Try a restore without touching the site: a backup is good when somebody has restored it."""

import sqlite3
from contextlib import closing
from pathlib import Path

from django.utils.translation import gettext

from weighin.safekeeping.domain.backup_ages import made_at
from weighin.safekeeping.queries.backups import can_drill, folders
from weighin.safekeeping.services.backup_notes import write_drilled
from weighin.safekeeping.services.backups import COUNTED, ELSEWHERE, BackupRefused, tried_backup


def newest_backup() -> Path:
    """The newest of the backups that were made by themselves, in whichever place. Raises BackupRefused."""
    found = [file for folder in folders() if folder.is_dir() for file in folder.iterdir() if made_at(file.name)]
    if not found:
        raise BackupRefused(
            gettext("No backup was made by itself yet: the server makes them while it runs, or name one of your own.")
        )
    return max(found, key=lambda file: file.name)


def drill(file: Path | None = None) -> tuple[Path, dict[str, int]]:
    """Restore a backup, or the newest, into a scratch place, hold it as a restore does, and keep the date.

    The value is the file and how many rows of what came back. Raises BackupRefused when it does not hold; that is kept
    too; and for another database than SQLite, of which nothing is tried and nothing kept.
    """
    if not can_drill():
        raise BackupRefused(ELSEWHERE)
    tried_file = file or newest_backup()
    try:
        with tried_backup(tried_file) as tried, closing(sqlite3.connect(tried)) as restored:
            rows = {word: int(restored.execute(asked).fetchone()[0]) for word, asked in COUNTED.items()}
    except (BackupRefused, OSError, sqlite3.Error):
        write_drilled(tried_file.name, held=False)
        raise
    write_drilled(tried_file.name, held=True)
    return tried_file, rows

"""Keep beside the backups what is to be said of them, for the pages and commands of every process."""

import json

from django.utils import timezone

from weighin import environment
from weighin.safekeeping.queries.backups import DRILLED, TOLD, Copy, own_folder


def write_copies(found: list[Copy]) -> None:
    """Keep what is known of the places."""
    rows = {
        str(one.folder): {"name": one.name, "at": one.at.isoformat() if one.at else None, "wrong": one.wrong}
        for one in found
    }
    _write(TOLD, rows)


def write_drilled(name: str, held: bool) -> None:
    """Keep that the restore of a backup was tried now, and whether it held."""
    _write(DRILLED, {"at": timezone.now().isoformat(), "name": name, "held": held})


def _write(name: str, told: object) -> None:
    new = own_folder() / f".{name}"
    new.touch(environment.OWNER_ONLY)
    new.write_text(json.dumps(told), encoding="utf-8")
    new.replace(own_folder() / name)

"""When what the site keeps its rows on does not work: what it is, in words, and one line of log for it.

A full disk, a lock of another program, a server of the database that is gone: none of it is a fault of the program, so
it is answered by 503 and a sentence, and a tablet asks again. What else a database says (a broken rule, a missing
table) is a fault of ours and keeps its traceback.
"""

import errno
import logging
import sqlite3
import threading
import time
from enum import Enum
from typing import Final

from django.db.utils import DatabaseError, InterfaceError, InternalError, OperationalError
from django.utils.translation import gettext, gettext_noop

LOG = logging.getLogger(__name__)
RETRY_SECONDS: Final = 5
# A tablet asks again every few seconds, and a thousand phones do: the log tells it once in so many seconds
QUIET_SECONDS = 10.0
LONGEST = 300


class Outage(Enum):
    """What does not work, and what whoever runs the site does about it."""

    FULL = gettext_noop("The disk is full: make room on it.")
    LOCKED = gettext_noop("Another program holds the database: end it.")
    READ_ONLY = gettext_noop(
        "The database may only be read: look at the owner and rights of the data folder, and whether its disk takes anything."
    )
    GONE = gettext_noop("The database is not there: look at the data folder, or whether its server runs.")
    DAMAGED = gettext_noop("The database is damaged: end the server and restore the newest backup.")
    OTHER = gettext_noop("The database does not work: look at its disk, or at its server.")

    @property
    def sentence(self) -> str:
        return gettext(self.value)


class NotNow(OperationalError):
    """Raised where we see ourselves that the database must not be asked."""

    def __init__(self, outage: Outage, said: str):
        super().__init__(said)
        self.outage = outage


# Primary result codes of SQLite (https://www.sqlite.org/rescode.html)
OF_SQLITE = {
    sqlite3.SQLITE_FULL: Outage.FULL,
    sqlite3.SQLITE_BUSY: Outage.LOCKED,
    sqlite3.SQLITE_LOCKED: Outage.LOCKED,
    sqlite3.SQLITE_READONLY: Outage.READ_ONLY,
    sqlite3.SQLITE_PERM: Outage.READ_ONLY,
    sqlite3.SQLITE_CANTOPEN: Outage.GONE,
    sqlite3.SQLITE_CORRUPT: Outage.DAMAGED,
    sqlite3.SQLITE_NOTADB: Outage.DAMAGED,
}
# Error codes and classes of PostgreSQL (its documentation, appendix A)
OF_POSTGRESQL = {
    "53100": Outage.FULL,
    "55P03": Outage.LOCKED,
    "25006": Outage.READ_ONLY,
    "57P": Outage.GONE,
    "08": Outage.GONE,
    "XX001": Outage.DAMAGED,
}
OF_FILES = {
    errno.ENOSPC: Outage.FULL,
    errno.EDQUOT: Outage.FULL,
    errno.EFBIG: Outage.FULL,
    errno.EROFS: Outage.READ_ONLY,
}


def outage_of(fault: BaseException | None) -> Outage | None:
    """What does not work, by an exception; None when it speaks of something else."""
    if isinstance(fault, NotNow):
        return fault.outage
    if isinstance(fault, DatabaseError | InterfaceError):
        cause = fault.__cause__
        code = getattr(cause, "sqlite_errorcode", None)
        if code is not None:
            return OF_SQLITE.get(code & 0xFF) or (Outage.OTHER if _works_not(fault) else None)
        state = getattr(cause, "sqlstate", None) or ""
        for begins, outage in OF_POSTGRESQL.items():
            if state.startswith(begins):
                return outage
        if _works_not(fault):
            return Outage.OTHER if state else Outage.GONE
        return None
    return OF_FILES.get(fault.errno or 0) if isinstance(fault, OSError) else None


def _works_not(fault: BaseException) -> bool:
    """Whether it is of a kind that no statement of ours brings about."""
    missing = getattr(fault.__cause__, "sqlite_errorcode", None) == sqlite3.SQLITE_ERROR
    return isinstance(fault, OperationalError | InterfaceError | InternalError) and not missing


_told: dict[Outage, tuple[float, int]] = {}
_one = threading.Lock()


def log_outage(outage: Outage, asked: str, fault: BaseException) -> None:
    """One line of log; the same again within some seconds is counted and told with the next."""
    now = time.monotonic()
    with _one:
        last, more = _told.get(outage, (-QUIET_SECONDS, 0))
        if now - last < QUIET_SECONDS:
            _told[outage] = (last, more + 1)
            return
        _told[outage] = (now, 0)
    said = " ".join(str(fault).split())[:LONGEST]
    also = f" ({more} more like it before)" if more else ""
    LOG.error("%s could not be answered%s: %s (%s)", asked, also, outage.sentence, said)


def forget_told() -> None:
    """Tell the next one whatever was told before."""
    with _one:
        _told.clear()

"""One at a time, in whichever process: for what is more than one transaction, or finds nothing yet that it could lock."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256

from django.db import connection

_one = threading.RLock()


@contextmanager
def turn(name: str) -> Iterator[None]:
    """Wait until nobody else is at what this names. Several processes serve on PostgreSQL alone, whose lock is used then.

    Begun outside of a transaction, so that what the one before has written is seen. It ends with the connection too.
    """
    if connection.vendor != "postgresql":
        with _one:
            yield
        return
    key = int.from_bytes(sha256(name.encode()).digest()[:8], signed=True)
    with connection.cursor() as cursor:
        cursor.execute("SELECT pg_advisory_lock(%s)", [key])
        try:
            yield
        finally:
            cursor.execute("SELECT pg_advisory_unlock(%s)", [key])

"""Check a file that somebody brings, for anyone: one at a time and about one a second, so that the scales never wait."""

import threading
from time import monotonic
from typing import Any

from django.core.cache import cache
from django.utils.translation import gettext

from weighin.events.access import find_public
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.operations.queries.verifying import NoResult, Verdict, compared, read_result
from weighin.operations.queries.verifying_proof import ProofVerdict, read_proof_file, verify_proof
from weighin.standings.queries.embargo import embargo_start

MOST_BYTES = 4 * 1024 * 1024
PAUSE_SECONDS = 1.0
WALKED_SECONDS = 15 * 60
_one = threading.Lock()
_free_at = [0.0]


class Busy(Exception):
    """Another file is being checked: ask again in a few seconds."""


def check_for_anyone(text: bytes, name: str) -> tuple[Event, Verdict | ProofVerdict, bool]:
    """The published event of the file, what the file (a proof, or another JSON of it) is beside it, and whether what is
    kept here is as it was written.

    Only what everyone may read is told: while places are held back, as they stood then. Nothing of the file is kept.
    Raises NoResult, and Busy.
    """
    if monotonic() < _free_at[0] or not _one.acquire(blocking=False):
        raise Busy
    try:
        proof = read_proof_file(text, name)
        told = proof or read_result(text, name)
        event = find_public(told["event"]["slug"])
        if event is None:
            raise NoResult(
                gettext(
                    "There is no such result here: ask the site that published it, or its club whether it still is public."
                )
            )
        compare = compared if proof is None else verify_proof
        return event, compare(told, name, event, embargo_start(event)), _holds(event)
    finally:
        _free_at[0] = monotonic() + PAUSE_SECONDS
        _one.release()


def forget() -> None:
    """Let the next file be checked at once; for tests."""
    _free_at[0] = 0.0


def _holds(event: Event) -> bool:
    """Whether slips and history fit; walked once a revision, and again after a while."""
    key = f"holds:{event.pk}:{event.revision}"
    kept: Any = cache.get(key)
    if kept is None:
        kept = not ledger_of(event).faults
        cache.set(key, kept, WALKED_SECONDS)
    return bool(kept)

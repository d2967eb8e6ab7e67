"""Once a day, at a sign-in and when the server starts: what is over is taken out."""

from django.core.cache import cache

from weighin.accounts.services import security_log, sessions
from weighin.audit.services import writing

A_DAY = 24 * 60 * 60


def sweep() -> None:
    """Take out sessions that have ended and old entries of the security log, at most once a day."""
    if cache.add("accounts-swept", True, A_DAY):
        with writing():
            sessions.forget_ended()
            security_log.prune()

"""A mild brake on guessing passwords: short waits, never a lock-out.

A locked account in the weigh-in hour is worse than the attack, and everyone at the lake shares one address.
So wrong tries of one user name from one address wait up to four seconds, and an address with many wrong tries
of any user names a second; a right password after the wait signs in as always. The counts are those of all
server processes, and forgotten after a quarter of an hour without a wrong try.
"""

from time import time

from django.core.cache import cache

REMEMBERED_SECONDS = 15 * 60
FREE_TRIES, LONGEST_WAIT = 3, 4.0
FREE_TRIES_ADDRESS, WAIT_ADDRESS = 20, 1.0


def seconds_to_wait(username: str, address: str) -> float:
    """How long the next try must still wait; 0 when it may go ahead."""
    pair, whole = (cache.get(key, (0, 0.0)) for key in _keys(username, address))
    waits = [
        pair[1] + min(2.0 ** (pair[0] - FREE_TRIES), LONGEST_WAIT) if pair[0] >= FREE_TRIES else 0.0,
        whole[1] + WAIT_ADDRESS if whole[0] >= FREE_TRIES_ADDRESS else 0.0,
    ]
    return max(0.0, max(waits) - time())


def wrong_try(username: str, address: str) -> None:
    """Count a wrong try."""
    for key in _keys(username, address):
        cache.set(key, (cache.get(key, (0, 0.0))[0] + 1, time()), REMEMBERED_SECONDS)


def right_try(username: str, address: str) -> None:
    """Forget the wrong tries of a person who signed in."""
    cache.delete(_keys(username, address)[0])


def _keys(username: str, address: str) -> tuple[str, str]:
    folded = username.strip().casefold()[:150].encode().hex()
    return f"sign-in:{address}:{folded}"[:240], f"sign-in:{address}"

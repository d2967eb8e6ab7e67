"""A brake on guessing tokens: about twenty wrong ones a minute from one address, then wait.

Only wrong tokens are counted and only they are held back: the tablets at the lake share one address. The counts
are those of all server processes.
"""

from math import ceil
from time import time

from django.core.cache import cache

FREE_TRIES = 20
WINDOW_SECONDS = 60


def seconds_to_wait(address: str) -> int:
    """Count a wrong token of an address; how many seconds it must wait before the next, 0 for none."""
    now = time()
    key = f"wrong-token:{address}"[:200]
    tries: list[float] = [at for at in cache.get(key, ()) if now - WINDOW_SECONDS < at <= now]
    if len(tries) >= FREE_TRIES:
        return max(1, ceil(tries[0] + WINDOW_SECONDS - now))
    cache.set(key, [*tries, now], WINDOW_SECONDS)
    return 0

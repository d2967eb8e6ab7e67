"""From which address the request at work comes; commands have none."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

_address: ContextVar[str] = ContextVar("address", default="")


@contextmanager
def asking_from(address: str) -> Iterator[None]:
    """While a request is answered: what is written in the security log comes from ``address``."""
    before = _address.set(address[:45])
    try:
        yield
    finally:
        _address.reset(before)


def address() -> str:
    """The address that asks now; empty in a command."""
    return _address.get()

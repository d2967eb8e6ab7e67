"""Words about a person that stand beside the history and not in it, so that they can be erased while it stays whole."""

import hashlib
import secrets
from collections.abc import Mapping, Sequence
from typing import Any

PERSONAL = ("anglers", "note")
WAS = "_before"


def fresh_salt() -> str:
    """128 random bits, so that nobody finds the words of a mark by trying names."""
    return secrets.token_hex(16)


def mark_of(salt: str, words: str) -> str:
    """What the history says in the place of the words (64 hex figures): SHA-256 over the salt and the words.

    >>> mark_of("00", "Mara Lindell") == mark_of("01", "Mara Lindell")
    False
    """
    return hashlib.sha256(f"{salt}\n{words}".encode()).hexdigest()


def listed(words: Any) -> list[str]:
    """One text or several as a list without what is blank."""
    return [str(word) for word in (words if isinstance(words, list) else [words]) if word]


def changed_aside(found: Mapping[str, Sequence[Any]]) -> dict[str, list[str]]:
    """What of a change (``{name: [before, after]}``) is about a person: the words before and after, by name."""
    aside: dict[str, list[str]] = {}
    for name in PERSONAL:
        if name in found:
            before, after = found[name]
            aside |= {name: listed(after), f"{name}{WAS}": listed(before)}
    return aside

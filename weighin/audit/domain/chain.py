"""A hash chain: each row carries the digest of its content and of the row before it."""

import hashlib
import json
from collections.abc import Mapping
from typing import Any

START = "0" * 64
# Made once: json.dumps would make one for every row
_encoder = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def link(before: str, content: Mapping[str, Any]) -> str:
    """The SHA-256 digest (64 hex figures) of ``content`` chained to the digest ``before``.

    ``content`` holds text, whole numbers, booleans, None and lists of them; key order does not matter.
    """
    return linked(before, _encoder.encode(content))


def linked(before: str, text: str) -> str:
    """As ``link``, of a text."""
    return hashlib.sha256(f"{before}\n{text}".encode()).hexdigest()

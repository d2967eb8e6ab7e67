"""The one way in which a proof is written when its digest is made, and the digest."""

import json
from hashlib import sha256
from typing import Any

FORMAT = "weighin-proof-1"


def canonical(value: Any) -> bytes:
    """Plain JSON values in UTF-8, keys in the order of their code points, no spaces.

    In strings ``"`` and ``\\`` stand behind a backslash, control characters below U+0020 as ``\\b \\t \\n \\f \\r`` or
    ``\\u00xx`` with small letters, and every other character as it is. Whole numbers are plain figures; others are the
    shortest decimal that reads back as the same double, as Python's ``json`` and, from 0.0001 up, RFC 8785 write them.
    """
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def digest_of(proof: dict[str, Any]) -> str:
    """SHA-256, in small hex figures, of all of a proof but ``digest`` and the version of its result, which publishing
    alone changes."""
    bound = {name: value for name, value in proof.items() if name != "digest"}
    if isinstance(bound.get("result"), dict):
        bound["result"] = {name: value for name, value in bound["result"].items() if name != "version"}
    return sha256(canonical(bound)).hexdigest()


def printed(digest: str) -> str:
    """The first figures of a digest as they stand on paper: ``90b6 1f0c 22de 7a54``."""
    return " ".join(digest[at : at + 4] for at in range(0, 16, 4))

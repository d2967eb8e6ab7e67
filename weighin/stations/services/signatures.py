"""Requests that a station signs with its token, so that whoever listens on the lake's Wi-Fi cannot write in its name.

``Authorization: Signed NAME:TIME:SIGNATURE``. Both sides know KEY, the SHA-256 of the token (the site keeps nothing else
of it). NAME is the first 16 figures of KEY in hexadecimal; TIME is whole seconds since 1970 by the site's clock, which a
device takes from the Date of its answers; SIGNATURE is HMAC-SHA256 in hexadecimal, under HMAC-SHA256(KEY, "weighin signs"),
over the method, the path with its query, TIME, each with a line feed behind it, and the body (RFC 2104, FIPS 180-4).
A request that is sent once more within the time changes nothing: what it writes is known by its id.
"""

import hmac
from collections.abc import Callable
from hashlib import sha256
from urllib.parse import urlsplit

from weighin.stations.queries.paired import Paired, paired_by_name

SIGNED_FOR_SECONDS = 120
NAME_LENGTH = 16
PURPOSE = b"weighin signs"


def signer_of(shown: str, method: str, path: str, body: bytes) -> tuple[Paired | None, int]:
    """The station whose signature is shown, withdrawn ones too, and the time that it signed; None where it is nobody's."""
    name, _, rest = shown.partition(":")
    at, _, signature = rest.partition(":")
    if len(name) != NAME_LENGTH or not (at.isascii() and at.isdigit() and len(at) < 12):
        return None, 0
    found = paired_by_name(name)
    if found is None:
        return None, 0
    wanted = _signed(bytes.fromhex(found[0]), method, path, at, body)
    return (found[1] if hmac.compare_digest(wanted, signature.encode()) else None), int(at)


def signature(token: str, method: str, path: str, at: int, body: bytes) -> str:
    """What a station shows behind ``Signed``: for our own programs that talk to a site over plain http."""
    key = sha256(token.encode()).digest()
    return f"{key.hex()[:NAME_LENGTH]}:{at}:{_signed(key, method, path, str(at), body).decode()}"


def showing(token: str, site: str) -> Callable[[str, str, int, bytes], str]:
    """What a program of ours shows to the site at this address: the token itself where nobody on the way can hear it."""
    asked = urlsplit(site)
    if asked.scheme == "https" or asked.hostname in ("localhost", "127.0.0.1", "::1"):
        return lambda method, path, at, body: f"Bearer {token}"
    return lambda method, path, at, body: f"Signed {signature(token, method, path, at, body)}"


def _signed(key: bytes, method: str, path: str, at: str, body: bytes) -> bytes:
    text = f"{method}\n{path}\n{at}\n".encode() + body
    return hmac.digest(hmac.digest(key, PURPOSE, sha256), text, sha256).hex().encode()

"""Codes of a second factor: six figures from a key and the time (RFC 6238), and recovery codes on paper.

A telephone's clock may be one step of 30 s off; each code is good once. Recovery codes have 120 random bits, so their
SHA-256 needs no slow hash.
"""

import hmac
import secrets
from base64 import b32encode
from hashlib import sha256

import pyotp

STEP_SECONDS, TOLERANCE_STEPS, DIGITS = 30, 1, 6
KEY_BYTES = 20
RECOVERY_CODES, RECOVERY_BYTES = 10, 15
ISSUER = "weighin"


def new_key() -> str:
    """A random key of 160 bits (RFC 4226, R6) as base 32."""
    return b32encode(secrets.token_bytes(KEY_BYTES)).decode()


def code_at(key: str, step: int) -> str:
    """The code of a step of 30 s since 1970."""
    return str(pyotp.HOTP(key, digits=DIGITS).at(step))


def step_of(code: str, key: str, now: float) -> int | None:
    """The step within one of ``now`` (seconds since 1970) whose code this is, the latest first; None for none."""
    said = "".join(code.split())
    if len(said) != DIGITS or not (said.isascii() and said.isdigit()):
        return None
    present = int(now) // STEP_SECONDS
    steps = range(present + TOLERANCE_STEPS, max(present - TOLERANCE_STEPS, 0) - 1, -1)
    return next((step for step in steps if hmac.compare_digest(code_at(key, step), said)), None)


def address_of(key: str, username: str) -> str:
    """The key as the address that an app for codes reads off a QR code."""
    return str(pyotp.TOTP(key, digits=DIGITS).provisioning_uri(name=username, issuer_name=ISSUER))


def in_groups(text: str) -> str:
    """A key or code in groups of four, as people write it."""
    return " ".join(text[at : at + 4] for at in range(0, len(text), 4))


def new_recovery_codes() -> list[str]:
    """Ten codes of 24 signs in groups of four."""
    return [
        in_groups(b32encode(secrets.token_bytes(RECOVERY_BYTES)).decode()).replace(" ", "-")
        for _ in range(RECOVERY_CODES)
    ]


def digest_of(code: str) -> str:
    """What is kept of a recovery code, however it is spaced; base 32 has no 0 and 1, which are read as o and i."""
    said = "".join(sign for sign in code.casefold() if sign.isalnum()).replace("0", "o").replace("1", "i")
    return sha256(said.encode()).hexdigest()

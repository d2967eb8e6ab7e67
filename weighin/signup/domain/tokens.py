"""The link of a team: a word that nobody can guess, of which the site keeps a digest alone."""

import base64
from hashlib import sha256
from uuid import UUID

from django.utils.crypto import salted_hmac


def token_of(id: UUID, number: int) -> str:
    """The word of a sign-up's link, 256 bits by the site's secret key; a new ``number`` gives another word."""
    made = salted_hmac("weighin.signup.link", f"{id}|{number}", algorithm="sha256").digest()
    return base64.urlsafe_b64encode(made).decode().rstrip("=")


def digest_of(token: str) -> str:
    """What is kept of it (64 hex figures)."""
    return sha256(token.encode()).hexdigest()

"""Browsers that somebody has signed in with before: their wrong tries are counted apart from those of their address.

Who shares the Wi-Fi's address with an official could else keep the official waiting for ever with wrong tries of that
name. The cookie opens nothing and says nothing of whose it is: a random word, signed for one user name.
"""

import secrets

from django.core.signing import BadSignature, Signer
from django.http import HttpRequest
from django.http.response import HttpResponseBase

COOKIE = "known"
LASTS_SECONDS = 180 * 24 * 60 * 60


def place_of(request: HttpRequest, username: str) -> str:
    """Where tries of this name are counted: the browser when its person has signed in with it, else the address."""
    try:
        return f"browser-{_signer(username).unsign(request.COOKIES.get(COOKIE, ''))}"
    except BadSignature:
        return str(request.META.get("REMOTE_ADDR", ""))


def remember(answer: HttpResponseBase, username: str) -> None:
    """This browser is one of theirs from now on."""
    answer.set_cookie(
        COOKIE,
        _signer(username).sign(secrets.token_urlsafe(12)),
        max_age=LASTS_SECONDS,
        httponly=True,
        samesite="Lax",
    )


def _signer(username: str) -> Signer:
    return Signer(salt=f"weighin.known:{username.strip().casefold()}")

"""Sessions: how long they last, where a person is signed in, and how they end.

A session lasts 12 hours, a director's at most 2 hours without a page: a director's browser opens everything. A scale
table at work asks for pages all the time, and a page that only looks whether something is new does not count. What a
scale table has not sent yet lies on the device and not in the session, so nothing is lost when one ends.
"""

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Any

from django.contrib.auth import login
from django.contrib.sessions.models import Session
from django.db import DatabaseError
from django.http import HttpRequest
from django.utils import timezone

from weighin.accounts.domain import caller
from weighin.accounts.domain.around import around
from weighin.accounts.domain.devices import device_words
from weighin.accounts.models import Device, SecurityEntry, User
from weighin.accounts.services.security_log import log_security

LASTS, IDLE = timedelta(hours=12), timedelta(hours=2)
# How often a director's session is written, so that reading costs no write a page
SEEN_EVERY = timedelta(minutes=5)
BEGAN, SEEN = "began", "seen"
BACKEND = "django.contrib.auth.backends.ModelBackend"


def begin_session(request: HttpRequest, person: User) -> None:
    """Sign a person in, in this browser."""
    login(request, person, backend=BACKEND)
    now = timezone.now()
    request.session[BEGAN] = now.isoformat()
    if around(person).directs:
        request.session[SEEN] = now.isoformat()
    _set_end(request.session, now)
    request.session.save()
    words = device_words(request.headers.get("User-Agent", ""))
    Device.objects.update_or_create(
        session_key=request.session.session_key,
        defaults={"user": person, "words": words[:80], "address": caller.address(), "at": now},
    )
    log_security(SecurityEntry.Kind.SIGN_IN, person, about=words)


def note_seen(session: Any) -> None:
    """A director has asked for a page: the two hours begin anew, as often as every five minutes."""
    now = timezone.now()
    if now - datetime.fromisoformat(session[SEEN]) < SEEN_EVERY:
        return
    session[SEEN] = now.isoformat()
    _set_end(session, now)
    try:
        session.save()
    except DatabaseError:
        # A page that can be read is read, also where nothing can be written
        session.modified = False


def move_session(before: str | None, after: str | None) -> None:
    """A session has another key now, as after a change of the password."""
    Device.objects.filter(session_key=before or "").update(session_key=after or "")


def end_sessions(person: User, besides: str = "", only: Iterable[str] | None = None) -> int:
    """End the person's sessions, all or ``only`` those of these keys, but not ``besides``; how many there were."""
    devices = Device.objects.filter(user=person).exclude(session_key=besides)
    if only is not None:
        devices = devices.filter(session_key__in=list(only))
    keys = list(devices.values_list("session_key", flat=True))
    Session.objects.filter(session_key__in=keys).delete()
    devices.delete()
    return len(keys)


def forget_ended() -> None:
    """Take out sessions whose time is over, and the devices of sessions that are gone."""
    Session.objects.filter(expire_date__lt=timezone.now()).delete()
    Device.objects.exclude(session_key__in=Session.objects.values("session_key")).delete()


def _set_end(session: Any, now: datetime) -> None:
    end = datetime.fromisoformat(session[BEGAN]) + LASTS
    session.set_expiry(min(end, now + IDLE) if SEEN in session else end)

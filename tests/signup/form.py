"""A form as a browser sends it, and an event whose sign-up is open."""

import re
from typing import Any

import world
from django.core import signing
from django.test import Client
from django.utils import timezone

from weighin.events.models import Event
from weighin.signup.services.brakes import SALT
from weighin.signup.services.terms import set_terms

OPEN = {"is_open": "yes", "approval": "by_hand", "show_teams": "no", "guardian_below": "18"}


def event(name: str = "Open water", season: str = "", **terms: str) -> Event:
    """An event of next year, not published, with one team and a sign-up on these terms."""
    date = timezone.now().date().replace(month=6, day=20)
    date = date.replace(year=date.year + 1)
    found = world.event(name, 1, date=date.isoformat(), entry_fee="120", **({"season": season} if season else {}))
    set_terms(found, {**OPEN, **terms}, "mara")
    found.refresh_from_db()
    return found


def address(of: Event) -> str:
    return f"/events/{of.slug}/sign-up/"


def stamp(page: Any, seconds: int = 60) -> str:
    """The stamp of a page, as if it had been opened so many seconds ago."""
    made = re.search(r'name="stamp" value="([^"]+)"', page.content.decode())
    assert made
    return older(made[1], seconds)


def older(made: str, seconds: int) -> str:
    """A stamp with the same content that was signed so many seconds ago."""
    said = signing.loads(made, salt=SALT)
    signer = signing.TimestampSigner(salt=SALT)
    signer.timestamp = lambda: signing.b62_encode(int(timezone.now().timestamp()) - seconds)  # type: ignore[method-assign]
    return signer.sign_object(said)


TEAM = {
    "name": "Heron pair",
    "angler_1": "Ann Alder",
    "minor_1": "no",
    "angler_2": "Bob Birch",
    "minor_2": "no",
    "phone": "555-0161",
    "emergency": "Cleo, 555-0162",
    "email": "ann@lake.example",
}
YOUTH = {"angler_2": "Dee Birch", "minor_2": "yes", "guardian_2": "Bob Birch", "consent": "on"}


def send(client: Client, of: Event, **said: str) -> Any:
    """Open the page, wait a minute, and send a team."""
    page = client.get(address(of))
    return client.post(address(of), {"stamp": stamp(page), **TEAM, **said})

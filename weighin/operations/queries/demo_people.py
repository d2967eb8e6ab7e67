"""The demo's people, whose passwords stand in its files for everyone to read, and whether they are here."""

import json
from pathlib import Path

from django.conf import settings

from weighin.accounts.models import User
from weighin.clubs.models import Club

PEOPLE = Path(settings.BASE) / "demo" / "people.json"


def demo_people() -> list[dict[str, str]]:
    """Who the demo has: username, password, name, role and club."""
    found: list[dict[str, str]] = json.loads(PEOPLE.read_text(encoding="utf-8"))
    return found


def open_log_ins() -> list[str]:
    """User names of this site that the demo's printed passwords open."""
    printed = {person["username"]: person["password"] for person in demo_people()}
    here = User.objects.filter(username__in=printed, is_active=True).order_by("username")
    return [user.username for user in here if user.check_password(printed[user.username])]


def is_the_demo() -> bool:
    """Whether nobody and no club but the demo's is here."""
    people = demo_people()
    others = User.objects.exclude(username__in=[person["username"] for person in people])
    clubs = Club.objects.exclude(name__in={person["club"] for person in people})
    return not others.exists() and not clubs.exists()

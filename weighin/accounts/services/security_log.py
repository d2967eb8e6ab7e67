"""Write in the security log; take out of it what is old."""

from contextlib import suppress
from datetime import timedelta
from typing import Any

from django.db import DatabaseError
from django.db.models import F, Q
from django.utils import timezone

from weighin.accounts.domain import caller
from weighin.accounts.models import SecurityEntry, User
from weighin.audit.services import writing

KEPT_DAYS = 180
MOST_ENTRIES = 100_000
SAME_WITHIN = timedelta(minutes=1)


# What anybody can do as often as they like
ATTACKS = frozenset(
    {
        SecurityEntry.Kind.WRONG_PASSWORD,
        SecurityEntry.Kind.WRONG_CODE,
        SecurityEntry.Kind.REFUSED,
        SecurityEntry.Kind.TOKEN_REFUSED,
    }
)


def log_security(
    kind: str, person: Any = None, *, actor: str = "", club_id: int | None = None, about: str = ""
) -> None:
    """Add an entry, or count one of the last minute up: the same kind, person and club from the same address.

    ``about`` says what, never with a password, code, token or key in it; of what is counted the first stands.
    """
    now = timezone.now()
    same = {
        "kind": kind,
        "person_id": person.pk if person is not None else None,
        "actor": (person.get_username() if person is not None else actor)[:150],
        "club_id": club_id,
        "address": caller.address(),
    }
    with writing():
        latest = SecurityEntry.objects.filter(**same, last_at__gt=now - SAME_WITHIN).order_by("-id").first()
        if latest is not None and (latest.about == about[:200] or kind in ATTACKS):
            SecurityEntry.objects.filter(pk=latest.pk).update(times=F("times") + 1, last_at=now)
        else:
            SecurityEntry.objects.create(**same, at=now, last_at=now, about=about[:200])


def log_refusal(kind: str, person: Any = None, *, actor: str = "", club_id: int | None = None, about: str = "") -> None:
    """Add an entry of what is refused; the refusal itself needs no database that can be written."""
    with suppress(DatabaseError):
        log_security(kind, person, actor=actor, club_id=club_id, about=about)


def forget_person(person: User, called: str) -> None:
    """Take a person's names and addresses out, who is ``called`` something else now; call inside ``writing``."""
    SecurityEntry.objects.filter(person_id=person.pk).update(person_id=None, actor=called, address="")
    names = {name for name in (person.username, person.get_full_name()) if name}
    for name in sorted(names, key=len, reverse=True):
        for entry in SecurityEntry.objects.filter(Q(about__contains=name) | Q(actor=name)):
            entry.about = entry.about.replace(name, called)[:200]
            entry.actor = called if entry.actor == name else entry.actor
            entry.save(update_fields=["about", "actor"])


def prune() -> None:
    """Take out what is older than 180 days, and the oldest beyond 100,000 entries."""
    SecurityEntry.objects.filter(last_at__lt=timezone.now() - timedelta(days=KEPT_DAYS)).delete()
    last = SecurityEntry.objects.order_by("-id").values_list("pk", flat=True)[MOST_ENTRIES : MOST_ENTRIES + 1].first()
    if last is not None:
        SecurityEntry.objects.filter(pk__lte=last).delete()

"""Letters: whether any can be sent, those that are due, and what became of one."""

from datetime import datetime

from django.conf import settings
from django.db.models import Q, QuerySet
from django.utils.crypto import salted_hmac

from weighin.letters.models import Letter


def mail_is_set() -> bool:
    """Whether the site sends e-mail: somebody has said by which server, and from which address."""
    return bool(settings.MAIL_FROM)


def mark_of_address(address: str) -> str:
    """A digest of an address, by which the site alone knows it again (64 hex figures)."""
    return salted_hmac("weighin.letters", address.strip().casefold(), algorithm="sha256").hexdigest()


def waiting() -> "QuerySet[Letter]":
    """Letters that are neither sent nor given up."""
    return Letter.objects.filter(sent_at=None, given_up_at=None)


def due(now: datetime) -> "QuerySet[Letter]":
    """Letters that are to be sent by now and that no other process has in hand, the oldest first."""
    return waiting().filter(Q(held_until=None) | Q(held_until__lte=now), due_at__lte=now).order_by("due_at", "made_at")


def letters_of(event: int, begins: str) -> dict[str, Letter]:
    """The letters about an event (a primary key) whose keys begin so, by key; those of the last month are known."""
    found = Letter.objects.filter(event_id=event, key__startswith=begins)
    return {letter.key: letter for letter in found.only("key", "sent_at", "given_up_at")}


def letter_of(key: str) -> Letter | None:
    """The letter that tells of this, if it was ever written."""
    return Letter.objects.filter(key=key).first()

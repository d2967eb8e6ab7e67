"""Fees that change after somebody paid."""

from weighin.events.domain.fees import Fees, Seals
from weighin.events.models import Event
from weighin.registration.queries.till import has_payments
from weighin.registration.services.following import follow_payments
from weighin.roster.queries import roster_seals


def _is_paid(event: Event, kind: str) -> bool:
    return has_payments(event, (kind, ""))


def _follow(event: Event) -> Seals:
    return roster_seals(event.pk, follow_payments(event))


FEES = Fees(_is_paid, _follow)

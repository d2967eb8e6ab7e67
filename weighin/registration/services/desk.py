"""What a team pays at the desk: several fees in one act."""

from collections.abc import Sequence
from uuid import UUID, uuid5

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.records.parsing.reader import Reader
from weighin.registration.domain import faults
from weighin.registration.domain.cash import NONE, What, adds_up
from weighin.registration.domain.fields import PAYMENT
from weighin.registration.domain.words import called
from weighin.registration.models import Payment
from weighin.registration.queries.till import fees_of, rows_that_count, side_pots_of
from weighin.registration.services.payments import take_payment
from weighin.roster.services.event_scope import EVENT
from weighin.rules.faults import Fault, Faults, Said


def pay_fees(event: Event, team: str, whats: Sequence[What], means: str, by: str, id: UUID) -> list[Payment]:
    """Keep that a team pays what is left of each of these fees, all or none; the same ``id`` again keeps nothing twice.

    ``team`` is its boat number, or ``#`` and its entry's number. Raises Faults at ``entry``, ``paid`` and ``means``.
    """
    with writing():
        kept = list(Payment.objects.filter(pk__in=[_id(id, what) for what in whats], event=event))
        if whats and len(kept) == len(whats):
            return kept
        reader = Reader(
            [field for field in PAYMENT if field.name in ("entry", "means")],
            {"entry": team, "means": means},
            EVENT.lock(event.pk),
            needed=("entry", "means"),
        )
        reader.read()
        found = list(reader.faults)
        if not whats:
            found.append(faults.NOTHING_TICKED.at("paid"))
        if found:
            raise Faults(found)
        entry = reader["entry"]
        fees = fees_of(event, side_pots_of(event))
        rows = rows_that_count(event, [entry.pk])
        left = {what: fees[what] - sum((row.amount for row in rows if row.what == what), NONE) for what in whats}
        for what in whats:
            if adds_up([row.amount for row in rows if row.what == what], fees[what]):
                found.append(Fault("paid", _paid_already(what, called(entry))))
        if found:
            raise Faults(found)
        return [
            take_payment(
                event,
                {"entry": team, "kind": what[0], "pot": what[1], "amount": f"{left[what]:.2f}", "means": means},
                by,
                id=_id(id, what),
            )
            for what in whats
        ]


def _id(id: UUID, what: What) -> UUID:
    return uuid5(id, "|".join(what))


def _paid_already(what: What, team: str) -> Said:
    kind, pot = what
    if pot:
        return faults.POT_PAID_ALREADY.says(team=team, pot=pot)
    return {"entry_fee": faults.FEE_PAID_ALREADY, "big_fish_pot": faults.BIG_FISH_PAID_ALREADY}[kind].says(team=team)

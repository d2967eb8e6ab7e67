"""The desk: a team entered with what it pays in one act, and several fees of one that is entered."""

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
from weighin.registration.queries.draws import entries_closed
from weighin.registration.queries.till import fees_of, rows_that_count, side_pots_of
from weighin.registration.services.payments import take_payment
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.kinds import named_in_forms
from weighin.roster.models import Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.event_scope import EVENT
from weighin.roster.services.teams import enter_team, team_faults
from weighin.rules import values
from weighin.rules.faults import Fault, Faults, Said


def enter_at_desk(
    event: Event,
    row: EntryValues,
    contact: ContactValues,
    whats: Sequence[What],
    means: str,
    by: str,
    id: UUID,
    late: str = "",
) -> Entry:
    """Enter a team that pays these fees, both or neither; the same ``id`` again enters nothing twice.

    ``late`` is why it is entered where a draw has closed the entries. Raises Faults, all at once, at the fields of the
    team, ``means`` and ``late``.
    """
    with writing():
        EVENT.lock(event.pk)
        kept = Payment.objects.filter(pk__in=[_id(id, what) for what in whats], event=event).select_related("entry")
        if (again := kept.first()) is not None:
            entry: Entry = again.entry
            return entry
        found = []
        closed = entries_closed(event)
        why = ""
        if closed is not None:
            why, wrong = values.reason(late, faults.LATE_WITHOUT_REASON.at("late", closed=closed))
            found += wrong
        if whats and not means:
            found.append(faults.MEANS_MISSING.at("means"))
        if found:
            raise Faults([*team_faults(event, row, contact), *found])
        entry = enter_team(event, row, by, contact, late=why)
        if whats:
            pay_fees(event, named_in_forms(entry), whats, means, by, id)
    return entry


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

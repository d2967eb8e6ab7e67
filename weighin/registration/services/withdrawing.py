"""A team that pulls out: withdrawn and paid back in one act."""

from collections.abc import Sequence
from dataclasses import replace
from uuid import UUID, uuid5

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.registration.domain import faults
from weighin.registration.domain.cash import What
from weighin.registration.domain.words import called
from weighin.registration.models import Payment
from weighin.registration.queries.till import paid_by
from weighin.registration.services.payments import take_payment
from weighin.roster.domain.kinds import named_in_forms
from weighin.roster.models import Entry
from weighin.roster.queries import entry_values_of
from weighin.roster.services.event_scope import EVENT
from weighin.roster.services.teams import change_entry
from weighin.rules import values
from weighin.rules.faults import Faults


def withdraw(
    event: Event, entry: Entry, back: Sequence[What], means: str, reason: str, by: str, id: UUID
) -> list[Payment]:
    """Withdraw a team and give back all that it paid for each of ``back``, by one means; all of it or nothing.

    The same ``id`` again gives nothing back twice. Raises Faults at ``back``, ``means`` and ``reason``.
    """
    with writing():
        EVENT.lock(event.pk)
        ids = {what: uuid5(id, "|".join(what)) for what in back}
        kept = list(Payment.objects.filter(pk__in=ids.values(), event=event))
        if back and len(kept) == len(back):
            return kept
        team = Entry.everyone.prefetch_related("anglers").select_related("event").get(pk=entry.pk)
        paid, found = paid_by(event, team), []
        why, wrong = values.reason(reason, faults.WITHDRAWN_WITHOUT_REASON.at("reason"))
        if team.status == Entry.Status.WITHDRAWN:
            found.append(faults.WITHDRAWN_ALREADY.at("", team=called(team)))
        if any(paid.get(what, 0) <= 0 for what in back):
            found.append(faults.PAID_OTHERWISE.at("back", team=called(team)))
        if back and not means:
            found.append(faults.BACK_BY_NO_MEANS.at("means"))
        found += wrong
        if found:
            raise Faults(found)
        change_entry(team, replace(entry_values_of(team), status=Entry.Status.WITHDRAWN), by, why=why)
        said = {"entry": named_in_forms(team), "means": means, "reason": why}
        return [
            take_payment(
                event, {**said, "kind": what[0], "pot": what[1], "amount": f"{-paid[what]:.2f}"}, by, id=ids[what]
            )
            for what in back
        ]

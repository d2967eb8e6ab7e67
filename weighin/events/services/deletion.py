"""Remove an event that was made by mistake, while nothing was recorded of it."""

from django.db.models import ProtectedError

from weighin.audit.models import KeptAside
from weighin.audit.services import log_history, writing
from weighin.events.domain import entered
from weighin.events.domain.faults import (
    EVENT_HOLDS_RECORDS,
    EVENT_PUBLISHED,
    HAS_A_REHEARSAL,
    NAME_NOT_TYPED,
    RECORDED_MEANWHILE,
    REMOVAL_WITHOUT_REASON,
)
from weighin.events.domain.recorded import held_by, parts_of_an_event
from weighin.events.models import Event
from weighin.rules.faults import Faults, Listed
from weighin.ui import figures


def recorded(event: Event) -> list[str]:
    """What holds the event, in words; empty when it may be removed."""
    found = []
    for relation in event._meta.related_objects:
        if relation.related_model in parts_of_an_event():
            continue
        count = held_by(event, relation.related_model, relation.field.name)
        if count and relation.related_model is Event:
            found.append(HAS_A_REHEARSAL.says().shown())
            continue
        if count:
            names = relation.related_model._meta
            found.append(f"{count} {names.verbose_name if count == 1 else names.verbose_name_plural}")
    return found


def remove_event(event: Event, name: str, reason: str, by: str) -> None:
    """Remove the event with its days, flights, rules, teams' entries and stations. ``name`` is typed to confirm it.

    The club's history tells who did it and why; the event's own history stays, without the anglers' names. Raises Faults when something was
    recorded of it, when it is published, and for ``name`` and ``reason``.
    """
    with writing():
        held = Event.everyone.select_for_update(of=("self",)).select_related("season").get(pk=event.pk)
        faults = []
        holds = recorded(held)
        if holds:
            faults.append(EVENT_HOLDS_RECORDS.at("", event=held.name, holds=Listed(tuple(holds))))
        if held.is_public:
            faults.append(EVENT_PUBLISHED.at("", event=held.name))
        if " ".join(name.split()).casefold() != " ".join(held.name.split()).casefold():
            faults.append(NAME_NOT_TYPED.at("name", event=held.name))
        if not reason.strip():
            faults.append(REMOVAL_WITHOUT_REASON.at("reason"))
        if faults:
            raise Faults(faults)
        teams = entered.count(held)
        club_id, event_id, slug = held.season.club_id, held.pk, held.slug
        try:
            for part in parts_of_an_event():
                part._base_manager.filter(event=held).delete()
            held.delete()
        except ProtectedError:
            raise Faults([RECORDED_MEANWHILE.at("", event=event.name)]) from None
        KeptAside.objects.filter(event_id=event_id).delete()
        sentence = f"{event.name} on {figures.day(held.date)} removed, with {teams} team{'' if teams == 1 else 's'} entered: {reason.strip()}"
        log_history(by, "event.removed", sentence, club_id=club_id, event_id=event_id, subject=slug)

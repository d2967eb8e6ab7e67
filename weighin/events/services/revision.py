"""What every write to an event begins and ends with."""

from django.db.models import F
from django.dispatch import Signal

from weighin.audit.database.statements import run
from weighin.clubs.models import Season
from weighin.events.domain.faults import EVENT_CLOSED
from weighin.events.models import Event
from weighin.rules.faults import Faults

# Sent with ``event`` inside the write that may have moved when boats are due; a receiver refuses it by raising Faults
due_times_changed = Signal()


def lock_open_event(event: Event) -> Event:
    """The event as it is now, held until the write ends. Raises Faults when it is closed; call inside ``writing``."""
    found = (
        Event.everyone.select_for_update(of=("self",))
        .select_related("season", "season__club", "water", "rule_sheet")
        .get(pk=event.pk)
    )
    if found.closed_at is not None:
        raise Faults([EVENT_CLOSED.at("", event=found.name)])
    return found


def raise_revision_of_due_times(event: Event) -> None:
    """As ``raise_revision``, after a write that may have moved when boats are due. Raises Faults where slips forbid it."""
    due_times_changed.send(Event, event=event)
    raise_revision(event)


def raise_revision(event: Event) -> int:
    """Tell readers and caches that something about the event changed; the new revision."""
    raised = run("UPDATE events_event SET revision = revision + 1 WHERE id = %s RETURNING revision", [event.pk])
    return int(raised[0])


def raise_season(season: Season) -> None:
    """Raise the revision of every event of a season, whose places in it may have moved."""
    Event.objects.filter(season=season).update(revision=F("revision") + 1)


def raise_dependents(sender: object, club_id: int, water_id: int | None = None, **more: object) -> None:
    """Raise the revision of the events on whose pages a club, a water or a member stands."""
    of_water = {} if water_id is None else {"water": water_id}
    Event.everyone.filter(season__club=club_id, **of_water).update(revision=F("revision") + 1)

"""What every write to an event begins and ends with."""

from weighin.audit.statements import run
from weighin.events.models import Event
from weighin.rules.faults import Fault, Faults


def locked(event: Event) -> Event:
    """The event as it is now, held until the write ends. Raises Faults when it is closed; call inside ``writing``."""
    found = (
        Event.objects.select_for_update(of=("self",))
        .select_related("season", "season__club", "water", "rule_sheet")
        .get(pk=event.pk)
    )
    if found.closed_at is not None:
        raise Faults([Fault("", f"{found.name} is closed: open it again on its results page first, with a reason")])
    return found


def raise_revision(event: Event) -> None:
    """Tell readers and caches that something about the event changed."""
    run("UPDATE events_event SET revision = revision + 1 WHERE id = %s", [event.pk])

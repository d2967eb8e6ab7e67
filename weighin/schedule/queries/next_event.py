"""Who goes along into the next event."""

from weighin.events.models import Event
from weighin.roster.models import Angler, Entry


def going_along(event: Event) -> list[tuple[Entry, tuple[str, ...]]]:
    """The teams that did not withdraw, in their order, with the names of their anglers; two queries.

    An erased angler is nobody's name any more, so a team of none but those stays behind.
    """
    entries = Entry.everyone.filter(event=event).exclude(status=Entry.Status.WITHDRAWN).order_by("number")
    named: dict[int, list[str]] = {}
    for angler in Angler.objects.filter(entry__in=entries, erased_on=None).order_by("position"):
        named.setdefault(angler.entry_id, []).append(angler.name)
    return [(entry, tuple(named[entry.pk])) for entry in entries if entry.pk in named]

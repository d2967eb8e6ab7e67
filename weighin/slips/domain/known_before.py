"""What is known of a slip before it is written. The line stands above the slips and registers itself."""

from collections.abc import Callable

from weighin.events.domain.calendar import Calendar
from weighin.events.models import Event

Known = Callable[[Event, int, Calendar, int], dict[str, str]]

_asked: list[Known] = []


def register(known: Known) -> None:
    """Ask this too, of an event's boat and day: it gives field names and texts."""
    if known not in _asked:
        _asked.append(known)


def known_before(event: Event, boat: int, calendar: Calendar, day: int) -> dict[str, str]:
    """The fields of a boat's next slip that are known, as a person would write them."""
    return {name: text for known in _asked for name, text in known(event, boat, calendar, day).items()}

"""The volumes of an event's tanks. The tanks stand above the planner and register themselves."""

from collections.abc import Callable

from weighin.events.models import Event

Volumes = Callable[[Event], list[tuple[str, str]]]

_known: list[Volumes] = []


def register(volumes: Volumes) -> None:
    """Ask this from now on for the readings of an event: each tank with its volume in gallons as written, or blank."""
    _known[:] = [volumes]


def tank_volumes(event: Event) -> list[tuple[str, str]]:
    """The tank of each reading, with its volume in gallons as written, or blank."""
    return [one for volumes in _known for one in volumes(event)]

"""The clock of a club is that of its latest event. Events stand above the clubs and register themselves."""

from collections.abc import Callable, Iterable

from weighin.clubs.models import Club

Zone = Callable[[Club], str | None]

Fishing = Callable[[Iterable[int]], bool]

_known: list[Zone] = []
_fishing: list[Fishing] = []


def register(zone: Zone, fishing: Fishing) -> None:
    """Ask these from now on: for the time zone of a club's latest event, and whether one of some clubs fishes today."""
    _known[:], _fishing[:] = [zone], [fishing]


def latest_zone(club: Club) -> str | None:
    """The time zone of the club's latest event, or None while it has none."""
    return next((zone(club) for zone in _known), None)


def fishes_today(clubs: Iterable[int]) -> bool:
    """Whether one of these clubs has an event today, or one since yesterday that is not closed."""
    return any(fishing(clubs) for fishing in _fishing)

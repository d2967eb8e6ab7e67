"""The clock of a club is that of its latest event, and its figures are written as the club has set. Events stand above the clubs and register themselves."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager

from django.utils import timezone

from weighin.clubs.models import Club
from weighin.ui import figures

Zone = Callable[[Club], str | None]

Fishing = Callable[[Iterable[int]], bool]

BEFORE_ITS_EVENTS = "America/Chicago"
_known: list[Zone] = []
_fishing: list[Fishing] = []


def register(zone: Zone, fishing: Fishing) -> None:
    """Ask these from now on: for the time zone of a club's latest event, and whether one of some clubs fishes today."""
    _known[:], _fishing[:] = [zone], [fishing]


@contextmanager
def shown_by(club: Club, zone: str) -> Iterator[None]:
    """Show moments by the clock of ``zone``, and write all figures as the club does."""
    with timezone.override(zone), figures.written_as(figures.Writing(club.hours, club.degrees, club.currency)):
        yield


def latest_zone(club: Club) -> str | None:
    """The time zone of the club's latest event, or None while it has none."""
    return next((zone(club) for zone in _known), None)


def fishes_today(clubs: Iterable[int]) -> bool:
    """Whether one of these clubs has an event today, or one since yesterday that is not closed."""
    return any(fishing(clubs) for fishing in _fishing)

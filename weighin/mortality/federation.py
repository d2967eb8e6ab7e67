"""Many clubs put together without their names: for whoever runs the site, since no club sees another's fish.

A figure is given only where at least three clubs with fish stand behind it and none of them brought more than nine fish in ten.
Rows that fall short are put together with others until that holds, so that no row can be found again by subtraction.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from weighin.events.models import Event
from weighin.mortality.event_sums import EventSum, event_sums
from weighin.mortality.words import SPACE, counted, limits, one_in, percent
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.nested import SAME_DAY

FEWEST_CLUBS = 3
LARGEST_SHARE = 0.9
BANDS_F = (60, 65, 70, 75, 80, 85)
NO_LAKE = "not written"
TOGETHER = "others, put together"


@dataclass(frozen=True)
class Row:
    """A line of a table: its ``name``, clubs, events, and the rate with clubs as clusters."""

    name: str
    clubs: int
    events: int
    kept: int
    rate: Clustered

    @property
    def seen(self) -> str:
        return percent(self.rate.rate) if self.rate.dead else "none seen"

    @property
    def said(self) -> str:
        return (
            f"{self.rate.dead:,.0f} of {self.rate.n:,.0f} fish ({self.seen}, range {limits(self.rate)}), "
            f"{counted(self.events, 'event')}, {counted(self.clubs, 'club')}"
        )


@dataclass(frozen=True)
class SpeciesSummary:
    """One kind of fish: all of it, by year of the event, and by the lake's temperature."""

    total: Row
    by_year: Sequence[Row]
    by_lake: Sequence[Row]


@dataclass(frozen=True)
class Federation:
    """The clubs together. ``species`` is empty when no kind of fish has clubs enough."""

    species: Sequence[SpeciesSummary]

    @property
    def is_told(self) -> bool:
        return bool(self.species)

    @property
    def says(self) -> str:
        """What can be said of it, kind by kind; or why nothing is."""
        if not self.is_told:
            return (
                f"Nothing is shown: a figure takes fish of {FEWEST_CLUBS} clubs at least, none with more than "
                f"{100 * LARGEST_SHARE:.0f}{SPACE}% of them."
            )
        return " ".join(_head(one.total) for one in self.species)


def federation() -> Federation:
    """Every club's events with fish, put together."""
    return summed(event_sums(Event.objects.all()))


def summed(sums: Sequence[EventSum]) -> Federation:
    """The summary of event sums. Kinds of fish are never put together, so one that falls short is left out."""
    kinds: dict[str, list[EventSum]] = {}
    for one in sums:
        kinds.setdefault(one.species, []).append(one)
    return Federation(
        [
            SpeciesSummary(_row(name, of_it), _rows(of_it, _year), _rows(of_it, _band, _band_order))
            for name, of_it in sorted(kinds.items())
            if _may_be_told(of_it)
        ]
    )


def _rows(sums: Iterable[EventSum], name: Callable[[EventSum], str], order: Callable[[str], object] = str) -> list[Row]:
    """A row for each name, the small ones put together with as few others as it takes; none where even all fall short."""
    parts: dict[str, list[EventSum]] = {}
    for one in sums:
        parts.setdefault(name(one), []).append(one)
    hidden = [key for key, events in parts.items() if not _may_be_told(events)]
    shown = sorted((key for key in parts if key not in hidden), key=lambda key: (_fish(parts[key]), key))
    while hidden and shown and not _may_be_told([one for key in hidden for one in parts[key]]):
        hidden.append(shown.pop(0))
    rows = [_row(key, parts[key]) for key in sorted(shown, key=order)]  # type: ignore[arg-type]
    together = [one for key in hidden for one in parts[key]]
    return [*rows, _row(TOGETHER, together)] if together and _may_be_told(together) else rows


def _may_be_told(events: Sequence[EventSum]) -> bool:
    by_club: dict[int, int] = {}
    for one in events:
        by_club[one.club] = by_club.get(one.club, 0) + one.presented
    return len(by_club) >= FEWEST_CLUBS and max(by_club.values()) <= LARGEST_SHARE * sum(by_club.values())


def _row(name: str, events: Sequence[EventSum]) -> Row:
    clubs: dict[int, list[int]] = {}
    for one in events:
        of_club = clubs.setdefault(one.club, [0, 0])
        of_club[0] += one.dead
        of_club[1] += one.presented
    rate = clustered([dead for dead, _ in clubs.values()], [fish for _, fish in clubs.values()], correlation=SAME_DAY)
    return Row(name, len(clubs), len(events), sum(one.kept for one in events), rate)


def _fish(events: Sequence[EventSum]) -> int:
    return sum(one.presented for one in events)


def _year(one: EventSum) -> str:
    return str(one.date.year)


def _band(one: EventSum) -> str:
    if one.lake_f is None:
        return NO_LAKE
    below = [edge for edge in BANDS_F if one.lake_f >= edge]
    if not below:
        return f"under {BANDS_F[0]}{SPACE}°F"
    if below[-1] == BANDS_F[-1]:
        return f"{BANDS_F[-1]}{SPACE}°F and more"
    return f"{below[-1]} to under {BANDS_F[len(below)]}{SPACE}°F"


def _band_order(name: str) -> tuple[int, int, str]:
    figures = [int(word) for word in name.replace(SPACE, " ").split() if word.isdigit()]
    return (name == NO_LAKE, -1 if name.startswith("under") else figures[0] if figures else 0, name)


def _head(total: Row) -> str:
    fractions = f": {one_in(total.rate.low)} to {one_in(total.rate.high)}" if total.rate.low > 0.0005 else ""
    return f"{total.name[:1].upper()}{total.name[1:]}: {total.said}{fractions}."

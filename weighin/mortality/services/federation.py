"""Many clubs put together without their names: for whoever runs the site, since no club sees another's fish.

Every figure keeps the p% rule on fish and on dead (Federal Committee on Statistical Methodology, Statistical Policy Working
Paper 22; the ESSnet handbook on statistical disclosure control, both from memory): what is left of a sum without its two
largest clubs is at least ``PROTECTION`` of the largest, so that the second largest, which knows its own, cannot reckon the
largest to within that share. At least three clubs stand behind a figure so, none with more than two thirds of its fish.

Two runs cannot be subtracted from one another either. Figures come in editions: one for each calendar year that is over,
worked out at the first run after its end and fixed (``PublishedOnce``). An edition holds the events that no edition held
before, kind by kind of fish, if those alone keep the rule; else they wait for the next. So the difference of two runs is an
edition that is given out itself. Rows that fall short are put together with others of the edition.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict, dataclass, replace
from datetime import date
from math import ceil, floor
from typing import Any

from django.utils import timezone
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.mortality.domain import words
from weighin.mortality.domain.words import SPACE, counted, limits, one_in
from weighin.mortality.models import PublishedOnce
from weighin.mortality.queries.event_sums import EventSum, event_sums
from weighin.mortality.services.published import once
from weighin.survival.clusters import Clustered, clustered

FEWEST_CLUBS = 3
PROTECTION = 0.25  # agencies take 0.1 to 0.2; clubs are few here, so stricter
KEY = "federation "  # and the edition's year
Clubs = dict[str, list[int]]  # dead, fish, kept and events of each club
BANDS_F = (60, 65, 70, 75, 80, 85)
NO_LAKE = "not written"
TOGETHER = "others, put together"


@dataclass(frozen=True)
class Row:
    """A line of a table: its ``edition`` (0: of all), ``name``, clubs, events, and the rate with clubs as clusters."""

    edition: int
    name: str
    clubs: int
    events: int
    kept: int
    rate: Clustered

    @property
    def seen(self) -> str:
        return words.seen(self.rate)

    @property
    def said(self) -> str:
        return gettext("%(dead)s of %(n)s fish (%(seen)s, range %(rate)s), %(events)s, %(clubs)s") % {
            "dead": f"{self.rate.dead:,.0f}",
            "n": f"{self.rate.n:,.0f}",
            "seen": self.seen,
            "rate": limits(self.rate),
            "events": counted(self.events, "event"),
            "clubs": counted(self.clubs, "club"),
        }


@dataclass(frozen=True)
class SpeciesSummary:
    """One kind of fish: all editions together, and each by year of the event and by the lake's temperature."""

    total: Row
    by_year: Sequence[Row]
    by_lake: Sequence[Row]


@dataclass(frozen=True)
class Federation:
    """The clubs together, up to the end of the year ``through``. ``species`` is empty when no kind has clubs enough."""

    species: Sequence[SpeciesSummary]
    through: int

    @property
    def is_told(self) -> bool:
        return bool(self.species)

    @property
    def says(self) -> str:
        """What can be said of it, kind by kind; or why nothing is."""
        if not self.is_told:
            return gettext(
                "Nothing is shown of the years to %(through)s: a figure takes fish of %(fewest_clubs)s clubs at least, and "
                "without the two largest %(protection)s %% of the largest club’s."
            ) % {"through": self.through, "fewest_clubs": FEWEST_CLUBS, "protection": f"{100 * PROTECTION:.0f}"}
        return " ".join(_head(one.total) for one in self.species)


@dataclass(frozen=True)
class Edition:
    """What one year's edition holds of a kind of fish: each row's name and the sums of its clubs.

    The events, and single clubs' sums, are kept to work out ranges and later editions; they are never given out.
    """

    year: int
    species: str
    events: Sequence[int]
    clubs: Clubs
    by_year: Sequence[tuple[str, Clubs]]
    by_lake: Sequence[tuple[str, Clubs]]


def federation(today: date | None = None) -> Federation:
    """The fixed editions of every year that is over; the newest is fixed now if nobody asked for it before."""
    through = (today or timezone.now().date()).year - 1
    earlier = [one for year, one in _fixed() if year < through]

    def make() -> list[dict[str, Any]]:
        events = Event.objects.filter(date__year__lte=through)
        return [asdict(one) for one in edition(through, event_sums(events), earlier)]

    newest = once(
        f"{KEY}{through}",
        make,
        gettext("The federation’s figures of %(through)s are fixed: later events do not change them")
        % {"through": through},
    )
    return summary([*earlier, *(Edition(**one) for one in newest)], through)


def edition(year: int, sums: Sequence[EventSum], earlier: Sequence[Edition]) -> list[Edition]:
    """The edition of a year from all event sums up to its end: what no earlier one held, where it keeps the rule."""
    held = {event for one in earlier for event in one.events}
    kinds: dict[str, list[EventSum]] = {}
    for one in sums:
        if one.event not in held:
            kinds.setdefault(one.species, []).append(one)
    return [
        Edition(
            year,
            name,
            [one.event for one in of_it],
            _by_club(of_it),
            _rows(of_it, _year),
            _rows(of_it, _band, _band_order),
        )
        for name, of_it in sorted(kinds.items())
        if _may_be_told(of_it)
    ]


def summary(editions: Sequence[Edition], through: int) -> Federation:
    """The editions put together, kind by kind. Kinds of fish are never put together, so one that falls short is left out."""
    species = []
    for name in sorted({one.species for one in editions}):
        mine = [one for one in editions if one.species == name]
        clubs: Clubs = {}
        for one in mine:
            for club, sums in one.clubs.items():
                clubs[club] = [a + b for a, b in zip(clubs.get(club, [0] * 4), sums, strict=True)]
        by_year = [_row(one.year, *row) for one in mine for row in one.by_year]
        by_lake = [_row(one.year, *row) for one in mine for row in one.by_lake]
        species.append(SpeciesSummary(_row(0, name, clubs), by_year, by_lake))
    return Federation(species, through)


def _fixed() -> Iterable[tuple[int, Edition]]:
    for key, content in PublishedOnce.objects.filter(key__startswith=KEY).order_by("key").values_list("key", "content"):
        for one in content:
            yield int(key.removeprefix(KEY)), Edition(**one)


def _rows(
    sums: Iterable[EventSum], name: Callable[[EventSum], str], order: Callable[[str], object] = str
) -> list[tuple[str, Clubs]]:
    """A row for each name, the small ones put together with as few others as it takes; none where even all fall short."""
    parts: dict[str, list[EventSum]] = {}
    for one in sums:
        parts.setdefault(name(one), []).append(one)
    hidden = [key for key, events in parts.items() if not _may_be_told(events)]
    shown = sorted((key for key in parts if key not in hidden), key=lambda key: (_fish(parts[key]), key))
    while hidden and shown and not _may_be_told([one for key in hidden for one in parts[key]]):
        hidden.append(shown.pop(0))
    rows = [(key, _by_club(parts[key])) for key in sorted(shown, key=order)]  # type: ignore[arg-type]
    together = [one for key in hidden for one in parts[key]]
    return [*rows, (TOGETHER, _by_club(together))] if together and _may_be_told(together) else rows


def _may_be_told(events: Sequence[EventSum]) -> bool:
    clubs = _by_club(events).values()
    return len(clubs) >= FEWEST_CLUBS and all(_is_protected([sums[place] for sums in clubs]) for place in (0, 1))


def _is_protected(counts: Iterable[int]) -> bool:
    """The p% rule on one count of every club."""
    ordered = sorted(counts, reverse=True)
    return sum(ordered[2:]) >= PROTECTION * ordered[0]


def _by_club(events: Iterable[EventSum]) -> Clubs:
    """Dead, fish, kept and events of each club."""
    clubs: Clubs = {}
    for one in events:
        was = clubs.get(str(one.club), [0] * 4)
        clubs[str(one.club)] = [a + b for a, b in zip(was, (one.dead, one.presented, one.kept, 1), strict=True)]
    return clubs


def _row(edition: int, name: str, clubs: Clubs) -> Row:
    """The range goes out to whole per cents: from exact limits a club could reckon how the others' fish are shared."""
    rate = clustered([sums[0] for sums in clubs.values()], [sums[1] for sums in clubs.values()])
    rate = replace(rate, low=floor(100 * rate.low) / 100, high=ceil(100 * rate.high) / 100)
    kept, events = (sum(sums[place] for sums in clubs.values()) for place in (2, 3))
    return Row(edition, name, len(clubs), events, kept, rate)


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
    fractions = (
        gettext(": %(low)s to %(high)s") % {"low": one_in(total.rate.low), "high": one_in(total.rate.high)}
        if total.rate.low > 0.0005
        else ""
    )
    return f"{total.name[:1].upper()}{total.name[1:]}: {total.said}{fractions}."

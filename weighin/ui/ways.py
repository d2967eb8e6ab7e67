"""The ways: which pages of an event, a season and a club lead to one another, and on which of them a page lies."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from django.urls import resolve, reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

MAIN, BESIDE, WIDE, REST = 1, 2, 3, 4  # in the row on every screen; from 641 px; from 1101 px; under More alone
_PLACES = ("place--one", "place--two")


@dataclass(frozen=True)
class Way:
    """A page that others lead to. ``also`` are the ends of further addresses that lie on it; ``when`` is ``open`` for what
    a closed event has no more, ``real`` for what a rehearsal has not."""

    words: str | Promise
    name: str
    rank: int = REST
    also: tuple[str, ...] = ()
    when: str = ""


@dataclass(frozen=True)
class Shown:
    """A way on a page: its address, and whether the page is its own (``page``), lies on it (``true``) or not (empty)."""

    words: str | Promise
    url: str
    rank: int
    current: str = ""


Groups = Sequence[tuple[str | Promise, Sequence[Way]]]

EVENT: Groups = (
    (
        gettext_lazy("On the day"),
        (
            Way(gettext_lazy("The day"), "operations:day", MAIN),
            Way(gettext_lazy("Boat checks"), "care:ramp", when="open"),
            Way(gettext_lazy("Check-in"), "checkin:roll", MAIN),
            Way(gettext_lazy("Line"), "line:line", BESIDE),
            Way(gettext_lazy("Scale table"), "stations:scales_table", when="open"),
            Way(gettext_lazy("Slips"), "slips:slips", MAIN),
            Way(gettext_lazy("Scales"), "slips:scales"),
            Way(gettext_lazy("Paper slips"), "slips:pads"),
            Way(gettext_lazy("Tablets"), "stations:stations"),
            Way(gettext_lazy("What to bring"), "operations:lake"),
        ),
    ),
    (
        gettext_lazy("Results"),
        (
            Way(gettext_lazy("Standings"), "standings:live", MAIN),
            Way(gettext_lazy("Results"), "standings:results", BESIDE, ("poster/", "certificates/", "press/")),
            Way(gettext_lazy("Protests"), "standings:protests"),
            Way(gettext_lazy("Publish the result"), "operations:publish"),
            Way(gettext_lazy("Catch report"), "agency:event_catch"),
            Way(gettext_lazy("History"), "operations:history", WIDE),
        ),
    ),
    (
        gettext_lazy("Teams and money"),
        (
            Way(gettext_lazy("Teams"), "roster:teams", BESIDE),
            Way(gettext_lazy("Desk"), "registration:desk", WIDE),
            Way(gettext_lazy("Sign-ups"), "signup:sign_ups"),
            Way(gettext_lazy("Draws"), "registration:draws"),
            Way(gettext_lazy("Money"), "registration:money", WIDE),
            Way(gettext_lazy("Cash-up"), "registration:cash_up"),
            Way(gettext_lazy("Pay-outs"), "registration:pay_outs"),
            Way(gettext_lazy("Messages to teams"), "operations:words", also=("notice/",)),
        ),
    ),
    (
        gettext_lazy("Fish"),
        (
            Way(gettext_lazy("Fish care"), "care:notes", BESIDE),
            Way(gettext_lazy("Tanks"), "tanks:tanks"),
            Way(gettext_lazy("Where fish went"), "tanks:account"),
            Way(gettext_lazy("Releases"), "care:releases"),
            Way(gettext_lazy("Holding study"), "holding:holding"),
            Way(gettext_lazy("Mortality"), "mortality:event", WIDE),
        ),
    ),
    (
        gettext_lazy("Before the day"),
        (
            Way(gettext_lazy("Event setup"), "events:setup", also=("call-off/",)),
            Way(gettext_lazy("Rules"), "events:rules", WIDE),
            Way(gettext_lazy("Permits"), "schedule:permits"),
            Way(gettext_lazy("Care plan"), "planning:care_plan"),
            Way(gettext_lazy("Livewell plan"), "planning:event_planner"),
            Way(gettext_lazy("Briefing"), "planning:briefing"),
            Way(gettext_lazy("Rehearsal"), "rehearsal:rehearsal", when="real"),
            Way(gettext_lazy("Next event"), "operations:next_event", when="real"),
        ),
    ),
)
SEASON: Groups = (
    (
        gettext_lazy("This season"),
        (
            Way(gettext_lazy("Points"), "seasons:standings", MAIN, ("teams/", "series/")),
            Way(gettext_lazy("Mortality"), "advice:season", MAIN),
            Way(gettext_lazy("What if"), "advice:what_if"),
            Way(gettext_lazy("Care record"), "care:care_record", WIDE),
            Way(gettext_lazy("Release sites"), "tanks:release_sites"),
            Way(gettext_lazy("Catch report"), "agency:season_catch"),
            Way(gettext_lazy("Points rules"), "advice:points_rules", WIDE),
        ),
    ),
)
CLUB: Groups = (
    (
        gettext_lazy("The club"),
        (
            Way(gettext_lazy("Events"), "events:club", MAIN),
            Way(gettext_lazy("Mortality by season"), "mortality:trend"),
            Way(gettext_lazy("Rule sheets"), "events:sheets", BESIDE),
            Way(gettext_lazy("Members"), "clubs:members", BESIDE),
            Way(gettext_lazy("Club setup"), "clubs:edit", BESIDE, ("waters/", "seasons/new/")),
            Way(gettext_lazy("Names and privacy"), "privacy:club"),
            Way(gettext_lazy("Import an event"), "operations:import"),
            Way(gettext_lazy("History"), "operations:club_history", WIDE),
            Way(gettext_lazy("First event, step by step"), "public:club_first_event"),
        ),
    ),
)
PUBLIC: Groups = (
    (
        "",
        (
            Way(gettext_lazy("The event"), "public:event", MAIN),
            Way(gettext_lazy("Standings"), "public:standings", MAIN),
            Way(gettext_lazy("Rules"), "public:rules", MAIN),
            Way(gettext_lazy("Mortality"), "public:mortality", MAIN),
        ),
    ),
)


@dataclass(frozen=True)
class Ways:
    """The ways of a page by their groups."""

    groups: tuple[tuple[str | Promise, tuple[Shown, ...]], ...]

    def __iter__(self) -> Iterator[Shown]:
        return (way for _, ways in self.groups for way in ways)

    @property
    def row(self) -> list[Shown]:
        """What stands in the row: the ways in daily use and the page's own; those that every screen has come first."""
        return sorted((way for way in self if way.rank < REST or way.current), key=lambda way: way.rank)

    @property
    def has_more(self) -> bool:
        return any(way.rank > MAIN for way in self)

    @property
    def current(self) -> Shown | None:
        return next((way for way in self if way.current), None)


def ways_at(
    path: str, groups: Groups, slugs: Sequence[str], cans: Collection[str], without: Collection[str] = ()
) -> Ways:
    """The ways that somebody with ``cans`` may go from the page at ``path``, the one on which it lies marked.

    It lies on the way whose address, or one of ``also``, is the longest beginning of its own.
    """
    open_to = [(words, [way for way in ways if _may(way, cans, without, len(slugs))]) for words, ways in groups]
    urls = {way.name: _address(way.name, slugs) for _, ways in open_to for way in ways}
    best, longest = "", 0
    for _, ways in open_to:
        for way in ways:
            for beginning in (urls[way.name], *(_base(urls, slugs) + end for end in way.also)):
                if path.startswith(beginning) and len(beginning) > longest:
                    best, longest = way.name, len(beginning)
    return Ways(
        tuple(
            (
                words,
                tuple(
                    Shown(
                        way.words,
                        urls[way.name],
                        way.rank,
                        "" if way.name != best else "page" if path == urls[way.name] else "true",
                    )
                    for way in ways
                ),
            )
            for words, ways in open_to
            if ways
        )
    )


def _base(urls: dict[str, str], slugs: Sequence[str]) -> str:
    """What all of these addresses begin with, up to their last slug."""
    first = next(iter(urls.values()))
    return first[: first.index(f"/{slugs[-1]}/") + len(slugs[-1]) + 2]


def _may(way: Way, cans: Collection[str], without: Collection[str], slugs: int) -> bool:
    can = can_of(way.name, slugs)
    return way.when not in without and (can is None or can in cans)


def _address(name: str, slugs: Sequence[str]) -> str:
    found = _pattern(name, len(slugs))
    for place, slug in zip(_PLACES, slugs, strict=False):
        found = found.replace(place, slug)
    return found


@cache
def _pattern(name: str, slugs: int) -> str:
    return reverse(name, args=_PLACES[:slugs])


@cache
def can_of(name: str, slugs: int) -> str | None:
    """What a page whose address has so many slugs asks for, as its view says it; None where anybody may read it."""
    return getattr(resolve(_pattern(name, slugs)).func, "can", None)

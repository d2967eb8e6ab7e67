"""What an open club shows to everybody: its events with what came of them, a season, its dead fish.

An event that is not published, and one whose places are held back, is in the calendar and nowhere else: its result is
counted in nothing, as if the event were to come.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from django.db.models import QuerySet

from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.events.queries.events import is_cancelled, public_events
from weighin.events.queries.states import Stage
from weighin.mortality.queries.season import SeasonMortality, season_mortality
from weighin.schedule.queries.calendar import Dated, dated
from weighin.seasons.domain.results import EventResults, TeamResult
from weighin.seasons.queries.results import results_of
from weighin.seasons.queries.standings import SeasonStandings, season_standings
from weighin.standings.models import OfficialResult, Posting
from weighin.standings.queries.embargo import held_events


@dataclass(frozen=True)
class Shown:
    """An event with what came of it; ``result`` is None where the public is not to know, or nothing is weighed."""

    dated: Dated
    result: EventResults | None

    @property
    def event(self) -> Event:
        return self.dated.event

    @property
    def first(self) -> list[TeamResult]:
        """Who is in first place; several where it is shared."""
        return [] if self.result is None else [team for team in self.result.teams if team.place == 1]

    @property
    def biggest(self) -> list[TeamResult]:
        """The teams with the event's largest fish."""
        fish = [] if self.result is None else [team for team in self.result.teams if team.big_fish is not None]
        most = max((team.big_fish for team in fish if team.big_fish is not None), default=None)
        return [team for team in fish if team.big_fish == most]

    @property
    def is_official(self) -> bool:
        return self.dated.state.stage == Stage.OFFICIAL


@dataclass(frozen=True)
class ShownSeason:
    """A season as everybody may see it. ``uncounted`` are its events with a slip whose results are not told."""

    season: Season
    events: Sequence[Shown]
    standings: SeasonStandings
    fish: SeasonMortality
    uncounted: Sequence[Event]


def told_of(events: Sequence[Event]) -> set[int]:
    """Those of the events (primary keys) whose places everybody may see as they are."""
    published = {event.pk for event in events if event.is_public}
    return published - held_events(published)


def with_results(events: Sequence[Dated]) -> list[Shown]:
    """The events with their results, in their order; the same number of queries for one and for many."""
    told = told_of([one.event for one in events])
    found = {result.pk: result for result in results_of([one.event for one in events if one.event.pk in told])}
    results = {pk: result for pk, result in found.items() if result.fished}
    return [Shown(one, results.get(one.event.pk)) for one in events]


def public_season(season: Season) -> ShownSeason:
    """The season as the public has it; the same number of queries for one event and for many."""
    whole = _in_order(season.events.all())
    rows = [event for event in whole if not is_cancelled(event)]
    told = told_of(rows)
    hidden = {event.pk for event in rows} - told
    fish = season_mortality(season)
    return ShownSeason(
        season=season,
        events=with_results(dated(whole)),
        standings=season_standings(season, hidden=hidden),
        fish=replace(fish, events=[line for line in fish.events if line.event.pk in told]),
        uncounted=[event for event in _weighed(rows) if event.pk in hidden],
    )


def _weighed(events: Sequence[Event]) -> list[Event]:
    fished = {result.pk for result in results_of(events) if result.fished}
    return [event for event in events if event.pk in fished]


def _in_order(events: QuerySet[Event]) -> list[Event]:
    whole = events.select_related("season__club", "water", "rule_sheet")
    return list(whole.prefetch_related("event_days", "flights").order_by("date", "pk"))


def club_calendar(club: Club) -> list[Shown]:
    """Every event of the club with what came of it, the first day first."""
    return with_results(dated(_in_order(Event.objects.filter(season__club=club))))


def club_events(club: Club) -> list[Event]:
    """The club's published events, the first day first."""
    return list(Event.objects.filter(season__club=club, is_public=True).order_by("date", "pk"))


def published(most: int) -> list[Event]:
    """The published events of all clubs, the newest first."""
    rows = public_events().select_related("rule_sheet").prefetch_related("event_days", "flights")
    return list(rows.order_by("-date", "-pk")[:most])


def club_seasons(club: Club) -> list[Season]:
    """The club's seasons, the latest first."""
    found = list(club.seasons.all())
    for season in found:
        season.club = club
    return found


def latest_season(seasons: Sequence[Season], calendar: Sequence[Shown]) -> Season | None:
    """The season of the last event of which something is weighed and told, else the first of the list."""
    of = {season.pk: season for season in seasons}
    told = [one.event.season_id for one in calendar if one.result is not None]
    return of[told[-1]] if told else next(iter(seasons), None)


@dataclass(frozen=True)
class Published:
    """A result as it was posted or made official last; ``first`` is the posting, or the version without one, before it."""

    event: Event
    latest: OfficialResult | Posting
    first: OfficialResult | Posting

    @property
    def version(self) -> int | None:
        return self.latest.version if isinstance(self.latest, OfficialResult) else None


def published_results(club: Club) -> list[Published]:
    """Every posted or official result of published events, newest first; three queries whatever their number."""
    rows = Event.objects.filter(season__club=club, is_public=True).select_related("season__club", "water")
    told = told_of(list(rows))
    events = {event.pk: event for event in rows if event.pk in told}
    found: dict[int, list[OfficialResult | Posting]] = {}
    for posting in Posting.objects.filter(event__in=told).order_by("id"):
        found.setdefault(posting.event_id, []).append(posting)
    for version in OfficialResult.objects.filter(event__in=told).order_by("version"):
        found.setdefault(version.event_id, []).append(version)
    results = [Published(events[pk], rows[-1], min(rows, key=moment_of)) for pk, rows in found.items()]
    return sorted(results, key=lambda one: (moment_of(one.first), one.event.date, one.event.pk), reverse=True)


def moment_of(result: OfficialResult | Posting) -> datetime:
    """When the result was posted or made official."""
    return result.published_at if isinstance(result, OfficialResult) else result.posted_at

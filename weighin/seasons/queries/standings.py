"""The season's standings of teams, of anglers and of classes; of the whole season or one of its series."""

from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.events.queries.events import rules_of
from weighin.roster.models import Entry, Team
from weighin.rules import rulebook
from weighin.rules.look_alikes import folded_name
from weighin.rules.points import Appearance, SeasonRow, season_points
from weighin.rules.rulebook import Rulebook
from weighin.seasons.domain.results import YOUTH, EventResults, TeamResult
from weighin.seasons.models import ClassMark, Series, SeriesEvent
from weighin.seasons.queries.results import results_of, season_events
from weighin.standings.queries.season_rules import season_rules

CLASSES = (YOUTH, *ClassMark.Name.values)


@dataclass(frozen=True)
class SeasonStandings:
    """A season's standings. ``events`` are those that count, oldest first, ``to_come`` those without a slip.

    ``rules`` say how many events count and how ties are broken. ``anglers`` have names: they are for members alone.
    ``team_pks`` are the keys of the teams by name.
    """

    season: Season
    series: Series | None
    events: Sequence[EventResults]
    to_come: Sequence[EventResults]
    rules: Rulebook
    teams: Sequence[SeasonRow]
    anglers: Sequence[SeasonRow]
    classes: Mapping[str, Sequence[SeasonRow]]
    team_pks: Mapping[str, int]


def season_standings(
    season: Season, series: Series | None = None, hidden: Collection[int] = frozenset()
) -> SeasonStandings:
    """Work the standings out; the same number of queries for one team and for many, for one event and for many.

    Nothing is known of the ``hidden`` events (primary keys) but that they are in the season: they stand as if to come.
    """
    rows = season_events(season)
    found = [replace(of, fished=False, teams=()) if of.pk in hidden else of for of in results_of(rows)]
    parts = {event.pk for event in rows} if series is None else _parts(series)
    events = [event for event in found if event.fished and event.pk in parts]
    to_come = [event for event in found if not event.fished and event.pk in parts]
    rules = _rules(season, rows, [event for event, of in zip(rows, found, strict=True) if of.fished], series)
    wins = [event.win for event in to_come if event.win is not None]
    possible = wins if len(wins) == len(to_come) else None
    names = {team.team: team.name for event in (*events, *to_come) for team in event.teams}
    teams = _listed(rules, possible, events, to_come, lambda team: [names[team.team]])
    anglers = _angler_names((*events, *to_come))
    return SeasonStandings(
        season=season,
        series=series,
        events=events,
        to_come=to_come,
        rules=rules,
        teams=teams,
        anglers=_listed(rules, possible, events, to_come, lambda team: anglers[team.entry_pk]),
        classes=_classes(teams, (*events, *to_come), names),
        team_pks={names[team.team]: team.team_pk for event in (*events, *to_come) for team in event.teams},
    )


def series_of(season: Season) -> list[Series]:
    """The season's series by name."""
    return list(season.series.all())


def _parts(series: Series) -> set[int]:
    return set(SeriesEvent.objects.filter(series=series).values_list("event", flat=True))


def _rules(season: Season, events: Sequence[Event], fished: Sequence[Event], series: Series | None) -> Rulebook:
    """The season's, before its first slip the latest event's; a series' own terms before them."""
    latest = events[-1:]
    rules = season_rules(season, fished) or (rules_of(latest[0]) if latest else rulebook.defaults("lb"))
    if series is None:
        return rules
    own = {"count_best": series.count_best, "season_ties": series.ties}
    return rulebook.read(rules.written() | {key: value for key, value in own.items() if value}, rules.unit)


def _listed(
    rules: Rulebook,
    possible: Sequence[Decimal] | None,
    events: Sequence[EventResults],
    to_come: Sequence[EventResults],
    who: Callable[[TeamResult], Iterable[str]],
) -> list[SeasonRow]:
    """The list of those whom ``who`` names; who is only in events to come stands with nothing yet."""
    appearances: dict[str, list[Appearance]] = defaultdict(list)
    for event in events:
        for team in event.teams:
            for name in who(team):
                appearances[name].append(
                    Appearance(event.slug, team.points, team.status, team.total, team.big_fish, team.place)
                )
    for event in to_come:
        for team in event.teams:
            for name in who(team):
                appearances.setdefault(name, [])
    order = {event.slug: number for number, event in enumerate(events)}
    return [
        replace(
            row,
            counted=tuple(sorted(row.counted, key=lambda one: order[one.event])),
            dropped=tuple(sorted(row.dropped, key=lambda one: order[one.event])),
        )
        for row in season_points(rules, appearances, possible)
    ]


def _angler_names(events: Sequence[EventResults]) -> dict[int, list[str]]:
    """How the anglers of each entry are called: by name, and where two people of one event have it, by team as well."""
    shown: dict[str, str] = {}
    namesakes: set[str] = set()
    for event in events:
        here = Counter(name for team in event.teams for name in set(map(folded_name, team.anglers)))
        namesakes |= {name for name, times in here.items() if times > 1}
        shown |= {folded_name(name): name for team in event.teams for name in team.anglers}
    return {
        team.entry_pk: [
            f"{shown[name]} ({team.name})" if name in namesakes else shown[name]
            for name in dict.fromkeys(map(folded_name, team.anglers))
        ]
        for event in events
        for team in event.teams
    }


def _classes(
    teams: Sequence[SeasonRow], events: Sequence[EventResults], names: Mapping[str, str]
) -> dict[str, list[SeasonRow]]:
    """The youth, and every other class that a team was in at all events it entered."""
    found = {name: _of_class(name, teams, events, names) for name in CLASSES}
    return {name: rows for name, rows in found.items() if rows or name == YOUTH}


def _of_class(
    name: str, teams: Sequence[SeasonRow], events: Sequence[EventResults], names: Mapping[str, str]
) -> list[SeasonRow]:
    """The rows of the teams that were in the class at all events entered, with the places among themselves."""
    outside = {names[team.team] for event in events for team in event.teams if name not in team.classes}
    mine = [row for row in teams if row.team not in outside]
    return [
        replace(
            row,
            place=1 + sum(1 for other in mine if other.place < row.place),
            tied=sum(1 for other in mine if other.place == row.place) > 1,
        )
        for row in mine
    ]


@dataclass(frozen=True)
class TeamDay:
    """A team at one event of its season: what it got, and whether that counts."""

    event: EventResults
    result: TeamResult
    counts: bool


@dataclass(frozen=True)
class TeamSeason:
    """A team's season: its row, and its events, oldest first. ``fished`` are those with a slip."""

    row: SeasonRow
    of: int
    days: Sequence[TeamDay]

    @property
    def latest(self) -> date | None:
        return self.days[-1].event.date if self.days else None


def team_season(found: SeasonStandings, team_pk: int) -> TeamSeason | None:
    """A team's season; None where it has none."""
    name = next((name for name, pk in found.team_pks.items() if pk == team_pk), None)
    row = next((row for row in found.teams if row.team == name), None)
    if row is None:
        return None
    counted = {one.event for one in row.counted}
    days = [
        TeamDay(event, team, event.slug in counted)
        for event in (*found.events, *found.to_come)
        for team in event.teams
        if team.team_pk == team_pk
    ]
    return TeamSeason(row, len(found.teams), days)


def entries_in(season: Season, team_pk: int) -> list[Entry]:
    """A team's entries in the events of the season, oldest first."""
    # By the team's own key: a database has no number for what an address can say, and a relation would be asked for it
    teams = Team.objects.filter(season=season, pk=team_pk)
    found = Entry.objects.filter(event__season=season, event__rehearsal_of=None, team__in=teams)
    return list(found.select_related("event").order_by("event__date", "event_id"))

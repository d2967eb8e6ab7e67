"""A season's events worked out again under another rule sheet: whose places change, prizes and points moved."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import gettext

from weighin.advice.domain.other_sheet import NotReplayed, OtherSheet
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.rules.points import Appearance, SeasonRow, season_points
from weighin.rules.tournament import Outcome, run
from weighin.rules.weights import as_pounds
from weighin.standings.queries.season_rules import season_rules
from weighin.standings.queries.standings import Standings, standings_of, team_of

NOTHING = Decimal(0)


@dataclass(frozen=True)
class Result:
    """What an event gave a team: its place (None: not ranked) and status, total, prize money in all, points."""

    place: int | None
    status: str
    total: Decimal
    prize: Decimal
    points: Decimal


@dataclass(frozen=True)
class TeamMoved:
    """A team of an event before and after."""

    boat: int
    team: str
    before: Result
    after: Result

    @property
    def place_changed(self) -> bool:
        return (self.before.place, self.before.status) != (self.after.place, self.after.status)

    @property
    def moved(self) -> bool:
        """Whether place, prize or points changed; a total alone moves nobody."""
        return self.place_changed or (self.before.prize, self.before.points) != (self.after.prize, self.after.points)


@dataclass(frozen=True)
class EventReplay:
    """An event replayed; ``refused`` says why it was not, and then ``teams`` is empty. Teams stand in the new order."""

    event: Event
    teams: Sequence[TeamMoved]
    refused: str = ""

    @property
    def moved(self) -> list[TeamMoved]:
        """Teams whose place, prize or points changed."""
        return [row for row in self.teams if row.moved]

    @property
    def places_changed(self) -> int:
        return sum(row.place_changed for row in self.teams)

    @property
    def money_moved(self) -> Decimal:
        """The prize money that goes to other teams."""
        return sum((max(NOTHING, row.after.prize - row.before.prize) for row in self.teams), NOTHING)

    @property
    def winner_changed(self) -> bool:
        return _winners(self.teams, "before") != _winners(self.teams, "after")


@dataclass(frozen=True)
class SeasonMoved:
    """A team's season before and after."""

    team: str
    place_before: int
    place_after: int
    points_before: Decimal
    points_after: Decimal


@dataclass(frozen=True)
class SeasonReplay:
    """The events asked for, oldest first, and the season's list where it moved; None of it when one event was asked for."""

    events: Sequence[EventReplay]
    season: Sequence[SeasonMoved] | None

    @property
    def replayed(self) -> list[EventReplay]:
        return [one for one in self.events if not one.refused]

    @property
    def refused(self) -> list[EventReplay]:
        return [one for one in self.events if one.refused]


def replay_season(events: Sequence[Event], sheet: OtherSheet, with_season: bool) -> SeasonReplay:
    """Replay events, oldest first; ``with_season`` adds the season's points, with events that cannot be replayed as they were.

    Raises Faults where a rule cannot be read.
    """
    found = [(standings, *_again(standings, sheet)) for standings in map(standings_of, events)]
    replays = [_compared(standings, after, refused) for standings, after, refused in found]
    if not with_season:
        return SeasonReplay(replays, None)
    before = _season([(standings, standings.outcome) for standings, _, _ in found])
    after = _season([(standings, outcome) for standings, outcome, _ in found])
    earlier = {row.team: row for row in before}
    moved = [
        SeasonMoved(row.team, earlier[row.team].place, row.place, earlier[row.team].points, row.points)
        for row in after
        if (row.place, row.points) != (earlier[row.team].place, earlier[row.team].points)
    ]
    return SeasonReplay(replays, moved)


def replayed(standings: Standings, sheet: OtherSheet) -> EventReplay:
    """One event under another sheet. Raises Faults where a rule cannot be read."""
    return _compared(standings, *_again(standings, sheet))


def _compared(standings: Standings, after: Outcome, refused: str) -> EventReplay:
    return EventReplay(standings.event, [] if refused else _teams(standings, after), refused)


def _again(standings: Standings, sheet: OtherSheet) -> tuple[Outcome, str]:
    """The outcome under the other sheet; or the one there is, and why."""
    event, slips = standings.event, standings.current
    rules = sheet.of(standings.rules)
    try:
        outcome = run(
            rules,
            [team_of(entry) for entry in standings.entries.values()],
            sheet.slips(slips, standings.table, rules),
            standings.table.calendar.fished,
            Decimal(event.entry_fee),
            Decimal(event.added_money),
            sheet.slips(standings.first, standings.table, rules),
        )
    except NotReplayed as refused:
        return standings.outcome, str(refused)
    except Faults as refused:
        said = refused.faults[0].message
        return standings.outcome, gettext("A slip does not hold what this sheet asks for: %(said)s.") % {"said": said}
    if _through_the_cut(outcome) != _through_the_cut(standings.outcome):
        return (
            standings.outcome,
            gettext("Other teams would have gone on after the cut, and what they would have caught nobody knows."),
        )
    return outcome, ""


def _through_the_cut(outcome: Outcome) -> set[int]:
    return {row.result.team.boat for row in outcome.ranked if row.made_cut}


def _teams(standings: Standings, after: Outcome) -> list[TeamMoved]:
    before = _results(standings.outcome)
    return [
        TeamMoved(boat, standings.entries[boat].name, before[boat], result) for boat, result in _results(after).items()
    ]


def _results(outcome: Outcome) -> dict[int, Result]:
    """By boat, in the order of the list."""
    purse = outcome.purse
    return {
        (boat := row.result.team.boat): Result(
            row.place,
            row.result.status,
            row.result.total,
            purse.prizes.get(boat, NOTHING) + purse.pot_prizes.get(boat, NOTHING),
            outcome.points[boat],
        )
        for row in outcome.ranked
    }


def _winners(teams: Sequence[TeamMoved], when: str) -> set[int]:
    return {row.boat for row in teams if getattr(row, when).place == 1}


def _season(outcomes: Sequence[tuple[Standings, Outcome]]) -> list[SeasonRow]:
    """The season's list from the events' outcomes."""
    events = [standings.event for standings, _ in outcomes]
    rules = season_rules(events[0].season, events) if events else None
    teams: dict[str, list[Appearance]] = {}
    names: dict[str, str] = {}
    for standings, outcome in outcomes:
        unit = standings.event.weight_unit
        for row in outcome.ranked:
            entry, big = standings.entries[row.result.team.boat], row.result.big_fish
            names[entry.team.folded_name] = entry.team.name
            teams.setdefault(entry.team.folded_name, []).append(
                Appearance(
                    event=standings.event.name,
                    points=outcome.points[entry.boat],
                    status=row.result.status,
                    total=as_pounds(row.result.total, unit),
                    big_fish=None if big is None else as_pounds(big, unit),
                )
            )
    return season_points(rules, {names[folded]: found for folded, found in teams.items()}) if rules else []

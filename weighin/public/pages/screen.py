"""What the crowd is shown on the big screen and on its phones."""

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from weighin.events.models import Event
from weighin.line.queries import Line, line_of
from weighin.mortality.queries.event import Mortality, event_mortality
from weighin.rules.ranking import Ranked
from weighin.slips.models import WeighSlip
from weighin.standings.pages.state_words import state_said, until_said
from weighin.standings.queries.days import days_of, stage_of
from weighin.standings.queries.embargo import embargo_start
from weighin.standings.queries.protests import result_state
from weighin.standings.queries.shown import standings_shown
from weighin.standings.queries.standings import Standings, official_results, worked_out

ROWS = 6


@dataclass(frozen=True)
class Change:
    """The newest slip that counts: its team's row, and how many teams it moved down."""

    slip: WeighSlip
    row: Ranked
    passed: int


@dataclass(frozen=True)
class Screen:
    """The event as the crowd sees it; with ``held`` everything of weights and fish as it was at that moment."""

    event: Event
    held: datetime | None
    standings: Standings
    change: Change | None
    line: Line
    fish: Mortality
    official: int | None
    stage: str
    state: str
    until: str

    @property
    def pages(self) -> list[list[Ranked]]:
        """The places, so many as a whole screen holds at a time; a page without any before the first."""
        placed = [row for row in self.standings.outcome.ranked if row.place is not None]
        return [placed[first : first + ROWS] for first in range(0, len(placed), ROWS)] or [[]]

    @property
    def leaders(self) -> list[Ranked]:
        """The first six that have a place."""
        return self.pages[0]

    @property
    def big_fish(self) -> Ranked | None:
        """The team with the heaviest fish."""
        found = [row for row in self.standings.outcome.ranked if row.place and row.result.big_fish]
        return max(found, key=lambda row: row.result.big_fish or 0, default=None)

    @property
    def alive(self) -> int:
        """Fish that went on from the scales alive: brought, less dead at the table or at release, less kept."""
        return self.fish.presented - self.fish.dead - self.fish.kept

    @property
    def over(self) -> bool:
        """The result of all days is official: whoever the line still names went home without being weighed."""
        return self.official is not None and not self.stage

    @property
    def at_scales(self) -> int | None:
        """The boat that stands at the scales, else the one whose bag was given first."""
        return None if self.over else next((one.boat for one in self.line.with_bag), None)

    @property
    def then(self) -> list[int]:
        """The next three boats: those with a bag, then those that wait for one; none once it is over."""
        if self.over:
            return []
        return [one.boat for one in (*self.line.with_bag, *self.line.waiting)][1 if self.at_scales else 0 :][:3]


def screen_of(event: Event) -> Screen:
    """The screen of an event; the same number of queries whatever its size."""
    held = embargo_start(event)
    standings = standings_shown(event, held)
    versions = official_results(event)
    state, zone = result_state(event), ZoneInfo(event.time_zone)
    return Screen(
        event=event,
        held=held,
        standings=standings,
        change=_change(standings),
        line=line_of(event, as_of=held),
        fish=event_mortality(event, standings.current, held),
        official=versions[0].version if versions else None,
        stage=versions[0].stage if versions and versions[0].overruled is not None else stage_of(days_of(standings)),
        state=state_said(state, zone),
        until=until_said(state, zone),
    )


def _change(standings: Standings) -> Change | None:
    # A boat without a place (disqualified, or no fish) has nothing to show the crowd
    placed = {row.result.team.boat for row in standings.outcome.ranked if row.place is not None}
    weighed = (slip for slip in standings.counting if slip.entry.boat in placed)
    newest = max(weighed, key=lambda slip: slip.position, default=None)
    if newest is None:
        return None
    found = [slip for slips in standings.slips.values() for slip in slips if slip.pk != newest.pk]
    before = worked_out(standings.event, standings.entries, standings.table, found, standings.first)
    was = {row.result.team.boat: row.place for row in before.outcome.ranked}
    passed, its = 0, None
    for row in standings.outcome.ranked:
        boat = row.result.team.boat
        earlier = was.get(boat)
        if boat == newest.entry.boat:
            its = row
        elif row.place is not None and earlier is not None and row.place > earlier:
            passed += 1
    return Change(newest, its, passed) if its is not None and its.place is not None else None

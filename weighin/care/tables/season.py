"""The care record in rows: a team of the season each, and a team's days."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from weighin.care.queries.season import CareRecord, TeamDay, TeamRecord
from weighin.care.tables.season_words import checks_said, live_range, live_share, time_range, time_said
from weighin.care.tables.words import NAMES
from weighin.events.domain.measured import minutes
from weighin.ui.tables import FigureColumn, NameColumn, RuledTable, TotalColumn
from weighin.ui.templatetags.ui import counted, percent


@dataclass(frozen=True)
class TeamLine:
    """A team in the words and figures of the list; what sorts a column stands beside it."""

    entry_pk: int
    team: str
    events: int
    fish: int
    lost: int
    place: int | None
    shrunken: float | None
    honoured: bool
    share: float
    alive: str
    alive_range: str
    held: str
    held_range: str
    held_sort: float
    in_bag: str
    in_bag_range: str
    in_bag_sort: float
    checks: str


def team_lines(record: CareRecord) -> list[TeamLine]:
    """The teams with fish by shrunken share, then those without."""
    found = record.honours
    standings = {one.team: one for one in found.standings} if found else {}
    lines = []
    for team in record.teams:
        standing = standings.get(team.key)
        lines.append(
            TeamLine(
                entry_pk=team.entry_pk,
                team=team.team,
                events=team.events,
                fish=team.fish,
                lost=team.lost,
                place=standing.place if standing else None,
                shrunken=standing.shrunk.rate if standing else None,
                honoured=standing.honoured if standing else False,
                share=1 - team.rate.rate if team.rate else -1.0,
                alive=live_share(team.rate),
                alive_range=live_range(team.rate),
                held=time_said(team.held, team.held_is_upper_bound),
                held_range=time_range(team.held),
                held_sort=team.held.mean if team.held else -1.0,
                in_bag=time_said(team.in_bag),
                in_bag_range=time_range(team.in_bag),
                in_bag_sort=team.in_bag.mean if team.in_bag else -1.0,
                checks=checks_said(team),
            )
        )
    return sorted(
        lines, key=lambda line: (line.shrunken is None, line.shrunken or 0.0, -line.fish, line.team.casefold())
    )


class TeamsTable(RuledTable):
    """The season's teams."""

    place = FigureColumn()
    team = NameColumn(order_by="team")
    shrunken = TotalColumn(verbose_name="Dead, adjusted for small numbers")
    alive = FigureColumn(verbose_name="Alive by release", order_by="share")
    fish = FigureColumn()
    held = FigureColumn(verbose_name="Held, mean", order_by="held_sort")
    in_bag = FigureColumn(verbose_name="In the bag, mean", order_by="in_bag_sort")
    checks = FigureColumn(verbose_name="Checks", orderable=False)

    caption = "The season’s care record by team"
    named_by = "team"
    look = "dense packs"

    class Meta:
        order_by_field = "sort"
        empty_text = "No team has a slip in this season yet."

    def __init__(self, lines: Iterable[TeamLine], club_slug: str, season_slug: str, **kwargs: Any):
        super().__init__(list(lines), **kwargs)
        self.where = (club_slug, season_slug)

    def render_team(self, record: TeamLine) -> SafeString:
        url = reverse("care:care_team", args=[*self.where, record.entry_pk])
        honour = format_html('<span class="small">{}</span>', "named") if record.honoured else ""
        return format_html('<a href="{}">{}</a>{}', url, record.team, honour)

    def render_shrunken(self, value: float) -> str:
        return percent(value)

    def render_alive(self, record: TeamLine) -> SafeString:
        return _with_range(record.alive, record.alive_range)

    def render_fish(self, record: TeamLine) -> SafeString:
        return _with_range(str(record.fish), counted(record.events, "event"))

    def render_held(self, record: TeamLine) -> SafeString:
        return _with_range(record.held, record.held_range)

    def render_in_bag(self, record: TeamLine) -> SafeString:
        return _with_range(record.in_bag, record.in_bag_range)


class DaysTable(RuledTable):
    """A team's days."""

    event = NameColumn()
    day = FigureColumn()
    fish = FigureColumn()
    lost = FigureColumn(verbose_name="Dead by release")
    held = FigureColumn(empty_values=())
    in_bag = FigureColumn(empty_values=(), verbose_name="In the bag")
    kept = tables.Column(empty_values=(), verbose_name="Kept", attrs={"td": {"class": "small quiet whole"}})
    failed = tables.Column(empty_values=(), verbose_name="Not kept", attrs={"td": {"class": "small whole"}})

    caption = "The team’s days"
    named_by = "event"
    look = "packs"

    class Meta:
        orderable = False
        empty_text = "No day of this team has a slip that counts."

    def __init__(self, team: TeamRecord, **kwargs: Any):
        super().__init__(list(team.days), **kwargs)

    def render_event(self, record: TeamDay) -> SafeString:
        url = reverse("care:notes", args=[record.event.slug])
        date = f"{record.event.date:%B} {record.event.date.day}"
        more = f"{date}; {record.elsewhere} fish in another boat’s livewell" if record.elsewhere else date
        return format_html('<a href="{}">{}</a><span class="small quiet">{}</span>', url, record.event.name, more)

    def render_held(self, record: TeamDay) -> str:
        said = minutes(record.care.minutes_held)
        return f"at most {said}" if said and record.care.held_is_upper_bound else said

    def render_in_bag(self, record: TeamDay) -> str:
        return minutes(record.care.minutes_in_bag)

    def render_kept(self, record: TeamDay) -> str:
        return ", ".join(NAMES[name] for name in record.care.passed)

    def render_failed(self, record: TeamDay) -> str:
        return ", ".join(NAMES[name] for name in record.care.failed)


def _with_range(figure: str, reach: str) -> SafeString:
    return format_html('{}<br><span class="small quiet">{}</span>', figure, reach) if figure else format_html("{}", "")

"""Season standings and a team's season as lists of places: a grid of events, dropped ones in brackets."""

from collections.abc import Sequence
from typing import Any

from django.urls import reverse
from django.utils.html import format_html
from django.utils.translation import gettext, npgettext

from weighin.rules.points import SeasonRow
from weighin.rules.values import plain
from weighin.rules.words.scores import status_in_words
from weighin.seasons.pages import words
from weighin.seasons.queries.standings import SeasonStandings, TeamDay
from weighin.standings.pages.places import all_said
from weighin.ui import figures
from weighin.ui.places import Cell, Column, Places, Row, place_said

WEIGHED = ("no_fish", "disqualified", "in_question")  # a team without a place that may have a slip
FIRST = 12  # rows shown before the rest is folded


def season_places(
    found: SeasonStandings, rows: Sequence[SeasonRow], named: str, anglers: bool = False, linked: bool = False
) -> Places:
    """One list of the season; with ``linked`` a team's name leads to its page."""
    days = [figures.short_day(event.date) for event in found.events]
    race = bool(found.to_come and found.events) and any(row.best_possible is not None for row in rows)
    columns = [
        Column("place", gettext("Place")),
        Column("team", gettext("Angler") if anglers else gettext("Team")),
        Column("total", gettext("Points")),
        *(
            Column("num event", _event_head(day, event.name), day)
            for day, event in zip(days, found.events, strict=True)
        ),
        Column("num", gettext("Big fish, lb"), gettext("Big fish")),
        Column("num", gettext("All events, lb"), gettext("All events")),
    ]
    if race:
        columns += [
            Column("num", gettext("Best possible"), gettext("Best possible")),
            Column("num", gettext("In reach"), gettext("In reach")),
        ]
    return Places(
        caption=gettext("Season standings: %(named)s") % {"named": named},
        columns=columns,
        rows=[Row(_cells(found, row, race, linked)) for row in rows],
        empty=gettext("No team is entered this season. Points appear with the first slip."),
        first=FIRST,
        all_said=_all_anglers_said(len(rows)) if anglers else all_said(len(rows)),
        look="season",
    )


def _all_anglers_said(anglers: int) -> str:
    return npgettext("rows that are folded", "%(n)s angler", "All %(n)s anglers", anglers) % {"n": anglers}


def _event_head(day: str, name: str) -> Cell:
    return format_html('{}<span class="for-ears"> {}</span>', day, name)


def _cells(found: SeasonStandings, row: SeasonRow, race: bool, linked: bool) -> list[Cell]:
    counted = {one.event: plain(one.points) for one in row.counted}
    points = counted | {one.event: f"({plain(one.points)})" for one in row.dropped}
    name: Cell = row.team
    if linked:
        club, season = found.season.club.slug, found.season.slug
        address = reverse("seasons:team", args=[club, season, found.team_pks[row.team]])
        name = format_html('<a href="{}">{}</a>', address, row.team)
    shown: list[Cell] = [
        place_said(row.place, gettext("tied") if row.tied else ""),
        name,
        plain(row.points),
        *(points.get(event.slug, "") for event in found.events),
        words.weight_said(row.big_fish),
        words.weight_said(row.total_weight),
    ]
    return (
        [*shown, "" if row.best_possible is None else plain(row.best_possible), words.reach_word(row.in_reach)]
        if race
        else shown
    )


def team_places(days: Sequence[TeamDay], fished: set[str]) -> Places:
    """A team's events, oldest first: its place in each, what it weighed, and the points, in brackets where dropped."""
    heads = (
        Column("place", gettext("Place")),
        Column("team", gettext("Event")),
        Column("day-of", gettext("Day")),
        Column("num", gettext("Total, lb"), gettext("Total, lb")),
        Column("num", gettext("Big fish, lb"), gettext("Big fish, lb")),
        Column("total", gettext("Points")),
    )
    return Places(
        caption=gettext("The team’s events of the season"),
        columns=heads,
        rows=[Row(_team_cells(day, day.event.slug in fished)) for day in days],
        empty=gettext("No event yet."),
        look="season",
    )


def _team_cells(day: TeamDay, fished: bool) -> list[Cell]:
    result: Any = day.result
    points = plain(result.points)
    return [
        place_said(result.place, "" if result.place else status_in_words(result.status)) if fished else "",
        format_html('<a href="{}">{}</a>', reverse("standings:live", args=[day.event.slug]), day.event.name),
        figures.short_day(day.event.date)
        if fished
        else gettext("%(day)s, to come") % {"day": figures.short_day(day.event.date)},
        words.weight_said(result.total) if fished and (result.place or result.status in WEIGHED) else "",
        words.weight_said(result.big_fish) if fished else "",
        (points if day.counts else f"({points})") if fished else "",
    ]

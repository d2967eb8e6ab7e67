"""What an open club's pages say: who won, what is counted, how many fish died, in the words of the pages' heads too."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext, ngettext

from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.events.queries.states import BEFORE, State
from weighin.mortality.pages.season_words import says
from weighin.public.queries.club_site import Shown, ShownSeason
from weighin.rules.ranking import Ranked
from weighin.rules.weights import as_kilograms, rounded, spoken
from weighin.schedule.pages.calendar import by_time
from weighin.seasons.domain.results import TeamResult
from weighin.seasons.pages.standings import list_context
from weighin.seasons.pages.words import big_fish_said, headline
from weighin.standings.queries.standings import official_stages
from weighin.ui import figures

FIRST_OF_CLASS = 5  # rows shown before the rest is folded


def result_said(one: Shown) -> str:
    """Who won or leads, in the event's unit; empty where nothing is shown."""
    first = one.first
    if not first:
        return ""
    said = {"teams": ", ".join(team.name for team in first), "total": _weight(first[0].total, one.event)}
    if one.is_official:
        return ngettext("%(teams)s won with %(total)s", "%(teams)s won, tied, with %(total)s", len(first)) % said
    return ngettext("%(teams)s leads with %(total)s", "%(teams)s lead, tied, with %(total)s", len(first)) % said


def fish_said(one: Shown) -> str:
    """The event's big fish, with its team."""
    heaviest = one.biggest[0].big_fish if one.biggest else None
    return "" if heaviest is None else f"{_weight(heaviest, one.event)}, {_names(one.biggest)}"


def _weight(pounds: Decimal, event: Event) -> str:
    """Pounds, as seasons count, in the unit of the event."""
    unit = event.weight_unit
    figures = rounded(as_kilograms(pounds, "lb"), 3) if unit == "kg" else pounds
    return spoken(figures, unit)


def _names(teams: list[TeamResult]) -> str:
    return ", ".join(team.name for team in teams)


def rows_of(events: list[Shown]) -> list[dict[str, Any]]:
    """The events as a table shows them, whether a result can be read, and its official version."""
    stages = official_stages([one.event for one in events])
    return [
        {
            "event": one.event,
            "days": one.dated.days,
            "state": one.dated.state,
            "result": result_said(one),
            "big_fish": fish_said(one),
            "official": one.event.pk in stages,
            "stage": stages.get(one.event.pk, ""),
        }
        for one in events
    ]


def club_context(club: Club, calendar: list[Shown], latest: ShownSeason | None) -> dict[str, Any]:
    """What the club's page shows."""
    of = {one.event.pk: one for one in calendar}
    ahead, over = by_time([one.dated for one in calendar])
    return {
        "of": club,
        "club": club,
        "ahead": ahead,
        "next": next((one for one in ahead if not all(map(one.is_off, one.days))), None),
        "over": rows_of([of[one.event.pk] for one in over]),
        "description": club_description(club, [of[one.event.pk] for one in over], [one.event.name for one in ahead]),
    } | (
        {} if latest is None else {"latest": latest.season, "leads": headline(latest.standings), **fish_context(latest)}
    )


def fish_context(shown: ShownSeason) -> dict[str, Any]:
    """The season's dead fish in a sentence, and its big fish; blank before any."""
    return {"mortality": says(shown.fish), "big_fish": big_fish_said(shown.standings)}


def club_description(club: Club, over: list[Shown], ahead: list[str]) -> str:
    """The club in a sentence or two, as search engines and links show it."""
    last = next((one for one in over if one.first), None)
    said = [gettext("Results, standings and calendar of %(club)s.") % {"club": club.name}]
    if last is not None:
        said.append(f"{last.event.name}: {result_said(last)}.")
    if ahead:
        said.append(gettext("Next: %(event)s.") % {"event": ahead[0]})
    return " ".join(said)


def event_description(event: Event, first: Sequence[Ranked], state: State) -> str:
    """The event in a sentence or two, as search engines and links show it; places as the page shows them."""
    said = [
        gettext("%(event)s of %(club)s on %(water)s, %(date)s: %(state)s.")
        % {
            "event": event.name,
            "club": event.club.name,
            "water": event.water.name,
            "date": figures.day(event.date),
            "state": state.words,
        }
    ]
    for row in first:
        total = spoken(row.result.total, event.weight_unit)
        said.append(gettext("First place: %(team)s, %(total)s.") % {"team": row.result.team.name, "total": total})
    return " ".join(said)


def _class_context(shown: ShownSeason, name: str) -> dict[str, Any]:
    """A class below the whole list: its first places, the rest folded."""
    context = list_context(shown.standings, name, public=True)
    return {**context, "places": replace(context["places"], first=FIRST_OF_CLASS)}


def season_context(club: Club, shown: ShownSeason) -> dict[str, Any]:
    """What the season's page shows: standings of teams and of classes, events, big fish, dead fish; no anglers."""
    whole = list_context(shown.standings, public=True)
    classes = [_class_context(shown, name) for name, rows in shown.standings.classes.items() if rows]
    description = [
        gettext("Season %(season)s of %(club)s.") % {"season": shown.season.name, "club": club.name},
        whole["headline"],
    ]
    return {
        **whole,
        **fish_context(shown),
        "of": club,
        "club": club,
        "season": shown.season,
        "classes": classes,
        "events": rows_of(list(shown.events)),
        "planned": all(one.dated.state.stage in BEFORE for one in shown.events),
        "uncounted": shown.uncounted,
        "description": " ".join(description),
    }

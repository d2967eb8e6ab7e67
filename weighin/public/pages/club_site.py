"""What an open club's pages say: who won, what is counted, how many fish died, in the words of the pages' heads too."""

from collections.abc import Sequence
from typing import Any

from django.utils.dateformat import format as date_format
from django.utils.translation import gettext, ngettext

from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.events.queries.states import BEFORE, State
from weighin.mortality.pages.season_words import says
from weighin.public.queries.club_site import Shown, ShownSeason
from weighin.rules.ranking import Ranked
from weighin.rules.weights import show
from weighin.schedule.pages.calendar import by_time
from weighin.seasons.domain.results import TeamResult
from weighin.seasons.pages.standings import list_context
from weighin.seasons.pages.words import big_fish_said, headline, weight_said
from weighin.standings.queries.standings import official_stages


def result_said(one: Shown) -> str:
    """Who won or leads, in pounds as seasons count; empty where nothing is told."""
    first = one.first
    if not first:
        return ""
    said = {"teams": ", ".join(team.name for team in first), "total": weight_said(first[0].total)}
    if one.is_official:
        return ngettext("%(teams)s won with %(total)s lb", "%(teams)s won, tied, with %(total)s lb", len(first)) % said
    return ngettext("%(teams)s leads with %(total)s lb", "%(teams)s lead, tied, with %(total)s lb", len(first)) % said


def fish_said(one: Shown) -> str:
    """The event's big fish, with its team."""
    return f"{weight_said(one.biggest[0].big_fish)} lb, {_names(one.biggest)}" if one.biggest else ""


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
            "date": date_format(event.date, "F j, Y"),
            "state": state.words,
        }
    ]
    for row in first:
        total = f"{show(row.result.total, event.weight_unit)} {event.weight_unit}"
        said.append(gettext("First place: %(team)s, %(total)s.") % {"team": row.result.team.name, "total": total})
    return " ".join(said)


def season_context(club: Club, shown: ShownSeason) -> dict[str, Any]:
    """What the season's page shows: standings of teams and of classes, events, big fish, dead fish; no anglers."""
    whole = list_context(shown.standings, public=True)
    classes = [
        {**list_context(shown.standings, name, public=True)} for name, rows in shown.standings.classes.items() if rows
    ]
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

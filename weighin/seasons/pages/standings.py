"""Season standings as a page shows them: a grid of events, and beside it who leads, who can still win, and the big fish."""

from decimal import Decimal
from typing import Any

from django.utils.translation import gettext, gettext_lazy

from weighin.rules.values import plain
from weighin.seasons.pages import words
from weighin.seasons.pages.places import season_places, team_places
from weighin.seasons.queries.standings import SeasonStandings, TeamSeason
from weighin.standings.queries.standings import stages_of, without_result

TEAMS, ANGLERS = "teams", "anglers"
LIST_NAMES = {TEAMS: gettext_lazy("Teams"), **words.CLASS_NAMES, ANGLERS: gettext_lazy("Anglers")}
MOST_BIG_FISH = 10


def list_context(found: SeasonStandings, which: str = TEAMS, public: bool = False) -> dict[str, Any]:
    """What the page of one list shows: ``teams``, a class, or ``anglers``.

    The ``public`` gets no anglers and no ways to members' pages. Raises KeyError for a list that there is not.
    """
    lists = {**found.classes, TEAMS: found.teams} | ({} if public else {ANGLERS: found.anglers})
    rows = lists[which]
    waiting = without_result(found.events)
    stages = stages_of(found.events)
    return {
        "found": found,
        "which": which,
        "named": LIST_NAMES[which],
        "places": season_places(
            found, rows, str(LIST_NAMES[which]), which == ANGLERS, linked=not public and which != ANGLERS
        ),
        "headline": words.headline(found),
        "counting": words.counting_said(found),
        "ties": words.ties_said(found),
        "race": words.race_said(found),
        "biggest": big_fish(found),
        "waiting": waiting,
        "standing": [
            gettext("%(name)s counts %(stages)s.") % {"name": event.name, "stages": stages[event.pk]}
            for event in found.events
            if event.pk in stages
        ],
        "members": not public,
        "of_class": which in found.classes,
        "lists": [(name, said) for name, said in LIST_NAMES.items() if lists.get(name) or name == TEAMS],
    }


def big_fish(found: SeasonStandings) -> list[tuple[str, str, str]]:
    """The largest fish of the season, one a team and event: weight, team, event."""
    fish: list[tuple[Decimal, str, str]] = [
        (team.big_fish, team.name, event.name)
        for event in found.events
        for team in event.teams
        if team.big_fish is not None
    ]
    fish.sort(key=lambda one: -one[0])
    return [(words.weight_said(weight), team, event) for weight, team, event in fish[:MOST_BIG_FISH]]


def team_context(found: SeasonStandings, team: TeamSeason, public: bool = False) -> dict[str, Any]:
    """What a team's page shows; the ``public`` sees no way to its care record."""
    row = team.row
    fished = {event.slug for event in found.events}
    weighed = next((day.result.entry_pk for day in team.days if day.event.slug in fished), None)
    return {
        "row": row,
        "teams": team.of,
        "place": words.place_said(row),
        "points": plain(row.points),
        "big_fish": words.weight_said(row.big_fish),
        "weight": words.weight_said(row.total_weight),
        "places": team_places(team.days, fished),
        "reach": words.team_reach_said(found, row),
        "care_entry": None if public else weighed,
    }

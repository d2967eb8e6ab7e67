"""Season standings in words."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.rules.points import SeasonRow
from weighin.rules.values import plain
from weighin.rules.weights import rounded
from weighin.seasons.domain.results import YOUTH
from weighin.seasons.models import ClassMark
from weighin.seasons.queries.standings import SeasonStandings
from weighin.standings.queries.standings import without_result
from weighin.ui.nouns import counted

CLASS_NAMES: Mapping[str, Any] = {YOUTH: gettext_lazy("Youth"), **dict(ClassMark.Name.choices)}
MOST_NAMED = 8


def class_named(name: str) -> str:
    """What a class is called."""
    return str(CLASS_NAMES[name])


def reach_word(in_reach: bool | None) -> str:
    """Whether the title is in reach, as a cell says it; empty where it cannot be said."""
    return "" if in_reach is None else gettext("yes") if in_reach else gettext("no")


def counting_said(found: SeasonStandings) -> str:
    """How many events count."""
    most = found.rules.count_best
    if most is None:
        return gettext("All events count. A disqualification cannot be dropped.")
    return ngettext(
        "Each team’s best event counts. A disqualification cannot be dropped.",
        "Each team’s best %(n)s events count. A disqualification cannot be dropped.",
        most,
    ) % {"n": most}


def ties_said(found: SeasonStandings) -> str:
    """What separates equal points."""
    known = {"big_fish": gettext("the season’s largest fish"), "total_weight": gettext("the weight of all events")}
    order = [known[tie] for tie in found.rules.season_ties if tie != "share"]
    if not order:
        return gettext("Equal points share the place.")
    return gettext("Ties go by %(order)s; teams still tied share the place.") % {"order": ", ".join(order)}


def headline(found: SeasonStandings) -> str:
    """Who leads, or has won."""
    leaders = [row.team for row in found.teams if row.place == 1]
    if not found.events or not leaders:
        return gettext("No points yet.")
    if len(leaders) > 1:
        return gettext("%(teams)s lead, tied.") % {"teams": named(leaders)}
    if not found.to_come:
        return gettext("%(team)s leads after the last event.") % {"team": leaders[0]}
    if [row.team for row in found.teams if row.in_reach] == leaders:
        return gettext("%(team)s leads, and nobody else can reach the title.") % {"team": leaders[0]}
    return gettext("%(team)s leads.") % {"team": leaders[0]}


def race_said(found: SeasonStandings) -> str:
    """Who can still come to what the leader has, with every event still to come won."""
    if not found.to_come or not found.events or not found.teams:
        return ""
    left = ngettext("%(n)s event is left.", "%(n)s events are left.", len(found.to_come)) % {"n": len(found.to_come)}
    if found.teams[0].in_reach is None:
        return " ".join(
            (
                left,
                gettext(
                    "Who can still win the title cannot be worked out: an event left adds points for pounds or the big fish."
                ),
            )
        )
    near = [row for row in found.teams if row.in_reach]
    most = max(row.points for row in found.teams)
    return " ".join(
        (
            left,
            ngettext(
                "%(n)s of %(of)s teams can still reach the %(points)s points of first place by winning every event left: %(teams)s.",
                "%(n)s of %(of)s teams can still reach the %(points)s points of first place by winning every event left: %(teams)s.",
                len(near),
            )
            % {"n": len(near), "of": len(found.teams), "points": plain(most), "teams": named([r.team for r in near])},
        )
    )


def provisional_said(found: SeasonStandings) -> str:
    """Which events have no official result yet; empty where all have one."""
    waiting = without_result(found.events)
    if not waiting:
        return ""
    return ngettext(
        "Provisional: %(n)s of %(of)s has no official result yet: %(events)s.",
        "Provisional: %(n)s of %(of)s have no official result yet: %(events)s.",
        len(waiting),
    ) % {"n": len(waiting), "of": counted(len(found.events), "event"), "events": named([one.name for one in waiting])}


def big_fish_said(found: SeasonStandings) -> str:
    """The season's largest fish, with its team and event; empty before one."""
    largest = max((row.big_fish for row in found.teams if row.big_fish is not None), default=None)
    if largest is None:
        return ""
    whose = [
        gettext("%(team)s, %(event)s") % {"team": team.name, "event": event.name}
        for event in found.events
        for team in event.teams
        if team.big_fish == largest
    ]
    return gettext("Big fish of the year: %(weight)s lb, %(whose)s.") % {
        "weight": weight_said(largest),
        "whose": named(whose, "; "),
    }


def weight_said(weight: Decimal | None) -> str:
    """Pounds with two decimals; empty where there is none."""
    return "" if weight is None else f"{rounded(weight)}"


def named(teams: Sequence[str], between: str = ", ") -> str:
    """The names, the first few of many."""
    if len(teams) <= MOST_NAMED:
        return between.join(teams)
    more = len(teams) - MOST_NAMED
    return ngettext("%(names)s and %(n)s more", "%(names)s and %(n)s more", more) % {
        "names": between.join(teams[:MOST_NAMED]),
        "n": more,
    }


def place_said(row: SeasonRow) -> str:
    """The place, with the word where it is tied."""
    return gettext("%(place)s, tied") % {"place": row.place} if row.tied else str(row.place)


def team_reach_said(found: SeasonStandings, row: SeasonRow) -> str:
    """Whether one team can still come to the title; empty where nothing is to come or it cannot be said."""
    if not found.to_come or row.in_reach is None or row.best_possible is None:
        return ""
    said = {"best": plain(row.best_possible), "most": plain(max(other.points for other in found.teams))}
    if row.in_reach:
        return gettext("Winning every event left, it would have %(best)s points: the title is in reach.") % said
    return (
        gettext("Winning every event left, it would have %(best)s points, less than the %(most)s of first place now.")
        % said
    )

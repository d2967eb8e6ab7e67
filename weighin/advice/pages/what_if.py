"""What the what-if page shows, worked out before the template sees it."""

from decimal import Decimal
from typing import Any

from django.utils.translation import gettext, ngettext

from weighin.advice.forms.what_if import WhatIfForm
from weighin.advice.queries.other_plan import Expected, at_temperature, with_limit, with_practices
from weighin.advice.queries.replay import EventReplay, Result, SeasonMoved, SeasonReplay, TeamMoved, replay_season
from weighin.mortality.domain.words import counted, listed, number
from weighin.mortality.queries.practices import compared, comparisons_said
from weighin.mortality.queries.season import SeasonMortality
from weighin.rules.values import plain
from weighin.rules.weights import show
from weighin.rules.words.scores import status_in_words
from weighin.ui import figures


def what_if(found: SeasonMortality, form: WhatIfForm) -> dict[str, Any]:
    """The context of ``mortality/what_if.html``."""
    context: dict[str, Any] = {"form": form, "season": found.season, "club": found.season.club, "found": found}
    if not form.is_valid():
        return {**context, "title": gettext("Something here cannot be read.")}
    replay = None
    if form.sheet is not None:
        whole = len(form.asked) == len(form.events)
        slipped = [event for event in form.asked if event.slips.exists()]
        replay = replay_season(slipped, form.sheet, with_season=whole)
    expected, practices = _expected(found, form), compared(found)
    return {
        **context,
        "title": title(replay)
        if replay
        else (gettext("Expected, if the rates held.") if form.has_plan else gettext("What if?")),
        "replay": replay,
        "events": [event_rows(one) for one in replay.replayed if one.moved] if replay else [],
        "quiet": [one.event for one in replay.replayed if not one.moved] if replay else [],
        "season_said": season_said(replay) if replay else "",
        "season_rows": [season_row(row) for row in replay.season or ()] if replay else [],
        "expected": expected,
        "practices": with_practices(practices),
        "comparisons": comparisons_said(practices),
    }


def title(replay: SeasonReplay) -> str:
    """What the other sheet would have changed, in a sentence."""
    replayed = replay.replayed
    if not replayed:
        return gettext("None of it can be replayed.") if replay.refused else gettext("No event to replay.")
    places = sum(one.places_changed for one in replayed)
    winners = sum(one.winner_changed for one in replayed)
    money = sum((one.money_moved for one in replayed), Decimal(0))
    if not places and not money and not any(one.moved for one in replayed):
        return gettext("Nobody’s place, prize or points would change.")
    if not winners and not money:
        said = gettext("%(places)s would change, no prize.") if places else gettext("Only points would change.")
    elif not winners:
        said = gettext("%(places)s would change; %(money)s in prizes would go to others.")
    elif len(replayed) > 1:
        said = gettext("%(places)s would change, %(winners)s among them; %(money)s in prizes would go to others.")
    else:
        said = gettext("%(places)s would change, the winner’s among them; %(money)s in prizes would go to others.")
    return said % {
        "places": counted(places, "place"),
        "winners": counted(winners, "winner"),
        "money": figures.money(money),
    }


def season_said(replay: SeasonReplay) -> str:
    """How the season's list would move."""
    if replay.season is None:
        return ""
    kept = ""
    if replay.refused:
        names = listed([one.event.name for one in replay.refused])
        kept = " " + ngettext("%(names)s counts as it was.", "%(names)s count as they were.", len(replay.refused)) % {
            "names": names
        }
    if not replay.season:
        return gettext("Nobody’s place or points in the season would change.") + kept
    places = sum(row.place_before != row.place_after for row in replay.season)
    return (
        gettext("%(season)s of the season’s teams would have other points, %(places)s another place.")
        % {"season": number(len(replay.season)).capitalize(), "places": number(places)}
        + kept
    )


def event_rows(one: EventReplay) -> dict[str, Any]:
    """An event's teams that moved, as written."""
    unit = one.event.weight_unit
    rows = [
        {
            "team": row.team,
            "boat": row.boat,
            "before": place_said(row.before),
            "after": place_said(row.after),
            "place_changed": row.place_changed,
            "total": _arrow(show(row.before.total, unit), show(row.after.total, unit)),
            "prize": _prize(row),
            "points": _arrow(plain(row.before.points), plain(row.after.points)),
        }
        for row in one.moved
    ]
    return {"one": one, "rows": rows, "unit": unit, "still": len(one.teams) - len(one.moved)}


def _prize(row: TeamMoved) -> str:
    return (
        _arrow(figures.money(row.before.prize), figures.money(row.after.prize))
        if row.before.prize or row.after.prize
        else ""
    )


def season_row(row: SeasonMoved) -> dict[str, Any]:
    """A team's season as written."""
    return {
        "team": row.team,
        "before": row.place_before,
        "after": row.place_after,
        "place_changed": row.place_before != row.place_after,
        "points": _arrow(plain(row.points_before), plain(row.points_after)),
    }


def place_said(result: Result) -> str:
    return str(result.place) if result.place is not None else status_in_words(result.status)


def _arrow(before: str, after: str) -> str:
    return before if before == after else f"{before} → {after}"


def _expected(found: SeasonMortality, form: WhatIfForm) -> list[Expected]:
    lake, fewer = form.cleaned_data["lake"], form.cleaned_data["fewer"]
    asked = {event.pk for event in form.asked}
    lines = [line for line in found.fished if line.event.pk in asked]
    expected = []
    if lake is not None:
        warmest = max(lines, key=lambda line: line.lake.mean if line.lake else float("-inf"), default=None)
        if warmest is None:
            expected.append(
                Expected(gettext("Another lake temperature"), gettext("No fish was brought to the scales yet."))
            )
        else:
            expected.append(at_temperature(found, warmest, lake))
    if fewer is not None:
        expected.append(with_limit(found, lines, fewer))
    return expected

"""A result as a text to copy: the finding first, then places, weights and the fish; teams alone, no anglers."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext, ngettext

from weighin.events.models import Event
from weighin.rules.weights import spoken
from weighin.standings.models import OfficialResult, Posting
from weighin.ui import figures
from weighin.ui import places as lists
from weighin.ui.places import Column, Places, place_said

Row = Mapping[str, Any]
MOST_PLACES = 3  # with a certificate; common practice, no source


def press_text(event: Event, result: OfficialResult | Posting) -> str:
    """The frozen result in plain lines."""
    rows = [row for row in result.document["standings"] if row["place"] is not None]
    said = [finding(event, result), _head(event, result), "", *(_line(row, event.weight_unit) for row in rows)]
    return "\n".join([*said, "", *filter(None, (biggest(event, rows), _fish(result.document["standings"])))])


def finding(event: Event, result: OfficialResult | Posting) -> str:
    """Who won, or leads while it is provisional or a day is to come, in one sentence."""
    first = [row for row in result.document["standings"] if row["place"] == 1]
    if not first:
        return gettext("%(event)s: no team has a place.") % {"event": event.name}
    said = {
        "teams": ", ".join(row["team"] for row in first),
        "event": event.name,
        "total": weight(first[0]["total"], event.weight_unit),
    }
    if isinstance(result, OfficialResult) and not result.stage:
        return (
            ngettext(
                "%(teams)s won %(event)s with %(total)s.", "%(teams)s won %(event)s, tied, with %(total)s.", len(first)
            )
            % said
        )
    return (
        ngettext(
            "%(teams)s leads %(event)s with %(total)s.", "%(teams)s lead %(event)s, tied, with %(total)s.", len(first)
        )
        % said
    )


def _head(event: Event, result: OfficialResult | Posting) -> str:
    said = {
        "club": event.club.name,
        "water": event.water.name,
        "date": figures.day(event.date),
        "state": state_of(result),
    }
    return gettext("%(club)s, %(water)s, %(date)s. %(state)s.") % said


def state_of(result: OfficialResult | Posting) -> str:
    """What sort of result it is, with its version."""
    if not isinstance(result, OfficialResult):
        return gettext("Provisional results")
    said = gettext("Official results, version %(version)s") % {"version": result.version}
    return f"{said}, {result.stage}" if result.stage else said


def place_of(row: Row) -> str:
    """The place of a row, with the word where it is tied."""
    return gettext("%(place)s, tied") % {"place": row["place"]} if row["tied"] else str(row["place"])


def weight(figures: str | None, unit: str) -> str:
    """A frozen weight in the event's unit, the unit behind it; empty where there is none."""
    return "" if figures is None else spoken(Decimal(figures), unit)


def _line(row: Row, unit: str) -> str:
    said = {"place": place_of(row), "team": row["team"], "total": weight(row["total"], unit), "n": row["fish"]}
    return (
        ngettext(
            "%(place)s. %(team)s, %(total)s, %(n)s fish", "%(place)s. %(team)s, %(total)s, %(n)s fish", row["fish"]
        )
        % said
    )


def biggest(event: Event, rows: list[Row]) -> str:
    """Who brought the big fish; empty without one."""
    weighed = [row for row in rows if row["big_fish"] is not None]
    most = max((Decimal(row["big_fish"]) for row in weighed), default=None)
    if most is None:
        return ""
    teams = ", ".join(row["team"] for row in weighed if Decimal(row["big_fish"]) == most)
    return gettext("Big fish: %(teams)s, %(weight)s.") % {
        "teams": teams,
        "weight": spoken(most, event.weight_unit),
    }


def _fish(rows: list[Row]) -> str:
    fish = sum(row["fish"] for row in rows)
    if not fish:
        return ""
    alive = sum(row["alive"] for row in rows)
    return ngettext(
        "Fish: %(alive)s of %(fish)s weighed was alive at the scales.",
        "Fish: %(alive)s of %(fish)s weighed were alive at the scales.",
        alive,
    ) % {"alive": f"{alive:,}", "fish": f"{fish:,}"}


def placed(event: Event, result: OfficialResult | Posting) -> Places:
    """The rows with a place: place, team, big fish, total."""
    unit = event.weight_unit
    rows = [
        lists.Row(
            [
                place_said(row["place"], gettext("tied") if row["tied"] else ""),
                row["team"],
                weight(row["big_fish"], unit),
                weight(row["total"], unit),
            ]
        )
        for row in result.document["standings"]
        if row["place"] is not None
    ]
    columns = (
        Column("place", gettext("Place")),
        Column("team", gettext("Team")),
        Column("num", gettext("Big fish"), gettext("Big fish")),
        Column("total", gettext("Total")),
    )
    return Places(gettext("Places"), columns, rows, gettext("No team has a place."))


def certificates_of(event: Event, result: OfficialResult | Posting) -> list[dict[str, str]]:
    """What each certificate says: for what, to whom, with which weight. First the places, then the big fish."""
    rows, unit = result.document["standings"], event.weight_unit
    found = [
        {
            "for": gettext("Place %(place)s") % {"place": place_of(row)},
            "team": row["team"],
            "weight": weight(row["total"], unit),
        }
        for row in rows
        if row["place"] is not None and row["place"] <= MOST_PLACES
    ]
    most = max((Decimal(row["big_fish"]) for row in rows if row["big_fish"] is not None), default=None)
    return found + [
        {"for": gettext("Big fish"), "team": row["team"], "weight": weight(row["big_fish"], unit)}
        for row in rows
        if row["big_fish"] is not None and Decimal(row["big_fish"]) == most
    ]

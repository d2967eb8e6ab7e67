"""A small world to test pages in: an event brought in from a workbook, and people in every role.

``event()`` is the one builder of an event. What a test does not say stands in ``plain_event``'s Event sheet: a club, a
season, a water, pounds, 6:00 to 15:00 in Chicago.
"""

import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from django.test import Client
from second_reading.plain_event import plain_event
from second_reading.workbook import write

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.clubs.models import Club, Membership, Season, Water
from weighin.events.access import find
from weighin.events.models import Event, EventDay, RuleSheet
from weighin.rules.rulebook import defaults
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.services import keep_event

Row = dict[str, str]
Rows = list[Row]
Sheets = dict[str, Rows]
Words = Mapping[str, str]


def event_of(sheets: Sheets) -> Event:
    """Bring an event in from sheets of texts."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "event.xlsx"
        write(sheets, file)
        plan, report = read_workbook(file)
    assert plan is not None, report.faults
    event = find(keep_event(plan, "test").slug)
    assert event is not None
    return event


def keyed(values: Words) -> Rows:
    """The rows of an Event or Rules sheet; what is empty is left out."""
    return [{"key": key, "value": value} for key, value in values.items() if value]


def pairs(count: int, called: str = "Pair", angler: str = "Angler", **more: str) -> Rows:
    """The rows of so many boats with one angler each; ``more`` stands in every one."""
    return [{"boat": str(n), "team": f"{called} {n}", "angler_1": f"{angler} {n}", **more} for n in range(1, count + 1)]


def slip(**values: str) -> Row:
    """Seven live fish of boat 1 on day 1, or whatever ``values`` say."""
    return {
        "day": "1", "boat": "1", "fish": "7", "alive": "7", "dead": "0", "gross": "8.50", "official": "R. Quill", **values,
    }  # fmt: skip


def sheets(
    name: str = "Open table",
    teams: int | Rows = 4,
    slips: Iterable[Row] = (),
    *,
    days: int = 1,
    rules: Words | None = None,
    more: Mapping[str, Rows] | None = None,
    **keys: str,
) -> Sheets:
    """The workbook of an event on 20 June 2026 whose scales are open: boats of no flight, and what is said.

    ``rules`` are those that differ from the defaults, ``keys`` those of the Event sheet, ``more`` further sheets.
    """
    if isinstance(teams, int):
        teams = pairs(teams, f"{name} pair", f"{name} angler")
    head = {row["key"]: row["value"] for row in plain_event()["Event"]}
    head |= {"event": name, "days": str(days), "date": "2026-06-20"} | keys
    return {"Event": keyed(head), "Rules": keyed(rules or {}), "Teams": teams, "Slips": list(slips), **(more or {})}


def event(*said: Any, **more: Any) -> Event:
    """The event of such ``sheets``."""
    return event_of(sheets(*said, **more))


def plain_sheets(*, without: Iterable[str] = (), unit: str = "lb", **keys: str) -> Sheets:
    """The plain event of five boats and three days, with other Event keys and ``without`` the rows of some sheets."""
    found = plain_event(unit)
    for row in found["Event"]:
        row["value"] = keys.get(row["key"], row["value"])
    return found | {name: [] for name in without}


def plain(name: str = "Plain event", **keys: str) -> Event:
    """The plain event, under another name or with other Event keys."""
    return event_of(plain_sheets(event=name, **keys))


def large(boats: int, name: str = "Large") -> Event:
    """One day with ``boats`` boats, a slip and a care note each."""
    return event(
        name,
        pairs(boats, f"{name} pair", f"{name} angler", paid="yes"),
        [
            {"day": "1", "boat": str(n), "fish": "7", "alive": "6", "dead": "1", "gross": f"{5 + n / 100:.2f}", "weighed": "15:10"}
            for n in range(1, boats + 1)
        ],
        more={"Fish care": [{"day": "1", "boat": str(n), "pump_ok": "yes"} for n in range(1, boats + 1)]},
    )  # fmt: skip


def club(name: str = "Alder Crappie Club", slug: str = "alder") -> Club:
    """A club with nothing in it."""
    return Club.objects.create(name=name, slug=slug)


def season(name: str = "2026", of: Club | None = None) -> Season:
    """A season, of a club of its own when none is given."""
    return Season.objects.create(club=of or club(), name=name, slug=name)


def bare_event(name: str = "Pairs", season_of: Season | None = None, **fields: Any) -> Event:
    """An event of one day as its rows alone, which nothing has touched yet: no team, revision 0."""
    where = season_of or season()
    water, _ = Water.objects.get_or_create(club=where.club, name="Quill Reservoir")
    said = {"date": "2026-06-20", "weight_unit": "lb", "slug": name.lower(), **fields}
    found = Event.objects.create(season=where, water=water, name=name, **said)
    EventDay.objects.create(event=found, number=1, date=said["date"])
    RuleSheet.objects.create(event=found, written=defaults("lb").written())
    return found


def member(club: Club, role: str = Role.DIRECTOR, username: str = "") -> Client:
    """Somebody signed in who has ``role`` in the club."""
    user = User.objects.create_user(username or f"{role}-{User.objects.count()}", password="a pass phrase")
    Membership.objects.create(user=user, club=club, role=role)
    return signed_in(user)


def stranger() -> Client:
    """Somebody signed in who is a director, but of another club."""
    club = Club.objects.create(name=f"Far Bank {Club.objects.count()}", slug=f"far-bank-{Club.objects.count()}")
    return member(club)


def signed_in(user: User) -> Client:
    client = Client()
    client.force_login(user)
    return client

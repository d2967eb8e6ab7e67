"""A small world to test pages in: an event brought in from a workbook, and people in every role."""

import tempfile
from pathlib import Path

from django.test import Client
from second_reading.plain_event import plain_event
from second_reading.workbook import write

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.clubs.models import Club, Membership
from weighin.events.access import find
from weighin.events.models import Event
from weighin.operations.parsing.workbook.reading import read_workbook
from weighin.operations.services.event_import import keep_event

Sheets = dict[str, list[dict[str, str]]]


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


def plain(name: str = "Plain event", **keys: str) -> Event:
    """The plain event of five boats and three days, under another name or with other Event keys."""
    sheets = plain_event()
    for row in sheets["Event"]:
        row["value"] = {"event": name, **keys}.get(row["key"], row["value"])
    return event_of(sheets)


def large(boats: int, name: str = "Large") -> Event:
    """One day with ``boats`` boats, a slip and a care note each."""
    sheets = plain_event()
    values = {"event": name, "days": "1", "date": "2026-06-20"}
    sheets["Event"] = [{**row, "value": values.get(row["key"], row["value"])} for row in sheets["Event"]]
    for gone in ("Days", "Flights", "Tanks", "Holding"):
        sheets[gone] = []
    sheets["Rules"] = []
    sheets["Teams"] = [
        {"boat": str(n), "team": f"{name} pair {n}", "angler_1": f"{name} angler {n}", "paid": "yes"}
        for n in range(1, boats + 1)
    ]
    sheets["Slips"] = [
        {"day": "1", "boat": str(n), "fish": "7", "alive": "6", "dead": "1", "gross": f"{5 + n / 100:.2f}", "weighed": "15:10"}
        for n in range(1, boats + 1)
    ]  # fmt: skip
    sheets["Fish care"] = [{"day": "1", "boat": str(n), "pump_ok": "yes"} for n in range(1, boats + 1)]
    return event_of(sheets)


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

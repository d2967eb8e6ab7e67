"""Teams on their way out: the same list comes in again, contacts only when asked for, a sheet to sign in, a template."""

import csv
import io
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import call_command
from openpyxl import load_workbook

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.reports.files.teams import template_file
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Contact, Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import enter_teams

pytestmark = pytest.mark.django_db
ROWS = [
    EntryValues(7, "=Alder & Birch", ("Ann Alder", "Bob Birch"), youth=True, flight_name="A", paid=True),
    EntryValues(None, "Cedar", ("Cy Cedar",), big_fish_pot=True, status="withdrawn", note="two\nlines"),
]
REACHED = [ContactValues("+1 555 0171", "Kay, 555-0172", "ann@example.org"), ContactValues()]


def made(name: str, slug: str) -> Event:
    season = world.season(of=world.club(name, slug))
    found = world.bare_event(name, season)
    found.flights.create(name="A", due_time="15:00")
    return found


@pytest.fixture
def event() -> Event:
    found = made("One", "one")
    enter_teams(found, ROWS, "mara", REACHED)
    return found


def said(event: Event) -> list[Any]:
    names = ("number", "boat", "name", "youth", "flight_name", "paid", "big_fish_pot", "status", "note")
    contacts = ("contact__phone", "contact__emergency", "contact__email")
    entries = Entry.everyone.filter(event=event).order_by("number")
    anglers = [[angler.name for angler in entry.anglers.all()] for entry in entries]
    return [*entries.values_list(*names, *contacts), *anglers]


@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_what_goes_out_comes_in_again(form: str, event: Event, tmp_path: Path) -> None:
    file = tmp_path / f"teams.{form}"
    call_command("export_teams", event.slug, "--format", form, "--contacts", "--out", str(file), stderr=StringIO())
    other = made("Two", "two")
    call_command("import_teams", other.slug, str(file), stderr=StringIO())
    assert said(other) == said(event)


def test_contacts_only_when_they_are_asked_for(event: Event) -> None:
    out = StringIO()
    call_command("export_teams", event.slug, "--format", "csv", stdout=out)
    assert "555-0172" not in out.getvalue() and "ann@example.org" not in out.getvalue()
    heads = next(csv.reader(io.StringIO(out.getvalue().lstrip("\ufeff"))))
    assert heads == [
        "boat", "team", "angler 1", "angler 2", "angler 3", "paid", "big fish", "flight", "youth", "status", "note",
    ]  # fmt: skip
    for role, status in ((Role.DIRECTOR, 200), (Role.DESK_OFFICIAL, 200), (Role.WEIGH_OFFICIAL, 403)):
        client = world.member(event.club, role)
        plain = client.get(f"/events/{event.slug}/teams/files/csv")
        assert plain.status_code == 200 and b"555-0172" not in plain.content
        asked = client.get(f"/events/{event.slug}/teams/files/csv?contacts=yes")
        assert asked.status_code == status and (b"555-0172" in asked.content) == (status == 200)


def test_the_sheet_to_sign_in_on_has_who_fishes(event: Event) -> None:
    client = world.member(event.club)
    (head, row) = csv.reader(
        io.StringIO(client.get(f"/events/{event.slug}/teams/sign-in/csv").content.decode("utf-8-sig"))
    )
    assert head[-1] == "Signature" and row[:3] == ["7", "'=Alder & Birch", "Ann Alder, Bob Birch"]
    book = load_workbook(io.BytesIO(client.get(f"/events/{event.slug}/teams/files/xlsx").content))
    assert book.sheetnames == ["Teams", "Sign-in sheet"]


def test_the_template_has_choices_and_notes_and_its_example_is_left_out(event: Event, tmp_path: Path) -> None:
    content = template_file(event)
    book = load_workbook(io.BytesIO(content))
    page = book["Teams"]
    lists = {one.formula1 for one in page.data_validations.dataValidation if one.type == "list"}
    assert lists == {'"yes,no"', '"A"', '"entered,withdrawn,absent,disqualified"'}
    assert all(one.prompt for one in page.data_validations.dataValidation)
    page.append([12, "Birches", "Bo Birch"])
    file = tmp_path / "filled.xlsx"
    book.save(file)
    other = made("Two", "two")
    call_command("import_teams", other.slug, str(file), stderr=StringIO())
    assert list(Entry.everyone.filter(event=other).values_list("boat", "name")) == [(12, "Birches")]
    assert not Contact.objects.filter(entry__event=other).exists()
    client = world.member(event.club, Role.DESK_OFFICIAL)
    assert client.get(f"/events/{event.slug}/teams/template.xlsx").content[:2] == b"PK"

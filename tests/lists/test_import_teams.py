"""The command that brings a list of teams in: all or nothing, what it says as JSON, and how long 5,000 teams take."""

import json
import time
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import call_command
from lists.written import bytes_of

from weighin.events.models import Event
from weighin.roster.models import Angler, Contact, Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import enter_team


@pytest.fixture
def event(db: None) -> Event:
    return world.event("Lists", 1, [], entry_fee="120")


def command(event: Event, folder: Path, text: str, *said: str) -> tuple[int, dict[str, Any], str]:
    file = folder / "list.csv"
    file.write_text(text, encoding="utf-8")
    out, err, code = StringIO(), StringIO(), 0
    try:
        call_command("import_teams", event.slug, str(file), "--json", *said, stdout=out, stderr=err)
    except SystemExit as stopped:
        code = int(str(stopped.code))
    return code, json.loads(out.getvalue()), err.getvalue()


def test_the_command_brings_all_of_it_in_or_nothing(event: Event, tmp_path: Path) -> None:
    head = "#,Team Name,Names,Phone,Emergency Contact,E-mail,Paid?,Pot,Notes"
    text = f"{head}\n7,Alders,Ann Alder & Al Alder,555-0171,Kay 555-0172,a@example.org,$120,,asked for dock 3\n,,Bob Birch,,,,,,\n"
    code, said, _ = command(event, tmp_path, text, "--check")
    assert code == 0 and len(said["rows"]) == 2 and Entry.everyone.filter(event=event).count() == 1
    assert said["rows"][0] == {
        "row": 2, "boat": 7, "team": "Alders", "anglers": ["Ann Alder", "Al Alder"], "phone": "555-0171",
        "emergency": "Kay 555-0172", "email": "a@example.org", "paid": True, "big_fish_pot": False, "flight": None,
        "youth": None, "status": "entered", "note": "asked for dock 3",
    }  # fmt: skip
    assert set(said) == {"rows", "skipped", "unknown", "warnings", "faults"}
    code, said, _ = command(event, tmp_path, f"{text}7,C,Cy,,,,,,\n")
    assert code == 1 and Entry.everyone.filter(event=event).count() == 1
    assert said["faults"][0] | {"message": ""} == {"row": 4, "column": "#", "code": "duplicate_boat", "message": ""}
    code, said, words = command(event, tmp_path, text)
    assert code == 0 and "2 teams imported." in words
    alders = event.entries.get(boat=7)
    assert alders.paid and alders.note == "asked for dock 3"
    contact = Contact.objects.get()
    assert (contact.entry, contact.phone, contact.email) == (alders, "555-0171", "a@example.org")
    assert Entry.everyone.get(boat=None).name == "Birch"
    code, said, _ = command(event, tmp_path, text)
    assert code == 1 and {one["code"] for one in said["faults"]} == {
        "duplicate_boat",
        "duplicate_team",
        "duplicate_angler",
    }


def test_namesakes_come_in_by_the_command(event: Event, tmp_path: Path) -> None:
    enter_team(event, EntryValues(5, "Alders", ("Ann Alder",)), "mara")
    text = "Team,Angler 1\nOthers,ann alder\n"
    assert command(event, tmp_path, text)[0] == 1
    code, said, _ = command(event, tmp_path, text, "--namesakes")
    assert code == 0 and said["warnings"][0]["code"] == "duplicate_angler"
    assert Angler.objects.filter(name__iexact="ann alder").count() == 2


def test_a_map_and_a_file_that_is_not_there(event: Event, tmp_path: Path) -> None:
    code, said, _ = command(event, tmp_path, "Hull,Crew\n9,Ann\n", "--map", "boat=Hull,anglers=Crew")
    assert code == 0 and said["rows"][0]["boat"] == 9
    with pytest.raises(SystemExit):
        call_command("import_teams", event.slug, str(tmp_path / "no.csv"), stderr=StringIO())


@pytest.mark.bench
def test_5000_rows_come_in_within_10_s(event: Event, tmp_path: Path) -> None:
    rows = [["Boat", "Team", "Angler 1", "Angler 2", "Phone", "Emergency", "Email", "Paid", "Notes"]]
    rows += [
        [
            str(n),
            f"Team {n}",
            f"First {n}",
            f"Second {n}",
            f"555-{n:04}",
            f"Kin {n}",
            f"a{n}@example.org",
            "$120",
            "dock",
        ]
        for n in range(2, 5002)
    ]
    file = tmp_path / "list.xlsx"
    file.write_bytes(bytes_of(rows))
    took = time.perf_counter()
    call_command("import_teams", event.slug, str(file), stderr=StringIO())
    took = time.perf_counter() - took
    assert event.entries.count() == 5001
    print(f"5,000 teams came in within {took:.1f} s")
    assert took <= 10


def test_a_team_that_cannot_be_read_gets_no_name_in_its_place(event: Event, tmp_path: Path) -> None:
    """A word that mixes Latin and Greek letters; a blank cell beside it does get one."""
    code, said, _ = command(event, tmp_path, "Team,Angler\n\u03a9mega,Ann Alder\n,Bob Birch\n")
    assert code == 1 and [one["team"] for one in said["rows"]] == [None, "Birch"]
    assert [(one["row"], one["code"]) for one in said["faults"]] == [(2, "unreadable")]
    assert [(one["row"], one["code"]) for one in said["warnings"]] == [(3, "team_made")]

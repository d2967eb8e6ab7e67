"""Depth of catch and culled fish on the care note: written, shown, told of as the rule sheet has it, out and in again."""

import re
from html import unescape
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse
from openpyxl import load_workbook
from second_reading.plain_event import plain_event
from second_reading.workbook import write

from weighin.accounts.domain.roles import Role
from weighin.care.models import CareNote
from weighin.care.services.notes import write_care_note
from weighin.events.access import find
from weighin.events.models import Event
from weighin.mortality.queries.event import event_mortality
from weighin.reports.writers.event_workbook import write_event_workbook
from weighin.rules.faults import Faults
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.services import keep_event


@pytest.fixture
def event(db: None) -> Event:
    return world.event(rules={"deep_fish_kept_ft": "25"})


@pytest.fixture
def carer(event: Event) -> Client:
    return world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")


def said(client: Client, name: str, *args: Any) -> str:
    answer = client.get(reverse(name, args=args))
    assert answer.status_code == 200
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", answer.content.decode())).split())


def test_the_form_writes_both_and_shows_them_again(event: Event, carer: Client) -> None:
    where = reverse("care:note", args=[event.slug, 1, 1])
    asked = carer.get(where).content.decode()
    assert "From 25 ft on the rule sheet has them kept, not released." in asked
    assert "no tournament figure" in asked and "7 to 56 % dead after 96 h" in asked
    assert "cut the line short" in asked and "Rubber or knotless nets" in asked and "weighted cage" in asked
    carer.post(where, {"seen": "", "livewell_temp_unit": "F", "culled": "4", "catch_depth_ft": "27.5"})
    note = CareNote.objects.get()
    assert (note.culled, note.catch_depth_ft) == (4, "27.5")
    reviewer = world.member(event.club, Role.CLUB_REVIEWER, "reed")
    page = said(reviewer, "care:note", event.slug, 1, 1)
    assert "Culled, put back alive 4" in page and "Caught at, deepest 27.5 ft" in page


def test_bad_figures_are_told_and_change_nothing(event: Event) -> None:
    with pytest.raises(Faults) as refused:
        write_care_note(event, {"day": "1", "boat": "1", "culled": "-2", "catch_depth_ft": "deep"}, "lunt")
    assert {fault.field for fault in refused.value.faults} == {"culled", "catch_depth_ft"}
    assert not CareNote.objects.exists()


def test_boats_with_deep_fish_are_named_where_fish_are_let_go(event: Event, carer: Client) -> None:
    write_care_note(event, {"day": "1", "boat": "1", "catch_depth_ft": "25"}, "lunt")
    write_care_note(event, {"day": "1", "boat": "2", "catch_depth_ft": "24.5"}, "lunt")
    for name in ("care:notes", "care:releases"):
        page = said(carer, name, event.slug)
        assert "boat 1" in page and "(25 ft)" in page and "24.5" not in page
    assert "these fish are kept, not released" in said(carer, "care:note", event.slug, 1, 1)
    assert "these fish are kept, not released" not in said(carer, "care:note", event.slug, 1, 2)


def test_without_the_rule_no_boat_is_named(db: None) -> None:
    event = world.event()
    write_care_note(event, {"day": "1", "boat": "1", "catch_depth_ft": "40"}, "lunt")
    member = world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")
    assert "(40 ft)" not in said(member, "care:notes", event.slug)
    assert "By this event’s rule sheet" not in said(member, "care:releases", event.slug)


def test_out_in_a_workbook_and_in_again_and_older_workbooks_still_come_in(db: None, tmp_path: Path) -> None:
    sheets = plain_event("lb")
    older = tmp_path / "older.xlsx"
    write(sheets, older)
    book = load_workbook(older)
    notes = book["Fish care"]
    for name in ("culled", "catch_depth_ft"):
        notes.delete_cols(1 + [cell.value for cell in notes[1]].index(name))
    book.save(older)
    plan, report = read_workbook(older)
    assert plan is not None and not report.faults and not report.warnings
    first = find(keep_event(plan, "test").slug)
    assert first is not None
    care = first.care_notes.select_related("entry").order_by("day", "entry__boat").first()
    assert care is not None and (care.culled, care.catch_depth_ft) == (None, "")
    before = event_mortality(first)
    write_care_note(
        first, {"day": str(care.day), "boat": str(care.entry.boat), "culled": "3", "catch_depth_ft": "18"}, "lunt"
    )
    assert event_mortality(first) == before  # nothing is scored or estimated by them
    held = BytesIO()
    write_event_workbook(first, held)
    rows = list(load_workbook(held)["Fish care"].values)
    named = [dict(zip(rows[0], row, strict=True)) for row in rows[1:]]
    row = next(r for r in named if (str(r["day"]), str(r["boat"])) == (str(care.day), str(care.entry.boat)))
    assert (str(row["culled"]), str(row["catch_depth_ft"])) == ("3", "18")
    sheets["Event"] = [{**r, "value": "Again"} if r["key"] == "event" else r for r in sheets["Event"]]
    sheets["Fish care"] = [{"day": "1", "boat": "1", "culled": "3", "catch_depth_ft": "18"}]
    again = world.event_of(sheets)
    kept = again.care_notes.get()
    assert (kept.culled, kept.catch_depth_ft) == (3, "18")


def test_other_fish_are_not_told_of_as_crappie(db: None) -> None:
    """A walleye event's care note and releases speak of walleye."""
    event = world.event(rules={"species": "walleye"})
    member = world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")
    told = said(member, "care:note", event.slug, 1, 1)
    assert "Vent no fish unless the agency allows it." in told and "crappie" not in told.lower()
    assert "Losses of walleye rose with the depth of catch" in said(member, "care:releases", event.slug)
    assert "white tip below on the tail" in said(member, "care:releases", event.slug)

"""The page that brings a list of teams in: looked at first, columns matched by the person, everything typed kept."""

import re

import pytest
import world
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from lists.written import bytes_of

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.roster.models import Entry

pytestmark = pytest.mark.django_db
GOOD = "Boat\tTeam\tAngler 1\tPhone\n7\tAlders\tAnn Alder\t555-0171\n\tBirches\tBo Birch\t\n"


@pytest.fixture
def event() -> Event:
    return world.bare_event("Lists")


@pytest.fixture
def desk(event: Event) -> Client:
    return world.member(event.club, Role.DESK_OFFICIAL)


def address(event: Event) -> str:
    return f"/events/{event.slug}/teams/import/"


def hidden(page: str) -> dict[str, str]:
    """What the page sends along: its hidden fields and the choices of its columns."""
    found = dict(re.findall(r'<input type="hidden" name="(headings|heading_row|seen)" value="([^"]*)"', page))
    for name, options in re.findall(r'<select form="team-list" id="\w+" name="(column_\d+)">(.*?)</select>', page):
        chosen = re.search(r'value="(\w*)" selected', options)
        found[name] = chosen[1] if chosen else ""
    return found


def test_a_list_is_looked_at_and_then_comes_in(event: Event, desk: Client) -> None:
    page = desk.post(address(event), {"text": GOOD, "act": "look"}).content.decode()
    assert "2 teams can be imported." in page and "Import 2 teams" in page and "555-0171" in page
    assert not Entry.everyone.filter(event=event).exists()
    answer = desk.post(address(event), {"text": GOOD, "act": "enter", **hidden(page)}, follow=True)
    assert "2 teams imported." in answer.content.decode()
    entered = Entry.everyone.filter(event=event).order_by("name")
    assert list(entered.values_list("boat", "name")) == [(7, "Alders"), (None, "Birches")]


def test_a_list_that_was_not_looked_at_does_not_come_in(event: Event, desk: Client) -> None:
    page = desk.post(address(event), {"text": GOOD, "act": "look"}).content.decode()
    other = GOOD.replace("Alders", "Others")
    page = desk.post(address(event), {"text": other, "act": "enter", **hidden(page)}).content.decode()
    assert "2 teams can be imported." in page and not Entry.everyone.filter(event=event).exists()


def test_faults_stand_by_row_and_column_and_everything_typed_is_kept(event: Event, desk: Client) -> None:
    wrong = GOOD.replace("7\t", "seven\t") + "9\tCedars\tCy Cedar\t555-0179\n"
    page = desk.post(address(event), {"text": wrong, "act": "enter", "namesakes": "on"}).content.decode()
    assert "1 fault to correct first." in page and "&#x27;seven&#x27; is no boat number" in page
    assert "Cedars" in page and "555-0179" in page and "seven\tAlders\tAnn Alder" in page
    assert re.search(r'name="namesakes"[^>]*checked', page) and "Enter " not in page
    assert not Entry.everyone.filter(event=event).exists()


def test_a_heading_nobody_knows_is_matched_by_the_person(event: Event, desk: Client) -> None:
    text = "Boat;Crew;Shirt\n7;Ann Alder & Bob Birch;XL\n"
    page = desk.post(address(event), {"text": text, "act": "look"}).content.decode()
    assert "no row of headings was found" in page.lower()
    said = hidden(page) | {"column_1": "anglers"}
    page = desk.post(address(event), {"text": text, "act": "look", **said}).content.decode()
    assert "1 team can be imported." in page and "Alder &amp; Birch" in page
    kept = hidden(page)
    assert kept["column_1"] == "anglers" and kept["column_2"] == ""
    desk.post(address(event), {"text": text, "act": "enter", **kept})
    assert Entry.everyone.get(event=event).anglers.count() == 2


def test_one_of_two_columns_is_left_out_by_the_person(event: Event, desk: Client) -> None:
    text = "Team,Phone,Cell,Angler\nA,1,2,Ann\n"
    page = desk.post(address(event), {"text": text, "act": "look"}).content.decode()
    assert "means the same as" in page
    page = desk.post(
        address(event), {"text": text, "act": "look", **(hidden(page) | {"column_1": ""})}
    ).content.decode()
    assert "1 team can be imported." in page


def test_a_workbook_is_turned_into_the_text_that_goes_on(event: Event, desk: Client) -> None:
    file = SimpleUploadedFile("teams.xlsx", bytes_of([["Quill Open"], [], ["Team", "Angler"], ["A", "Ann\nAlder"]]))
    page = desk.post(address(event), {"file": file, "text": "", "act": "look"}).content.decode()
    assert "1 team can be imported." in page and "Quill Open" in page
    text = 'Quill Open\n\nTeam\tAngler\nA\t"Ann\nAlder"\n'
    desk.post(address(event), {"text": text.replace("\n", "\r\n"), "act": "enter", **hidden(page)})
    assert Entry.everyone.get(event=event).name == "A"


def test_merged_cells_and_formulas_are_not_lost_in_the_text(event: Event, desk: Client) -> None:
    rows = [["Team", "Angler", "Phone"], ["A", "Ann", None], [None, "Bob", None]]
    for content in (bytes_of(rows, "A2:A3"), bytes_of([*rows[:2], ["B", "Bob", "=C9"]])):
        file = SimpleUploadedFile("teams.xlsx", content)
        page = desk.post(address(event), {"file": file, "text": "", "act": "look"}).content.decode()
        assert "Correct the file in your spreadsheet" in page and "Enter " not in page


def test_nothing_and_a_hostile_file_are_said(event: Event, desk: Client) -> None:
    assert "Choose a file or paste a list." in desk.post(address(event), {"text": " "}).content.decode()
    for content in (b"PK\x03\x04broken", b"\x00\x01\x02", b"\xd0\xcf\x11\xe0"):
        file = SimpleUploadedFile("teams.csv", content)
        assert "1 fault to correct first." in desk.post(address(event), {"file": file, "text": ""}).content.decode()


def test_a_cell_is_text_on_the_page(event: Event, desk: Client) -> None:
    page = desk.post(address(event), {"text": "Team,Angler\n<script>x</script>,Ann\n"}).content.decode()
    assert "<script>x" not in page and "&lt;script&gt;x" in page


def test_an_event_that_is_closed_takes_no_list(event: Event, desk: Client) -> None:
    page = desk.post(address(event), {"text": GOOD, "act": "look"}).content.decode()
    Event.objects.filter(pk=event.pk).update(closed_at="2026-06-21T00:00:00Z")
    page = desk.post(address(event), {"text": GOOD, "act": "enter", **hidden(page)}).content.decode()
    assert "closed" in page and "Ann Alder" in page and not Entry.everyone.filter(event=event).exists()


def test_the_list_of_teams_leads_here_and_to_the_files(event: Event, desk: Client) -> None:
    page = desk.get(f"/events/{event.slug}/teams/").content.decode()
    assert address(event) in page
    desk.post(
        address(event),
        {"text": GOOD, "act": "enter", **hidden(desk.post(address(event), {"text": GOOD}).content.decode())},
    )
    page = desk.get(f"/events/{event.slug}/teams/").content.decode()
    for path in ("files/csv", "files/xlsx?contacts=yes", "sign-in/xlsx"):
        assert f"/events/{event.slug}/teams/{path}" in page
    official = world.member(event.club, Role.WEIGH_OFFICIAL).get(f"/events/{event.slug}/teams/").content.decode()
    assert "contacts=yes" not in official and address(event) not in official


def test_a_pot_that_the_event_does_not_have_is_said_before_anything_comes_in(event: Event, desk: Client) -> None:
    text = "Boat\tTeam\tAngler 1\tPot\n7\tAlders\tAnn Alder\tx\n8\tBirches\tBo Birch\t\n"
    said = desk.post(address(event), {"text": text, "act": "look"}).content.decode()
    assert "1 team is marked in the big fish pot, but the rules of this event have none." in said
    event.rule_sheet.written["big_fish_pot_fee"] = "10"
    event.rule_sheet.save()
    assert (
        "rules of this event have none" not in desk.post(address(event), {"text": text, "act": "look"}).content.decode()
    )

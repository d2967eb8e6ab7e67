"""The teams' pages: list, search, entering one after the other, changing and taking out."""

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event, Flight
from weighin.roster.models import Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import add_entries
from weighin.ui.kept import KEEPER

pytestmark = pytest.mark.django_db
SAID = {
    "boat": "1", "name": "Lindell & Amaro", "angler_1": "Mara Lindell", "angler_2": "Ines Amaro", "angler_3": "",
    "flight_name": "A", "status": "entered", "paid": "on", "youth": "yes", "lot": "", "note": "Call 555-0100",
}  # fmt: skip


@pytest.fixture
def event() -> Event:
    found = world.bare_event(entry_fee="60.00")
    Flight.objects.create(event=found, name="A", due_time="14:30")
    return found


@pytest.fixture
def director(event: Event) -> Client:
    return world.member(event.club, username="mara")


TEAMS, NEW = "/events/pairs/teams/", "/events/pairs/teams/new/"


def test_an_empty_roster_says_what_comes_next(director: Client) -> None:
    page = director.get(TEAMS).content.decode()
    assert "No team is entered yet." in page and NEW in page


def test_a_team_is_entered_and_the_form_comes_again(director: Client, event: Event) -> None:
    assert 'value="1"' in director.get(NEW).content.decode()
    answer = director.post(NEW, SAID, follow=True)
    page = answer.content.decode()
    assert "Boat 1, Lindell &amp; Amaro, is added." in page and answer.request["PATH_INFO"] == NEW
    assert answer.context["form"]["boat"].initial == 2
    entry = event.entries.get()
    assert (entry.flight_name, entry.paid, entry.big_fish_pot, entry.youth, entry.note) == (
        "A", True, False, True, "Call 555-0100",
    )  # fmt: skip
    assert HistoryEntry.objects.get().actor == "mara"


def test_faults_stand_at_their_fields_and_nothing_is_lost(director: Client, event: Event) -> None:
    director.post(NEW, SAID)
    wrong = SAID | {"name": "LINDELL & amaro", "angler_1": "ines amaro", "angler_2": "Kit Lund", "note": "tow"}
    answer = director.post(NEW, wrong)
    assert set(answer.context["form"].errors) == {"boat", "name", "angler_1"}
    page = answer.content.decode()
    for said in ("Boat 1 is Lindell &amp; Amaro", "ines amaro fishes in boat 1 already", 'value="Kit Lund"', "tow"):
        assert said.casefold() in page.casefold()
    for field, text in (("boat", "-3"), ("boat", "x"), ("flight_name", "X"), ("angler_1", ""), ("lot", "x")):
        assert field in director.post(NEW, SAID | {field: text}).context["form"].errors, (field, text)
    assert event.entries.count() == 1


def test_a_team_is_changed(director: Client, event: Event) -> None:
    director.post(NEW, SAID)
    where = reverse("roster:team", args=["pairs", 1])
    form = director.get(where).context["form"]
    assert form["angler_2"].initial == "Ines Amaro" and form["youth"].initial == "yes"
    changed = SAID | {"act": "change", "status": "withdrawn", "boat": "4", "youth": ""}
    changed.pop("paid")
    page = director.post(where, changed, follow=True).content.decode()
    assert "Boat 4, Lindell &amp; Amaro, is saved." in page and "withdrawn" in page
    entry = event.entries.get()
    assert (entry.boat, entry.paid, entry.status, entry.youth) == (4, False, "withdrawn", None)
    assert director.get(where).status_code == 404


def test_a_mistake_is_taken_out_and_slips_prevent_it(director: Client, event: Event) -> None:
    director.post(NEW, SAID)
    page = director.post(reverse("roster:team", args=["pairs", 1]), {"act": "remove"}, follow=True).content.decode()
    assert "Boat 1, Lindell &amp; Amaro, is removed." in page and not Entry.objects.exists()
    weighed = world.plain()
    page = world.member(weighed.club).post(reverse("roster:team", args=[weighed.slug, 1]), {"act": "remove"})
    assert "Boat 1 has slips or care notes: set it to withdrawn or disqualified instead." in page.content.decode()


def test_the_headline_counts_money_and_teams(director: Client, event: Event) -> None:
    add_entries(
        event,
        [
            EntryValues(1, "One", ("A",), paid=True, big_fish_pot=True),
            EntryValues(2, "Two", ("B",)),
            EntryValues(3, "Three", ("C",), paid=True, status="withdrawn"),
        ],
        "test",
    )
    page = director.get(TEAMS).content.decode()
    assert "2 of 3 teams fish. One has not paid." in page
    assert "2 entries paid, $120.00 in fees; 1 in the big fish pot." in page
    unpaid = director.get(TEAMS + "?show=unpaid").content.decode()
    assert ">Two " in unpaid and ">One " not in unpaid and ">Three " not in unpaid


@pytest.mark.parametrize(
    ("words", "boats"),
    [
        ("lund", [2]),
        ("LINDELL", [1]),
        ("2", [2]),
        ("a", [1, 2]),
        ("okoro  &", [2]),
        ("nobody", []),
        ("99999999999", []),
    ],
)
def test_a_team_is_found_by_boat_name_angler_or_flight(
    director: Client, event: Event, words: str, boats: list[int]
) -> None:
    add_entries(
        event,
        [
            EntryValues(1, "Lindell & Amaro", ("Mara Lindell", "Ines Amaro"), flight_name="A"),
            EntryValues(2, "Okoro & Teasdale", ("Ade Okoro", "Kit Lund")),
        ],
        "test",
    )
    answer = director.get(TEAMS, {"q": words})
    assert [row.record.boat for row in answer.context["table"].rows] == boats
    if not boats:
        assert f"No boat, team, angler or flight matches &#x27;{words}&#x27;" in answer.content.decode()


@pytest.mark.parametrize(
    ("sort", "boats"), [("boat", [1, 2, 3]), ("-boat", [3, 2, 1]), ("name", [2, 3, 1]), ("paid", [2, 3, 1])]
)
def test_the_list_is_sorted_by_its_heads(director: Client, event: Event, sort: str, boats: list[int]) -> None:
    rows = [EntryValues(1, "C", ("a",), paid=True), EntryValues(2, "A", ("b",)), EntryValues(3, "B", ("c",))]
    add_entries(event, rows, "test")
    answer = director.get(TEAMS, {"sort": sort})
    assert [row.record.boat for row in answer.context["table"].rows] == boats


def test_three_hundred_teams_ask_the_database_as_often_as_one(director: Client, event: Event) -> None:
    rows = [EntryValues(n, f"Team {n}", (f"First {n}", f"Second {n}")) for n in range(1, 301)]
    add_entries(event, rows[:1], "test")
    director.get(TEAMS)
    KEEPER.clear()  # what is asked once a revision is asked both times
    with CaptureQueriesContext(connection) as one:
        director.get(TEAMS)
    add_entries(event, rows[1:], "test")
    KEEPER.clear()
    with CaptureQueriesContext(connection) as three_hundred:
        page = director.get(TEAMS).content.decode()
    assert "300 teams entered" in page and "Page 1 of 6" in page
    assert len(three_hundred) == len(one)


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER])
def test_members_read_the_list_and_only_directors_write_it(event: Event, role: str) -> None:
    add_entries(event, [EntryValues(1, "Lindell & Amaro", ("Mara Lindell",), note="Call 555-0100")], "test")
    client = world.member(event.club, role)
    page = client.get(TEAMS).content.decode()
    assert "Lindell &amp; Amaro" in page and "Change" not in page and NEW not in page and "555-0100" not in page
    for where in (NEW, "/events/pairs/teams/1/"):
        assert client.get(where).status_code == 403
        assert client.post(where, SAID | {"act": "remove"}).status_code == 403
    assert event.entries.count() == 1
    assert world.stranger().get(TEAMS).status_code == 404
    assert Client().get(TEAMS)["Location"] == f"/sign-in/?next={TEAMS}"

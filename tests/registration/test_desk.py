"""The desk: a team entered with what it pays, earlier teams found, duplicates said as typed, late entries with a reason."""

from decimal import Decimal
from typing import Any

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.registration.models import Payment, SidePot
from weighin.registration.services.draws import draw
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Angler, Contact, Entry
from weighin.roster.services.contacts import keep_contact

pytestmark = [pytest.mark.django_db, pytest.mark.database]
TEAM = {"name": "Herons", "anglers": "Ann Alder & Bob Birch", "phone": "555-0171", "emergency": "Kay 555-0172"}


@pytest.fixture
def earlier() -> Event:
    teams = [
        {"boat": "7", "team": "Alder & Birch", "angler_1": "Örn Alder", "angler_2": "Bea Birch"},
        {"boat": "8", "team": "Mallow", "angler_1": "Cy Alderney"},
        {"boat": "9", "team": "Big Alders", "angler_1": "Di Dock"},
    ]
    found = world.event("Spring open", teams, season="2025", date="2025-04-12")
    keep_contact(found.entries.get(boat=7), ContactValues("555-0180", "Lou, 555-0181", "o@example.org"), "test")
    return found


@pytest.fixture
def event(earlier: Event) -> Event:
    found = world.event("Desk day", 3, rules={"big_fish_pot_fee": "10"}, entry_fee="60")
    SidePot.objects.create(event=found, name="First limit", fee=5, wins="first_limit")
    return found


@pytest.fixture
def desk(event: Event) -> Client:
    return world.member(event.club, Role.DESK_OFFICIAL)


def at(event: Event, name: str = "desk") -> str:
    return reverse(f"registration:{name}", args=[event.slug])


def sent(desk: Client, event: Event, **more: Any) -> Any:
    form = desk.get(at(event)).context["form"]
    said = {"key": form.initial["key"], "boat": form.initial["boat"], "means": form.initial["means"], **TEAM, **more}
    return desk.post(at(event), said, follow=True)


def looked(desk: Client, event: Event, here: str = "", **texts: str) -> Any:
    return desk.post(at(event, "desk_look"), {"at": here, **texts}).json()


def test_a_team_is_entered_with_what_it_pays_and_the_next_is_offered_the_same(event: Event, desk: Client) -> None:
    form = desk.get(at(event)).context["form"]
    assert (form.initial["boat"], form.initial["means"], form.fields["paid"].initial) == (4, "cash", ["0"])
    page = sent(desk, event, paid=["0", "2"], means="check").content.decode()
    assert "Boat 4, Herons, is entered.</b> $65.00 received." in page and "/teams/4/" in page
    entry = Entry.objects.get(event=event, boat=4)
    assert [a.name for a in entry.anglers.all()] == ["Ann Alder", "Bob Birch"]
    assert list(Payment.objects.values_list("pot", "amount", "means")) == [
        ("", Decimal(60), "check"),
        ("First limit", Decimal(5), "check"),
    ]
    assert Contact.objects.get(entry=entry).emergency == "Kay 555-0172"
    form = desk.get(at(event)).context["form"]
    assert (form.initial["boat"], form.initial["means"], form.fields["paid"].initial) == (5, "check", ["0", "2"])
    other = world.member(event.club).get(at(event)).context["form"]
    assert other.initial["means"] == "cash"


def test_the_same_form_sent_twice_enters_and_takes_once(event: Event, desk: Client) -> None:
    said = {"key": "0b0f3a52-0000-4000-8000-000000000001", "boat": "4", "means": "cash", "paid": ["0"], **TEAM}
    for _ in range(2):
        assert "kept=4" in desk.post(at(event), said).headers["Location"]
    assert Entry.objects.filter(event=event).count() == 4 and Payment.objects.count() == 1


def test_all_faults_at_once_and_everything_typed_stays(event: Event, desk: Client) -> None:
    page = sent(desk, event, boat="1", anglers="Desk day angler 2 & Ann", means="", paid=["0"], emergency="Kay")
    said = page.content.decode()
    assert "Boat 1 is Desk day pair 1" in said and "Desk day angler 2 fishes in boat 2 already" in said
    assert "Choose how it was paid" in said and 'value="Kay"' in said and 'value="555-0171"' in said
    assert page.context["form"]["paid"].value() == ["0"]
    nothing = desk.post(at(event), {"boat": "x"}).content.decode()
    assert "is no boat number" in nothing
    assert Entry.objects.filter(event=event).count() == 3 and not Payment.objects.exists()


def test_a_blank_name_is_made_of_the_anglers_and_a_blank_boat_waits(event: Event, desk: Client) -> None:
    page = sent(desk, event, name="", boat="").content.decode()
    assert "Alder &amp; Birch, is entered.</b> Nothing paid." in page
    entry = Entry.everyone.get(event=event, boat=None)
    assert entry.name == "Alder & Birch" and not entry.paid
    assert desk.get(at(event)).context["form"].initial["boat"] == ""
    sent(desk, event, name="", boat="", anglers="Al Alder & Bo Birch", paid=["0"])
    assert Entry.everyone.get(event=event, name="Al Alder & Bo Birch").paid


def test_earlier_teams_are_found_by_their_first_letters_and_by_their_anglers(event: Event, desk: Client) -> None:
    found = looked(desk, event, "name", name="alder")["teams"]
    assert [team["name"] for team in found] == ["Alder & Birch", "Big Alders", "Mallow"]
    assert found[0] == {
        "name": "Alder & Birch",
        "anglers": "Örn Alder & Bea Birch",
        "phone": "555-0180",
        "emergency": "Lou, 555-0181",
        "says": "Örn Alder & Bea Birch; Spring open, 2025",
    }
    assert [team["name"] for team in looked(desk, event, "name", name="örn")["teams"]] == ["Alder & Birch"]
    assert looked(desk, event, "anglers", anglers="New One & alder")["anglers"] == ["Cy Alderney", "Örn Alder"]
    assert looked(desk, event, "anglers", anglers="New One & a")["anglers"] == []
    Angler.objects.filter(name="Örn Alder").update(erased_on="2026-01-01", name="Angler 1 of boat 7")
    found = looked(desk, event, "name", name="alder & b")["teams"]
    assert found[0]["anglers"] == "Bea Birch" and looked(desk, event, "name", name="angler 1")["teams"] == []
    sent(desk, event, name="alder & BIRCH")
    assert [team["name"] for team in looked(desk, event, "name", name="ald")["teams"]] == ["Big Alders", "Mallow"]


def test_another_clubs_teams_are_never_offered(event: Event, desk: Client) -> None:
    world.event("Elsewhere", [{"boat": "1", "team": "Alderflies", "angler_1": "Alder Elsewhere"}], club="Other club")
    assert "Alderflies" not in str(looked(desk, event, "name", name="alder"))
    assert looked(desk, event, "anglers", anglers="alder e")["anglers"] == []
    assert "Alderflies" not in desk.get(at(event)).content.decode()


def test_duplicates_are_said_as_they_are_typed_and_blank_lines_are_not(event: Event, desk: Client) -> None:
    assert looked(desk, event, "name", name="Her")["faults"] == {}
    faults = looked(desk, event, boat="2", name="desk day  PAIR 3", anglers="X & Desk day angler 1")["faults"]
    assert set(faults) == {"boat", "name", "anglers"}
    assert faults["boat"].startswith("Boat 2 is Desk day pair 2") and "fishes in boat 1" in faults["anglers"]
    assert looked(desk, event, boat="-1")["faults"].keys() == {"boat"}
    assert looked(desk, event, anglers="Ann Alder & Bob Birch")["made"] == "Alder & Birch"


def test_without_script_a_known_team_is_filled_in_before_it_is_saved(event: Event, desk: Client) -> None:
    page = sent(desk, event, name="alder & birch", anglers="", phone="", emergency="")
    said = page.content.decode()
    assert "Filled in as this team was entered in Spring open." in said and 'value="Örn Alder &amp; Bea Birch"' in said
    assert '<option value="Mallow">' in said and Entry.objects.filter(event=event).count() == 3
    form = page.context["form"]
    assert desk.post(at(event), form.data).status_code == 302
    assert Contact.objects.get(entry__event=event).phone == "555-0180"


def test_a_late_team_needs_a_reason_and_gets_the_next_number(event: Event, desk: Client) -> None:
    draw(event, "launch", "test", "coin heads")
    assert "Entries are closed by a draw." in desk.get(at(event)).content.decode()
    late = sent(desk, event).content.decode()
    assert "Entries are closed since draw 1" in late and "write why" in late
    assert Entry.objects.filter(event=event).count() == 3
    sent(desk, event, late="flat tire on the trailer", paid=["0"])
    assert Entry.objects.get(event=event, boat=4).number == 4
    line = HistoryEntry.objects.get(event_id=event.pk, act="entry.added", details__late="flat tire on the trailer")
    assert line.sentence == "Boat 4, Herons, entered late: flat tire on the trailer"
    sheet = desk.get(reverse("registration:launch_sheet", args=[event.slug])).context["sheet"]
    assert [row["boat"] for row in sheet.rows][-1] == 4 and sheet.rows[-1]["place"] is None


def test_sixty_teams_ask_the_database_as_often_as_one(event: Event, desk: Client) -> None:
    large = world.event("Sixty", world.pairs(60, "Sixty", "S"), entry_fee="60")
    small = world.event("One", 1, entry_fee="60")
    for where in ("desk", "desk_look"):
        counts = []
        for one in (small, large):
            with CaptureQueriesContext(connection) as asked:
                if where == "desk":
                    assert desk.get(at(one)).status_code == 200
                else:
                    assert looked(desk, one, "name", name="alder")["teams"]
            counts.append(len(asked))
        assert counts[0] == counts[1] < 40, where


def test_a_closed_event_says_so(event: Event, desk: Client) -> None:
    Event.objects.filter(pk=event.pk).update(closed_at="2026-06-21T00:00Z")
    page = desk.get(at(event)).content.decode()
    assert "The event is closed." in page and 'name="anglers"' not in page
    assert "is closed" in desk.post(at(event), {"boat": "4", "means": "cash", **TEAM}).content.decode()

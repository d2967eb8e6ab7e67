"""A team's own page: its link, what it owes, its place, and withdrawing."""

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from signup.form import event, send

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.registration.queries.draws import drawn_from
from weighin.registration.services.payments import take_payment
from weighin.roster.domain.kinds import named_in_forms
from weighin.roster.models import Entry
from weighin.roster.services.teams import remove_entry
from weighin.signup.models import SignUp
from weighin.signup.queries.places import places_of
from weighin.signup.services.sign_ups import approve

pytestmark = pytest.mark.django_db


def sign(found: Event, name: str, **said: str) -> str:
    """The link of a team of this name with one angler."""
    answer = send(Client(), found, name=name, angler_1=f"Angler of {name}", angler_2="", **said)
    assert answer.status_code == 302
    return str(answer["Location"])


def pay(found: Event, name: str, amount: str = "120") -> None:
    entry = Entry.everyone.get(event=found, name=name)
    take_payment(
        found, {"entry": named_in_forms(entry), "kind": "entry_fee", "amount": amount, "means": "cash"}, "mara"
    )


def text(link: str) -> str:
    return Client().get(link).content.decode()


def test_the_link_is_not_indexed_stored_or_told_to_other_sites() -> None:
    found = event(approval="at_once")
    link = sign(found, "Heron")
    page = Client().get(link)
    assert "no-store" in page["Cache-Control"] and "noindex" in page["X-Robots-Tag"]
    assert page["Referrer-Policy"] == "no-referrer"
    assert len(link.split("/")[2]) == 43
    asks = Client().get(f"{link}withdraw/")
    assert "no-store" in asks["Cache-Control"] and asks["Referrer-Policy"] == "strict-origin"
    assert Client().get("/sign-up/" + "x" * 43 + "/").status_code == 404
    assert Client().post("/sign-up/" + "x" * 43 + "/withdraw/").status_code == 404


def test_paid_teams_stand_before_unpaid_ones_and_the_next_moves_up() -> None:
    found = event(approval="at_once", places="3")
    links = {name: sign(found, name) for name in ("Ash", "Birch", "Cedar", "Elm")}
    assert [entry.name for entry in places_of(found).waiting] == ["Cedar", "Elm"]
    assert "waiting list: place 2" in text(links["Elm"])
    pay(found, "Elm")
    assert [entry.name for entry in places_of(found).waiting] == ["Birch", "Cedar"]
    assert "waiting list: place 1" in text(links["Birch"]) and "is entered" in text(links["Elm"])
    # Teams that wait are in no draw
    assert [entry.name for entry in drawn_from(found, "boats")] == ["Ash", "Elm"]
    Entry.everyone.filter(name="Cedar").update(boat=9)
    assert [entry.name for entry in drawn_from(found, "launch")] == ["Open water pair 1", "Ash", "Cedar", "Elm"]
    Entry.everyone.filter(name="Cedar").update(boat=None)
    Client().post(f"{links['Ash']}withdraw/")
    assert "is entered" in text(links["Birch"]) and "waiting list: place 1" in text(links["Cedar"])
    desk = world.member(found.club, Role.DESK_OFFICIAL).get(f"/events/{found.slug}/sign-ups/").content.decode()
    assert "waiting list, place 1" in desk and "in, paid" in desk and "3 of 3 places" in desk


def test_approval_shuffles_nobody() -> None:
    found = event(places="1")
    for name in ("Ash", "Birch", "Cedar"):
        sign(found, name)
    for name in ("Cedar", "Ash", "Birch"):
        approve(SignUp.objects.get(name=name), "mara")
    Entry.everyone.filter(event=found).exclude(name__in=("Ash", "Birch", "Cedar")).update(status="withdrawn")
    assert [entry.name for entry in places_of(found).inside] == ["Ash"]
    assert [entry.name for entry in places_of(found).waiting] == ["Birch", "Cedar"]


def test_a_team_sees_what_it_owes_its_boat_and_its_flight() -> None:
    found = event(approval="at_once")
    link = sign(found, "Heron")
    said = text(link)
    assert "$120.00" in said and "not given yet" in said
    pay(found, "Heron")
    Entry.everyone.filter(name="Heron").update(boat=17, flight_name="Dawn")
    said = text(link)
    assert ">17<" in said and "Dawn" in said and "nothing" in said


def test_withdrawn_before_approval_nothing_of_the_people_is_left() -> None:
    found = event()
    link = sign(found, "Heron")
    assert "Withdraw your team" in text(f"{link}withdraw/")
    assert SignUp.objects.get().state == "asked", "looking withdraws nothing"
    assert Client().post(f"{link}withdraw/").status_code == 302
    row = SignUp.objects.get()
    assert (row.state, row.angler_1, row.phone) == ("withdrawn", "", "")
    assert Client().post(f"{link}withdraw/").status_code == 302
    assert "is withdrawn" in text(link)
    assert sign(found, "Heron") != link


def test_who_withdraws_after_paying_is_told_that_the_desk_gives_it_back() -> None:
    found = event(approval="at_once")
    link = sign(found, "Heron")
    pay(found, "Heron")
    assert "ask at the desk" in text(f"{link}withdraw/")
    Client().post(f"{link}withdraw/")
    entry = Entry.everyone.get(name="Heron")
    assert entry.status == "withdrawn" and entry.paid
    assert "The desk refunds your money" in text(link)
    desk = world.member(found.club).get(f"/events/{found.slug}/sign-ups/").content.decode()
    assert "give the money back" in desk


def test_once_the_event_has_begun_the_desk_withdraws() -> None:
    found = event(approval="at_once")
    link = sign(found, "Heron")
    found.event_days.update(date="2020-06-20")
    pay(found, "Heron")
    assert "Withdraw" not in text(link) and "not given yet" in text(link) and "money back" not in text(link)
    answer = Client().post(f"{link}withdraw/")
    assert b"The event has begun" in answer.content
    assert Entry.everyone.get(name="Heron").status == "entered"


def test_an_entry_that_the_desk_took_out_is_said_and_cannot_be_withdrawn() -> None:
    found = event(approval="at_once")
    link = sign(found, "Heron")
    remove_entry(Entry.everyone.get(name="Heron"), "mara")
    assert "not entered anymore" in text(link)
    assert b"is not entered anymore" in Client().post(f"{link}withdraw/").content
    desk = world.member(found.club)
    assert b"Approved, then removed" in desk.get(f"/events/{found.slug}/sign-ups/").content
    assert desk.get(f"/events/{found.slug}/sign-ups/1/").status_code == 200


def test_the_desk_prints_the_link_and_gives_another() -> None:
    found = event()
    link = sign(found, "Heron")
    desk = world.member(found.club, Role.DESK_OFFICIAL)
    where = f"/events/{found.slug}/sign-ups/1/slip/"
    assert link in desk.get(where).content.decode()
    assert desk.post(where).status_code == 302
    assert Client().get(link).status_code == 404
    assert link not in desk.get(where).content.decode()
    assert world.member(found.club, Role.WEIGH_OFFICIAL).get(where).status_code == 403
    assert desk.get(f"/events/{found.slug}/sign-ups/9/").status_code == 404


def test_the_desks_list_asks_as_often_for_many_as_for_one() -> None:
    found = event(approval="at_once", places="2")
    desk = world.member(found.club)
    counts = []
    for names in (("Ash",), ("Birch", "Cedar", "Elm", "Fir", "Hazel")):
        for name in names:
            sign(found, name)
        with CaptureQueriesContext(connection) as asked:
            assert desk.get(f"/events/{found.slug}/sign-ups/").status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1]

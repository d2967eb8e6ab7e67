"""Teams sign up by themselves: the page, its faults, guardians, at once or by hand."""

import pytest
import world
from django.db.models import F
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from signup.form import OPEN, TEAM, YOUTH, address, event, send, stamp

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.events.services.deletion import remove_event
from weighin.registration.services.draws import draw
from weighin.roster.models import Angler, Contact, Entry
from weighin.signup.models import SignUp, SignUpTerms
from weighin.signup.services.sign_ups import approve
from weighin.signup.services.telling import link_of
from weighin.signup.services.terms import set_terms

pytestmark = pytest.mark.django_db


def one() -> SignUp:
    return SignUp.objects.get()


def test_a_planned_event_shows_its_sign_up_and_nothing_else() -> None:
    found = event()
    page = Client().get(address(found))
    assert page.status_code == 200 and len(page.content) < 60_000
    assert b"Open water pair" not in page.content and b"angler 1<" not in page.content
    assert "no-store" in page["Cache-Control"] and "noindex" in page["X-Robots-Tag"]
    for path in ("", "standings/", "rules/"):
        assert Client().get(f"/e/{found.slug}/{path}").status_code == 404


def test_there_is_no_such_page_before_it_was_ever_open() -> None:
    found = world.event()
    assert Client().get(address(found)).status_code == 404
    assert Client().get("/events/no-such-event/sign-up/").status_code == 404
    set_terms(found, {**OPEN, "is_open": "no"}, "mara")
    assert Client().get(address(found)).status_code == 404
    assert world.stranger().get(address(found)).status_code == 404


def test_before_it_opens_strangers_find_nothing_of_an_unpublished_event() -> None:
    found = event(opens="2099-01-01T08:00")
    assert Client().get(address(found)).status_code == 404
    Event.objects.filter(pk=found.pk).update(is_public=True)
    assert b"opens Jan 1, 8:00 AM" in Client().get(address(found)).content


def test_once_open_a_closed_page_says_so_and_takes_nothing() -> None:
    found = event()
    page = Client().get(address(found))
    set_terms(found, {**OPEN, "is_open": "no"}, "mara")
    assert b"is closed" in Client().get(address(found)).content
    assert Client().post(address(found), {"stamp": stamp(page), **TEAM}).status_code == 200
    assert not SignUp.objects.exists()


def test_a_sign_up_waits_for_the_desk_and_the_history_names_nobody() -> None:
    found = event()
    answer = send(Client(), found)
    assert answer.status_code == 302 and answer["Location"].startswith("/sign-up/")
    row = one()
    assert (row.state, row.name, row.angler_2, row.number) == ("asked", "Heron pair", "Bob Birch", 1)
    assert row.token_digest not in answer["Location"]
    line = HistoryEntry.objects.get(act="sign_up.came_in")
    assert line.sentence == "Sign-up 1 came in"
    assert "Alder" not in str(line.details) + line.subject
    page = Client().get(answer["Location"])
    assert b"The club checks it first" in page.content


def test_approved_it_is_an_entry_without_a_number_and_its_contacts_stand_there() -> None:
    found = event()
    send(Client(), found)
    approve(one(), "mara")
    row = one()
    entry = Entry.everyone.get(name="Heron pair")
    assert (row.state, row.entry, entry.waits, entry.status) == ("approved", entry, True, "entered")
    assert [angler.name for angler in entry.anglers.all()] == ["Ann Alder", "Bob Birch"]
    assert Contact.objects.get(entry=entry).phone == "555-0161"
    assert (row.angler_1, row.phone, row.email) == ("", "", "")


def test_at_once_it_is_entered() -> None:
    found = event(approval="at_once")
    page = Client().get(send(Client(), found)["Location"])
    assert Entry.everyone.filter(name="Heron pair", event=found).exists()
    assert b"Your team is entered" in page.content and b"$120.00" in page.content


def test_an_angler_of_another_team_waits_for_the_desk_and_the_stranger_is_not_told() -> None:
    found = event(approval="at_once")
    angler = Angler.objects.get(entry__event=found)
    answer = send(Client(), found, angler_1=angler.name)
    assert answer.status_code == 302
    assert one().state == "asked"
    desk = world.member(found.club, Role.DESK_OFFICIAL)
    where = f"/events/{found.slug}/sign-ups/1/"
    assert f"{angler.name} fishes in boat 1 already" in desk.get(where).content.decode()
    refused = desk.post(where, {"act": "approve"})
    assert b"fishes in boat 1 already" in refused.content and one().state == "asked"


def test_a_team_of_a_name_signs_up_once() -> None:
    found = event()
    send(Client(), found)
    again = send(Client(), found, name=" heron  PAIR", angler_1="Eve", angler_2="Finn")
    assert again.status_code == 200 and b"signed up already" in again.content
    entered = send(Client(), found, name="Open water pair 1", angler_1="Eve", angler_2="Finn")
    assert b"signed up already" in entered.content
    assert SignUp.objects.count() == 1


def test_a_second_press_keeps_nothing_twice_and_leads_to_the_same_page() -> None:
    for approval in ("by_hand", "at_once"):
        found = event(f"Pressed {approval}", approval=approval)
        said = {"stamp": stamp(Client().get(address(found))), **TEAM}
        first, second = (Client().post(address(found), said) for _ in range(2))
        assert first["Location"] == second["Location"]
        assert SignUp.objects.filter(event=found).count() == 1
        other = Client().post(address(found), {**said, "name": "Another"})
        assert other.status_code == 200 and SignUp.objects.filter(event=found).count() == 1


def test_all_faults_at_once_and_everything_typed_kept() -> None:
    found = event()
    wrong = {
        "name": "",
        "angler_1": "Ann Alder",
        "minor_1": "",
        "angler_2": "ann alder",
        "minor_2": "yes",
        "angler_3": "",
        "minor_3": "yes",
        "phone": "none",
        "email": "a@b, c@d",
    }
    said = send(Client(), found, **wrong).content.decode()
    for sentence in (
        "write the team’s name",
        "choose whether this angler is under 18",
        "ann alder stands twice",
        "write the name of a parent or guardian",
        "an age or a guardian is given",
        "Check the consent box",
        "is no phone number",
        "is no e-mail address",
    ):
        assert sentence.casefold() in said.casefold(), sentence
    for typed in ("Ann Alder", "ann alder", "none", "a@b, c@d", "Cleo, 555-0162"):
        assert typed in said, typed
    assert not SignUp.objects.exists()


def test_a_minor_needs_a_guardian_and_the_words_are_kept() -> None:
    found = event()
    assert b"Check the consent box" in send(Client(), found, **{**YOUTH, "consent": ""}).content
    assert b"not the angler" in send(Client(), found, **{**YOUTH, "guardian_2": "dee birch"}).content
    assert b"correct one of the two" in send(Client(), found, guardian_1="Somebody").content
    assert send(Client(), found, **YOUTH).status_code == 302
    row = one()
    assert (row.guardian_2, row.minor_2, row.minor_1) == ("Bob Birch", True, False)
    assert "each angler under 18" in row.consent_words and row.consented_at is not None
    approve(row, "mara")
    desk = world.member(found.club, Role.DIRECTOR).get(f"/events/{found.slug}/sign-ups/1/").content.decode()
    assert "guardian: Bob Birch" in desk and "each angler under 18" in desk


def test_where_nobody_is_asked_for_an_age_there_is_no_such_field() -> None:
    found = event(guardian_below="")
    page = Client().get(address(found)).content
    assert b"guardian" not in page
    assert send(Client(), found).status_code == 302


def test_refused_with_a_reason_nothing_of_the_people_is_left() -> None:
    found = event()
    link = send(Client(), found, **YOUTH)["Location"]
    desk = world.member(found.club, Role.DESK_OFFICIAL)
    where = f"/events/{found.slug}/sign-ups/1/"
    assert b"reason is missing" in desk.post(where, {"act": "refuse", "reason": " "}).content
    assert desk.post(where, {"act": "refuse", "reason": "Members only"}).status_code == 302
    row = one()
    assert (row.state, row.angler_1, row.guardian_2, row.phone, row.consent_words) == ("refused", "", "", "", "")
    assert b"Members only" in Client().get(link).content
    assert b"is decided already (Refused)" in desk.post(where, {"act": "approve"}).content


def test_once_the_boats_are_drawn_it_is_closed() -> None:
    found = event()
    send(Client(), found)
    approve(one(), "mara")
    draw(found, "boats", "mara", "a seed")
    assert b"is closed" in Client().get(address(found)).content


def test_the_names_of_teams_show_only_where_the_director_says_so() -> None:
    found = event()
    assert b"Open water pair 1" not in Client().get(address(found)).content
    set_terms(found, {**OPEN, "show_teams": "yes"}, "mara")
    assert b"Open water pair 1" in Client().get(address(found)).content
    Entry.objects.filter(event=found).update(youth=True)
    assert b"Open water pair 1" not in Client().get(address(found)).content
    send(Client(), found, **YOUTH)
    approve(one(), "mara")
    assert b"Heron pair" not in Client().get(address(found)).content


def test_the_public_page_of_a_published_event_leads_there_while_it_is_open() -> None:
    found = event()
    Event.objects.filter(pk=found.pk).update(is_public=True)
    page = reverse("public:event", args=[found.slug])
    assert address(found).encode() in Client().get(page).content
    set_terms(found, {**OPEN, "is_open": "no"}, "mara")
    assert address(found).encode() not in Client().get(page).content


def test_an_event_that_was_made_by_mistake_goes_with_its_sign_ups() -> None:
    found = event()
    send(Client(), found)
    approve(one(), "mara")
    send(Client(), found, name="Second", angler_1="Eve", angler_2="")
    remove_event(found, found.name, "Made twice", "mara")
    assert not SignUp.objects.exists() and not SignUpTerms.objects.exists()


def test_the_desk_decides_nothing_of_a_closed_event() -> None:
    found = event()
    send(Client(), found)
    Event.objects.filter(pk=found.pk).update(closed_at=timezone.now(), revision=F("revision") + 1)
    desk = world.member(found.club, Role.DESK_OFFICIAL)
    where = f"/events/{found.slug}/sign-ups/1/"
    assert b"is closed" in desk.post(where, {"act": "approve"}).content
    assert b"is closed" in desk.post(where, {"act": "refuse", "reason": "Late"}).content
    assert one().state == "asked"
    assert b"is closed" in Client().get(address(found)).content


def test_the_reason_of_a_refusal_is_one_line_that_can_be_read() -> None:
    found = event()
    send(Client(), found)
    desk = world.member(found.club, Role.DESK_OFFICIAL)
    for why in ("x" * 301, "late\u202e"):
        page = desk.post(f"/events/{found.slug}/sign-ups/1/", {"act": "refuse", "reason": why}).content
        assert b"characters" in page and one().state == "asked"


def test_a_link_in_wrong_hands_is_replaced_also_once_the_event_is_closed() -> None:
    found = event()
    link = send(Client(), found)["Location"]
    Event.objects.filter(pk=found.pk).update(closed_at=timezone.now(), revision=F("revision") + 1)
    desk = world.member(found.club, Role.DESK_OFFICIAL)
    assert desk.post(f"/events/{found.slug}/sign-ups/1/slip/").status_code == 302
    assert Client().get(link).status_code == 404 and Client().get(link_of(one())).status_code == 200


def test_terms_have_faults_and_a_history() -> None:
    found = event()
    director = world.member(found.club)
    where = f"/events/{found.slug}/sign-ups/terms/"
    assert b'value="18"' in director.get(where).content
    said = {**OPEN, "opens": "2027-06-02T10:00", "closes": "2027-06-01T10:00", "places": "0"}
    answer = director.post(where, said).content
    assert b"closes before it opens" in answer or b"places" in answer
    odd = director.post(where, {**OPEN, "opens": "soon"}).content
    assert b"is no date and time" in odd and b'value="soon"' in odd
    assert director.post(where, {**OPEN, "places": "40", "note": "Pay at the shop"}).status_code == 302
    assert HistoryEntry.objects.filter(act="sign_up_terms.changed").exists()
    assert b"Pay at the shop" in Client().get(address(found)).content
    assert world.member(found.club, Role.DESK_OFFICIAL).get(where).status_code == 403


def test_the_desk_is_told_why_a_sign_up_that_was_opened_is_shut() -> None:
    found = event()
    desk = world.member(found.club)
    page = reverse("signup:sign_ups", args=[found.slug])

    def said() -> str:
        return desk.get(page).content.decode()

    assert "Sign-up is open." in said() and "heed" not in said()
    set_terms(found, {**OPEN, "closes": "2020-01-01T08:00"}, "mara")
    assert "Its time is over." in said()
    set_terms(found, OPEN, "mara")
    draw(found, "launch", "mara", "a seed")
    assert "closed by a draw" in said()
    set_terms(found, {**OPEN, "is_open": "no"}, "mara")
    assert "Sign-up is closed." in said() and "heed" not in said()
    set_terms(found, OPEN, "mara")
    found.event_days.update(status="cancelled")
    assert "The event is cancelled." in said()
    Event.objects.filter(pk=found.pk).update(closed_at=timezone.now())
    assert "The event is closed." in said()

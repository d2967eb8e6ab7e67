"""Word to the teams: sent by a person's act, once to each team, and a text to copy where no e-mail goes."""

import uuid
from collections.abc import Iterator
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.core import mail
from django.core.management import call_command
from django.db import connection
from django.test import Client, override_settings
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from slips.table import record

from weighin.audit.models import HistoryEntry
from weighin.checkin.services.notices import move_due, seen_as
from weighin.checkin.services.roll import check_in_now, launch
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.letters.models import Letter
from weighin.letters.services.sending import send_letters
from weighin.operations.pages.words import words_of
from weighin.operations.queries.ledgers import ledger_of
from weighin.operations.services.telling import send_word
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.services.contacts import keep_contact
from weighin.rules.faults import Faults
from weighin.schedule.services.calling_off import cancel_event
from weighin.slips.services.slips import correct_slip
from weighin.standings.services import post_result, publish_result

__all__ = ["clock"]
pytestmark = pytest.mark.django_db
SITE = "https://lake.example"


@pytest.fixture
def with_mail() -> Iterator[None]:
    with override_settings(MAIL_FROM="Alder Club <desk@lake.example>"):
        yield


@pytest.fixture
def event(clock: Clock) -> Event:
    """Four boats: two with an e-mail address, one with a phone alone, one that nothing reaches."""
    clock("2026-06-20T12:00:00-05:00")
    event = world.event()
    for boat, contact in {
        1: ContactValues(phone="555-0101", email="one@lake.example", emergency="555-0191"),
        2: ContactValues(email="two@lake.example"),
        3: ContactValues(phone="555-0103", emergency="555-0193"),
    }.items():
        keep_contact(event.entries.get(boat=boat), contact, "test")
    return event


def page(client: Client, event: Event) -> str:
    return client.get(reverse("operations:words", args=[event.slug])).content.decode()


def press(client: Client, event: Event, about: str, act: str = "send") -> str:
    where = reverse("operations:words", args=[event.slug])
    return client.post(where, {"about": about, "act": act}, follow=True).content.decode()


def abouts(event: Event) -> list[str]:
    event.refresh_from_db()
    return [word.about for word in words_of(event, SITE)]


def sent() -> dict[str, str]:
    """The letters that went out in this round, by address."""
    mail.outbox.clear()
    send_letters()
    return {letter.to[0]: letter.body for letter in mail.outbox}


def moved(event: Event, minutes: str = "30", reason: str = "Thunder") -> Any:
    said = {"seen": seen_as(event, 1), "minutes": minutes, "given_by": "R. Quill", "how": "radio", "reason": reason}
    return move_due(event, 1, said, "test", uuid.uuid4())


@pytest.mark.usefixtures("with_mail")
def test_nothing_goes_by_itself_and_a_result_goes_once_to_each_team(event: Event) -> None:
    director, other = world.member(event.club), world.member(event.club, username="second")
    assert "No message waits." in page(director, event)
    record(event)
    post_result(event, "test")
    (posting,) = abouts(event)
    html = page(director, event)
    assert "Provisional results posted" in html and "Send the e-mail to 2 teams" in html and not Letter.objects.exists()
    publish_result(event, "test")
    assert posting not in abouts(event)
    assert "overtaken" in press(director, event, posting) and not Letter.objects.exists()
    assert "E-mail to 2 teams is on its way." in press(director, event, "result 1")
    for client in (director, other):
        assert "has been told" in press(client, event, "result 1")
    assert "e-mail waits for a network" in page(director, event)
    letters = sent()
    assert set(letters) == {"one@lake.example", "two@lake.example"} and sent() == {}
    one = letters["one@lake.example"]
    assert "Open table: Official results, version 1." in one
    assert "Boat 1, Open table pair 1: place 1, total 8.50 lb." in one
    assert f"http://testserver/results/{event.slug}/official/1/" in one
    assert "pair 2" not in one and "Open table angler" not in one and "555" not in one
    html = page(director, event)
    assert "e-mail sent" in html and "E-mail to 2 teams." in html and "all told" not in html
    assert "Note that 2 teams heard it by phone or in person" in html and "555-0103" in html and "555-0193" not in html
    assert "Noted: 2 teams were told." in press(director, event, "result 1", "said")
    assert "has been told" in press(director, event, "result 1", "said")
    assert "all told" in page(director, event)
    lines = HistoryEntry.objects.filter(event_id=event.pk, act="teams.told")
    assert [line.details["teams"] for line in lines.order_by("id")] == [["1", "2"], ["3", "4"]]
    assert not any("@" in f"{line.sentence}{line.details}" for line in lines)
    assert ledger_of(event).faults == ()


@pytest.mark.usefixtures("with_mail")
def test_a_new_version_says_what_changed_to_each_team_its_own(event: Event) -> None:
    director = world.member(event.club)
    first = record(event)
    record(event, boat="2", gross="7.00")
    publish_result(event, "test")
    press(director, event, "result 1")
    sent()
    correct_slip(first, world.slip(gross="6.00", reason="The wrong bag"), "test")
    publish_result(event, "test", reason="The wrong bag was on the scale")
    (word,) = words_of(Event.objects.get(pk=event.pk), SITE)
    assert word.about == "result 2"
    assert '<span class="label">message</span>' in page(director, event)
    assert "Boat 1, Open table pair 1: place 1 to place 2" in word.text and "Boat 2" in word.text
    assert f"{SITE}/results/{event.slug}/official/2/" in word.text
    press(director, event, "result 2")
    letters = sent()
    assert "Reason for the new version: The wrong bag was on the scale" in letters["two@lake.example"]
    assert "It changes 2 boats." in letters["two@lake.example"]
    assert "Boat 2, Open table pair 2: place 2 to place 1" in letters["two@lake.example"]
    assert "Boat 1," not in letters["two@lake.example"] and "Boat 2," not in letters["one@lake.example"]


@pytest.mark.usefixtures("with_mail")
def test_a_version_whose_places_stay_says_so(event: Event) -> None:
    director = world.member(event.club)
    first = record(event)
    publish_result(event, "test", side_pots={})
    correct_slip(first, world.slip(official="B. Ruth", reason="Signed by another"), "test")
    publish_result(event, "test", reason="Signed by another", side_pots={})
    (word,) = words_of(Event.objects.get(pk=event.pk), SITE)
    assert "No place, total, prize or points changed." in word.text
    press(director, event, word.about)
    one = sent()["one@lake.example"]
    assert "It changes 0 boats." in one and "total 8.50 lb. Nothing of it changed." in one


@pytest.mark.usefixtures("with_mail")
def test_due_times_that_moved_again_or_a_result_taken_back_go_no_more(event: Event) -> None:
    director = world.member(event.club)
    first = moved(event)
    roll = director.get(reverse("checkin:roll", args=[event.slug])).content.decode()
    assert "Notify the teams of the new due times" in roll
    press(director, event, f"due {first.pk}")
    second = moved(event, "15", "More thunder")
    assert abouts(event) == [f"due {second.pk}"]
    assert "overtaken" in press(director, event, f"due {first.pk}")
    press(director, event, f"due {second.pk}")
    letters = sent()
    assert set(letters) == {"one@lake.example", "two@lake.example"} and "More thunder" in letters["one@lake.example"]
    assert "day 1: due " in letters["one@lake.example"] and "Nobody hurries" in letters["one@lake.example"]
    over = Letter.objects.filter(wrong="withdrawn")
    assert over.count() == 2 and not over.exclude(address="", body="").exists()


@pytest.mark.usefixtures("with_mail")
def test_a_letter_does_not_go_to_an_address_that_was_erased(event: Event) -> None:
    moved(event)
    (about,) = abouts(event)
    press(world.member(event.club), event, about)
    keep_contact(event.entries.get(boat=1), ContactValues(), "test")
    assert set(sent()) == {"two@lake.example"}
    assert "e-mail not delivered: call the team" in page(world.member(event.club), event)


@pytest.mark.usefixtures("with_mail")
def test_an_event_called_off_is_told_with_the_act_and_never_twice(event: Event) -> None:
    cancel_event(event, "Ice", "test")
    assert abouts(event) == [] and set(sent()) == {"one@lake.example", "two@lake.example"}
    assert reverse("schedule:notice", args=[event.slug]) in page(world.member(event.club), event)


@pytest.mark.usefixtures("with_mail")
def test_boats_still_out_are_told_by_the_desk_and_none_that_is_in(event: Event, clock: Clock) -> None:
    desk = world.member(event.club, "desk_official")
    launch(event, 1, "", "test", "Test")
    assert abouts(event) == []
    clock("2026-06-20T15:20:00-05:00")
    check_in_now(event, 1, 2, "test", "Test", uuid.uuid4(), None)
    html = page(desk, event)
    assert "3 boats still out, day 1" in html and "An e-mail finds nobody on the water." in html
    assert "E-mail to 1 team is on its way." in press(desk, event, "out 1")
    letters = sent()
    assert set(letters) == {"one@lake.example"}
    assert "Boat 1, Open table pair 1: due 3:00 PM." in letters["one@lake.example"]
    assert "the emergency number first" in letters["one@lake.example"]
    keep_contact(event.entries.get(boat=3), ContactValues(email="three@lake.example"), "test")
    press(desk, event, "out 1")
    check_in_now(event, 1, 3, "test", "Test", uuid.uuid4(), None)
    assert sent() == {}
    for boat in (1, 4):
        check_in_now(event, 1, boat, "test", "Test", uuid.uuid4(), None)
    assert abouts(event) == []


def test_without_a_mail_server_the_text_is_copied_and_who_heard_it_is_noted(event: Event) -> None:
    director, desk = world.member(event.club), world.member(event.club, "desk_official")
    moved(event)
    (about,) = abouts(event)
    html = page(director, event)
    assert "This site sends no e-mail" in html and "Send the e-mail" not in html
    assert "555-0101, 555-0103" in html and "Thunder" in html
    assert "A director sends this." in page(desk, event)
    assert "sends no e-mail" in press(director, event, about) and not Letter.objects.exists()
    assert "Noted: 4 teams were told." in press(director, event, about, "said")
    assert "told by phone or in person" in page(director, event)


@pytest.mark.usefixtures("with_mail")
def test_who_may_see_and_send(event: Event) -> None:
    moved(event)
    (about,) = abouts(event)
    where = reverse("operations:words", args=[event.slug])
    assert world.member(event.club, "weigh_official").get(where).status_code == 403
    desk = world.member(event.club, "desk_official")
    assert desk.post(where, {"about": about, "act": "send"}).status_code == 403 and not Letter.objects.exists()


@pytest.mark.usefixtures("with_mail")
def test_a_word_that_is_overtaken_between_reading_and_sending_is_refused(event: Event) -> None:
    moved(event)
    (word,) = words_of(event, SITE)
    moved(event, "15", "More")
    with pytest.raises(Faults, match="overtaken"):
        send_word(event, word, "test")
    call_command("send_letters")
    assert not Letter.objects.exists()


@pytest.mark.usefixtures("with_mail")
def test_the_page_costs_the_same_for_one_boat_and_many() -> None:
    def queries(event: Event) -> int:
        client = world.member(event.club)
        publish_result(event, "test")
        with CaptureQueriesContext(connection) as found:
            page(client, event)
        return len(found)

    assert queries(world.large(1, "One")) == queries(world.large(40, "Many"))


@pytest.mark.usefixtures("with_mail")
def test_of_a_rehearsal_nobody_is_told(event: Event) -> None:
    copy = world.event("Copied")
    moved(copy)
    assert len(abouts(copy)) == 1
    copy.rehearsal_of = event
    assert words_of(copy, SITE) == []


def reading_in(event: Event, language: str) -> Client:
    """A director whose pages are in a language."""
    client = world.member(event.club, username=f"reads-{language}")
    client.get("/", {"language": language})
    return client


@pytest.mark.usefixtures("with_mail")
@pytest.mark.parametrize(
    ("club", "reader", "subject", "due", "result", "title"),
    [
        (
            "en",
            "es",
            "due times moved",
            "due 3:00 PM is now 3:30 PM",
            "Open table: Official results, version 1",
            "Resultados oficiales",
        ),
        ("es", "en", "horas", "3:30", "Resultados oficiales, versión 1", "Official results, version 1"),
    ],
)
def test_letters_and_texts_to_copy_are_in_the_language_of_the_club(
    event: Event, club: str, reader: str, subject: str, due: str, result: str, title: str
) -> None:
    Club.objects.update(language=club)
    director = reading_in(event, reader)
    moved(event)
    (about,) = abouts(event)
    assert due in page(director, event)
    press(director, event, about)
    letter = sent()["one@lake.example"]
    assert due in letter and ("Nobody hurries" in letter) is (club == "en")
    assert subject in mail.outbox[0].subject
    record(event)
    publish_result(event, "test")
    html = page(director, event)
    assert result in html and f"<h2>{title}" in html and f'<html lang="{reader}"' in html
    press(director, event, "result 1")
    assert result in sent()["one@lake.example"]


@pytest.mark.usefixtures("with_mail")
@pytest.mark.parametrize(("club", "reader"), [("en", "es"), ("es", "en")])
def test_an_event_called_off_is_told_in_the_language_of_the_club(event: Event, club: str, reader: str) -> None:
    Club.objects.update(language=club)
    director, where = reading_in(event, reader), reverse("schedule:notice", args=[event.slug])
    said = {"kind": "cancelled", "reason": "Ice"}
    director.post(reverse("schedule:call_off", args=[event.slug]), said)
    sent()
    reason = "Reason: Ice" if club == "en" else "Motivo: Ice"
    (letter,) = {(letter.subject, letter.body) for letter in mail.outbox}
    assert reason in letter[1] and letter[0].startswith("Cancelled") is (club == "en")
    assert reason in director.get(where).content.decode()

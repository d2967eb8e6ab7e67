"""The page for directors: start, watch, stop, wipe; and what the event's own pages say of it."""

import threading
from typing import Any

import pytest
import world
from django.test import Client
from rehearsal.sent import in_process, rehearsed

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.events.services.deletion import recorded
from weighin.events.services.events import FIELDS, change_event
from weighin.letters.models import Letter
from weighin.rehearsal import views
from weighin.rehearsal.models import Rehearsal
from weighin.rehearsal.services import running
from weighin.rehearsal.services.copying import make_rehearsal
from weighin.rehearsal.services.running import begin_in_background, run_rehearsal
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.services.contacts import keep_contact
from weighin.rules.faults import Faults
from weighin.schedule.services.calling_off import cancel_event
from weighin.slips.services.slips import record_slip
from weighin.standings.services import publish_result, set_public

__all__ = ["in_process"]


@pytest.fixture
def event(db: None) -> Event:
    return world.event("Dawn pairs", 12)


@pytest.fixture
def director(event: Event) -> Client:
    return world.member(event.club)


@pytest.fixture
def at_once(in_process: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Boats come in before the answer, within the test's transaction."""
    monkeypatch.setattr(views, "begin_in_background", run_rehearsal)


def page(client: Client, event: Event) -> str:
    return client.get(f"/events/{event.slug}/rehearsal/").content.decode()


@pytest.mark.usefixtures("at_once")
def test_started_watched_and_wiped_on_the_page(event: Event, director: Client) -> None:
    address = f"/events/{event.slug}/rehearsal/"
    assert "Run the rehearsal" in page(director, event)
    answer = director.post(address, {"boats": "10", "speed": "1000000", "seed": "4"})
    assert answer.status_code == 302
    said = page(director, event)
    assert "Nothing was lost: 11 slips sent, each saved once." in said
    assert "2 scales, a bag at check-in" in said and "<svg" in said
    assert "Nothing was lost" in director.get(f"{address}part/").content.decode()
    assert "wiped" in director.post(f"{address}wipe/", follow=True).content.decode()
    assert "nothing to wipe" in director.post(f"{address}wipe/", follow=True).content.decode()
    assert Event.everyone.count() == 1


@pytest.mark.usefixtures("in_process")
def test_page_and_command_give_the_same_report(event: Event, director: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    from weighin.rehearsal.services.wiping import wipe_rehearsal

    _, by_command = rehearsed(event, seed=9, boats=7)
    wipe_rehearsal(event, "quill")
    monkeypatch.setattr(views, "begin_in_background", run_rehearsal)
    director.post(f"/events/{event.slug}/rehearsal/", {"boats": "7", "speed": "1000000", "seed": "9"})
    assert Rehearsal.objects.get().report == by_command


def test_what_is_wrong_stands_at_its_field_and_is_kept(event: Event, director: Client) -> None:
    said = director.post(
        f"/events/{event.slug}/rehearsal/", {"boats": "0", "speed": "0.5", "seed": "77"}
    ).content.decode()
    assert 'value="77"' in said and said.count("errorlist") + said.count('class="fault') > 0
    assert not Rehearsal.objects.exists()


def test_a_second_one_is_refused_with_a_sentence(event: Event, director: Client) -> None:
    make_rehearsal(event, "quill")
    said = director.post(f"/events/{event.slug}/rehearsal/", {"boats": "5", "speed": "60", "seed": "1"}, follow=True)
    assert Event.everyone.count() == 2 and said.status_code == 200


@pytest.mark.usefixtures("in_process")
def test_its_own_address_leads_to_the_events(event: Event, director: Client) -> None:
    made, _ = rehearsed(event)
    answer = director.get(f"/events/{made.event.slug}/rehearsal/")
    assert answer.headers["Location"] == f"/events/{event.slug}/rehearsal/"


def test_while_boats_come_in_it_says_how_many(event: Event, director: Client) -> None:
    made = make_rehearsal(event, "quill")
    said = page(director, event)
    assert "on their way" in said and 'hx-trigger="every 3s"' in said and "Stop the boats" in said
    assert "No more boats" in director.post(f"/events/{event.slug}/rehearsal/stop/", follow=True).content.decode()
    made.refresh_from_db()
    assert made.stop_asked
    Rehearsal.objects.update(seen_at=made.seen_at.replace(year=2020))
    assert "broke off" in page(director, event)


@pytest.mark.usefixtures("in_process")
def test_what_was_lost_is_listed(event: Event, director: Client) -> None:
    _, report = rehearsed(event)
    Rehearsal.objects.update(report={**report, "faults": ["the slip of boat 3 was acknowledged and is not there"]})
    said = page(director, event)
    assert "One thing was lost or differs." in said and "boat 3 was acknowledged" in said


@pytest.mark.usefixtures("in_process")
def test_once_the_event_has_begun_it_is_to_be_wiped(event: Event, director: Client) -> None:
    assert "rehearsal" in director.get(f"/events/{event.slug}/").content.decode().lower()
    rehearsed(event)
    record_slip(event, world.slip(), "quill")
    assert "Dawn pairs has begun: wipe the rehearsal." in page(director, event)
    assert "Wipe the rehearsal" in director.get(f"/events/{event.slug}/").content.decode()
    director.post(f"/events/{event.slug}/rehearsal/wipe/")
    assert "it is rehearsed before its first slip" in page(director, event)


def test_only_directors_get_there(event: Event) -> None:
    for role in Role:
        client = world.member(event.club, role)
        expected = 200 if role is Role.DIRECTOR else 403
        assert client.get(f"/events/{event.slug}/rehearsal/").status_code == expected


def test_it_keeps_its_mark_and_no_event_gets_one(event: Event) -> None:
    made = make_rehearsal(event, "quill")
    said = {**{name: getattr(made.event, name) for name in FIELDS}, "days": 1}
    change_event(made.event, {**said, "name": "Dawn pairs, again"}, "quill")
    assert Event.everyone.get(pk=made.event_id).name == "REHEARSAL Dawn pairs, again"
    mine = {**{name: getattr(event, name) for name in FIELDS}, "days": 1}
    with pytest.raises(Faults, match="only rehearsals are named REHEARSAL"):
        change_event(event, {**mine, "name": "REHEARSAL of mine"}, "quill")


def test_an_event_with_a_rehearsal_is_not_removed(event: Event) -> None:
    make_rehearsal(event, "quill")
    assert recorded(event) == ["a rehearsal, to be wiped first"]


@pytest.mark.usefixtures("in_process")
def test_its_result_is_official_among_members_alone(db: None) -> None:
    event = world.event("Dawn alone", 1)
    director = world.member(event.club)
    made, _ = rehearsed(event)
    publish_result(made.event, "quill")
    made.event.refresh_from_db()
    assert not made.event.is_public and made.event.official_results.count() == 1
    with pytest.raises(Faults, match="nothing of it is public"):
        set_public(made.event, True, "quill")
    assert Client().get(f"/results/{made.event.slug}/").status_code == 404
    said = director.get(f"/events/{made.event.slug}/results/").content.decode()
    assert "A rehearsal is never public." in said
    answer = director.post(f"/events/{made.event.slug}/results/", {"act": "open"}, follow=True)
    assert "nothing of it is public" in answer.content.decode()


def test_the_next_event_copies_nothing_of_it(event: Event) -> None:
    from datetime import date

    from weighin.schedule.services.next_event import make_next

    made = make_rehearsal(event, "quill")
    after = make_next(event, {"name": "Dusk pairs", "season": event.season, "date": date(2026, 7, 20)}, "quill")
    assert after.rehearsal_of is None and after.entries.count() == event.entries.count()
    assert made.event.season.events.count() == 2


def test_no_event_is_made_from_it_and_nobody_is_written_to(event: Event, director: Client, settings: Any) -> None:
    settings.MAIL_FROM = "club@example.org"
    made = make_rehearsal(event, "quill").event
    said = {"name": "Dusk pairs", "season": event.season_id, "date": "2026-07-20"}
    answer = director.post(f"/events/{made.slug}/next/", said)
    assert "No event is added from a rehearsal" in answer.content.decode() and event.season.events.count() == 1
    for called_off in (made, event):
        keep_contact(called_off.entries.all()[0], ContactValues(email="ash@example.org"), "quill")
        cancel_event(called_off, "Storm", "quill")
    assert list(Letter.objects.values_list("event_id", flat=True)) == [event.pk]


@pytest.mark.django_db(transaction=True)
def test_in_the_background_through_its_own_server() -> None:
    event = world.event("Dawn pairs", 4)
    made = make_rehearsal(event, "quill", speed=1_000_000.0)
    thread = begin_in_background(made)
    thread.join(60)
    made.refresh_from_db()
    assert made.report is not None and made.report["faults"] == [] and not made.goes_on


@pytest.mark.django_db(transaction=True)
def test_what_breaks_in_the_background_is_logged(monkeypatch: pytest.MonkeyPatch, caplog: Any) -> None:
    made = make_rehearsal(world.event("Dawn pairs", 4), "quill")

    def broken(*asked: Any) -> Any:
        raise RuntimeError("no port")

    monkeypatch.setattr(running, "ways", broken)
    begin_in_background(made).join(60)
    assert "broke off" in caplog.text
    assert not [one for one in threading.enumerate() if one.name == "rehearsal"]


@pytest.mark.usefixtures("in_process")
def test_its_publish_page_promises_no_public_pages(event: Event, director: Client) -> None:
    made, _ = rehearsed(event)
    for page_of in ("publish", "results"):
        said = director.get(f"/events/{made.event.slug}/{page_of}/").content.decode()
        assert "A rehearsal is never public." in said
        assert "opens the public pages" not in said and "public pages open with" not in said

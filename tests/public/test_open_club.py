"""A club that is opened: its page and calendar for everybody, and nothing more than is meant for them."""

import json
import re
from datetime import date

import pytest
import world
from checkin.clock import Clock, clock
from django.core.management import CommandError, call_command
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.clubs.services.clubs import open_club
from weighin.events.models import Event
from weighin.public.pages.structured import data_block
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.services.contacts import keep_contact
from weighin.schedule.services.calling_off import cancel_event, postpone_event
from weighin.ui.kept import KEEPER

__all__ = ["clock"]
pytestmark = pytest.mark.django_db


@pytest.fixture
def event(clock: Clock) -> Event:
    clock("2026-06-01T12:00:00-05:00")
    return world.event(note="Ask Ash at 555-0100")


def pages(club: Club) -> list[str]:
    return [reverse(f"public:{name}", args=[club.slug]) for name in ("club", "calendar")]


def about(page: str) -> dict[str, object]:
    (said,) = re.findall(r'<script type="application/ld\+json">(.*?)</script>', page)
    found: dict[str, object] = json.loads(said)
    return found


def test_a_club_that_is_not_opened_is_not_there(event: Event) -> None:
    page, calendar = pages(event.club)
    assert Client().get(page).status_code == 302 and Client().get(calendar).status_code == 404
    assert world.stranger().get(page).status_code == 404 and world.stranger().get(calendar).status_code == 404
    assert world.stranger().get("/clubs/nowhere/").status_code == 404
    assert world.member(event.club).get(page).status_code == 200


def test_opened_everybody_sees_its_calendar_and_members_their_own_page(event: Event) -> None:
    keep_contact(event.entries.get(boat=1), ContactValues(phone="555-0107"), "test")
    open_club(event.club, True, "test")
    for address in pages(event.club):
        for reader in (Client(), world.stranger()):
            said = reader.get(address).content.decode()
            assert "Open table" in said and "Long Slough" in said
            assert "555-01" not in said and "Open table pair" not in said and "Open table angler" not in said
    page, calendar = pages(event.club)
    assert "entries open" in Client().get(page).content.decode() and calendar in Client().get(page).content.decode()
    assert f'href="{reverse("public:event", args=[event.slug])}"' not in Client().get(page).content.decode()
    member = world.member(event.club).get(page).content.decode()
    assert reverse("operations:day", args=[event.slug]) in member
    Event.objects.filter(pk=event.pk).update(is_public=True, revision=event.revision + 1)
    assert f'href="{reverse("public:event", args=[event.slug])}"' in Client().get(page).content.decode()


def test_a_change_shows_at_once(event: Event) -> None:
    open_club(event.club, True, "test")
    page, calendar = pages(event.club)
    tag = Client().get(page)["ETag"]
    assert Client().get(page, headers={"If-None-Match": tag}).status_code == 304
    cancel_event(event, "Thunderstorms", "test")
    assert Client().get(page, headers={"If-None-Match": tag}).status_code == 200
    assert "cancelled" in Client().get(page).content.decode()
    assert "STATUS:CANCELLED" in Client().get(calendar).content.decode()
    open_club(event.club, False, "test")
    assert Client().get(page).status_code == 302 and Client().get(calendar).status_code == 404


def test_the_same_queries_for_one_event_and_for_many(event: Event) -> None:
    open_club(event.club, True, "test")
    counts = []
    for name in ("Some", "More"):
        for address in pages(event.club):
            KEEPER.clear()
            with CaptureQueriesContext(connection) as found:
                Client().get(address)
            counts.append(len(found))
        for number in range(4):
            world.event(f"{name} {number}")
    assert counts[:2] == counts[2:]


def test_past_events_stand_under_those_to_come(event: Event, clock: Clock) -> None:
    open_club(event.club, True, "test")
    world.event("Later", date="2026-07-18")
    clock("2026-07-01T12:00:00-05:00")
    said = Client().get(pages(event.club)[0]).content.decode()
    assert said.index("To come") < said.index("Later</th>") < said.index(">Past<") < said.index("Open table</th>")
    assert "Next: Later, Sat, July 18, 2026, Long Slough: entries open." in said
    cancel_event(Event.objects.get(name="Later"), "Ice", "test")
    assert "No event is planned." in Client().get(pages(event.club)[0]).content.decode()


def test_a_director_opens_and_closes_it_by_a_button(event: Event) -> None:
    director, where = world.member(event.club), reverse("clubs:edit", args=[event.club.slug])
    page = director.post(where, {"act": "open"}, follow=True).content.decode()
    assert "Everyone can see" in page and Club.objects.get().is_open
    assert world.member(event.club, "desk_official").post(where, {"act": "close"}).status_code == 403
    page = director.post(where, {"act": "close"}, follow=True).content.decode()
    assert "for members only now" in page and not Club.objects.get().is_open
    acts = HistoryEntry.objects.filter(act__in=("club.opened", "club.closed")).order_by("id")
    assert [entry.act for entry in acts] == ["club.opened", "club.closed"]


def test_the_command_opens_and_closes_it(event: Event, capsys: pytest.CaptureFixture[str]) -> None:
    slug = event.club.slug
    for words, said, is_open in (
        ([], "is open to everyone.", True),
        ([], "is open to everyone already.", True),
        (["--close"], "is for members only.", False),
    ):
        call_command("open_club", slug, *words)
        assert said in capsys.readouterr().out and Club.objects.get().is_open is is_open
    with pytest.raises(CommandError, match="There is no club nowhere"):
        call_command("open_club", "nowhere")


def test_a_published_event_is_told_to_programs(event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(is_public=True)
    page = reverse("public:event", args=[event.slug])
    said = about(Client().get(page).content.decode())
    assert said["@type"] == "Event" and said["name"] == "Open table"
    assert said["startDate"] == "2026-06-20T06:00:00-05:00" and said["endDate"] == "2026-06-20T15:00:00-05:00"
    assert said["eventStatus"] == "https://schema.org/EventScheduled"
    assert said["location"] == {"@type": "Place", "name": "Long Slough", "address": "Long Slough"}
    postpone_event(event, None, "High water", "test")
    said = about(Client().get(page).content.decode())
    assert said["eventStatus"] == "https://schema.org/EventPostponed" and said["previousStartDate"] == "2026-06-20"
    postpone_event(event, date(2026, 7, 4), "High water", "test")
    said = about(Client().get(page).content.decode())
    assert said["eventStatus"] == "https://schema.org/EventRescheduled"
    assert said["startDate"] == "2026-07-04T06:00:00-05:00" and said["previousStartDate"] == "2026-06-20"
    cancel_event(Event.objects.get(), "Ice", "test")
    said = about(Client().get(page).content.decode())
    assert said["eventStatus"] == "https://schema.org/EventCancelled"


def test_no_text_ends_the_data_block() -> None:
    block = data_block({"name": "</script><script>alert(1)</script>&amp;<!--"})
    assert block.count("</script>") == 1 and "<!--" not in block
    assert about(block)["name"] == "</script><script>alert(1)</script>&amp;<!--"


def test_the_front_page_leads_to_every_open_club_and_forgets_a_closed_one(event: Event) -> None:
    world.member(event.club)

    def leads_there(club: Club) -> bool:
        return f'href="{reverse("public:club", args=[club.slug])}"' in Client().get("/").content.decode()

    bare = world.club("Birch Crappie Club", "birch")
    assert not leads_there(event.club) and not leads_there(bare)
    for club in (event.club, bare):
        open_club(club, True, "mara")
        assert leads_there(club)
        open_club(club, False, "mara")
        assert not leads_there(club)

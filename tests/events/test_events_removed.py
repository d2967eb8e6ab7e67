"""An event made by mistake goes while nothing was recorded of it; whatever was recorded holds it."""

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.events.services.deletion import recorded, remove_event
from weighin.roster.models import Entry, Team
from weighin.rules.faults import Faults
from weighin.slips.services.pads import hand_out
from weighin.stations.services.stations import make_station


def page_of(event: Event) -> str:
    return reverse("events:remove", args=[event.slug])


def test_it_goes_with_its_teams_and_stations_and_the_clubs_history_tells(
    event: Event, director: Client, club: Club
) -> None:
    team = Team.objects.create(season=event.season, name="Okafor & Lind")
    Entry.objects.create(event=event, team=team, boat=27, number=1)
    make_station(event, "Table 1", ["weigh"], "test")
    assert "1 team" in director.get(page_of(event)).content.decode()
    answer = director.post(page_of(event), {"name": event.name.upper(), "reason": "Made twice"})
    assert answer.status_code == 302 and answer["Location"] == reverse("events:club", args=[club.slug])
    assert not Event.objects.exists() and Team.objects.filter(pk=team.pk).exists()
    entry = HistoryEntry.objects.get(act="event.removed")
    assert entry.club_id == club.pk and entry.actor == "mara" and "with 1 team entered: Made twice" in entry.sentence
    assert HistoryEntry.objects.filter(act="event.made").exists()


@pytest.mark.parametrize(("name", "reason", "field"), [("Another", "x", "name"), ("Midsummer Pairs", " ", "reason")])
def test_without_its_name_and_a_reason_it_stays(event: Event, name: str, reason: str, field: str) -> None:
    with pytest.raises(Faults) as found:
        remove_event(event, name, reason, "test")
    assert [fault.field for fault in found.value.faults] == [field] and Event.objects.exists()


@pytest.mark.django_db
def test_what_was_recorded_holds_it() -> None:
    event = world.large(2)
    said = recorded(event)
    assert "2 weigh slips" in said and "2 care notes" in said
    with pytest.raises(Faults):
        remove_event(event, event.name, "x", "test")
    client = world.member(event.club)
    page = client.post(page_of(event), {"name": event.name, "reason": "x"}).content.decode()
    assert f"{event.name} stays." in page and "2 weigh slips" in page and Event.objects.filter(pk=event.pk).exists()


def test_a_pad_handed_out_or_a_published_page_holds_it(event: Event) -> None:
    hand_out(event, "Blue", "1", "9", "Ash", "test")
    with pytest.raises(Faults, match="pad"):
        remove_event(event, event.name, "x", "test")


def test_a_published_event_stays(event: Event) -> None:
    Event.objects.filter(pk=event.pk).update(is_public=True)
    with pytest.raises(Faults, match="published"):
        remove_event(event, event.name, "x", "test")
    assert Event.objects.exists()


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER])
def test_only_directors_remove(event: Event, club: Club, role: Role) -> None:
    assert world.member(club, role).post(page_of(event), {"name": event.name, "reason": "x"}).status_code == 403
    assert Event.objects.exists()

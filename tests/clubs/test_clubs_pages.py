"""Pages of the club: its name, seasons, waters, and starting another club."""

import pytest
import world
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club, Season, Water

pytestmark = pytest.mark.django_db


@pytest.fixture
def club() -> Club:
    return world.club()


@pytest.fixture
def director(club: Club) -> Client:
    return world.member(club, username="mara")


def test_the_club_page_says_what_comes_next(club: Club, director: Client) -> None:
    page = reverse("events:club", args=[club.slug])
    assert "Add a season first." in director.get(page).content.decode()
    director.post(reverse("clubs:seasons_new", args=[club.slug]), {"name": "2026"})
    assert "Now a lake to fish." in director.get(page).content.decode()
    director.post(reverse("clubs:waters_new", args=[club.slug]), {"name": "Quill Reservoir", "elevation_ft": "740"})
    said = director.get(page).content.decode()
    assert "Ready for the first event." in said and reverse("events:new", args=[club.slug]) in said
    assert Water.objects.get().elevation_ft == 740
    assert list(HistoryEntry.objects.values_list("actor", "act", "club_id")) == [
        ("mara", "season.made", club.pk),
        ("mara", "water.made", club.pk),
    ]


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.CLUB_REVIEWER])
def test_members_without_the_right_see_no_way_to_what_they_cannot_do(club: Club, role: str) -> None:
    said = world.member(club, role).get(reverse("events:club", args=[club.slug])).content.decode()
    assert "Add a season first." in said
    for name in ("clubs:seasons_new", "clubs:members", "clubs:edit", "events:new", "operations:import"):
        assert f'"{reverse(name, args=[club.slug])}"' not in said
    history = reverse("operations:club_history", args=[club.slug])
    assert (history in said) == (role == Role.CLUB_REVIEWER)


def test_a_season_that_is_there_is_refused_and_what_was_written_stays(club: Club, director: Client) -> None:
    Season.objects.create(club=club, name="Summer 26", slug="summer-26")
    said = director.post(reverse("clubs:seasons_new", args=[club.slug]), {"name": "summer  26"}).content.decode()
    assert "has a season summer 26 already" in said and 'value="summer  26"' in said
    assert Season.objects.count() == 1 and not HistoryEntry.objects.exists()


@pytest.mark.parametrize(
    ("name", "elevation", "sentence"),
    [
        ("quill", "", "has a water quill already"),
        ("Merrow", "40000", "outside -1500 to 30,000"),
        ("Merrow", "high", "Write a whole number"),
        ("", "", "This is blank"),
    ],
)
def test_a_water_that_will_not_do(club: Club, director: Client, name: str, elevation: str, sentence: str) -> None:
    Water.objects.create(club=club, name="Quill")
    where = reverse("clubs:waters_new", args=[club.slug])
    assert sentence in director.post(where, {"name": name, "elevation_ft": elevation}).content.decode()
    assert Water.objects.count() == 1


def test_a_water_is_changed_with_its_history(club: Club, director: Client) -> None:
    water = Water.objects.create(club=club, name="Quill")
    where = reverse("clubs:waters_edit", args=[club.slug, water.pk])
    assert 'value="Quill"' in director.get(where).content.decode()
    director.post(where, {"name": "Quill Reservoir", "elevation_ft": "740"})
    water.refresh_from_db()
    assert (water.name, water.elevation_ft) == ("Quill Reservoir", 740)
    assert HistoryEntry.objects.get().details["before"] == {"name": "Quill", "elevation_ft": None}


def test_another_clubs_water_is_not_there(club: Club, director: Client) -> None:
    other = Water.objects.create(club=Club.objects.create(name="Other", slug="other"), name="Far")
    assert director.get(reverse("clubs:waters_edit", args=[club.slug, other.pk])).status_code == 404


def test_the_club_is_renamed_and_keeps_its_address(club: Club, director: Client) -> None:
    where = reverse("clubs:edit", args=[club.slug])
    director.post(where, {"name": "Alder  Club"})
    club.refresh_from_db()
    assert (club.name, club.slug) == ("Alder Club", "alder")
    assert HistoryEntry.objects.get().sentence == "Alder Crappie Club is now Alder Club"
    Club.objects.create(name="Other", slug="other")
    assert "There is a club OTHER already" in director.post(where, {"name": "OTHER"}).content.decode()
    club.refresh_from_db()
    assert club.name == "Alder Club"


def test_a_director_starts_another_club_and_nobody_else_does(club: Club, director: Client) -> None:
    where = reverse("clubs:new")
    answer = director.post(where, {"name": "Merrow Club"})
    assert answer["Location"] == reverse("events:club", args=["merrow-club"])
    assert director.get(answer["Location"]).status_code == 200
    assert "There is a club merrow club already" in director.post(where, {"name": "merrow club"}).content.decode()
    official = world.member(club, Role.WEIGH_OFFICIAL)
    refused = official.post(where, {"name": "Third Club"})
    assert refused.status_code == 403 and "Only a director" in refused.content.decode()
    assert Club.objects.count() == 2


def test_the_first_season_brings_its_water_and_leads_to_the_first_event(club: Club, director: Client) -> None:
    where = reverse("clubs:seasons_new", args=[club.slug])
    assert f'value="{timezone.now().year}"' in director.get(where).content.decode()
    said = director.post(where, {"name": "", "water": "W" * 121}).context["form"]
    assert set(said.errors) == {"name", "water"} and not Season.objects.exists()
    answer = director.post(where, {"name": "2026", "water": " Quill   Reservoir "})
    assert answer["Location"] == reverse("events:new", args=[club.slug])
    assert (Season.objects.get().name, Water.objects.get().name) == ("2026", "Quill Reservoir")
    assert [line.act for line in HistoryEntry.objects.order_by("pk")] == ["season.made", "water.made"]
    assert "water" not in director.get(where).context["form"].fields


def test_an_event_without_season_or_water_leads_to_what_is_missing(club: Club, director: Client) -> None:
    new = reverse("events:new", args=[club.slug])
    assert f'href="{reverse("clubs:seasons_new", args=[club.slug])}"' in director.get(new).content.decode()
    Season.objects.create(club=club, name="2026", slug="2026")
    assert f'href="{reverse("clubs:waters_new", args=[club.slug])}"' in director.get(new).content.decode()


def test_a_director_finds_where_to_add_a_club_and_an_official_does_not(club: Club, director: Client) -> None:
    def leads_there(client: Client) -> bool:
        return f'href="{reverse("clubs:new")}"' in client.get(reverse("events:mine")).content.decode()

    assert leads_there(director) and not leads_there(world.member(club, Role.WEIGH_OFFICIAL))

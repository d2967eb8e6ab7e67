"""The first director of an empty site, and the names of clubs, seasons and waters."""

from pathlib import Path
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club, Membership
from weighin.clubs.services.clubs import begin, club_named, free_slug, make_season, season_named, water_named
from weighin.rules.faults import Faults

pytestmark = pytest.mark.django_db
BEGIN = reverse("clubs:begin")
WORD = "kelu-ramo-vitu"
SAID = {
    "word": WORD,
    "club": "Alder Crappie Club",
    "name": "Mara Lindell",
    "username": "mara",
    "password": "four words on paper",
    "again": "four words on paper",
}


@pytest.fixture(autouse=True)
def data(settings: Any, tmp_path: Path) -> Path:
    settings.DATA = tmp_path
    (tmp_path / "first-word").write_text(WORD)
    return tmp_path


def test_the_first_page_of_an_empty_site_leads_to_the_first_director() -> None:
    answer = Client().get("/", follow=True)
    assert answer.redirect_chain[-1][0] == BEGIN
    assert "Set up the first director." in answer.content.decode()


def test_the_first_director_is_made_with_the_club_and_signed_in() -> None:
    client = Client()
    assert client.post(BEGIN, SAID)["Location"] == reverse("events:mine")
    membership = Membership.objects.get()
    assert (str(membership.club), membership.role, str(membership.user)) == (SAID["club"], Role.DIRECTOR, SAID["name"])
    assert client.get("/clubs/alder-crappie-club/members/").status_code == 200
    acts = list(HistoryEntry.objects.values_list("act", flat=True))
    assert acts == ["person.added", "club.made", "member.added"]
    assert SAID["password"] not in str(list(HistoryEntry.objects.values()))


def test_every_fault_is_named_and_nothing_is_lost_or_kept() -> None:
    wrong = SAID | {"club": "  ", "username": "mara lindell", "password": "short", "again": "short"}
    page = Client().post(BEGIN, wrong).content.decode()
    assert "This is blank. Write it here." in page
    wrong["club"] = "Alder\tClub"
    page = Client().post(BEGIN, wrong).content.decode()
    for said in ("Write letters, figures", "at least 8 characters", "line breaks or control characters"):
        assert said in page
    assert 'value="mara lindell"' in page and 'value="Mara Lindell"' in page
    assert not User.objects.exists() and not Club.objects.exists() and not HistoryEntry.objects.exists()


def test_passwords_that_differ_are_caught() -> None:
    page = Client().post(BEGIN, SAID | {"again": "four words on sand"}).content.decode()
    assert "It differs from the password." in page
    assert not User.objects.exists()


def test_there_is_only_one_first_director() -> None:
    begin("mara", "four words on paper", "Mara Lindell", "Alder Crappie Club", WORD)
    answer = Client().post(BEGIN, SAID | {"username": "other"}, follow=True)
    assert "This site has its first director already. Sign in here." in answer.content.decode()
    with pytest.raises(Faults, match="has its first director already"):
        begin("other", "four words on paper", "Other", "Other club", WORD)
    assert User.objects.count() == 1 and Club.objects.count() == 1


@pytest.mark.parametrize("word", ["", "kelu-ramo-vitx", "first"])
def test_who_does_not_know_the_servers_word_becomes_nobody(word: str) -> None:
    page = Client().post(BEGIN, SAID | {"word": word}).content.decode()
    assert "This is not the word" in page or "This is blank" in page
    assert not User.objects.exists() and not Club.objects.exists()


def test_the_word_is_read_as_people_write_it_and_is_good_once(data: Path) -> None:
    assert Client().post(BEGIN, SAID | {"word": " Kelu RAMO vitu "}).status_code == 302
    assert not (data / "first-word").exists()


def test_the_word_lies_in_its_file_also_where_no_serve_prints_it(data: Path) -> None:
    (data / "first-word").unlink()
    page = Client().get(BEGIN).content.decode()
    word = (data / "first-word").read_text()
    assert word.count("-") == 2 and word not in page and (data / "first-word").stat().st_mode & 0o077 == 0
    assert Client().post(BEGIN, SAID | {"word": word}).status_code == 302


def test_the_address_that_the_server_prints_fills_the_word_in() -> None:
    assert f'value="{WORD}"' in Client().get(f"{BEGIN}?word={WORD}").content.decode()


def test_a_club_that_was_imported_before_gets_its_director_by_being_chosen() -> None:
    club = world.plain().club
    client = Client()
    assert club.name in client.get(BEGIN).content.decode()
    assert client.post(BEGIN, SAID | {"here": club.slug, "club": ""}).status_code == 302
    assert Membership.objects.get().club == club


def test_nobody_joins_a_club_by_writing_its_name() -> None:
    club = world.plain().club
    page = Client().post(BEGIN, SAID | {"club": f" {club.name.upper()} "}).content.decode()
    assert "There is a club" in page and not Membership.objects.exists() and not User.objects.exists()


def test_a_name_means_the_same_whatever_its_case_and_spacing() -> None:
    club = club_named("Alder  Crappie Club", "test")
    assert club.name == "Alder Crappie Club"
    assert club_named(" alder crappie CLUB", "test") == club
    assert season_named(club, "Summer 26", "test") == season_named(club, "SUMMER  26", "test")
    assert water_named(club, "Quill Reservoir", "test") == water_named(club, "quill reservoir", "test")
    assert HistoryEntry.objects.filter(act="water.made").count() == 1


def test_another_club_has_seasons_and_waters_of_its_own() -> None:
    one, other = club_named("One", "test"), club_named("Other", "test")
    assert season_named(one, "2026", "test") != season_named(other, "2026", "test")
    assert water_named(one, "Quill", "test") != water_named(other, "Quill", "test")


def test_addresses_are_free_and_never_an_address_of_the_site() -> None:
    assert club_named("New", "test").slug == "new-2"
    assert club_named("Ålder Club", "test").slug == "alder-club"
    assert club_named("Alder: Club", "test").slug == "alder-club-2"
    assert club_named("湖の会", "test").slug == "club"
    assert season_named(club_named("New", "test"), "new", "test").slug == "new-2"
    assert free_slug("x" * 200, "club", 110, ()) == "x" * 110


def test_a_season_made_twice_is_refused_by_name() -> None:
    club = club_named("Alder", "test")
    make_season(club, "2026", "test")
    with pytest.raises(Faults, match="has a season 2026 already"):
        make_season(club, " 2026 ", "test")

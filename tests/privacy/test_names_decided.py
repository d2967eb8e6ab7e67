"""How long a club keeps names: asked, decided, shown when they are older, erased in one act, by page and by command."""

from io import StringIO

import pytest
import world
from django.core.management import CommandError, call_command

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.privacy.domain.faults import NO_LIMIT_SET, NOTHING_TO_ERASE
from weighin.privacy.queries.decided import named_seasons, old_seasons
from weighin.privacy.services.deciding import keep_names
from weighin.privacy.services.erasing import erase_old_names
from weighin.roster.models import Angler
from weighin.rules.faults import Faults

pytestmark = pytest.mark.django_db


@pytest.fixture
def club() -> Club:
    """A club with an event of two boats in each of three seasons, the names of which tell nothing of their years."""
    for season, year in (("Second", 2024), ("First", 2025), ("Third", 2023)):
        teams = [
            {"boat": "1", "team": f"{season} one", "angler_1": f"Ash {season}", "note": f"Phone of {season}"},
            {"boat": "2", "team": f"{season} two", "angler_1": f"Birch {season}", "angler_2": f"Cedar {season}"},
        ]
        world.event(season, teams, [world.slip(boat="1")], season=season, date=f"{year}-06-20")
    return Club.objects.get()


def left(club: Club) -> dict[str, int]:
    return {one.season.name: one.kept for one in named_seasons(club)}


def told(*words: str) -> str:
    said = StringIO()
    call_command("erase_old_names", *words, stdout=said)
    return said.getvalue()


def test_the_latest_seasons_by_their_last_day_keep_their_names(club: Club) -> None:
    seasons = named_seasons(club)
    assert [(one.season.name, one.names, one.notes) for one in seasons] == [
        ("First", 3, 1),
        ("Second", 3, 1),
        ("Third", 3, 1),
    ]
    assert [one.season.name for one in old_seasons(seasons, 1)] == ["Second", "Third"]
    assert not old_seasons(seasons, 3) and not old_seasons(seasons, None)


def test_a_season_that_is_not_over_is_never_old(club: Club) -> None:
    world.event("Ahead", season="Ahead", date="2126-06-20")
    world.event("Far ahead", season="Far ahead", date="2127-06-20")
    assert [one.season.name for one in old_seasons(named_seasons(club), 1)] == ["First", "Second", "Third"]


def test_the_club_is_asked_until_it_decides(club: Club) -> None:
    client, where = world.member(club), f"/clubs/{club.slug}/"
    asked, due = "Decide how many seasons", "older than the club keeps them"
    assert asked in client.get(where).content.decode()
    assert asked not in world.member(club, Role.WEIGH_OFFICIAL).get(where).content.decode()
    client.post(f"{where}privacy/", {"act": "keep", "seasons": ""})
    page = client.get(where).content.decode()
    assert asked not in page and due not in page
    client.post(f"{where}privacy/", {"act": "keep", "seasons": "1"})
    assert "8 anglers&#x27; names and notes" in client.get(where).content.decode()


def test_nothing_is_erased_by_deciding_and_all_by_one_press(club: Club) -> None:
    client, where = world.member(club, username="mara"), f"/clubs/{club.slug}/privacy/"
    client.post(where, {"act": "keep", "seasons": "1"})
    assert left(club) == {"First": 4, "Second": 4, "Third": 4}
    page = client.get(where).content.decode()
    assert (
        page.count("no longer: to be erased") == 2 and "cannot be undone" in page and "Backups keep it longer" in page
    )
    assert client.post(where, {"act": "erase"}).status_code == 302
    assert left(club) == {"First": 4, "Second": 0, "Third": 0}
    for event in Event.objects.all():
        assert not ledger_of(event).faults
    line = HistoryEntry.objects.get(act="names.old_erased")
    assert line.sentence == "6 anglers' names of season Second, Third erased, kept no longer" and line.actor == "mara"
    assert HistoryEntry.objects.filter(act="names.erased").count() == 2
    assert "older than the club keeps" not in client.get(f"/clubs/{club.slug}/").content.decode()


def test_what_cannot_be_is_said(club: Club) -> None:
    with pytest.raises(Faults) as found:
        erase_old_names(club, "mara")
    assert list(found.value.faults) == [NO_LIMIT_SET.at("", club=club.name)]
    keep_names(club, 3, "mara")
    with pytest.raises(Faults) as found:
        erase_old_names(club, "mara")
    assert list(found.value.faults) == [NOTHING_TO_ERASE.at("", seasons=3)]
    for odd in ("0", "51", "-1", "two"):
        page = world.member(club).post(f"/clubs/{club.slug}/privacy/", {"act": "keep", "seasons": odd})
        assert "Not saved." in page.content.decode(), odd
    assert Angler.objects.filter(erased_on=None).count() == 9


def test_the_command_lists_and_erases(club: Club) -> None:
    assert told() == f"{club.slug}: no limit is set, names are kept\n"
    keep_names(club, 2, "mara")
    assert told(club.slug) == f"{club.slug}: season Third, 3 anglers' names\n"
    assert left(club)["Third"] == 4
    assert "erased. Backups keep" in told("--erase")
    assert left(club) == {"First": 4, "Second": 4, "Third": 0}
    assert told("--erase") == f"{club.slug}: no name is older than is kept\n"
    with pytest.raises(CommandError, match="There is no club nowhere"):
        told("nowhere")


def test_another_club_s_names_stay(club: Club) -> None:
    world.event("Other", season="Old", date="2020-06-20", club="Heron Bend")
    keep_names(club, 1, "mara")
    erase_old_names(club, "mara")
    other = Season.objects.get(club__name="Heron Bend")
    assert Angler.objects.filter(entry__event__season=other, erased_on=None).count() == 4


def test_the_page_asks_the_same_for_one_season_and_many(club: Club, django_assert_max_num_queries: object) -> None:
    client, where = world.member(club), f"/clubs/{club.slug}/privacy/"
    with django_assert_max_num_queries(14):  # type: ignore[operator]
        assert client.get(where).status_code == 200

"""The pages and files of a season's standings: what they say, who reads them, and what they cost."""

import csv
import io
import re

import pytest
import world
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from openpyxl import load_workbook
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.services.door import write
from weighin.seasons.models import ClassMark
from weighin.seasons.pages.standings import list_context, team_context
from weighin.seasons.queries.standings import entries_in, season_standings, team_season
from weighin.seasons.services.classes import CLASS_MARKS
from weighin.ui.kept import KEEPER

from .test_contract import held

pytestmark = pytest.mark.django_db


def where(event: Event, name: str, *more: object) -> str:
    return reverse(f"seasons:{name}", args=[event.club.slug, event.season.slug, *more])


@pytest.fixture
def race(db: None) -> Event:
    """Two of three events fished, one of them counts; the third to come."""
    young = [
        {"boat": str(n), "team": name, "angler_1": f"{name} One"}
        for n, name in enumerate(("Alder", "Birch", "Cedar"), 1)
    ]
    young[2]["youth"] = "yes"
    held(3, ["Alder", "Birch", "Cedar"], young)
    held(4, ["Birch", "Alder", "Cedar"], young, count_best="1")
    return held(9, [], world.pairs(1, "Newt"), count_best="1", points_first="90")


def test_the_grid_has_dropped_points_in_brackets_and_says_who_is_in_reach(race: Event) -> None:
    client = world.member(race.club)
    html = client.get(where(race, "standings")).content.decode()
    assert "Alder, Birch lead, tied." in html
    assert "(90)" in html and ">100<" in html
    assert (
        "1 event is left. 2 of 4 teams can still reach the 100 points of first place by winning every event left"
        in html
    )
    assert "Big fish of the year" in html
    assert "Alder One" not in html and "Two of 2 events have no official result yet" in html
    people = client.get(where(race, "list", "anglers")).content.decode()
    assert "Alder One" in people
    youth = client.get(where(race, "list", "youth")).content.decode()
    assert "Cedar" in youth and ">Birch</a>" not in youth
    assert client.get(where(race, "list", "couples")).status_code == 404
    assert client.get(reverse("seasons:standings", args=[race.club.slug, "1999"])).status_code == 404


def test_a_team_has_a_page_of_its_season(race: Event) -> None:
    found = season_standings(race.season)
    client = world.member(race.club)
    html = client.get(where(race, "team", found.team_pks["Alder"])).content.decode()
    assert "Alder: 100 points, place 1, tied of 4 teams." in html
    assert "(90)" in html and "the title is in reach" in html and re.search(r"/care/\d+/", html)
    newt = client.get(where(race, "team", found.team_pks["Newt 1"])).content.decode()
    assert "to come" in newt and "less than the 100 of first place now" in newt and not re.search(r"/care/\d+/", newt)
    for unknown in (10**6, 2**63, 10**30):
        assert client.get(where(race, "team", unknown)).status_code == 404


def test_the_public_gets_no_angler_and_no_way_to_members_pages(race: Event) -> None:
    found = season_standings(race.season)
    shown = list_context(found, public=True)
    assert [name for name, _ in shown["lists"]] == ["teams", "youth"]
    assert all("href" not in str(row.cells) for row in shown["places"].rows) and not shown["members"]
    with pytest.raises(KeyError):
        list_context(found, "anglers", public=True)
    mine = team_season(found, found.team_pks["Alder"])
    assert mine is not None and team_context(found, mine, public=True)["care_entry"] is None


def test_before_the_first_event_and_after_the_last() -> None:
    event = held(9, [], world.pairs(2, "Newt"))
    client = world.member(event.club)
    assert "No points yet." in client.get(where(event, "standings")).content.decode()
    held(3, ["Alder", "Birch"])
    held(4, ["Alder", "Birch"])
    html = client.get(where(event, "standings")).content.decode()
    assert "Alder leads." in html
    Event.objects.get(pk=event.pk).event_days.update(status="cancelled")
    assert "Alder leads after the last event." in client.get(where(event, "standings")).content.decode()


def test_that_nobody_else_can_reach_the_title_is_said() -> None:
    held(3, ["Alder", "Birch"])
    held(4, ["Alder", "Birch"], points_step="50")
    event = held(9, [], world.pairs(1, "Newt"), points_first="20")
    client = world.member(event.club)
    assert "Alder leads, and nobody else can reach the title." in client.get(where(event, "standings")).content.decode()
    held(10, [], world.pairs(1, "Newt"), points_big_fish="3")
    assert (
        "cannot be worked out: an event left adds points for pounds or the big fish"
        in client.get(where(event, "standings")).content.decode()
    )


def test_the_files_hold_what_the_page_shows(race: Event) -> None:
    client = world.member(race.club)
    rows = list(csv.DictReader(io.StringIO(client.get(where(race, "files", "csv")).content.decode("utf-8-sig"))))
    assert [(one["List"], one["Place"], one["Tied"], one["Name"], one["Points"]) for one in rows[:3]] == [
        ("Teams", "1", "yes", "Alder", "100"), ("Teams", "1", "yes", "Birch", "100"), ("Teams", "3", "no", "Cedar", "80"),
    ]  # fmt: skip
    assert (rows[0]["Round 3"], rows[0]["Round 4"], rows[0]["Dropped"]) == ("100", "90", "Round 4")
    assert {one["List"] for one in rows} == {"Teams", "Anglers", "Youth"}
    book = load_workbook(io.BytesIO(client.get(where(race, "files", "xlsx")).content))
    assert book.sheetnames == ["Teams", "Anglers", "Youth"]
    assert [cell.value for cell in book["Teams"][2]][:6] == [1, "yes", "Alder", 100, 100, 90]
    text = " ".join(
        page.extract_text() for page in PdfReader(io.BytesIO(client.get(where(race, "files", "pdf")).content)).pages
    )
    assert "(90)" in text and "Alder One" in text and "can still reach" in text
    assert client.get(where(race, "files", "json")).json()["teams"][0]["team"] == "Alder"
    assert client.get(where(race, "files", "txt")).status_code == 404
    call_command("series", race.club.slug, race.season.slug, "Night", race.slug)
    assert client.get(where(race, "series_files", "night", "pdf")).status_code == 200
    assert "No points yet." in client.get(where(race, "series_list", "night", "teams")).content.decode()


def test_the_command_writes_a_file(race: Event, tmp_path) -> None:  # type: ignore[no-untyped-def]
    out = tmp_path / "standings.xlsx"
    call_command("season_standings", race.club.slug, race.season.slug, "--format", "xlsx", "--out", str(out))
    assert load_workbook(out).sheetnames[0] == "Teams"


def queries(event: Event) -> int:
    client = world.member(event.club)
    with CaptureQueriesContext(connection) as asked:
        assert client.get(where(event, "standings")).status_code == 200
    return len(asked)


def test_as_many_queries_for_many_events_and_teams_as_for_one() -> None:
    event = held(1, ["Alder"])
    one = queries(event)
    for number in range(2, 9):
        held(number, [f"Team {n}" for n in range(7)])
    world.large(300)
    KEEPER.clear()
    assert queries(event) == one
    kept = queries(event)
    assert kept < one


def test_what_is_kept_is_worked_out_again_after_a_write() -> None:
    event = held(3, ["Alder", "Birch"])
    held(4, ["Alder", "Birch"])
    assert season_standings(event.season).teams[0].points == 200
    Event.objects.filter(pk=event.pk).update(name="Opener", revision=1000)
    assert season_standings(event.season).events[0].name == "Opener"


def test_a_team_is_put_into_classes_event_by_event_and_ranked_within_them(race: Event) -> None:
    found = season_standings(race.season)
    director, scales = world.member(race.club), world.member(race.club, Role.WEIGH_OFFICIAL)
    assert set(found.classes) == {"youth"}
    for name in ("Birch", "Cedar"):
        entries = entries_in(race.season, found.team_pks[name])
        where_to = where(race, "team", found.team_pks[name])
        assert scales.post(where_to, {"couples": [entries[0].pk]}).status_code == 403
        assert director.post(where_to, {"couples": [one.pk for one in entries]}).status_code == 302
    rows = season_standings(race.season).classes["couples"]
    assert [(row.team, row.place, row.points) for row in rows] == [("Birch", 1, 100), ("Cedar", 2, 80)]
    assert "Couples" in director.get(where(race, "list", "couples")).content.decode()
    assert director.post(where_to, {"couples": [entries[0].pk], "club_only": [entries[1].pk]}).status_code == 302
    assert [row.team for row in season_standings(race.season).classes["couples"]] == ["Birch"]
    assert "club_only" not in season_standings(race.season).classes
    said = HistoryEntry.objects.filter(act__startswith="class.").order_by("id").values_list("sentence", flat=True)
    assert list(said)[-2:] == ["Cedar is not in the class Couples", "Cedar is in the class Club members only"]
    html = director.post(where_to, {"couples": ["999999"]}).content.decode()
    assert "999999" in html and ClassMark.objects.count() == 4


def test_a_mark_that_is_there_is_not_written_twice(race: Event) -> None:
    (entry, _) = entries_in(race.season, season_standings(race.season).team_pks["Birch"])
    for _ in range(2):
        draft = Draft({"entry": str(entry.boat), "name": "couples"})
        write(CLASS_MARKS, entry.event_id, draft, Sender("test")).kept()
    assert ClassMark.objects.count() == 1

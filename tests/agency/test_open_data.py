"""Open data: CSV with a CSVW description, the counts right, nobody to be found again."""

import csv
import io
import json
import re
import zipfile
from pathlib import Path
from typing import Any

import pytest
import world
from agency.test_open_data_attack import make_official
from django.core.management import CommandError, call_command
from django.urls import reverse
from mortality.seasons import fished, pen, season_of
from mortality.test_care_compared import with_ice

from weighin.accounts.domain.roles import Role
from weighin.agency.files.open_data import season_open_data
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.mortality.queries.season import season_mortality

pytestmark = pytest.mark.django_db
DATATYPES = {
    "integer": re.compile(r"[0-9]+\Z"),
    "boolean": re.compile(r"(true|false)\Z"),
    "gYearMonth": re.compile(r"[0-9]{4}-[0-9]{2}\Z"),
    "string": re.compile(r".+\Z"),
}


def season() -> Season:
    """A large event with care notes and a holding study, an event of four boats, and one without fish."""
    large = with_ice(
        "Large",
        [(7, 1)] * 6,
        [(6, 2)] * 7 + [(7, 0, 1, 1)],
        holding=[pen("tournament", 20, 3), pen("reference", 20, 1)],
    )
    small = fished("Small", [(7, 1), (7, 7), (5, 0), (6, 0)], date="2026-07-04")
    return season_of(large, small, fished("No fish", [(0, 0)], date="2026-08-01"))


def opened(content: bytes) -> tuple[dict[str, Any], dict[str, list[dict[str, str]]]]:
    """The description, and the rows of each CSV file."""
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        description = json.loads(packed.read("csv-metadata.json"))
        files = {name: packed.read(name).decode() for name in packed.namelist() if name.endswith(".csv")}
    return description, {name: list(csv.DictReader(io.StringIO(text, newline=""))) for name, text in files.items()}


def test_the_counts_are_the_season_s() -> None:
    found = season()
    _, files = opened(season_open_data(found))
    large = season_mortality(found).fished[0].found
    row = files["events.csv"][0]
    assert [int(row[name]) for name in ("livewells", "fish", "dead_at_table", "dead", "kept")] == [
        large.clusters, large.presented, large.dead_at_table, large.dead, large.kept,
    ]  # fmt: skip
    assert (row["held"], row["held_dead"], row["reference_held"], row["reference_dead"]) == ("20", "3", "20", "1")
    assert (row["month"], row["lake_temp_f"], row["suppressed"]) == ("2026-06", "79", "false")
    wells = [well for well in files["livewells.csv"] if well["event_no"] == "1"]
    assert sum(int(well["fish"]) for well in wells) == large.presented
    assert sum(int(well["dead_at_table"]) for well in wells) == large.dead_at_table


def test_a_practice_is_the_finished_season_s() -> None:
    events = [
        with_ice(f"Event {n}", [(7, 1)] * 4 + [(6, 0)], [(7, 1)] * 6 + [(6, 0)], date=f"2026-0{n}-20")
        for n in (4, 5, 6)
    ]
    season = season_of(*events)
    assert opened(season_open_data(season))[1]["practices.csv"] == []
    for event in events:
        make_official(event)
    ice = opened(season_open_data(season))[1]["practices.csv"]
    assert [(side["side"], side["suppressed"], side["livewells"], side["fish"], side["dead"]) for side in ice] == [
        ("ice", "false", "15", "102", "12"), ("no ice", "false", "21", "144", "18"),
    ]  # fmt: skip


def test_what_few_boats_stand_behind_is_blank() -> None:
    _, files = opened(season_open_data(season()))
    small = files["events.csv"][1]
    assert small["suppressed"] == "true"
    assert {small[name] for name in ("livewells", "fish", "dead_at_table", "dead", "kept", "held")} == {""}
    assert {well["event_no"] for well in files["livewells.csv"]} == {"1"}
    assert len(files["events.csv"]) == 2  # the event without fish has nothing to tell


def test_a_small_side_hides_the_other_too() -> None:
    event = with_ice("Few with ice", [(7, 1)] * 11, [(7, 1)] * 15)
    make_official(event)
    _, files = opened(season_open_data(season_of(event)))
    sides = files["practices.csv"]
    assert {side["suppressed"] for side in sides} == {"true"} and {side["fish"] for side in sides} == {""}


def test_a_livewell_of_its_own_kind_hides_both_sides() -> None:
    event = with_ice("One of its own", [(7, 1)] * 14 + [(2, 2)], [(7, 1)] * 15)
    make_official(event)
    _, files = opened(season_open_data(season_of(event)))
    assert {side["suppressed"] for side in files["practices.csv"]} == {"true"}


def test_nobody_is_in_it() -> None:
    found = season()
    with zipfile.ZipFile(io.BytesIO(season_open_data(found))) as packed:
        text = "".join(packed.read(name).decode() for name in packed.namelist())
    for word in ("Pair", "Angler", "Large", "Small", "Tarn Mere", "15:10", "gross", "official"):
        assert word not in text, word
    heads = {name for table in opened(season_open_data(found))[0]["tables"] for name in _names(table)}
    assert not heads & {"boat", "team", "angler", "name", "slip", "weighed", "released", "note"}


def test_livewell_numbers_follow_the_counts_and_no_boat() -> None:
    """The same boats in another order make the same rows, so a number cannot be followed from event to event."""
    catches = [(7, 3), (5, 0), (6, 1), (7, 0), (4, 4), (7, 2)]
    one = fished("One", catches)
    other = fished("Other", catches[::-1], season="2025")
    first, second = (opened(season_open_data(season_of(event)))[1]["livewells.csv"] for event in (one, other))
    assert first == second
    assert [(well["livewell_no"], well["fish"]) for well in first][:2] == [("1", "4"), ("2", "5")]


def test_the_description_fits_the_files() -> None:
    """As the W3C's Metadata Vocabulary for Tabular Data asks: every column named in order, its datatype, its keys."""
    found = season()
    for event in found.events.all():
        make_official(event)
    description, files = opened(season_open_data(found))
    assert description["@context"][0] == "http://www.w3.org/ns/csvw"
    assert {table["url"] for table in description["tables"]} == set(files)
    for table in description["tables"]:
        rows, schema = files[table["url"]], table["tableSchema"]
        assert rows and list(rows[0]) == _names(table), table["url"]
        assert all(column["dc:description"] for column in schema["columns"])
        for row in rows:
            for column in schema["columns"]:
                value = row[column["name"]]
                assert (not value and not column["required"]) or DATATYPES[column["datatype"]].match(value), column
        keys = [tuple(row[name] for name in schema["primaryKey"]) for row in rows]
        assert len(set(keys)) == len(keys)
        for reference in schema.get("foreignKeys", ()):
            (name,) = reference["columnReference"]
            assert {row[name] for row in rows} <= {row[name] for row in files[reference["reference"]["resource"]]}
    assert "observations, not experiments" in description["dc:description"]


def test_the_same_data_are_the_same_bytes() -> None:
    found = season()
    assert season_open_data(found) == season_open_data(found)


def test_one_event_alone() -> None:
    found = season()
    small = Event.objects.get(name="Small")
    _, files = opened(season_open_data(found, small.pk))
    assert [row["month"] for row in files["events.csv"]] == ["2026-07"]


def test_every_member_may_take_it_out_and_nobody_else() -> None:
    found = season()
    addresses = [
        reverse("agency:season_open_data", args=[found.club.slug, found.slug]),
        reverse("agency:event_open_data", args=[Event.objects.get(name="Large").slug]),
    ]
    for role in Role.values:
        client = world.member(found.club, role)
        for address in addresses:
            answer = client.get(address)
            assert answer.status_code == 200 and answer["Content-Type"] == "application/zip"
            assert opened(answer.content)[1]["events.csv"]
    page = client.get(reverse("advice:season", args=[found.club.slug, found.slug])).content.decode()
    assert addresses[0] in page
    assert all(world.stranger().get(address).status_code == 404 for address in addresses)


def test_the_command_writes_it(tmp_path: Path) -> None:
    found = season()
    out = tmp_path / "season.zip"
    call_command("open_data", found.club.slug, found.slug, "--out", str(out))
    assert out.read_bytes() == season_open_data(found)
    call_command("open_data", found.club.name, found.name, "--event", "small", "--out", str(out))
    assert len(opened(out.read_bytes())[1]["events.csv"]) == 1
    with pytest.raises(CommandError, match="no event in 2026 called nowhere"):
        call_command("open_data", found.club.slug, found.slug, "--event", "nowhere", "--out", str(out))
    with pytest.raises(CommandError, match="cannot be written"):
        call_command("open_data", found.club.slug, found.slug, "--out", str(tmp_path / "none" / "x.zip"))


def test_a_season_without_fish_has_heads_and_no_rows() -> None:
    event = fished("No fish", [(0, 0)])
    with zipfile.ZipFile(io.BytesIO(season_open_data(season_of(event)))) as packed:
        assert packed.read("events.csv").decode().startswith("event_no,month,species")
        assert packed.read("livewells.csv") == b"event_no,livewell_no,fish,dead_at_table\r\n"


def _names(table: dict[str, Any]) -> list[str]:
    return [column["name"] for column in table["tableSchema"]["columns"]]

"""A result file is held against the slips and official results that are kept."""

import json
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from django.db import connection

from weighin.audit.database.triggers import install, remove
from weighin.events.models import Event
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import change_entry
from weighin.slips.models import WeighSlip
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db


@pytest.fixture
def event() -> Event:
    return world.plain()


@pytest.fixture
def file(event: Event, tmp_path: Path) -> Path:
    publish_result(event, "director")
    return exported(event, tmp_path / "result.json")


def exported(event: Event, to: Path) -> Path:
    call_command("export_event", event.slug, format="json", out=to)
    return to


def verified(file: Path, capsys: Any) -> tuple[int, str]:
    capsys.readouterr()
    try:
        call_command("verify_result", file)
    except SystemExit as left:
        return int(left.code or 0), capsys.readouterr().out
    return 0, capsys.readouterr().out


def test_an_official_result_is_recognised(file: Path, capsys: Any) -> None:
    code, said = verified(file, capsys)
    assert code == 0 and said.startswith("result.json is official result 1 of Plain event, published")


def test_without_a_publication_it_is_what_the_slips_come_to(event: Event, tmp_path: Path, capsys: Any) -> None:
    code, said = verified(exported(event, tmp_path / "now.json"), capsys)
    assert code == 0 and said.strip() == "now.json is what the slips kept here come to now, and is no official result."


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda told: told["standings"][0].update(total="99.99"), "boat 1: total 99.99 in the file"),
        (lambda told: told["standings"].pop(), "not in the file"),
        (lambda told: told["standings"].append({"boat": 777}), "boat 777: in the file only"),
        (lambda told: told["standings"][0]["days"][0].update(fish=1), "its days differ"),
        (
            lambda told: told["standings"][0]["days"][0].update(weighed="1.00"),
            "its days differ: day 1 weighed 1.00 in the file",
        ),
        (lambda told: told["standings"][0].update(team="Pike Street"), "boat 1: team Pike Street in the file"),
        (lambda told: told["standings"].reverse(), "the places stand in another order"),
        (lambda told: told["event"].update(water="Elsewhere"), "the event: water Elsewhere in the file"),
        (lambda told: told.update(rules={"fish_limit": "99"}), "the rule sheet: fish limit 99 in the file"),
        (lambda told: told["purse"].update(purse="1.00"), "the purse differs"),
        (lambda told: told["ledger"].update(head="0" * 64), "made from other slips"),
        (lambda told: told["ledger"].update(length=1), "made from other slips"),
    ],
)
def test_a_changed_file_is_told_by_what_was_changed(file: Path, capsys: Any, change: Any, said: str) -> None:
    told = json.loads(file.read_text())
    told["standings"].sort(key=lambda row: row["boat"])
    change(told)
    file.write_text(json.dumps(told))
    code, found = verified(file, capsys)
    assert code == 1 and said in found and "does not" in found


def test_a_file_unlike_the_official_version_of_its_slips_is_a_fault_whatever_they_come_to_now(
    event: Event, file: Path, capsys: Any
) -> None:
    entry = event.entries.get(boat=1)
    change_entry(entry, EntryValues(boat=1, name="Pike Street", anglers=("A Alder",), paid=entry.paid), "mara")
    code, said = verified(exported(event, file.with_name("later.json")), capsys)
    assert code == 1 and "boat 1: team Pike Street in the file, Team 1 in official result 1" in said
    assert verified(file, capsys)[0] == 0


def test_an_official_result_altered_in_the_database_is_said(file: Path, capsys: Any) -> None:
    remove(connection, "standings_officialresult")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE standings_officialresult SET reason = 'x'")
    install(connection, "standings_officialresult")
    code, said = verified(file, capsys)
    assert code == 1 and "Not as it was written here" in said and "official result 1: altered since line" in said


def test_an_altered_ledger_is_said_whatever_the_file(file: Path, capsys: Any) -> None:
    remove(connection, "slips_weighslip")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE slips_weighslip SET note = 'x' WHERE position = 1")
    install(connection, "slips_weighslip")
    code, said = verified(file, capsys)
    assert code == 1 and "was altered" in said


@pytest.mark.parametrize(
    "text", ["", "[]", "{", '{"event": {"slug": 3}}', '{"event": {"slug": "x"}, "standings": [1]}', "[" * 100_000]
)
def test_what_is_no_result_is_refused_in_a_sentence(tmp_path: Path, text: str) -> None:
    (tmp_path / "x.json").write_text(text)
    with pytest.raises(CommandError, match="choose the JSON of an event"):
        call_command("verify_result", tmp_path / "x.json")


def test_an_event_of_another_site_is_named(file: Path) -> None:
    told = json.loads(file.read_text())
    told["event"]["slug"] = "elsewhere-2026"
    file.write_text(json.dumps(told))
    with pytest.raises(CommandError, match="elsewhere-2026 of result.json is not kept here"):
        call_command("verify_result", file)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="cannot be read"):
        call_command("verify_result", tmp_path / "none.json")


def test_slips_are_untouched(file: Path, capsys: Any) -> None:
    before = list(WeighSlip.objects.values())
    verified(file, capsys)
    assert list(WeighSlip.objects.values()) == before

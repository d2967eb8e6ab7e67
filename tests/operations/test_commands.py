"""Commands: bringing in, replacing, publishing, and the ledger's check."""

from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from django.db import connection
from second_reading.workbook import write

from weighin.audit.database.triggers import install, remove
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.standings.models import OfficialResult
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db


@pytest.fixture
def book(tmp_path: Path) -> Any:
    def make(without: tuple[str, ...] = (), **keys: str) -> Path:
        file = tmp_path / "event.xlsx"
        write(world.plain_sheets(without=without, **keys), file)
        return file

    return make


def test_the_slug_stands_alone_on_the_last_line(book: Any, capsys: Any) -> None:
    call_command("import_event", book())
    assert capsys.readouterr().out.strip().splitlines()[-1] == "plain-event-2026"
    assert HistoryEntry.objects.get(act="event.imported").details == {"replaced": False}


def test_check_writes_nothing(book: Any, capsys: Any) -> None:
    call_command("import_event", book(), check=True)
    assert "No faults." in capsys.readouterr().out
    assert not Club.objects.exists() and not HistoryEntry.objects.exists()


def test_an_event_that_is_here_is_refused_and_never_replaced_once_it_has_slips(book: Any) -> None:
    call_command("import_event", book())
    for replace in (False, True):
        with pytest.raises(CommandError, match="slips are never replaced"):
            call_command("import_event", book(), replace=replace)
    assert Event.objects.count() == 1


def test_before_its_first_slip_an_event_is_replaced_when_asked(book: Any) -> None:
    call_command("import_event", book(without=("Slips", "Fish care")))
    with pytest.raises(CommandError, match="use --replace"):
        call_command("import_event", book())
    before = Event.objects.get()
    call_command("import_event", book(water="Upper Slough"), replace=True)
    after = Event.objects.get()
    assert (after.pk, after.slug) == (before.pk, before.slug)
    assert after.water.name == "Upper Slough" and after.slips.count() == 7 and after.entries.count() == 5


def test_publishing_goes_with_the_import_and_says_what_stands_open(book: Any, capsys: Any) -> None:
    call_command("import_event", book(), publish=True)
    said = capsys.readouterr().out.splitlines()
    assert Event.objects.get().is_public and OfficialResult.objects.get().version == 1
    assert said[-1] == "plain-event-2026" and "Open: Day 1: boat 5 is not weighed, 1 of 5 boats." in said
    kept = OfficialResult.objects.get().overruled
    assert {"code": "not_weighed", "day": 1, "reason": "published as it came in from a workbook"}.items() <= kept[
        0
    ].items()


def test_an_event_without_a_slip_has_its_pages_opened_and_no_result(book: Any, capsys: Any) -> None:
    call_command("import_event", book(without=("Slips",)), publish=True)
    assert "the provisional pages are open" in capsys.readouterr().out
    assert Event.objects.get().is_public and not OfficialResult.objects.exists()
    with pytest.raises(CommandError, match="No slip is saved"):
        call_command("publish_result", "plain-event-2026", overrule="it rained")
    call_command("publish_result", "plain-event-2026", provisional=True)


def test_a_result_is_published_by_command_once_what_stands_open_is_overruled(book: Any, capsys: Any) -> None:
    call_command("import_event", book())
    with pytest.raises(CommandError, match="boat 5 is not weighed.*--overrule"):
        call_command("publish_result", "plain-event-2026")
    assert not OfficialResult.objects.exists()
    call_command("publish_result", "plain-event-2026", overrule="boat 5 went home")
    assert capsys.readouterr().out.splitlines()[-1] == "1"
    assert {row["reason"] for row in OfficialResult.objects.get().overruled} == {"boat 5 went home"}
    with pytest.raises(CommandError, match="^nothing changed since version 1: there is nothing new to publish$"):
        call_command("publish_result", "plain-event-2026")
    with pytest.raises(CommandError, match="There is no event elsewhere"):
        call_command("publish_result", "elsewhere")


def test_a_blank_reason_is_none(book: Any) -> None:
    call_command("import_event", book())
    with pytest.raises(CommandError, match="--overrule TEXT"):
        call_command("publish_result", "plain-event-2026", overrule="  ")


def test_unknown_parts_are_named_and_left_out(book: Any, tmp_path: Path, capsys: Any) -> None:
    from openpyxl import load_workbook

    file = load_workbook(book())
    file.create_sheet("Budget")["A1"] = "x"
    file["Teams"].cell(1, 20, "shoe size")
    file["Event"].append(["sponsor", "nobody"])
    file.save(tmp_path / "more.xlsx")
    call_command("import_event", tmp_path / "more.xlsx")
    said = capsys.readouterr().out
    assert "Warning: Budget!A1" in said and "'shoe size'" in said and "'sponsor'" in said


def test_the_ledger_holds_and_an_altered_slip_is_named(capsys: Any) -> None:
    event = world.plain()
    publish_result(event, "test")
    call_command("check_ledger", event.slug)
    assert "nothing altered" in capsys.readouterr().out
    table = WeighSlip._meta.db_table
    remove(connection, table)
    with connection.cursor() as cursor:
        cursor.execute(f"UPDATE {table} SET gross = '9.99' WHERE number = 3")
    install(connection, table)
    with pytest.raises(SystemExit):
        call_command("check_ledger")
    said = capsys.readouterr().out
    assert f"{event.slug}: slip 3 (position 3) does not fit" in said


def test_a_removed_last_slip_shows_in_the_official_result(capsys: Any) -> None:
    event = world.plain()
    publish_result(event, "test")
    table = WeighSlip._meta.db_table
    remove(connection, table)
    with connection.cursor() as cursor:
        cursor.execute(f"DELETE FROM {table} WHERE number = 7")
    install(connection, table)
    with pytest.raises(SystemExit):
        call_command("check_ledger", event.slug)
    assert "official result 1 was made from other slips" in capsys.readouterr().out
    with pytest.raises(CommandError, match="There is no event"):
        call_command("check_ledger", "nowhere")

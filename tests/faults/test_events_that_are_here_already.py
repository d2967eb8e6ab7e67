"""A workbook of an event that is here already: found whatever its spelling, replaced only before its day."""

from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone
from second_reading.workbook import write
from world import plain, plain_sheets

from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.tanks.models import Release

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("key", "spelt"), [("club", "Heron  Bend\u00a0anglers"), ("season", " 2026 "), ("event", "PLAIN   event")]
)
def test_it_is_found_whatever_its_case_and_spacing(key: str, spelt: str, tmp_path: Path) -> None:
    plain()
    write(plain_sheets(**{key: spelt}), tmp_path / "again.xlsx")
    with pytest.raises(CommandError, match="is here already"):
        call_command("import_event", tmp_path / "again.xlsx")
    assert (Club.objects.count(), Season.objects.count(), Event.objects.count()) == (1, 1, 1)


def test_it_is_not_replaced_under_what_no_workbook_holds(tmp_path: Path) -> None:
    write(plain_sheets(without=["Slips"]), tmp_path / "plain.xlsx")
    call_command("import_event", tmp_path / "plain.xlsx")
    call_command("import_event", tmp_path / "plain.xlsx", replace=True)
    Release.objects.create(event=Event.objects.get(), day=1, time=timezone.now(), place="The point", fish=3)
    with pytest.raises(CommandError, match="other things from its day"):
        call_command("import_event", tmp_path / "plain.xlsx", replace=True)
    assert Release.objects.count() == 1

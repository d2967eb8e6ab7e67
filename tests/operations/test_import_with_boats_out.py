"""A workbook whose roll has a boat still out comes in with its pages open, and no result of it is official."""

from io import StringIO
from pathlib import Path

import pytest
import world
from django.core.management import call_command
from django.test import Client
from second_reading import workbook

from weighin.events.models import Event

pytestmark = [pytest.mark.django_db, pytest.mark.database]


def test_a_boat_still_out_keeps_no_event_from_coming_in(tmp_path: Path) -> None:
    sheets = world.plain_sheets()
    sheets["Check-ins"] = [{"day": "1", "boat": "1", "whereabouts": "unaccounted"}]
    workbook.write(sheets, tmp_path / "event.xlsx")
    out = StringIO()
    call_command("import_event", str(tmp_path / "event.xlsx"), "--publish", stdout=out)
    assert "are still out." in out.getvalue() and "provisional result" in out.getvalue()
    event = Event.objects.get(slug=out.getvalue().split()[-1])
    assert not event.official_results.exists()
    assert Client(headers={"host": "localhost"}).get(f"/api/events/{event.slug}").status_code == 200

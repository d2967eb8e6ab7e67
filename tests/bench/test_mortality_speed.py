"""What the pages of dead fish cost, in multiples of the floor: a season of 12 events with 150 teams."""

from pathlib import Path

import pytest
import world

from bench.floor import FLOOR, best, floor
from bench.large_event import write_large_event
from bench.measured import Measured
from weighin.events.models import Event
from weighin.mortality.pages.event_report import panel
from weighin.ui.kept import KEEPER
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.services import keep_event

pytestmark = [pytest.mark.django_db, pytest.mark.bench]


def test_a_season_of_twelve_events_and_150_teams(tmp_path: Path, measured: Measured):
    file = tmp_path / "event.xlsx"
    for number in range(12):
        write_large_event(file, f"Large {number}", 150, 1)
        plan, report = read_workbook(file)
        assert plan is not None, report.faults
        event = keep_event(plan, "test")
        Event.objects.filter(pk=event.pk).update(lake_temp=f"{56 + 2 * number} F")
    client = world.member(event.club)
    address = f"/clubs/{event.club.slug}/seasons/{event.season.slug}/mortality/"

    def cold():
        KEEPER.clear()
        assert client.get(address).status_code == 200

    least = floor()
    uncached = best(cold, 3)
    cached = best(lambda: client.get(address), 20)
    one_event = best(lambda: panel(event), 3)
    what_if = address.replace("mortality", "what-if")
    replayed = best(lambda: client.get(what_if, {"dead_fish_penalty": "0.5"}), 2)
    season = "Season of 12 events, 150 teams"
    measured(f"{season}: mortality, new", uncached, "ms", least, FLOOR, at_most=45)
    measured(f"{season}: mortality, kept", cached, "ms", least, FLOOR, at_most=2)
    measured(f"{season}: mortality of one event", one_event, "ms", least, FLOOR, at_most=8)
    measured(f"{season}: what if, another rule sheet", replayed, "ms", least, FLOOR, at_most=170)

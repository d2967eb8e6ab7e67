"""A full shore: phones on the pages of an event while its stations write, all from one address."""

import json
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from faults.lake import Stations, public_event
from served import ROOT, Site

from bench.measured import Measured

pytestmark = pytest.mark.bench
CROWD = ROOT / "tests" / "faults" / "crowd.py"
SECONDS = 15


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    site = Site(tmp_path)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    site.start()
    yield site
    site.stop()


def read_by(site: Site, phones: int, connections: int, polls: int, *paths: str) -> "subprocess.Popen[str]":
    """Phones that read, begun when all their connections are open."""
    words = [sys.executable, str(CROWD), *map(str, (site.port, SECONDS, phones, connections, polls)), *paths]
    crowd = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert crowd.stderr is not None and crowd.stderr.readline() == "open\n"
    return crowd


def read(crowd: "subprocess.Popen[str]") -> dict[str, Any]:
    said, wrong = crowd.communicate()
    assert crowd.returncode == 0, wrong
    found: dict[str, Any] = json.loads(said)
    return found


def p99(took: list[float]) -> float:
    return took[len(took) * 99 // 100]


def test_two_hundred_polls_a_second_beside_four_stations(site: Site, measured: Measured) -> None:
    slug = public_event(site)
    paths = (f"/results/{slug}/crowd/", f"/results/{slug}/standings/", f"/api/events/{slug}")
    with Stations(site, slug, 4, 0.5) as stations:
        polls = read(read_by(site, 100, 2, 200, *paths))
    said = f"polls {len(polls['took'])} {polls['came']}, p99 {p99(polls['took']):.0f} ms; slips {len(stations.took)}, p99 {stations.slowest():.0f} ms"
    assert not stations.wrong and set(polls["came"]) <= {"200", "304"}, said
    name = "100 phones, 200 polls a second beside 4 stations"
    measured(f"{name}: 99 of 100 polls", p99(polls["took"]), "ms", at_most=200)
    measured(f"{name}: 99 of 100 slips", stations.slowest(), "ms", at_most=200)


def test_five_hundred_phones_and_four_hundred_silent_lines_beside_four_stations(site: Site, measured: Measured) -> None:
    slug = public_event(site)
    with ExitStack() as open_, Stations(site, slug, 4, 0.5) as stations:
        for _ in range(400):
            open_.enter_context(socket.create_connection(("127.0.0.1", site.port)))
        crowd = read(read_by(site, 500, 6, 500, f"/results/{slug}/crowd/", f"/results/{slug}/standings/"))
    said = f"{len(crowd['took'])} answers {crowd['came']}, p99 {p99(crowd['took']):.0f} ms; slips {len(stations.took)}, p99 {stations.slowest():.0f} ms"
    assert not stations.wrong and set(crowd["came"]) <= {"200", "304", "503"}, said
    name = "500 phones with six lines each and 400 silent ones beside 4 stations: 99 of 100 slips"
    measured(name, stations.slowest(), "ms", at_most=1000)

"""A crowd on the public pages: what an unchanged page costs beside the least a server can say, and what scales notice."""

import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

import pytest
from patience import until
from served import Site, free_port

from bench.measured import Measured
from bench.wire.test_station_speed import answers

pytestmark = pytest.mark.bench
HERE = Path(__file__).parent
READERS, SECONDS, ROUNDS = 8, 0.8, 5
LEAST_SHARE = 0.45  # of the bare 204s a second
SLOWEST_MS = 200.0
STATIONS, SLIPS_EACH = 4, 20
PAGES = ("", "standings/", "crowd/", "screen/", "rules/", "fish/", "briefing/")
EVENT = """
import sys
sys.path.insert(0, "tests")
import world
from weighin.standings.services import set_public
event = world.event("Crowd", world.pairs(300), [world.slip(boat=str(n), gross=f"{5 + n / 100:.2f}") for n in range(1, 151)])
set_public(event, True, "bench")
print(event.slug)
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    site = Site(tmp_path_factory.mktemp("data"))
    site.manage("migrate", "--verbosity", "0")
    site.start()
    yield site
    site.stop()


def memory(pid: int) -> float:
    """Megabytes that a process holds."""
    return int(re.search(r"VmRSS:\s+(\d+)", Path(f"/proc/{pid}/status").read_text())[1]) / 1024  # type: ignore[index]


@pytest.fixture(scope="module")
def slug(site: Site) -> str:
    return site.manage("shell", "--verbosity", "0", "-c", EVENT).stdout.split()[-1]


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Iterator["subprocess.Popen[bytes]"]:
    port, file = free_port(), tmp_path_factory.mktemp("bare") / "bare.sqlite3"
    words = [sys.executable, str(HERE / "bare.py"), str(file), str(port)]
    server = subprocess.Popen(words, stderr=subprocess.DEVNULL)
    until(lambda: answers(port))
    server.port = port  # type: ignore[attr-defined]
    yield server
    server.kill()
    server.wait()


def polled(port: int, path: str, *more: object) -> Any:
    words = [sys.executable, str(HERE / "polling.py"), *map(str, (port, path, *more))]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.returncode == 0 and not done.stderr, done.stderr
    return json.loads(done.stdout)


def spent(pid: int) -> float:
    """Seconds of work of a process by now; what else the machine does is not in it."""
    fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def work_an_answer(pid: int, port: int, path: str) -> tuple[float, float]:
    """Milliseconds of the server's work for an answer, and answers a second."""
    before = spent(pid)
    found = polled(port, path, READERS, SECONDS)
    answered = len(found["took"])
    assert sum(count for status, count in found["statuses"].items() if status not in ("204", "304")) <= READERS
    return (spent(pid) - before) * 1000 / answered, answered / SECONDS


def test_an_unchanged_page_costs_little_more_than_nothing(
    site: Site, slug: str, bare: "subprocess.Popen[bytes]", measured: Measured
) -> None:
    assert site.server is not None
    site.ask("/")
    idle = memory(site.server.pid)
    rows = []
    for where in (*(f"/results/{slug}/{page}" for page in PAGES), f"/api/events/{slug}", "/"):
        took = []
        for _ in range(2):
            began = time.perf_counter()
            assert site.ask(where)[0] == 200
            took.append((time.perf_counter() - began) * 1000)
        rounds = []
        for _ in range(ROUNDS):
            least, nothings = work_an_answer(bare.pid, bare.port, "/nothing")  # type: ignore[attr-defined]
            ours, unchanged = work_an_answer(site.server.pid, site.port, where)
            rounds.append((unchanged, unchanged / nothings, least / ours))
        rows.append((where, *took, *(median(each) for each in zip(*rounds, strict=True))))
    print("\npage, ms when new, ms kept, 304s a second, share of bare 204s a second, share by the servers' work")
    for where, new, kept, rate, share, by_work in rows:
        print(f"{where:40} {new:8.1f} {kept:8.1f} {rate:8.0f} {share:6.2f} {by_work:6.2f}")
    # Two measures of the same: the machine's other work lies in the first, and in the last there is none of the readers'
    for where, _, _, rate, *shares in rows:
        name = where.replace(slug, "EVENT")
        measured(f"{name} unchanged", rate, "a second", rate / max(shares), "a bare 204", at_least=LEAST_SHARE)
    measured("Memory of the server after them", memory(site.server.pid), "MB", idle, "idle", at_most=2)


def test_a_crowd_that_polls_is_nothing_to_the_scales(site: Site, slug: str, measured: Measured) -> None:
    token = site.manage("pair_station", slug, "Table 1").stdout.split()[-1]
    words = [str(site.port), f"/api/events/{slug}/slips", token, "151", str(STATIONS), str(SLIPS_EACH), "0.5"]
    stations = subprocess.Popen(
        [sys.executable, str(HERE / "posting.py"), *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    polls = polled(site.port, f"/results/{slug}/crowd/", 40, SLIPS_EACH * 0.5, 200)
    said, wrong = stations.communicate()
    assert stations.returncode == 0, wrong
    slips, reads = json.loads(said), polls["took"]
    assert set(polls["statuses"]) <= {"200", "304"} and len(slips) == STATIONS * SLIPS_EACH
    slip_p99, poll_p99 = slips[len(slips) * 99 // 100], reads[len(reads) * 99 // 100]
    name = f"200 polls of the crowd's page a second beside {STATIONS} stations"
    measured(f"{name}: 99 of 100 polls", poll_p99, "ms", at_most=SLOWEST_MS)
    measured(f"{name}: 99 of 100 slips", slip_p99, "ms", at_most=SLOWEST_MS)

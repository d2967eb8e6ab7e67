"""Eight stations posting at once, against the least a server can do: one durable insert an answer."""

import json
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest
from patience import until
from served import Site, free_port

from bench.measured import Measured

pytestmark = pytest.mark.bench
HERE = Path(__file__).parent
STATIONS, SLIPS, ROUNDS = 8, 60, 7
MOST_TIMES = 4
BOATS = STATIONS * SLIPS * (ROUNDS + 1)
# Brings an event in with so many boats that no slip is anybody's second
LARGE = f"""
import sys
sys.path.insert(0, "tests")
import world
print(world.event("Many boats", world.pairs({BOATS})).slug)
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    site = Site(tmp_path_factory.mktemp("data"))
    site.manage("migrate", "--verbosity", "0")
    site.start()
    yield site
    site.stop()


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    port = free_port()
    file = tmp_path_factory.mktemp("bare") / "bare.sqlite3"
    server = subprocess.Popen([sys.executable, str(HERE / "bare.py"), str(file), str(port)], stderr=subprocess.DEVNULL)
    until(lambda: answers(port))
    yield port
    server.kill()
    server.wait()


def answers(port: int) -> bool:
    try:
        urllib.request.urlopen(f"http://127.0.0.1:{port}/").close()
    except OSError:
        return False
    return True


def posted(port: int, path: str, token: str, first: int) -> tuple[float, float]:
    """The 50th and the 99th hundredth of the answers, in milliseconds."""
    words = [sys.executable, str(HERE / "posting.py"), str(port), path, token, str(first), str(STATIONS), str(SLIPS)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    took = json.loads(done.stdout)
    assert len(took) == STATIONS * SLIPS
    return took[len(took) // 2], took[len(took) * 99 // 100]


def test_an_acknowledgement_takes_at_most_four_times_a_bare_insert(site: Site, bare: int, measured: Measured) -> None:
    slug = site.manage("shell", "--verbosity", "0", "-c", LARGE).stdout.split()[-1]
    token = site.manage("pair_station", slug, "Table 1").stdout.split()[-1]
    path = f"/api/events/{slug}/slips"
    rounds = []
    for turn in range(ROUNDS + 1):
        least = posted(bare, "/", "none", 1)
        ours = posted(site.port, path, token, 1 + turn * STATIONS * SLIPS)
        rounds.append((*ours, *least))
    # The first round warms both up; in each of the others both had the same machine, whatever else it did
    p50, p99, *_ = (median(found) for found in zip(*rounds[1:], strict=True))
    times_p50 = median(ours / least for ours, _, least, _ in rounds[1:])
    times_p99 = median(ours / least for _, ours, _, least in rounds[1:])
    bare_insert = "a bare durable insert"
    name = f"A slip acknowledged, {STATIONS} stations at once"
    measured(f"{name}: half of them", p50, "ms", p50 / times_p50, bare_insert, at_most=MOST_TIMES)
    measured(f"{name}: 99 of 100", p99, "ms", p99 / times_p99, bare_insert, at_most=MOST_TIMES)
    ledger = site.manage("check_ledger", slug)
    assert ledger.returncode == 0 and f"{BOATS} slips, nothing altered" in ledger.stdout

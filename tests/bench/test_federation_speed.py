"""What the summary of all clubs costs: time and memory for 50,000 and for 100,000 slips, as a command of its own."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from served import OWN, ROOT

from bench.floor import FLOOR, floor
from bench.measured import Measured

pytestmark = pytest.mark.bench
MAKE = "import django; django.setup(); from bench.federation import make; make({first}, {slips})"
ALONE = """
import django; django.setup()
from time import process_time
from weighin.events.models import Event
from weighin.mortality.queries.event_sums import event_sums
from weighin.mortality.services.federation import edition, summary
from weighin.reports.files.federation import federation_file
begun = process_time()
found = federation_file(summary(edition(2026, event_sums(Event.objects.all()), []), 2026), "json")
assert len(found) > 1000
print(process_time() - begun)
"""


def cost(data: Path, *words: str) -> tuple[float, float, str]:
    """Seconds of work (what else the machine does is left out), peak memory in MB and what a command of its own said."""
    env = {name: value for name, value in os.environ.items() if name not in OWN}
    env |= {"WEIGHIN_DATA": str(data), "DJANGO_SETTINGS_MODULE": "weighin.settings"}
    env["PYTHONPATH"] = f"{ROOT}{os.pathsep}{ROOT / 'tests'}"
    with (data / "said.txt").open("w+") as said:
        process = subprocess.Popen([sys.executable, *words], env=env, cwd=ROOT, stdout=said)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        assert process.returncode == 0, words
        said.seek(0)
        return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, said.read()


def test_a_federation_of_100_000_slips(tmp_path: Path, measured: Measured) -> None:
    alone, memory, command = {}, {}, {}
    for slips in (50_000, 100_000):
        data = tmp_path / f"{slips}"  # of its own: an edition that is fixed is only read
        data.mkdir()
        cost(data, "manage.py", "migrate", "-v0")
        cost(data, "-c", MAKE.format(first=0, slips=slips))
        command[slips], memory[slips], _ = cost(
            data, "manage.py", "federation_summary", "--out", str(data / "all.json")
        )
        alone[slips] = min(float(cost(data, "-c", ALONE)[2]) for _ in range(3))
    name = "Federation of 100,000 slips"
    measured(f"{name}: the command", command[100_000] * 1000, "ms", floor(), FLOOR, at_most=900)
    measured(f"{name}: the summary", alone[100_000], "s", alone[50_000], "50,000 slips", at_most=2.6)
    measured(f"{name}: memory", memory[100_000], "MB", at_most=400)

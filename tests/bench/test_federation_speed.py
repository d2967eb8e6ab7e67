"""What the summary of all clubs costs: time and memory for 50,000 and for 100,000 slips, as a command of its own."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from served import OWN, ROOT

from bench.floor import floor

pytestmark = pytest.mark.bench
MAKE = "import django; django.setup(); from bench.federation import make; make({first}, {slips})"
ALONE = """
import django; django.setup()
from time import process_time
from weighin.mortality.federation import federation
from weighin.reports.federation import federation_file
begun = process_time()
found = federation_file(federation(), "json")
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


def test_a_federation_of_100_000_slips(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    cost(tmp_path, "manage.py", "migrate", "-v0")
    alone, memory, command = {}, {}, {}
    for first, slips in ((0, 50_000), (50_000, 50_000)):
        cost(tmp_path, "-c", MAKE.format(first=first, slips=slips))
        runs = [
            cost(tmp_path, "manage.py", "federation_summary", "--out", str(tmp_path / "all.json")) for _ in range(2)
        ]
        command[first + slips] = min(seconds for seconds, _, _ in runs)
        memory[first + slips] = max(peak for _, peak, _ in runs)
        alone[first + slips] = min(float(cost(tmp_path, "-c", ALONE)[2]) for _ in range(3))
    with capsys.disabled():
        for slips in command:
            print(
                f"\nfederation summary of {slips:,} slips: {command[slips]:.1f} s and {memory[slips]:.0f} MB, of which the "
                f"summary itself {alone[slips]:.2f} s"
            )
    # Seen: about 300 floors for the whole command
    assert command[100_000] * 1000 <= 900 * floor()
    assert memory[100_000] <= 400
    assert alone[100_000] <= 2.6 * alone[50_000]

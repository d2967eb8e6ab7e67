"""What the summary of all clubs costs: time and memory for 50,000 and for 100,000 slips, as a command of its own."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from served import OWN, ROOT

pytestmark = pytest.mark.bench
MAKE = "import django; django.setup(); from bench.federation import make; make({slips})"


def cost(data: Path, *words: str) -> tuple[float, float]:
    """Seconds of work (what else the machine does is left out) and peak memory in MB of a command."""
    env = {name: value for name, value in os.environ.items() if name not in OWN}
    env |= {"WEIGHIN_DATA": str(data), "DJANGO_SETTINGS_MODULE": "weighin.settings"}
    env["PYTHONPATH"] = f"{ROOT}{os.pathsep}{ROOT / 'tests'}"
    process = subprocess.Popen([sys.executable, *words], env=env, cwd=ROOT, stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    assert status == 0, words
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def test_a_federation_of_100_000_slips(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    costs = {}
    for slips in (50_000, 100_000):
        data = tmp_path / str(slips)
        data.mkdir()
        cost(data, "manage.py", "migrate", "-v0")
        cost(data, "-c", MAKE.format(slips=slips))
        out = data / "all.json"
        costs[slips] = min(cost(data, "manage.py", "federation_summary", "--out", str(out)) for _ in range(3))
        assert out.stat().st_size > 1000
    begun, _ = min(cost(data, "manage.py", "check") for _ in range(2))
    (half, half_mb), (whole, whole_mb) = costs[50_000], costs[100_000]
    with capsys.disabled():
        print(
            f"\nfederation summary: {whole:.1f} s and {whole_mb:.0f} MB for 100,000 slips, {half:.1f} s and {half_mb:.0f} MB "
            f"for 50,000; {begun:.1f} s of each is starting up"
        )
    assert whole <= 3
    assert whole_mb <= 400
    assert whole - begun <= 2.5 * (half - begun)
    assert whole_mb <= half_mb * 2

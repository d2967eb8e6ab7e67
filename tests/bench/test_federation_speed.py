"""What the summary of all clubs costs: time and memory for 50,000 and for 100,000 slips, as a command of its own."""

from pathlib import Path

import pytest

from bench.alone import cost
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
from weighin.agency.files.federation import federation_file
begun = process_time()
found = federation_file(summary(edition(2026, event_sums(Event.objects.all()), []), 2026), "json")
assert len(found) > 1000
print(process_time() - begun)
"""


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

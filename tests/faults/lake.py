"""A public event on a server of its own, and stations that write to it in their rhythm while something else goes on."""

import http.client
import json
import threading
import time
from types import TracebackType
from typing import Any

from patience import SECONDS
from served import Site
from stations.speaking import message

BOATS, WEIGHED = 300, 60
EVENT = f"""
import sys
sys.path.insert(0, "tests")
import world
weighed = [world.slip(boat=str(n), gross=f"{{5 + n / 100:.2f}}", weighed="15:10") for n in range(1, {WEIGHED + 1})]
print(world.event("Full shore", world.pairs({BOATS}), weighed).slug)
"""
# Pairs so many stations in one go
TOKENS = """
from weighin.events.access import find
from weighin.stations.services.stations import make_station
for number in range({count}):
    print("token", make_station(find("{slug}"), f"Table {{number}}", ["weigh"], "test")[1])
"""


def public_event(site: Site) -> str:
    """An event of 300 boats of which 60 are weighed, its pages open; its slug."""
    slug = site.manage("shell", "--verbosity", "0", "-c", EVENT).stdout.split()[-1]
    assert site.manage("publish_result", slug, "--provisional").returncode == 0
    return slug


class Stations:
    """``with Stations(site, slug, 4, 0.5) as stations``: so many stations send a slip each so many seconds meanwhile."""

    def __init__(self, site: Site, slug: str, count: int, every: float, first_boat: int = WEIGHED + 1):
        self.port, self.path, self.every = site.port, f"/api/events/{slug}/slips", every
        self.took: list[float] = []
        self.wrong: list[str] = []
        self._end = threading.Event()
        boats = iter(range(first_boat, BOATS + 1))
        said = site.manage("shell", "--verbosity", "0", "-c", TOKENS.format(slug=slug, count=count)).stdout
        tokens = [line.split()[1] for line in said.splitlines() if line.startswith("token ")]
        self._threads = [threading.Thread(target=self._send, args=(token, boats)) for token in tokens]

    def __enter__(self) -> "Stations":
        for thread in self._threads:
            thread.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._end.set()
        for thread in self._threads:
            thread.join()
        self.took.sort()

    def slowest(self, share: float = 0.99) -> float:
        """Milliseconds within which that share of the slips was answered."""
        return self.took[min(len(self.took) - 1, int(len(self.took) * share))]

    def _send(self, token: str, boats: Any) -> None:
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=SECONDS)
        headers = {"Content-Type": "application/json", "Authorization": f"Bearer {token}"}
        while not self._end.wait(self.every):
            body = json.dumps({"slips": [message(boat=next(boats))]})
            started = time.perf_counter()
            try:
                line.request("POST", self.path, body, headers)
                answer = line.getresponse()
                said = answer.read()
            except (OSError, http.client.HTTPException) as error:
                self.wrong.append(repr(error))
                line.close()
                continue
            self.took.append((time.perf_counter() - started) * 1000)
            if answer.status != 200 or json.loads(said)["slips"][0]["state"] != "kept":
                self.wrong.append(f"{answer.status} {said.decode()[:200]}")
        line.close()

"""Stations that talk to a server in a process of its own, over a network that fails them."""

import http.client
import json
import socket
import threading
from collections.abc import Iterable
from random import Random
from typing import Any

from patience import SECONDS
from served import Site

Answers = dict[str, set[tuple[str, int]]]

# An event with plenty of boats and no slip, brought in inside the server's data folder
EVENT = """
import sys
sys.path.insert(0, "tests")
import world
print(world.event("Rough water", world.pairs(400)).slug)
"""
# id, number, boat of every slip that the database holds
ROWS = """
from weighin.slips.models import WeighSlip
for slip in WeighSlip.objects.select_related("entry"):
    print("row", slip.pk, slip.number, slip.entry.boat)
"""


def new_event(site: Site) -> str:
    """Import the event; its slug."""
    return site.manage("shell", "--verbosity", "0", "-c", EVENT).stdout.split()[-1]


def rows_of(site: Site) -> list[tuple[str, int, int]]:
    """Id, number and boat of every slip in the site's database."""
    lines = site.manage("shell", "--verbosity", "0", "-c", ROWS).stdout.splitlines()
    words = [line.split() for line in lines if line.startswith("row ")]
    return [(slip_id, int(number), int(boat)) for _, slip_id, number, boat in words]


class Table:
    """A station with its slips to send and what it was answered: (state, number) by id."""

    def __init__(self, site: Site, slug: str, token: str, seed: int) -> None:
        self.site, self.path, self.token = site, f"/api/events/{slug}/slips", token
        self.random = Random(seed)
        self.answers: Answers = {}

    def send(self, slips: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
        """Post the slips in one body and take the answers in. Raises OSError or HTTPException when the network fails."""
        connection = http.client.HTTPConnection("127.0.0.1", self.site.port, timeout=SECONDS)
        try:
            connection.request("POST", self.path, self._body(slips), self._headers())
            answer = connection.getresponse()
            said = answer.read()
        finally:
            connection.close()
        assert answer.status == 200, (answer.status, said)
        found: list[dict[str, Any]] = json.loads(said)["slips"]
        for one in found:
            if one["state"] != "refused":
                self.answers.setdefault(one["id"], set()).add((one["state"], one["slip"]))
        return found

    def send_and_hang_up(self, slips: Iterable[dict[str, Any]], share: float = 1.0) -> None:
        """Post the slips, or a share of the body, and be gone before the answer comes."""
        body = self._body(slips)
        head = "".join(f"{name}: {value}\r\n" for name, value in self._headers().items())
        request = f"POST {self.path} HTTP/1.1\r\nHost: 127.0.0.1\r\n{head}Content-Length: {len(body)}\r\n\r\n".encode()
        with socket.create_connection(("127.0.0.1", self.site.port), timeout=SECONDS) as line:
            line.sendall(request + body[: int(len(body) * share)])

    def _body(self, slips: Iterable[dict[str, Any]]) -> bytes:
        return json.dumps({"slips": list(slips)}).encode()

    def _headers(self) -> dict[str, str]:
        return {"Content-Type": "application/json", "Authorization": f"Bearer {self.token}"}


def at_once(acts: Iterable[Any]) -> None:
    """Run the acts at the same time and wait for all; the first thing that went wrong is raised."""
    wrong: list[BaseException] = []

    def run(act: Any) -> None:
        try:
            act()
        except BaseException as error:
            wrong.append(error)

    threads = [threading.Thread(target=run, args=(act,)) for act in acts]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if wrong:
        raise wrong[0]

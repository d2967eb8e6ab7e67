"""Four tablets that go on sending whatever befalls the site, and the count of what became of their slips."""

import http.client
import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Any

from patience import SECONDS, until
from served import Site
from stations.speaking import message
from stations.tables import rows_of

TABLETS = 4
ANSWER_SECONDS = 60
BETWEEN_SECONDS = 0.03  # else a quick site has all slips before the fault comes
# An event with plenty of boats, and its stations' tokens
READY = """
import sys
sys.path.insert(0, "tests")
import world
from weighin.stations.services.stations import make_station
event = world.event("Rough water", world.pairs(400))
print("ready", event.slug, *(make_station(event, f"Table {n}", ("weigh",), "quill")[1] for n in range(%d)))
"""


@dataclass
class Answer:
    """What a tablet was told: status, headers by lower-case name, body."""

    status: int
    headers: dict[str, str]
    body: bytes


class Tablet(threading.Thread):
    """Sends its slips one by one; each again, under its own id, until it is acknowledged."""

    def __init__(self, load: "Load", token: str, slips: list[dict[str, Any]], seed: int) -> None:
        super().__init__(daemon=True)
        self.load, self.token, self.slips, self.random = load, token, slips, Random(seed)
        self.acknowledged: dict[str, int] = {}
        self.refused: list[Answer] = []

    def run(self) -> None:
        for slip in self.slips:
            while slip["id"] not in self.acknowledged and not self.load.given_up.is_set():
                self._send(slip)
                self.load.pause.wait()
            self.load.given_up.wait(BETWEEN_SECONDS)

    def _send(self, slip: dict[str, Any]) -> None:
        try:
            answer = post(self.load.site, self.load.slug, self.token, slip)
        except (OSError, http.client.HTTPException):
            self.load.given_up.wait(self.random.random() / 5)
            return
        if answer.status != 200:
            self.refused.append(answer)
            self.load.given_up.wait(self.random.random() / 5)
            return
        (one,) = json.loads(answer.body)["slips"]
        assert one["state"] in ("kept", "already"), one
        self.acknowledged[slip["id"]] = one["slip"]


@dataclass
class Load:
    """The tablets of one event; ``with load.going(slips):`` they send all the while, and to the end afterwards."""

    site: Site
    slug: str
    tokens: list[str]
    sent: list[dict[str, Any]] = field(default_factory=list)
    tablets: list[Tablet] = field(default_factory=list)
    pause: threading.Event = field(default_factory=threading.Event)
    given_up: threading.Event = field(default_factory=threading.Event)

    @contextmanager
    def going(self, slips: int) -> Iterator[None]:
        """Let every tablet send so many; on leaving, wait until all are acknowledged."""
        self.pause.set()
        now = []
        for place, token in enumerate(self.tokens):
            mine = [message(boat=1 + len(self.sent) + n) for n in range(slips)]
            self.sent += mine
            now.append(Tablet(self, token, mine, seed=len(self.sent) + place))
        self.tablets += now
        for tablet in now:
            tablet.start()
        try:
            yield
            for tablet in now:
                tablet.join(SECONDS)
        finally:
            self.given_up.set()
            for tablet in now:
                tablet.join(ANSWER_SECONDS)
            self.given_up.clear()

    @property
    def acknowledged(self) -> dict[str, int]:
        """The number that was answered for each id."""
        return {slip: number for tablet in self.tablets for slip, number in list(tablet.acknowledged.items())}

    @property
    def refused(self) -> list[Answer]:
        """Answers that were not 200."""
        return [answer for tablet in self.tablets for answer in tablet.refused]

    def await_more(self, slips: int) -> None:
        """Wait until so many more are acknowledged than now."""
        wanted = len(self.acknowledged) + slips
        until(lambda: len(self.acknowledged) >= wanted)

    def tally(self, fault: str, times: int) -> None:
        """Hold that every slip that was acknowledged is there, once, with its number, and that the ledger holds."""
        rows = rows_of(self.site)
        numbers = {slip: number for slip, number, _ in rows}
        lost = [slip for slip, number in self.acknowledged.items() if numbers.get(slip) != number]
        doubled = len(rows) - len(numbers) + len(rows) - len({boat for _, _, boat in rows})
        print(f"{fault}: {times} times, {len(self.acknowledged)} acknowledged, {len(lost)} lost, {doubled} doubled")
        assert not lost and not doubled
        assert set(self.acknowledged) == {slip["id"] for slip in self.sent} == set(numbers)
        told = self.site.manage("check_ledger", self.slug)
        assert told.returncode == 0 and f"{len(rows)} slips, nothing altered" in told.stdout, told.stdout + told.stderr


def post(site: Site, slug: str, token: str, slip: dict[str, Any]) -> Answer:
    """Post one slip. Raises OSError or HTTPException when there is nobody."""
    line = http.client.HTTPConnection("127.0.0.1", site.port, timeout=ANSWER_SECONDS)
    try:
        headers = {"Content-Type": "application/json", "Authorization": f"Bearer {token}"}
        line.request("POST", f"/api/events/{slug}/slips", json.dumps({"slips": [slip]}).encode(), headers)
        answer = line.getresponse()
        return Answer(answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read())
    finally:
        line.close()


def new_load(data: Path, **variables: str) -> Load:
    """A site with an event of 400 boats, served, and its tablets paired."""
    site = Site(data, **variables)
    told = site.manage("migrate", "--verbosity", "0")
    assert told.returncode == 0, told.stderr
    told = site.manage("shell", "--no-imports", "-c", READY % TABLETS)
    assert "ready " in told.stdout, told.stderr
    slug, *tokens = told.stdout.split("ready ")[1].split()
    site.start()
    return Load(site, slug, tokens)


def told_to_come_back(answers: list[Answer]) -> None:
    """Hold that every answer is 503, one line of JSON, and says when to come back."""
    for answer in answers:
        assert answer.status == 503 and int(answer.headers["retry-after"]) > 0, answer
        assert answer.headers["content-type"] == "application/json" and answer.body.count(b"\n") == 0
        assert list(json.loads(answer.body)) == ["error"]

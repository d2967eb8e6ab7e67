"""Listen to a scale on a serial port and tell the site its last word: at once when it changes, else every second."""

import json
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from email.utils import parsedate_to_datetime
from typing import Any, Protocol

from weighin.scales.domain.layouts import Layout
from weighin.scales.domain.lines import Listener
from weighin.scales.domain.reading import Reading

EVERY_SECONDS = 1.0
ASKED_EVERY_SECONDS = 0.5
SILENT_AFTER_SECONDS = 3.0
CLOCK_SECONDS = 30  # the site is asked once more by its own clock when that is so far off
SILENT = Reading("", "", "", "silent", "")


class Port(Protocol):
    """What is needed of a serial port: reads give what is there, or nothing after a short while."""

    def read(self, size: int = 1) -> bytes: ...
    def write(self, data: bytes) -> Any: ...


@dataclass
class Ear:
    """Hears one scale. ``tell`` is given what to say, and gives back why it could not be said, or nothing."""

    layout: Layout
    ask: str
    once: bool
    tell: Callable[[Reading], str]
    say: Callable[[str], Any]
    clock: Callable[[], float] = time.monotonic

    def __post_init__(self) -> None:
        self._listener = Listener(self.layout, self.once)
        self._now = SILENT
        self._heard_at = self.clock()
        self._told_at = self._asked_at = -1e9
        self._trouble = ""

    def hear(self, port: Port) -> None:
        """One round: ask if the scale wants to be asked, read what came, tell the site. Raises OSError."""
        if self.ask and self.clock() - self._asked_at >= ASKED_EVERY_SECONDS:
            port.write(f"{self.ask}\r\n".encode("ascii"))
            self._asked_at = self.clock()
        for reading in self._listener.hear(port.read(256)):
            self._heard_at = self.clock()
            self._become(reading)
        if not self.once and self.clock() - self._heard_at > SILENT_AFTER_SECONDS:
            self._become(SILENT)
        # A scale that speaks when its key is pressed has said it once: its word grows old by itself
        if not self.once and self.clock() - self._told_at >= EVERY_SECONDS:
            self._tell()

    def lost(self) -> None:
        """The port was lost: what was read last counts no more."""
        self._listener = Listener(self.layout, self.once)
        self._become(SILENT)

    def _become(self, reading: Reading) -> None:
        changed = (reading.text, reading.unit, reading.state) != (self._now.text, self._now.unit, self._now.state)
        if changed or self.once:
            self._now = reading
            shown = f"{reading.text} {reading.unit} {reading.state}".strip()
            self.say(shown)
            self._tell()

    def _tell(self) -> None:
        trouble = self.tell(self._now)
        self._told_at = self.clock()
        if trouble != self._trouble:
            self.say(trouble or "The site hears the scale again.")
            self._trouble = trouble


# What a station shows for a method, a path, a time by the site's clock and a body
Shows = Callable[[str, str, int, bytes], str]


class Site:
    """The site over HTTP, asked by a station."""

    def __init__(self, address: str, slug: str, shows: Shows, seconds: float = 5.0) -> None:
        self._base = f"{address.rstrip('/')}/api/events/{slug}/"
        self._shows, self._seconds, self._ahead = shows, seconds, 0.0

    def scales(self) -> list[dict[str, Any]]:
        """The event's scales. Raises SiteRefused with a sentence."""
        found: list[dict[str, Any]] = self._asked("scales")["scales"]
        return found

    def tell(self, name: str, reading: Reading) -> str:
        """Tell the last word of a scale; why it was not taken, or nothing."""
        said = {"scale": name, "state": reading.state, "text": reading.text, "unit": reading.unit, "raw": reading.raw}
        try:
            (answer,) = self._asked("scales/now", {"now": [said]})["now"]
        except SiteRefused as refused:
            return str(refused)
        return " ".join(fault["message"] for fault in answer["faults"])

    def _asked(self, what: str, body: Mapping[str, Any] | None = None, again: bool = True) -> Any:
        data, address = None if body is None else json.dumps(body).encode(), self._base + what
        method, path, now = "GET" if data is None else "POST", urllib.parse.urlsplit(address).path, time.time()
        shown = self._shows(method, path, round(now + self._ahead), data or b"")
        headers = {"Authorization": shown, "Content-Type": "application/json"}
        request = urllib.request.Request(address, data=data, headers=headers)
        try:
            with urllib.request.urlopen(request, timeout=self._seconds) as answer:
                return json.load(answer)
        except urllib.error.HTTPError as refused:
            with suppress(ValueError, TypeError):
                ahead = parsedate_to_datetime(refused.headers["Date"]).timestamp() - now
                if refused.code == 401 and again and abs(ahead - self._ahead) > CLOCK_SECONDS:
                    self._ahead = ahead
                    return self._asked(what, body, again=False)
            try:
                said = json.load(refused)["error"]
            except (ValueError, KeyError, TypeError):
                said = f"something other than the site answers ({refused.code}): look at its address"
            raise SiteRefused(said) from None
        except (OSError, ValueError) as fault:
            raise SiteRefused(f"The site does not answer ({fault}): it is asked again.") from None


class SiteRefused(Exception):
    """The site did not take it; the message is a sentence."""

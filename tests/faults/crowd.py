"""Phones that read pages of a site, over connections that they keep; a process of its own, so that it costs the server nothing.

``python crowd.py PORT SECONDS PHONES CONNECTIONS POLLS PATH...``: every phone keeps so many connections and asks for the
pages in turn, again by the tag that it was given; all together so many times a second, which they spread over their
connections. Prints how long each answer took in milliseconds, and how often each status came, as JSON.
"""

import asyncio
import json
import random
import sys
import time
from collections import Counter

PORT, SECONDS, PHONES, CONNECTIONS, POLLS = (int(word) for word in sys.argv[1:6])
PATHS = sys.argv[6:]
took: list[float] = []
came: Counter[str] = Counter()
tags: dict[tuple[int, str], str] = {}


class Line:
    """One kept connection of a phone; made anew where the site has ended it."""

    def __init__(self, phone: int):
        self.phone = phone
        self.streams: tuple[asyncio.StreamReader, asyncio.StreamWriter] | None = None

    async def open(self) -> None:
        if self.streams is None or self.streams[0].at_eof():
            self.streams = await asyncio.open_connection("127.0.0.1", PORT)

    async def ask(self, path: str) -> None:
        tag = tags.get((self.phone, path))
        head = f"GET {path} HTTP/1.1\r\nHost: localhost\r\n" + (f"If-None-Match: {tag}\r\n" if tag else "") + "\r\n"
        started = time.perf_counter()
        for once_more in (True, False):
            kept = self.streams is not None
            try:
                await self.open()
                assert self.streams is not None
                self.streams[1].write(head.encode())
                status, found, ends = await answer(self.streams[0])
                break
            except (OSError, EOFError, asyncio.IncompleteReadError):
                # As a browser does: a kept connection may have ended meanwhile, a new one may not
                self.streams = None
                if not (kept and once_more):
                    came["none"] += 1
                    return
        took.append((time.perf_counter() - started) * 1000)
        came[status] += 1
        if found:
            tags[self.phone, path] = found
        if ends:
            self.streams[1].close()
            self.streams = None


async def answer(reader: asyncio.StreamReader) -> tuple[str, str, bool]:
    """The status, the tag, and whether the connection ends with it."""
    head = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1").split("\r\n")
    status = head[0].split()[1]
    headers = {name.lower(): value.strip() for name, _, value in (line.partition(":") for line in head[1:])}
    if status not in ("204", "304"):
        await reader.readexactly(int(headers["content-length"]))
    return status, headers.get("etag", ""), headers.get("connection", "").lower() == "close"


async def poll(lines: list[Line], number: int, of: int, until: float) -> None:
    """One of ``of`` pollers: it asks in the rhythm that is its share."""
    every = of / POLLS
    at = time.perf_counter() + random.random() * every
    while at < until:
        await asyncio.sleep(max(0.0, at - time.perf_counter()))
        await random.choice(lines).ask(random.choice(PATHS))
        at = max(at + every, time.perf_counter())


async def main() -> None:
    phones = [[Line(number) for _ in range(CONNECTIONS)] for number in range(PHONES)]
    for lines in phones:
        for line in lines:
            await line.open()
    print("open", file=sys.stderr, flush=True)
    until = time.perf_counter() + SECONDS
    await asyncio.gather(*(poll(lines, number, PHONES, until) for number, lines in enumerate(phones)))
    print(json.dumps({"took": sorted(took), "came": came}))


asyncio.run(main())

"""Readers who ask again and again, each over a connection of its own, and how long each answer took.

``python polling.py PORT PATH READERS SECONDS [EACH_SECOND]`` asks as fast as answers come, or so many times a second all
together. Readers send the entity tag of the answer before, as browsers do. It prints the statuses and the milliseconds
of every answer as JSON, and runs in a process of its own.
"""

import json
import socket
import sys
import threading
import time

PORT, PATH, READERS, SECONDS = int(sys.argv[1]), sys.argv[2], int(sys.argv[3]), float(sys.argv[4])
PAUSE = READERS / float(sys.argv[5]) if len(sys.argv) > 5 else 0.0
took: list[float] = []
statuses: dict[str, int] = {}
counting = threading.Lock()


def answer_of(line: socket.socket, asked: bytes) -> tuple[str, dict[str, str]]:
    line.sendall(asked)
    got = b""
    while b"\r\n\r\n" not in got:
        more = line.recv(65536)
        if not more:
            raise ConnectionError("no answer")
        got += more
    head, _, body = got.partition(b"\r\n\r\n")
    first, *rest = head.decode("latin-1").split("\r\n")
    headers = {name.lower(): value for name, _, value in (each.partition(": ") for each in rest)}
    status = first.split(" ")[1]
    left = 0 if status in ("204", "304") else int(headers.get("content-length", "0")) - len(body)
    while left > 0:
        left -= len(line.recv(65536))
    return status, headers


def read(number: int, until: float) -> None:
    tag, line = "", None
    due = time.perf_counter() + PAUSE * number / READERS
    while (now := time.perf_counter()) < until:
        if PAUSE and now < due:
            time.sleep(due - now)
        due += PAUSE
        known = f"If-None-Match: {tag}\r\n" if tag else ""
        asked = f"GET {PATH} HTTP/1.1\r\nHost: 127.0.0.1:{PORT}\r\n{known}\r\n".encode()
        began = time.perf_counter()
        if line is None:
            line = socket.create_connection(("127.0.0.1", PORT), timeout=60)
            line.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        status, headers = answer_of(line, asked)
        spent = (time.perf_counter() - began) * 1000
        if headers.get("connection", "").lower() == "close":
            line.close()
            line = None
        tag = headers.get("etag", tag)
        with counting:
            took.append(spent)
            statuses[status] = statuses.get(status, 0) + 1


end = time.perf_counter() + SECONDS
threads = [threading.Thread(target=read, args=(number, end)) for number in range(READERS)]
for thread in threads:
    thread.start()
for thread in threads:
    thread.join()
print(json.dumps({"statuses": statuses, "took": sorted(took)}))

"""Stations that post slips at the same time, each over a connection of its own, and how long each answer took.

``python posting.py PORT PATH TOKEN FIRST_BOAT STATIONS SLIPS [PAUSE]`` prints the milliseconds of every answer as JSON; PAUSE
are the seconds between the slips of a station, none where it is left out. It runs in
a process of its own, so that what it costs is not taken from the server that is measured in turn.
"""

import http.client
import json
import sys
import threading
import time
import uuid

PORT, PATH, TOKEN = int(sys.argv[1]), sys.argv[2], sys.argv[3]
FIRST, STATIONS, SLIPS = (int(word) for word in sys.argv[4:7])
PAUSE = float(sys.argv[7]) if len(sys.argv) > 7 else 0.0
HEADERS = {"Content-Type": "application/json", "Authorization": f"Bearer {TOKEN}"}
took: list[float] = []
failed: list[str] = []


def post(station: int) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", PORT, timeout=60)
    for number in range(SLIPS):
        time.sleep(PAUSE)
        slip = {
            "id": str(uuid.uuid4()), "day": 1, "boat": FIRST + station * SLIPS + number, "fish": 7, "alive": 6, "dead": 1,
            "gross": "9.47", "weighed": "2026-06-20T15:10:00-05:00", "official": "R. Quill",
        }  # fmt: skip
        body = json.dumps({"slips": [slip]})
        started = time.perf_counter()
        connection.request("POST", PATH, body, HEADERS)
        answer = connection.getresponse()
        said = answer.read()
        took.append((time.perf_counter() - started) * 1000)
        if answer.status != 200 or json.loads(said)["slips"][0]["state"] != "kept":
            failed.append(said.decode()[:300])


threads = [threading.Thread(target=post, args=(station,)) for station in range(STATIONS)]
for thread in threads:
    thread.start()
for thread in threads:
    thread.join()
if failed:
    sys.exit(failed[0])
print(json.dumps(sorted(took)))

"""A station that speaks to the site, and the messages it sends."""

import json
import uuid
from typing import Any

from django.test import Client

from weighin.events.models import Event
from weighin.stations.services.stations import make_station

EVERYTHING = ("weigh", "checkin", "care")


class Speaker:
    """A paired station: posts bodies and gives back what it is answered."""

    def __init__(self, event: Event, name: str = "Table 1", can: tuple[str, ...] = EVERYTHING) -> None:
        self.event = event
        self.token = make_station(event, name, can, "quill")[1]
        self.client = Client(enforce_csrf_checks=True)

    def ask(self, what: str = "station", **headers: str) -> Any:
        return self.client.get(self._address(what), headers={"Authorization": f"Bearer {self.token}", **headers})

    def post(self, what: str, body: Any, **headers: str) -> Any:
        raw = body if isinstance(body, bytes | str) else json.dumps(body)
        said = {"Authorization": f"Bearer {self.token}", **headers}
        return self.client.post(self._address(what), raw, content_type="application/json", headers=said)

    def send(self, *items: dict[str, Any], what: str = "slips", **more: Any) -> list[dict[str, Any]]:
        """Post the items in one body; the answers, in order."""
        answer = self.post(what, {what if what != "care" else "notes": list(items), **more})
        assert answer.status_code == 200, answer.content
        found: list[dict[str, Any]] = answer.json()[what if what != "care" else "notes"]
        assert [one["id"] for one in found] == [item.get("id") for item in items]
        return found

    def one(self, item: dict[str, Any], what: str = "slips") -> dict[str, Any]:
        return self.send(item, what=what)[0]

    def _address(self, what: str) -> str:
        return f"/api/events/{self.event.slug}/{what}"


def new_id() -> str:
    return str(uuid.uuid4())


def message(**values: Any) -> dict[str, Any]:
    """Seven live fish of boat 1 as a station sends them, or whatever ``values`` say."""
    return {
        "id": new_id(), "day": 1, "boat": 1, "fish": 7, "alive": 7, "dead": 0, "gross": "8.50",
        "weighed": "2026-06-20T15:10:00-05:00", "official": "R. Quill", **values,
    }  # fmt: skip


def fields(answer: dict[str, Any]) -> set[str]:
    """The fields at which an item was refused; nothing else came of it."""
    assert answer["state"] == "refused" and answer["slip"] is None and answer["url"] is None, answer
    assert all(fault["message"] for fault in answer["faults"])
    return {fault["field"] for fault in answer["faults"]}

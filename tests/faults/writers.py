"""Eight writers at one event's slips: new ones, the same one sent by all, and corrections of the same slip."""

import json
import threading
import uuid
from collections.abc import Callable
from typing import Any

from django.db import connections
from world import large

from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.slips.services.slips import correct_slip, record_slip

WRITERS, EACH = 8, 6
CAUGHT = {"day": "1", "fish": "1", "alive": "1", "dead": "0", "gross": "1.25"}


def together(act: Callable[[int], Any]) -> list[str]:
    """Run ``act`` in threads that start at the same moment; what went wrong in them, refusals left out."""
    wrong: list[str] = []
    start = threading.Barrier(WRITERS)

    def run(writer: int) -> None:
        try:
            start.wait()
            act(writer)
        except Faults:
            pass
        except Exception as error:
            wrong.append(repr(error))
        finally:
            connections.close_all()

    threads = [threading.Thread(target=run, args=(writer,)) for writer in range(WRITERS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return wrong


def written_together() -> dict[str, Any]:
    """What stands in the ledger after all of it, and what went wrong."""
    event = large(12)
    first = WeighSlip.objects.select_related("entry").get(event=event, number=1)
    same = [uuid.uuid4() for _ in range(EACH)]
    before = WeighSlip.objects.filter(event=event).count()

    def new(writer: int) -> None:
        for boat in range(1, EACH + 1):
            record_slip(event, {**CAUGHT, "boat": str(boat)}, f"writer {writer}", uuid.uuid4())

    def again(writer: int) -> None:
        for key in same:
            record_slip(event, {**CAUGHT, "boat": "7"}, "a tablet", key)

    def correct(writer: int) -> None:
        correct_slip(first, {**CAUGHT, "boat": "1", "reason": "read again"}, f"writer {writer}")

    wrong = [line for act in (new, again, correct) for line in together(act)]
    slips = list(WeighSlip.objects.filter(event=event).select_related("entry").order_by("position"))
    return {
        "wrong": wrong,
        "new": len(slips) - before,
        "numbers": len({slip.number for slip in slips}) == len(slips),
        "positions": [slip.position for slip in slips] == list(range(1, len(slips) + 1)),
        "breaks": breaks(slips),
        "corrections": sum(slip.replaces_id == first.pk for slip in slips),
        "revision": Event.objects.get(pk=event.pk).revision - event.revision == len(slips) - before,
    }


RIGHT = {
    "wrong": [],
    "new": WRITERS * EACH + EACH + 1,
    "numbers": True,
    "positions": True,
    "breaks": [],
    "corrections": 1,
    "revision": True,
}


def say() -> None:
    """Print what ``written_together`` found, for another process."""
    print(json.dumps(written_together()))

"""Bring the demo's rows of the shore in: treatments, releases, walks, kept fish, a holding study, words of boats, a line held,
a scale tested, a pad of paper slips."""

import json
import uuid
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from weighin.checkin.services.check_ins import record_check_in
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.holding.models import StudyPen
from weighin.holding.services.pens import PEN_CHECK, STUDY_PEN
from weighin.line.services.words import say
from weighin.records.domain.messages import Draft, Sender
from weighin.records.services.door import write
from weighin.records.services.record_type import RecordType
from weighin.scales.services.scales import SCALE_CHECK, SCALE_RECORD
from weighin.slips.queries.pads import missing_numbers
from weighin.slips.services.pads import PAPER_PAD, say_unused
from weighin.tanks.services.readings import TREATMENT
from weighin.tanks.services.releases import FLOATER_WALK, KEPT_FISH, RELEASE

SHORE = uuid.UUID(
    "5f0a4f2e-6d0e-4d53-9a0e-0c3a5b1d7e11"
)  # the space of the rows' ids, so that loading twice is loading once

KINDS: dict[str, RecordType[Any]] = {
    "treatment": TREATMENT,
    "release": RELEASE,
    "floater_walk": FLOATER_WALK,
    "kept_fish": KEPT_FISH,
    "study_pen": STUDY_PEN,
    "scale": SCALE_RECORD,
    "scale_check": SCALE_CHECK,
    "pad": PAPER_PAD,
}


def load_shore(file: Path, events: Mapping[str, Event], by: str) -> int:
    """Keep the rows of a JSON file that belong to ``events`` (by name); the number of rows kept.

    ``row`` says of which kind each is; the other texts are those of its form. Raises Faults when one cannot be read.
    """
    kept = 0
    for number, written in enumerate(json.loads(file.read_text(encoding="utf-8"))):
        event = events.get(written["event"])
        if event is not None:
            _keep(event, written, by, uuid.uuid5(SHORE, str(number)))
            kept += 1
    return kept


def _keep(event: Event, written: Mapping[str, str], by: str, key: uuid.UUID) -> None:
    if written["row"] == "pen_check":
        pen = StudyPen.objects.get(event=event, pen=written["of_pen"])
        write(PEN_CHECK, event.pk, Draft({**written, "pen": str(pen.pk)}, key), Sender(by)).kept()
    elif written["row"] == "check_in":
        said = {name: text for name, text in written.items() if name not in ("event", "row")}
        record_check_in(event, said, by, key, asked=False)  # the demo's clock may be anywhere
    elif written["row"] == "line_word":
        _say_in_line(event, written, by, key)
    elif written["row"] == "paper":
        if int(written["first"]) in missing_numbers(event):
            say_unused(event, written["first"], written["last"], written["became"], written["reason"], by)
    else:
        write(KINDS[written["row"]], event.pk, Draft(written, key), Sender(by)).kept()


def _say_in_line(event: Event, written: Mapping[str, str], by: str, key: uuid.UUID) -> None:
    day, minutes = int(written["day"]), written.get("oxygen_minutes")
    say(
        event,
        day,
        written["said"],
        by,
        word_id=key,
        person=written.get("person", ""),
        oxygen_minutes=int(minutes) if minutes else None,
        remark=written.get("remark", ""),
        at=calendar_of(event).read(day, written["time"]),
    )

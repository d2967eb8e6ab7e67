"""Bring the demo's rows of the shore in: treatments, releases, walks, kept fish, a holding study, words of boats, a line held,
a scale tested, a pad of paper slips."""

import json
import uuid
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from weighin.checkin.services.check_ins import record_check_in
from weighin.events.domain.care_context import CareContext
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.events.queries.events import calendar_of
from weighin.events.services.rows import Book, add
from weighin.holding.models import StudyPen
from weighin.holding.parsing import read_check, read_study_pen
from weighin.holding.services.books import CHECKS, PENS
from weighin.line.services.words import say
from weighin.scales.services.scales import write_check, write_scale
from weighin.slips.queries.pads import missing_numbers
from weighin.slips.services.pads import hand_out, say_unused
from weighin.tanks.parsing.releases import read_kept, read_release, read_walk
from weighin.tanks.parsing.tanks import read_treatment
from weighin.tanks.services.books import KEPT, RELEASES, TREATMENTS, WALKS

Read = Callable[[Mapping[str, str], CareContext], Mapping[str, Any]]
SHORE = uuid.UUID(
    "5f0a4f2e-6d0e-4d53-9a0e-0c3a5b1d7e11"
)  # the space of the rows' ids, so that loading twice is loading once

KINDS: dict[str, tuple[Book[Any], Read]] = {
    "treatment": (TREATMENTS, read_treatment),
    "release": (RELEASES, read_release),
    "floater_walk": (WALKS, read_walk),
    "kept_fish": (KEPT, read_kept),
    "study_pen": (PENS, read_study_pen),
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
    texts = {**written, "own_key": str(key)}
    if written["row"] == "pen_check":
        pen = StudyPen.objects.get(event=event, pen=written["of_pen"])
        add(CHECKS, event, lambda held: read_check(texts, care_context_of(held), pen), by, key)
    elif written["row"] == "check_in":
        said = {name: text for name, text in written.items() if name not in ("event", "row")}
        record_check_in(event, said, by, key, asked=False)  # the demo's clock may be anywhere
    elif written["row"] == "line_word":
        _say_in_line(event, written, by, key)
    elif written["row"] == "scale":
        write_scale(event, written, by)
    elif written["row"] == "scale_check":
        scale = event.scales.get(name=written["scale"])
        moment = calendar_of(event).read(1, written["at_time"])
        write_check(scale, written, by, key, at=moment)
    elif written["row"] == "pad":
        if not event.paper_pads.filter(name=written["name"]).exists():
            hand_out(event, written["name"], written["first"], written["last"], written["handed_to"], by)
    elif written["row"] == "paper":
        if int(written["first"]) in missing_numbers(event):
            say_unused(event, written["first"], written["last"], written["became"], written["reason"], by)
    else:
        book, read = KINDS[written["row"]]
        add(book, event, lambda held: read(texts, care_context_of(held)), by, key)


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

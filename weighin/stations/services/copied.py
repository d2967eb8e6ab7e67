"""Slips copied off a tablet that had to be given up: the texts of its codes, put together and taken in like any others.

A code holds one slip as it would be sent, in JSON. A slip too long for one code stands in several, each a line
``weighin 1/2 3f0c9a1e|text|``: its place, their number, the first figures of the slip's id, and its part of the text.
"""

import re
from dataclasses import dataclass
from typing import Any

from weighin.events.models import Event
from weighin.records.domain.messages import Outcome, Sender
from weighin.records.parsing.json_body import BodyRefused, read_body
from weighin.records.services.door import receive
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import SLIP
from weighin.stations.domain.faults import (
    NOT_A_SLIP_FIRST,
    NOT_FROM_A_TABLET,
    NOTHING_COPIED,
    PART_NOT_WHOLE,
    SLIP_PARTS_MISSING,
)

PART = re.compile(r"weighin ([1-9])/([1-9]) ([0-9a-f]{8})\|(.*)\|")
BEGINS = re.compile(r"\s*(\{|weighin [1-9]/)")


@dataclass(frozen=True)
class Taken:
    """What became of one copied slip."""

    boat: str
    answer: Outcome[WeighSlip]


def take_copied(event: Event, text: str, sender: Sender) -> list[Taken]:
    """Take in every slip of the text; the id that the tablet gave a slip keeps it from counting twice.

    Raises Faults at ``text`` when it cannot be read; nothing is written then. A slip that is refused is told in its answer.
    """
    whole = _put_together(_lines(text))
    try:
        items, _ = read_body(f'{{"slips": [{", ".join(whole)}]}}'.encode(), "slips")
    except (BodyRefused, UnicodeEncodeError) as refused:
        raise Faults([NOT_FROM_A_TABLET.at("text", why=str(refused))]) from None
    answers = receive(SLIP, event.pk, items, sender)
    return [Taken(_boat(item), outcome) for item, (_, outcome) in zip(items, answers, strict=True)]


def _lines(text: str) -> list[str]:
    """One slip or part a line; what was broken off in copying is joined on."""
    found: list[str] = []
    for line in text.splitlines():
        if BEGINS.match(line):
            found.append(line.strip())
        elif line.strip() and found:
            found[-1] += line.strip("\r\n")
        elif line.strip():
            raise Faults([NOT_A_SLIP_FIRST.at("text", part=line.strip()[:30])])
    if not found:
        raise Faults([NOTHING_COPIED.at("text")])
    return found


def _put_together(lines: list[str]) -> list[str]:
    whole: list[str] = []
    parts: dict[tuple[str, int], dict[int, str]] = {}
    for line in lines:
        found = PART.fullmatch(line.strip())
        if found is None and line.startswith("weighin"):
            raise Faults([PART_NOT_WHOLE.at("text", part=line[:30])])
        if found is None:
            whole.append(line)
            continue
        place, number, slip, text = int(found[1]), int(found[2]), found[3], found[4]
        parts.setdefault((slip, number), {})[place] = text
    for (slip, number), texts in parts.items():
        missing = [str(place) for place in range(1, number + 1) if place not in texts]
        if missing:
            named = " and ".join(missing)
            raise Faults([SLIP_PARTS_MISSING.at("text", slip=slip, missing=named, all=number)])
        whole.append("".join(texts[place] for place in range(1, number + 1)))
    return whole


def _boat(item: dict[str, Any]) -> str:
    return str(item.get("boat", "?"))[:12]

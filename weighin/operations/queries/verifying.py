"""Whether a result that somebody has as a file is what this site holds."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.standings.models import OfficialResult
from weighin.standings.queries.document import result_part
from weighin.standings.queries.standings import standings_of

MOST_BYTES = 64 * 1024 * 1024


class NoResult(Exception):
    """Why the file cannot be held against anything, and what to do."""


@dataclass(frozen=True)
class Verdict:
    """What a file was found to be: the sentence, and what does not agree (empty when all does)."""

    finding: str
    faults: tuple[str, ...]


def verify(file: Path) -> Verdict:
    """Hold the JSON of ``export_event``, or of the public address, against the slips and official results kept here.

    The file's ledger must be a beginning of the one kept here, unbroken; its places, scores and money must be those of
    an official result made from just that ledger, or, without one, what the slips come to now. Raises NoResult for a
    file that cannot be read, is no such JSON, or is of an event that is not here.
    """
    told = _read(file)
    event = Event.objects.filter(slug=told["event"]["slug"]).first()
    if event is None:
        raise NoResult(
            f"The event {told['event']['slug']} of {file.name} is not kept here: ask the site that published it."
        )
    length, head = told["ledger"]["length"], told["ledger"]["head"]
    ledger = ledger_of(event)
    faults = list(ledger.faults)
    if length and ledger.links.get(length) != head:
        faults.append(
            f"the file was made from other slips: its ledger of {length} ends in {str(head)[:12]}, which is not in the one kept here"
        )
        return Verdict(f"{file.name} does not agree with {event.name}.", tuple(faults))
    versions = OfficialResult.objects.filter(event=event, ledger_length=length, ledger_head=head).order_by("version")
    for result in versions:
        if not _unlike(told, result.document):
            at = result.published_at.astimezone(ZoneInfo(event.time_zone))
            return _said(
                f"{file.name} is official result {result.version} of {event.name}, published {at:%d %B %Y %H:%M %Z}.",
                faults,
            )
    if length == len(ledger.links):
        unlike = _unlike(told, result_part(standings_of(event)))
        said = "the slips kept here come to now" + (", and is no official result" if not versions else "")
    else:
        unlike = [
            f"it was made from the first {length} of {len(ledger.links)} slips, of which no official result was published"
        ]
        said = "was published"
    return _said(f"{file.name} is what {said}.", [*faults, *unlike], f"{file.name} does not agree with {event.name}.")


def _said(finding: str, faults: list[str], otherwise: str = "The ledger kept here does not hold.") -> Verdict:
    return Verdict(otherwise if faults else finding, tuple(faults))


def _unlike(told: dict[str, Any], kept: dict[str, Any]) -> list[str]:
    """Where the file's places and money differ from those kept, a line a team."""
    found = []
    mine = {row["boat"]: row for row in kept["standings"]}
    theirs = {row.get("boat"): row for row in told["standings"]}
    for boat in [row["boat"] for row in kept["standings"]] + [boat for boat in theirs if boat not in mine]:
        if theirs.get(boat) != mine.get(boat):
            found.append(f"boat {boat}: {_differs(theirs.get(boat), mine.get(boat))}")
    if told["purse"] != kept["purse"]:
        found.append("the purse differs")
    return found


def _differs(theirs: Any, mine: Any) -> str:
    if mine is None:
        return "in the file only"
    if theirs is None:
        return "not in the file"
    return (
        "; ".join(
            f"{name} {theirs.get(name)} in the file, {mine[name]} here"
            for name in mine
            if name != "days" and theirs.get(name) != mine[name]
        )
        or "its days differ"
    )


def _read(file: Path) -> dict[str, Any]:
    try:
        if file.stat().st_size > MOST_BYTES:
            raise NoResult(f"{file} is larger than any result: name the JSON of one event.")
        told = json.loads(file.read_text(encoding="utf-8-sig"))
    except OSError as error:
        raise NoResult(f"{file} cannot be read ({error.strerror}): name the JSON of an event.") from None
    except (ValueError, RecursionError):
        raise NoResult(f"{file} is no JSON: name what export_event --format json wrote.") from None
    try:
        boats = [row["boat"] for row in told["standings"]]
        whole = (
            isinstance(told["event"]["slug"], str) and isinstance(told["purse"], dict) and len(boats) == len(set(boats))
        )
        whole = whole and type(told["ledger"]["length"]) is int and isinstance(told["ledger"]["head"], str)
    except (TypeError, KeyError, AttributeError):
        whole = False
    if not whole:
        raise NoResult(f"{file} is not the JSON of an event: name what export_event --format json wrote.")
    return dict(told)

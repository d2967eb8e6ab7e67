"""Whether a result that somebody has as a file is what this site holds."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from django.utils.dateformat import format as date_format
from django.utils.translation import gettext

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
            gettext("The event %(slug)s of %(file)s is not kept here: ask the site that published it.")
            % {"slug": told["event"]["slug"], "file": file.name}
        )
    length, head = told["ledger"]["length"], told["ledger"]["head"]
    ledger = ledger_of(event)
    faults = list(ledger.faults)
    if length and ledger.links.get(length) != head:
        faults.append(
            gettext(
                "the file was made from other slips: its ledger of %(length)s ends in %(head)s, which is not in the one kept here"
            )
            % {"length": length, "head": str(head)[:12]}
        )
        return Verdict(
            gettext("%(file)s does not agree with %(event)s.") % {"file": file.name, "event": event.name},
            tuple(faults),
        )
    versions = OfficialResult.objects.filter(event=event, ledger_length=length, ledger_head=head).order_by("version")
    for result in versions:
        if not _unlike(told, result.document):
            at = result.published_at.astimezone(ZoneInfo(event.time_zone))
            return _said(
                gettext("%(file)s is official result %(version)s of %(event)s, published %(at)s.")
                % {
                    "file": file.name,
                    "version": result.version,
                    "event": event.name,
                    "at": f"{date_format(at, 'd F Y H:i')} {at:%Z}",
                },
                faults,
            )
    if length == len(ledger.links):
        unlike = _unlike(told, result_part(standings_of(event)))
        finding = (
            gettext("%(file)s is what the slips kept here come to now.")
            if versions
            else gettext("%(file)s is what the slips kept here come to now, and is no official result.")
        )
    else:
        unlike = [
            gettext(
                "it was made from the first %(length)s of %(slips)s slips, of which no official result was published"
            )
            % {"length": length, "slips": len(ledger.links)}
        ]
        finding = gettext("%(file)s is what was published.")
    return _said(
        finding % {"file": file.name},
        [*faults, *unlike],
        gettext("%(file)s does not agree with %(event)s.") % {"file": file.name, "event": event.name},
    )


def _said(finding: str, faults: list[str], otherwise: str = "") -> Verdict:
    if not faults:
        return Verdict(finding, ())
    return Verdict(otherwise or gettext("The ledger kept here does not hold."), tuple(faults))


def _unlike(told: dict[str, Any], kept: dict[str, Any]) -> list[str]:
    """Where the file's places and money differ from those kept, a line a team."""
    found = []
    mine = {row["boat"]: row for row in kept["standings"]}
    theirs = {row.get("boat"): row for row in told["standings"]}
    for boat in [row["boat"] for row in kept["standings"]] + [boat for boat in theirs if boat not in mine]:
        if theirs.get(boat) != mine.get(boat):
            found.append(
                gettext("boat %(boat)s: %(differs)s")
                % {"boat": boat, "differs": _differs(theirs.get(boat), mine.get(boat))}
            )
    if told["purse"] != kept["purse"]:
        found.append(gettext("the purse differs"))
    return found


def _differs(theirs: Any, mine: Any) -> str:
    if mine is None:
        return gettext("in the file only")
    if theirs is None:
        return gettext("not in the file")
    return "; ".join(
        gettext("%(name)s %(theirs)s in the file, %(mine)s here")
        % {"name": name, "theirs": theirs.get(name), "mine": mine[name]}
        for name in mine
        if name != "days" and theirs.get(name) != mine[name]
    ) or gettext("its days differ")


def _read(file: Path) -> dict[str, Any]:
    try:
        if file.stat().st_size > MOST_BYTES:
            raise NoResult(gettext("%(file)s is larger than any result: name the JSON of one event.") % {"file": file})
        told = json.loads(file.read_text(encoding="utf-8-sig"))
    except OSError as error:
        raise NoResult(
            gettext("%(file)s cannot be read (%(strerror)s): name the JSON of an event.")
            % {"file": file, "strerror": error.strerror}
        ) from None
    except (ValueError, RecursionError):
        raise NoResult(
            gettext("%(file)s is no JSON: name what export_event --format json wrote.") % {"file": file}
        ) from None
    try:
        boats = [row["boat"] for row in told["standings"]]
        whole = (
            isinstance(told["event"]["slug"], str) and isinstance(told["purse"], dict) and len(boats) == len(set(boats))
        )
        whole = whole and type(told["ledger"]["length"]) is int and isinstance(told["ledger"]["head"], str)
    except (TypeError, KeyError, AttributeError):
        whole = False
    if not whole:
        raise NoResult(
            gettext("%(file)s is not the JSON of an event: name what export_event --format json wrote.")
            % {"file": file}
        )
    return dict(told)

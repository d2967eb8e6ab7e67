"""Whether a result that somebody has as a file is what this site holds."""

import json
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from django.core.validators import slug_re
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.slips.queries.ledger import link_at
from weighin.slips.queries.slips import ledger_head
from weighin.standings.models import OfficialResult
from weighin.standings.queries.document import event_part, result_part
from weighin.standings.queries.standings import standings_of
from weighin.ui import figures

MOST_BYTES = 64 * 1024 * 1024
MOST_SHOWN = 60
LARGEST = 2**31
# What an event's status says changes as it is closed and published
NOT_OF_A_RESULT = ("status",)


class NoResult(Exception):
    """Why the file cannot be held against anything, and what to do."""


@dataclass(frozen=True)
class Verdict:
    """What a file was found to be.

    ``finding`` is the sentence; ``differs`` is what the file says otherwise than the official result made from the same
    slips, or, where there is none, than the slips come to; ``broken`` is what is not as it was written here, whatever
    the file says; ``beside`` is what was not checked, being no part of an official result.
    """

    finding: str
    differs: tuple[str, ...] = ()
    broken: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()

    @property
    def faults(self) -> tuple[str, ...]:
        """All that does not agree; empty when all does."""
        return (*self.broken, *self.differs)


def verify(file: Path) -> Verdict:
    """Hold the JSON of ``export_event``, or of the public address, against the slips and official results kept here.

    The file's ledger must be a beginning of the one kept here, unbroken. Where an official result was made from just
    that ledger, the file must say what it says; without one, what the slips come to now. Raises NoResult for a file
    that cannot be read, is no such JSON, or is of an event that is not here.
    """
    told = read_result(read_bytes(file), file.name)
    event = Event.everyone.filter(slug=told["event"]["slug"]).first()
    if event is None:
        raise NoResult(
            gettext("The event %(slug)s of %(file)s is not kept here: ask the site that published it.")
            % {"slug": told["event"]["slug"][:MOST_SHOWN], "file": file.name}
        )
    verdict = compared(told, file.name, event)
    broken = ledger_of(event).faults
    if broken and not verdict.differs:
        verdict = replace(verdict, finding=gettext("The ledger kept here does not hold."))
    return replace(verdict, broken=broken)


def compared(told: dict[str, Any], name: str, event: Event, as_of: datetime | None = None) -> Verdict:
    """What the file of that ``name`` is beside what is kept of the event, or was ``as_of`` then; nothing is walked."""
    length, head = told["ledger"]["length"], told["ledger"]["head"]
    most, _ = ledger_head(event, as_of)
    said = {"file": name, "event": event.name}
    otherwise = gettext("%(file)s does not agree with %(event)s.") % said
    beside = _beside(told)
    if length and (length > most or link_at(event, length) != head):
        other = gettext(
            "the file was made from other slips: its ledger of %(length)s ends in %(head)s, which is not in the one kept here"
        )
        return Verdict(otherwise, (other % {"length": length, "head": head[:12]},), beside=beside)
    versions = list(OfficialResult.objects.filter(event=event, ledger_length=length, ledger_head=head))
    for result in versions:
        if not _unlike(told, result.document):
            at = result.published_at.astimezone(ZoneInfo(event.time_zone))
            found = gettext("%(file)s is official result %(version)s of %(event)s, published %(at)s.") % {
                **said,
                "version": result.version,
                "at": f"{figures.day(at)}, {figures.clock(at)} {at:%Z}",
            }
            return Verdict(found, beside=beside)
    if versions:
        last = versions[0]
        which = gettext("in official result %(version)s") % {"version": last.version}
        return Verdict(otherwise, tuple(_unlike(told, last.document, which)), beside=beside)
    if length != most:
        first = gettext(
            "it was made from the first %(length)s of %(slips)s slips, of which no official result was published"
        )
        return Verdict(otherwise, (first % {"length": length, "slips": most},), beside=beside)
    kept = {"event": event_part(event, most > 0), **result_part(standings_of(event, as_of))}
    unlike = tuple(_unlike(told, kept))
    right = gettext("%(file)s is what the slips kept here come to now, and is no official result.") % said
    return Verdict(otherwise if unlike else right, unlike, beside=beside)


def read_result(text: bytes, name: str) -> dict[str, Any]:
    """The JSON of an event. Raises NoResult for anything else; ``name`` is the file's."""
    said = {"file": name}
    try:
        told = json.loads(text.decode("utf-8-sig"))
    except (ValueError, RecursionError):
        raise NoResult(
            gettext(
                "%(file)s is no JSON: choose the JSON of an event, from its public pages or from export_event --format json."
            )
            % said
        ) from None
    try:
        boats = [row["boat"] for row in told["standings"]]
        whole = all(isinstance(told[part], dict) for part in ("event", "purse", "ledger"))
        whole = whole and bool(slug_re.fullmatch(told["event"]["slug"])) and len(boats) == len(set(boats))
        whole = whole and type(told["ledger"]["length"]) is int and isinstance(told["ledger"]["head"], str)
        whole = whole and 0 <= told["ledger"]["length"] < LARGEST
    except (TypeError, KeyError, AttributeError):
        whole = False
    if not whole:
        raise NoResult(
            gettext(
                "%(file)s is not the JSON of an event: choose the JSON of an event, from its public pages or from export_event --format json."
            )
            % said
        )
    return dict(told)


def read_bytes(file: Path) -> bytes:
    """What a file holds. Raises NoResult where it cannot be read or is larger than any result."""
    try:
        if file.stat().st_size > MOST_BYTES:
            raise NoResult(gettext("%(file)s is larger than any result: name the JSON of one event.") % {"file": file})
        return file.read_bytes()
    except OSError as error:
        raise NoResult(
            gettext("%(file)s cannot be read (%(strerror)s): name the JSON of an event.")
            % {"file": file, "strerror": error.strerror}
        ) from None


def _beside(told: dict[str, Any]) -> tuple[str, ...]:
    words = {"fish_care": gettext("fish care"), "mortality": gettext("mortality")}
    parts = [words[part] for part in words if part in told]
    if not parts:
        return ()
    said = {"parts": gettext(" and ").join(parts)}
    return (gettext("Not checked, being no part of a result: %(parts)s, which later notes may change.") % said,)


def _unlike(told: dict[str, Any], kept: dict[str, Any], here: str = "") -> list[str]:
    """Where the file's event, rules, places and money differ from those kept, a line a row."""
    here = here or gettext("here")
    mine = {row["boat"]: row for row in kept["standings"]}
    theirs = {row["boat"]: row for row in told["standings"]}
    found = []
    for part, called in (("event", gettext("the event")), ("rules", gettext("the rule sheet"))):
        if part in told and part in kept:
            known = {name: value for name, value in kept[part].items() if name not in NOT_OF_A_RESULT}
            if part == "rules":  # an export has none: only those that the file says
                known = {name: value for name, value in known.items() if name in told[part]}
            found += _named(called, _differs(told[part], known, here))
    for boat in [*mine, *(boat for boat in theirs if boat not in mine)]:
        found += _named(gettext("boat %(boat)s") % {"boat": _short(boat)}, _row(theirs.get(boat), mine.get(boat), here))
    if [*theirs] != [*mine] and not found:
        found.append(gettext("the places stand in another order"))
    return found + _named(gettext("the purse differs"), _differs(told["purse"], kept["purse"], here))


def _named(what: str, differs: list[str]) -> list[str]:
    return [f"{what}: {'; '.join(differs)}"] if differs else []


def _row(theirs: Any, mine: Any, here: str) -> list[str]:
    if mine is None:
        return [gettext("in the file only")]
    if theirs is None:
        return [gettext("not in the file")]
    found = _differs(theirs, {name: value for name, value in mine.items() if name != "days"}, here)
    if theirs.get("days") == mine["days"]:
        return found
    days = theirs.get("days")
    if not isinstance(days, list) or not all(isinstance(day, dict) for day in days) or len(days) != len(mine["days"]):
        return [*found, gettext("its days differ")]
    said = [
        gettext("day %(day)s %(differs)s") % {"day": kept["day"], "differs": one}
        for day, kept in zip(days, mine["days"], strict=True)
        for one in _differs(day, kept, here)
    ]
    return [*found, gettext("its days differ: %(said)s") % {"said": ", ".join(said)}]


def _differs(theirs: dict[str, Any], mine: dict[str, Any], here: str) -> list[str]:
    return [
        gettext("%(name)s %(theirs)s in the file, %(mine)s %(here)s")
        % {"name": name.replace("_", " "), "theirs": _short(theirs.get(name)), "mine": _short(value), "here": here}
        for name, value in mine.items()
        if theirs.get(name) != value
    ]


def _short(value: Any) -> str:
    if value is None or value == "":
        return gettext("nothing")
    said = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return said if len(said) <= MOST_SHOWN else said[:MOST_SHOWN] + "…"

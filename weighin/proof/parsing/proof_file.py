"""A proof from a file: what each of its rows says in the values that the rules need, and which rows say nothing sound."""

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime, time
from decimal import Decimal
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

from django.core.validators import slug_re
from django.utils.translation import gettext

from weighin.checkin.domain.arrival import Arrival, arrival_counted, arrivals_by_boat_and_day, lateness
from weighin.events.domain.calendar import Calendar, Day, read_clock, read_date
from weighin.proof.domain.canonical import FORMAT
from weighin.rules import rulebook
from weighin.rules.faults import Faults, Wrong
from weighin.rules.results import ROSTER_STATUSES, Team
from weighin.rules.rulebook import Rulebook
from weighin.rules.scoring import faults as slip_faults
from weighin.rules.side_pots import WINS, SidePot
from weighin.rules.slips import Slip
from weighin.rules.tournament import DaySlip
from weighin.rules.weights import UNITS

T = TypeVar("T")
PARTS = {
    "event": dict, "rules": dict, "flights": list, "side_pots": list, "teams": list, "slips": list, "checkins": list,
    "result": dict, "ledger": dict,
}  # fmt: skip
_FIGURE = re.compile(r"[0-9]+(?:\.[0-9]*)?|\.[0-9]+")
MOST_NUMBER = 2**31
MOST_DIGITS = 40
NOT_READ = (KeyError, TypeError, ValueError, ArithmeticError, AttributeError, Wrong, Faults)


class NoProof(Exception):
    """Why a text is no proof, and what to do."""


class Unreadable(Exception):
    """The file as a whole cannot be worked out again; its rows say why."""


@dataclass
class ProofFile:
    """A proof, read. ``problems`` names each row that says nothing sound, in words; such a row is left out."""

    rules: Rulebook
    calendar: Calendar
    entry_fee: Decimal
    added_money: Decimal
    teams: dict[int, Team]
    youth: set[int]
    current: list[DaySlip]
    first: list[DaySlip]
    weighed: dict[tuple[int, int], datetime]
    pots: list[tuple[SidePot, set[int]]]
    problems: list[str] = field(default_factory=list)


def proof_from(text: bytes, name: str) -> dict[str, Any] | None:
    """The proof that a file holds; None where it is another JSON, or none. ``name`` is the file's.

    Raises NoProof for one that says it is a proof and has no such parts.
    """
    try:
        told = json.loads(text.decode("utf-8-sig"))
    except (ValueError, RecursionError):
        return None
    if not isinstance(told, dict) or told.get("format") != FORMAT:
        return None
    whole = all(isinstance(told.get(part), kind) for part, kind in PARTS.items())
    slug = told["event"].get("slug") if whole else None
    length = told["ledger"].get("length") if whole else None
    if (
        not isinstance(slug, str)
        or not slug_re.fullmatch(slug)
        or type(length) is not int
        or not 0 <= length < MOST_NUMBER
    ):
        raise NoProof(
            gettext("%(file)s says it is a proof, but parts of it are missing: take it again from the event’s pages.")
            % {"file": name}
        )
    return told


def read_proof(told: Mapping[str, Any]) -> ProofFile:
    """Read a proof whose parts are there. Raises Unreadable where the event or the rules cannot be read."""
    problems: list[str] = []
    try:
        unit = told["event"]["weight_unit"]
        if unit not in UNITS:
            raise ValueError
        rules = rulebook.read({name: "none" if text is None else text for name, text in told["rules"].items()}, unit)
    except NOT_READ:
        raise Unreadable(gettext("the rules cannot be read")) from None
    try:
        calendar = _calendar(told)
        entry_fee, added_money = _decimal(told["event"]["entry_fee"]), _decimal(told["event"]["added_money"])
    except NOT_READ:
        raise Unreadable(gettext("the event’s days, flights, time zone or money cannot be read")) from None
    found = ProofFile(rules, calendar, entry_fee, added_money, {}, set(), [], [], {}, [], problems)
    flights = _teams(told["teams"], found)
    _slips(told["slips"], found, flights, _arrivals(told["checkins"], found))
    for row in told["side_pots"]:
        with _row(gettext("side pot %(name)s"), row, "name", problems):
            shares = tuple(_decimal(one.strip()) for one in row["shares"].split(","))
            if row["wins"] not in WINS or not all(type(boat) is int for boat in row["paid"]):
                raise ValueError
            found.pots.append((SidePot(str(row["name"]), _decimal(row["fee"]), row["wins"], shares), set(row["paid"])))
    return found


@contextmanager
def _row(words: str, row: Any, number: str, problems: list[str]) -> Iterator[None]:
    """A row that cannot be read becomes a problem that names it, with why where that is known."""
    try:
        yield
    except NOT_READ as error:
        said = row.get(number) if isinstance(row, dict) else None
        named = words % {number: gettext("without a number") if said is None else str(said)[:MOST_DIGITS]}
        why = "; ".join(fault.message for fault in error.faults) if isinstance(error, Faults) else ""
        unknown = gettext("it cannot be read")
        problems.append(f"{named}: {why or unknown}")


def _decimal(text: Any) -> Decimal:
    """A figure as the site and the reader's browser read one: ``٣``, ``1_0`` and `` 1`` are none."""
    if not isinstance(text, str) or len(text) > MOST_DIGITS:
        raise TypeError
    if not _FIGURE.fullmatch(text):
        raise ValueError
    return Decimal(text)


def _whole(value: Any, least: int = 0) -> int:
    if type(value) is not int or not least <= value < MOST_NUMBER:
        raise TypeError
    return value


def _or_none(value: Any, read: Callable[[Any], T]) -> T | None:
    return None if value is None else read(value)


def _yes(value: Any) -> bool:
    if not isinstance(value, bool):
        raise TypeError
    return value


def _calendar(told: Mapping[str, Any]) -> Calendar:
    event = told["event"]

    def clock(row: Mapping[str, Any], name: str) -> time:
        return read_clock(row[name] if row[name] is not None else event[name])

    days = [
        Day(
            _whole(row["day"], 1),
            read_date(row["date"]),
            clock(row, "start_time"),
            clock(row, "due_time"),
            row["status"] == "cancelled",
        )
        for row in event["days"]
    ]
    flights = {(row["flight"], row["day"]): read_clock(row["due_time"]) for row in told["flights"]}
    return Calendar(ZoneInfo(event["time_zone"]), days, flights)


def _teams(rows: Sequence[Any], found: ProofFile) -> dict[int, str]:
    """Read the teams; the flight of each boat."""
    flights = {}
    for row in rows:
        with _row(gettext("team of boat %(boat)s"), row, "boat", found.problems):
            boat = _whole(row["boat"], 1)
            if boat in found.teams or row["status"] not in ROSTER_STATUSES or not isinstance(row["team"], str):
                raise ValueError
            found.teams[boat] = Team(
                boat,
                row["team"],
                row["status"],
                _yes(row["paid"]),
                _yes(row["big_fish_pot"]),
                _or_none(row["lot"], _whole),
            )
            flights[boat] = row["flight"] or ""
            if row["youth"]:
                found.youth.add(boat)
    return flights


def _arrivals(rows: Sequence[Any], found: ProofFile) -> dict[tuple[int, int], Arrival]:
    lines = []
    for number, row in enumerate(rows, start=1):
        named = {**row, "row": number} if isinstance(row, dict) else row
        with _row(gettext("check-in %(row)s of the list"), named, "row", found.problems):
            lines.append({"boat": _whole(row["boat"]), **_came(row, found.calendar)})
    return arrivals_by_boat_and_day(lines)


def _came(row: Mapping[str, Any], calendar: Calendar) -> dict[str, Any]:
    day = _whole(row["day"], 1)
    excused = row["excused_minutes"]
    if excused is not None and (isinstance(excused, bool) or not isinstance(excused, int | float) or not excused >= 0):
        raise TypeError
    return {
        "day": day,
        "checked_in": _or_none(row["checked_in"], lambda text: calendar.read(day, text)),
        "minutes_late": _or_none(row["minutes_late"], _whole),
        "excused_minutes": "" if excused is None else format(Decimal(repr(excused)), "f"),
    }


def _slips(
    rows: Sequence[Any], found: ProofFile, flights: Mapping[int, str], arrivals: Mapping[tuple[int, int], Arrival]
) -> None:
    """Read the slips: which are current, and the first of each boat and day up to the cut."""
    replaced = {row["replaces"] for row in rows if isinstance(row, dict) and type(row.get("replaces")) is int}
    cut = found.rules.cut_after_day or 0
    first: dict[tuple[int, int], tuple[int, DaySlip]] = {}
    numbers = set()
    for row in rows:
        with _row(gettext("slip %(slip)s"), row, "slip", found.problems):
            number, day, boat = _whole(row["slip"]), _whole(row["day"], 1), _whole(row["boat"], 1)
            if number in numbers or boat not in found.teams or day not in found.calendar.fished:
                raise ValueError
            numbers.add(number)
            if row.get("void") is True:
                continue
            entry = DaySlip(boat, day, _slip(row, found, flights[boat], arrivals.get((boat, day))))
            if day <= cut and first.get((boat, day), (number, entry))[0] >= number:
                first[boat, day] = number, entry
            if number not in replaced:
                wrong = slip_faults(found.rules, entry.slip)
                if wrong:
                    raise Faults(wrong)
                found.current.append(entry)
                if row["weighed"] is not None:
                    found.weighed[boat, day] = found.calendar.read(day, row["weighed"])
    found.first = [entry for _, entry in first.values()]


def _slip(row: Mapping[str, Any], found: ProofFile, flight: str, arrival: Arrival | None) -> Slip:
    came = Arrival(**_came(row, found.calendar))
    return Slip(
        fish=_whole(row["fish"]),
        alive=_whole(row["alive"]),
        dead=_whole(row["dead"]),
        short=_whole(row["short"]),
        gross=_or_none(row["gross"], _decimal),
        tare=_or_none(row["tare"], _decimal),
        big_fish=_or_none(row["big_fish"], _decimal),
        big_fish_alive=_or_none(row["big_fish_alive"], _yes),
        largest_weights=tuple(_decimal(one) for one in row["largest_weights"] or ()),
        minutes_late=lateness(arrival_counted(came, arrival), found.calendar, flight),
        extra_penalty=_or_none(row["extra_penalty"], _decimal),
        extra_penalty_reason="-",  # a proof has no texts
        disqualified_reason="-" if _yes(row["disqualified"]) else "",
    )

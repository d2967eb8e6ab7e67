"""An event as the sheets from which it can be brought in again, to the last digit."""

import re
from collections.abc import Iterable, Sequence
from datetime import date, time
from decimal import Decimal
from typing import Any
from uuid import UUID

from weighin.checkin.queries.arrivals import current_checkins
from weighin.events.domain.calendar import Calendar, write_clock
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.reports.domain.sheet import Sheet, SheetColumn, Value
from weighin.reports.domain.workbook_columns import (
    CHECK_INS,
    DAYS,
    EVENT,
    FISH_CARE,
    FLIGHTS,
    HOLDING,
    RULES,
    SLIPS,
    TANKS,
    TEAMS,
    YES_NO,
    SheetSpec,
)
from weighin.roster.models import Angler, Entry
from weighin.rules.sheet.keys import KEYS
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import slips

CENT = Decimal("0.01")


PLAIN_NUMBER = re.compile(r"(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,6})?\Z", re.ASCII)


def event_sheets(event: Event) -> list[Sheet]:
    """Every sheet of the import contract, every rule key."""
    calendar, rules = calendar_of(event), rules_of(event).written()
    # Each row of an entry names its boat, and a slip the one that it replaces: looked up here, a row more each is not read
    entries = list(event.entries.order_by("number"))  # so that they keep their order where it is brought in
    boats = {entry.pk: entry.boat for entry in entries}
    checkins = current_checkins(event).select_related(None)
    kept = list(slips(event).select_related(None))
    numbers = {slip.pk: slip.number for slip in kept}
    return [
        _pairs(EVENT.title, list(_event_rows(event)), [column.choices for column in EVENT.columns]),
        _table(DAYS, (_day_values(day) for day in event.event_days.all())),
        _table(
            FLIGHTS,
            (
                {"flight": f.name, "day": f.day, "launch": _clock(f.launch), "due_time": _clock(f.due_time)}
                for f in event.flights.order_by("pk")  # the director's order, in which a draw deals to them
            ),
        ),
        _pairs(
            RULES,
            [
                (key.name, _number(rules[key.name]) if key.kind != "text" else rules[key.name], key.meaning)
                for key in KEYS
            ],
            [YES_NO if key.kind == "yes/no" else key.choices if key.kind == "choice" else () for key in KEYS],
        ),
        _table(TEAMS, _entry_rows(event, entries)),
        _table(SLIPS, (_slip_values(slip, calendar, boats, numbers) for slip in kept)),
        _table(CHECK_INS, (_of_boat(line, CHECK_INS, calendar, boats) for line in checkins)),
        _table(FISH_CARE, (_of_boat(note, FISH_CARE, calendar, boats) for note in event.care_notes.all())),
        _table(TANKS, (_tank_values(tank, calendar) for tank in event.tank_readings.all())),
        _table(HOLDING, (_plain_values(pen, HOLDING) for pen in event.holding_pens.all())),
    ]


def _event_rows(event: Event) -> Iterable[tuple[str, Any]]:
    values: dict[str, Any] = {
        "club": event.club.name,
        "season": event.season.name,
        "event": event.name,
        "water": event.water.name,
        "date": event.date.isoformat(),
        "days": event.event_days.count(),
        "start_time": _clock(event.start_time),
        "due_time": _clock(event.due_time),
        "entry_fee": event.entry_fee.quantize(CENT),
        "added_money": event.added_money.quantize(CENT),
    }
    for column in EVENT.columns:
        yield column.name, values.get(column.name, getattr(event, column.name, ""))


def _day_values(day: Any) -> dict[str, Any]:
    return {
        **_plain_values(day, DAYS),
        "day": day.number,
        "date": day.date.isoformat(),
        "start_time": _clock(day.start_time),
        "due_time": _clock(day.due_time),
    }


def _entry_rows(event: Event, entries: Sequence[Entry]) -> Iterable[dict[str, Any]]:
    anglers: dict[int, dict[str, str]] = {}
    written = Angler.objects.filter(entry__event=event).values_list("entry_id", "position", "name")
    for entry_id, position, name in written:
        anglers.setdefault(entry_id, {})[f"angler_{position}"] = name
    for entry in entries:
        named = {"team": entry.name, "flight": entry.flight_name}
        yield {**_plain_values(entry, TEAMS, ("team",)), **anglers.get(entry.pk, {}), **named}


def _slip_values(
    slip: WeighSlip, calendar: Calendar, boats: dict[int, int], numbers: dict[UUID, int]
) -> dict[str, Any]:
    return {
        **_of_boat(slip, SLIPS, calendar, boats),
        "slip": slip.number,
        "replaces": numbers[slip.replaces_id] if slip.replaces_id else None,
        "void": "yes" if slip.void else None,
    }


def _of_boat(row: Any, spec: SheetSpec, calendar: Calendar, boats: dict[int, int]) -> dict[str, Any]:
    """What is written of a boat on a day."""
    others = ("boat", "slip", "replaces", "void")
    found = _plain_values(row, spec, others)
    return {**found, "boat": boats[row.entry_id], **_moments(row, row.day, calendar, spec)}


def _tank_values(tank: Any, calendar: Calendar) -> dict[str, Any]:
    return {**_plain_values(tank, TANKS), **_moments(tank, tank.day, calendar, TANKS)}


def _moments(row: Any, day: int, calendar: Calendar, spec: SheetSpec) -> dict[str, str | None]:
    found = {name: getattr(row, name) for name in spec.times}
    return {name: calendar.write(day, moment) if moment else None for name, moment in found.items()}


def _plain_values(row: Any, spec: SheetSpec, others: Sequence[str] = ()) -> dict[str, Any]:
    """What the row says under the names of the columns; of ``others`` somebody else knows."""
    return {name: getattr(row, name) for name in spec.names if name not in others and hasattr(row, name)}


def _clock(clock: time | None) -> str | None:
    return write_clock(clock) if clock else None


def _pairs(title: str, rows: Sequence[Sequence[Any]], choices: Sequence[Sequence[str]]) -> Sheet:
    """Keys and their values, with the choices of each row."""
    columns = [SheetColumn(head) for head in ("key", "value", "meaning")][: max(len(row) for row in rows)]
    offered = {number: found for number, found in enumerate(choices) if found}
    return Sheet(title, columns, [[_value(value) for value in row] for row in rows], choices=offered)


def _table(spec: SheetSpec, rows: Iterable[dict[str, Any]]) -> Sheet:
    columns = [SheetColumn(column.name, choices=column.choices) for column in spec.columns]
    of = [(column.name, _number if column.number else _value) for column in spec.columns]
    cells = [[None if (value := row.get(name)) is None else read(value) for name, read in of] for row in rows]
    return Sheet(spec.title, columns, cells)


def _value(value: Any) -> Value:
    if isinstance(value, date):
        return value.isoformat()
    return value if value is None or isinstance(value, (int, Decimal)) else str(value) or None


def _number(value: Any) -> Value:
    """A figure as a number with as many decimals as were written, where it is one (pounds and ounces are not), so that no
    digit is lost."""
    text = str(value)
    return Decimal(text) if PLAIN_NUMBER.match(text) else text or None

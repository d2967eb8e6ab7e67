"""Write an event as the workbook it can be brought in from again, to the last digit."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path
from typing import Any, BinaryIO

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet._write_only import WriteOnlyWorksheet

from weighin.care.models import CareNote
from weighin.checkin.models import CheckIn
from weighin.checkin.queries.arrivals import current_checkins, table_of
from weighin.events.domain.calendar import Calendar, write_clock
from weighin.events.models import Event
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
    SheetSpec,
)
from weighin.roster.models import Angler
from weighin.rules.sheet.keys import KEYS
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import slips
from weighin.standings.queries.standings import official_results

TEXT = "@"
HEAD = Font(bold=True)


def write_event_workbook(event: Event, to: Path | BinaryIO) -> None:
    """Write the event's workbook to a path or an open file: every sheet of the import contract, every rule key."""
    book = Workbook(write_only=True)
    book.properties.title = event.name
    official = official_results(event)[:1]
    if official and official[0].stage:
        book.properties.description = f"Official version {official[0].version} stands {official[0].stage}."
    table = table_of(event)
    calendar = table.calendar
    _write(book, EVENT.title, ("key", "value"), _event_rows(event))
    _table(book, DAYS, (_day_values(day) for day in event.event_days.all()))
    _table(
        book,
        FLIGHTS,
        (
            {"flight": f.name, "day": f.day, "launch": _clock(f.launch), "due_time": _clock(f.due_time)}
            for f in event.flights.order_by("pk")  # the director's order, in which a draw deals to them
        ),
    )
    rules = table.rules.written()
    _write(book, RULES, ("key", "value", "meaning"), ((key.name, rules[key.name], key.meaning) for key in KEYS))
    _table(book, TEAMS, _entry_rows(event))
    _table(
        book,
        SLIPS,
        (
            _slip_values(slip, calendar)
            for slip in slips(event).select_related(None).select_related("entry", "replaces")
        ),
    )
    _table(book, CHECK_INS, (_checkin_values(line, calendar) for line in current_checkins(event)))
    _table(book, FISH_CARE, (_note_values(note, calendar) for note in event.care_notes.select_related("entry")))
    _table(book, TANKS, (_tank_values(tank, calendar) for tank in event.tank_readings.all()))
    _table(book, HOLDING, (_plain_values(pen, HOLDING) for pen in event.holding_pens.all()))
    book.save(to)


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


def _entry_rows(event: Event) -> Iterable[dict[str, Any]]:
    anglers: dict[int, dict[str, str]] = {}
    written = Angler.objects.filter(entry__event=event).values_list("entry_id", "position", "name")
    for entry_id, position, name in written:
        anglers.setdefault(entry_id, {})[f"angler_{position}"] = name
    for entry in event.entries.order_by("number"):  # so that they keep their order where it is brought in
        named = {"team": entry.name, "flight": entry.flight_name}
        yield {**_plain_values(entry, TEAMS, ("team",)), **anglers.get(entry.pk, {}), **named}


def _slip_values(slip: WeighSlip, calendar: Calendar) -> dict[str, Any]:
    values = _plain_values(slip, SLIPS)
    values.update(
        slip=slip.number,
        boat=slip.entry.boat,
        replaces=slip.replaces.number if slip.replaces else None,
        void="yes" if slip.void else None,
        **_moments(slip, slip.day, calendar, SLIPS),
    )
    return values


def _checkin_values(line: CheckIn, calendar: Calendar) -> dict[str, Any]:
    return {
        **_plain_values(line, CHECK_INS),
        "boat": line.entry.boat,
        **_moments(line, line.day, calendar, CHECK_INS),
    }


def _note_values(note: CareNote, calendar: Calendar) -> dict[str, Any]:
    return {
        **_plain_values(note, FISH_CARE),
        "boat": note.entry.boat,
        **_moments(note, note.day, calendar, FISH_CARE),
    }


def _tank_values(tank: Any, calendar: Calendar) -> dict[str, Any]:
    return {**_plain_values(tank, TANKS), **_moments(tank, tank.day, calendar, TANKS)}


def _moments(row: Any, day: int, calendar: Calendar, spec: SheetSpec) -> dict[str, str | None]:
    found = {column.name: getattr(row, column.name) for column in spec.columns if column.kind == "time"}
    return {name: calendar.write(day, moment) if moment else None for name, moment in found.items()}


def _plain_values(row: Any, spec: SheetSpec, others: Sequence[str] = ()) -> dict[str, Any]:
    """What the row says under the names of the columns; of ``others`` somebody else knows."""
    names = [column.name for column in spec.columns if column.name not in others]
    return {name: getattr(row, name) for name in names if hasattr(row, name)}


def _clock(clock: time | None) -> str | None:
    return write_clock(clock) if clock else None


def _table(book: Workbook, spec: SheetSpec, rows: Iterable[dict[str, Any]]) -> None:
    names = [column.name for column in spec.columns]
    _write(book, spec.title, names, ([row.get(name) for name in names] for row in rows))


def _write(book: Workbook, title: str, header: Sequence[str], rows: Iterable[Sequence[Any]]) -> None:
    sheet: WriteOnlyWorksheet = book.create_sheet(title)
    sheet.freeze_panes = "A2"
    for position, name in enumerate(header, start=1):
        sheet.column_dimensions[get_column_letter(position)].width = {"note": 40, "meaning": 70, "team": 28}.get(
            name, max(10, len(name) + 2)
        )
    heads = []
    for name in header:
        head = WriteOnlyCell(sheet, name)
        head.font = HEAD
        heads.append(head)
    sheet.append(heads)
    texts = [_text(sheet) for _ in header]
    for row in rows:
        sheet.append([_cell(text, value) for text, value in zip(texts, row, strict=True)])


def _text(sheet: Any) -> Any:
    """A cell for the texts of one column, row after row: a cell's style is what costs time, and a row is written at once."""
    cell = WriteOnlyCell(sheet)
    cell.number_format = TEXT
    return cell


def _cell(text: Any, value: Any) -> Any:
    """Counts as numbers, everything written by hand as text, so that no digit, zero or sign is lost."""
    if value is None or value == "":
        return None
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return value
    if isinstance(value, (datetime, date)):
        value = value.isoformat()
    text.value = f"{value:.2f}" if isinstance(value, Decimal) else str(value)
    text.data_type = "s"
    return text

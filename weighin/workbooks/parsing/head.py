"""Read the sheets that say what the event is: Event, Days, Flights and Rules."""

from collections.abc import Callable, Mapping, Set
from datetime import date, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar, Day, read_clock, read_date
from weighin.events.models import EventDay, Handling
from weighin.events.queries.faults import MOST_DAYS, elevation
from weighin.reports.domain.workbook_columns import DAYS, EVENT, FLIGHTS
from weighin.rules import rulebook, values
from weighin.rules.faults import Wrong
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet.keys import BY_NAME
from weighin.rules.weights import UNITS
from weighin.workbooks.domain.faults import (
    CELL_MISSING,
    DAY_BEFORE_EVENT,
    DAY_TWICE,
    FLIGHT_TWICE,
    KEY_MISSING,
    NO_EVENT_SHEET,
    NO_SUCH_DAY_IN_WORKBOOK,
    NOT_A_ZONE_NAME,
)
from weighin.workbooks.domain.plan import DayPlan, EventPlan, FlightPlan
from weighin.workbooks.parsing.book import SheetRows
from weighin.workbooks.parsing.rows import Report, Row, key_rows, read_cell, table_rows

# A day on which no clocks are changed anywhere, nor on those that may follow it
LONGEST_SPAN = 366  # days from the first to the last
STAND_IN = date(2001, 1, 1)


def read_event(sheet: SheetRows | None, report: Report) -> tuple[EventPlan, dict[str, str], frozenset[str]]:
    """The Event sheet, the place of each of its values, and the keys that could not be read.

    For those a default stands in, so that the other sheets can be read for what does not hang on them.
    """
    before = len(report.found)
    if sheet is None:
        report.fault("Event!A1", NO_EVENT_SHEET.says())
    found = key_rows(sheet, [c.name for c in EVENT.columns], report)
    no_keys = not found and len(report.found) > before
    texts: dict[str, str] = {}
    places: dict[str, str] = {}
    unsure = {c.name for c in EVENT.columns} if no_keys else set()
    for column in EVENT.columns:
        if column.name not in found:
            if column.required and sheet is not None and not no_keys:
                report.fault(f"{sheet.title}!A1", KEY_MISSING.says(name=column.name))
                unsure.add(column.name)
            continue
        cell = found[column.name]
        places[column.name] = cell.place
        text = read_cell(cell, column.kind, report)
        if text == "" and column.required:
            report.fault(cell.place, CELL_MISSING.says(name=column.name))
        if text is None or (text == "" and column.required):
            unsure.add(column.name)
        texts[column.name] = text or ""

    def value(name: str, read: Callable[[str], Any], default: Any) -> Any:
        text = texts.get(name, "")
        if not text:
            return default
        try:
            return read(text)
        except Wrong as error:
            report.fault(places[name], error.said)
            unsure.add(name)
            return default

    plan = EventPlan(
        club=value("club", _name, ""),
        season=value("season", lambda text: _name(text, 80), ""),
        event=value("event", _name, ""),
        water=value("water", _name, ""),
        date=value("date", read_date, STAND_IN),
        days=value("days", lambda text: values.whole(text, least=1, most=MOST_DAYS), 1),
        weight_unit=value("weight_unit", lambda text: values.choice(text, UNITS), "lb"),
        start_time=value("start_time", read_clock, time(6)),
        due_time=value("due_time", read_clock, time(15)),
        time_zone=value("time_zone", _zone, "America/Chicago"),
        handling=value("handling", lambda text: values.choice(text, Handling.values), Handling.HOLD_RELEASE),
        elevation_ft=value("elevation_ft", _elevation, ""),
        lake_temp=value("lake_temp", _water, ""),
        entry_fee=value("entry_fee", values.money, values.money("0")),
        added_money=value("added_money", values.money, values.money("0")),
        permit=value("permit", lambda text: values.lines(text, 500), ""),
        note=value("note", lambda text: values.lines(text, 2000), ""),
    )
    if "days" in unsure:
        plan.days = MOST_DAYS
    return plan, places, frozenset(unsure)


def read_days(
    sheet: SheetRows | None, event: EventPlan, unsure: Set[str], report: Report
) -> tuple[list[DayPlan], dict[int, Row]]:
    """Every day of the event; rows that are missing follow from the first date."""
    days = {n: DayPlan(n, event.date + timedelta(days=n - 1)) for n in range(1, event.days + 1)}
    rows: dict[int, Row] = {}
    for row in table_rows(sheet, DAYS, report):
        number = row.value("day", lambda text: values.whole(text, least=1, most=MOST_DAYS))
        if number is not None and number not in days:
            row.report.fault(row.place("day"), NO_SUCH_DAY_IN_WORKBOOK.says(number=number, days=event.days))
        elif number is not None and number in rows:
            row.report.fault(row.place("day"), DAY_TWICE.says(number=number, place=rows[number].place("day")))
        # A row of no day is read too, for the other faults in it.
        day = DayPlan(0, event.date)
        if number in days and number not in rows:
            rows[number], day = row, days[number]
        day.date = row.value("date", read_date) or day.date
        if number is not None and "date" not in unsure and not 0 <= (day.date - event.date).days <= LONGEST_SPAN:
            said = DAY_BEFORE_EVENT.says(number=number, date=day.date, begins=event.date)
            row.report.fault(row.place("date"), said)
        day.start_time = row.value("start_time", read_clock)
        day.due_time = row.value("due_time", read_clock)
        day.lake_temp = row.value("lake_temp", _water) or ""
        day.air_temp = row.value("air_temp", lambda text: temperatures.air(text) and text) or ""
        day.weather = row.value("weather", lambda text: values.lines(text, 200)) or ""
        day.status = row.value("status", lambda text: values.choice(text, EventDay.Status.values)) or "fished"
        day.note = row.value("note", lambda text: values.lines(text, 2000)) or ""
    return list(days.values()), rows


def read_flights(sheet: SheetRows | None, days: int, report: Report) -> list[tuple[FlightPlan, Row]]:
    """The rows of Flights."""
    flights: list[tuple[FlightPlan, Row]] = []
    seen: dict[tuple[str, int | None], Row] = {}
    for row in table_rows(sheet, FLIGHTS, report):
        name = row.value("flight", lambda text: values.line(text, 40))
        day = row.value("day", lambda text: values.whole(text, least=1, most=MOST_DAYS))
        launch, due = row.value("launch", read_clock), row.value("due_time", read_clock)
        if day is not None and day > days:
            row.report.fault(row.place("day"), NO_SUCH_DAY_IN_WORKBOOK.says(number=day, days=days))
            continue
        if name is None or due is None:
            continue
        key = (values.folded(name), day)
        if key in seen:
            row.report.fault(
                row.place("flight"),
                FLIGHT_TWICE.says(name=name, place=seen[key].place("flight")),
            )
            continue
        seen[key] = row
        flights.append((FlightPlan(name, day, launch, due), row))
    return flights


def read_rules(
    sheet: SheetRows | None, event: EventPlan, unsure: Set[str], report: Report
) -> tuple[Rulebook, frozenset[str]]:
    """The Rules sheet as a rulebook, and the keys that could not be read: they stand at their defaults.

    ``unsure`` are the keys of the Event sheet that could not be read: without a unit no weight of a rule can be.
    """
    before = len(report.found)
    found = key_rows(sheet, BY_NAME, report)
    texts = {name: read_cell(cell, "plain", report) for name, cell in found.items()}
    unread = {name for name, text in texts.items() if text is None}
    if not found and len(report.found) > before:
        unread.update(BY_NAME)
    if "weight_unit" in unsure:
        unread.update(name for name, key in BY_NAME.items() if key.kind.startswith("weight"))
    written = {name: text for name, text in texts.items() if text is not None and name not in unread}
    rules, faults = rulebook.read_what_can_be(written, event.weight_unit)
    title = sheet.title if sheet else "Rules"
    faults += rulebook.cut_faults(rules, event.days) if "days" not in unsure else []
    for fault in faults:
        report.fault(found[fault.field].place if fault.field in found else f"{title}!A1", fault.said)
    return rules, frozenset(unread | {fault.field for fault in faults})


def calendar_of(
    event: EventPlan, days: list[DayPlan], day_rows: Mapping[int, Row], flights: list[tuple[FlightPlan, Row]],
    places: Mapping[str, str], unsure: Set[str], report: Report,
) -> Calendar:  # fmt: skip
    """The event's calendar; times that the clocks skip on a day are reported where they stand.

    Without a zone or date (``unsure``) none can be told; without a number of days only those that are written.
    """
    calendar = Calendar(
        ZoneInfo(event.time_zone),
        [
            Day(
                d.number,
                d.date,
                d.start_time or event.start_time,
                d.due_time or event.due_time,
                d.status == "cancelled",
            )
            for d in days
        ],
        {(flight.name, flight.day): flight.due_time for flight, _ in flights},
    )
    for day in days if unsure.isdisjoint(("date", "time_zone")) else ():
        if day.status == "cancelled" or ("days" in unsure and day.number not in day_rows):
            continue
        row = day_rows.get(day.number)
        for name, own, general in (
            ("start_time", day.start_time, event.start_time),
            ("due_time", day.due_time, event.due_time),
        ):
            if own is None and name in unsure:
                continue
            place = row.place(name) if own and row else places.get(name) or places.get("date", "Event!A1")
            _must_exist(calendar, day.number, own or general, place, report)
        for flight, flight_row in flights:
            if flight.day in (None, day.number):
                _must_exist(calendar, day.number, flight.due_time, flight_row.place("due_time"), report)
    return calendar


def _must_exist(calendar: Calendar, day: int, clock: time, place: str, report: Report) -> None:
    try:
        calendar.at(day, clock)
    except Wrong as error:
        report.fault(place, error.said)


def _name(text: str, most: int = 120) -> str:
    """A name by which something is found again, whatever its spacing."""
    return " ".join(values.line(text, most).split())


def _zone(text: str) -> str:
    try:
        ZoneInfo(text)
    except (ValueError, OSError, KeyError):
        raise NOT_A_ZONE_NAME.wrong(text=text[:40]) from None
    return text


def _elevation(text: str) -> str:
    elevation(text)
    return text


def _water(text: str) -> str:
    temperatures.water(text)
    return text

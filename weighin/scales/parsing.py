"""Read scales and checks as a person writes them: every fault is named."""

from collections.abc import Callable, Mapping
from datetime import date, datetime, timedelta
from decimal import Decimal
from functools import partial
from typing import Any

from weighin.events.domain.calendar import Calendar, read_clock
from weighin.events.domain.clock import CLOCK_MAY_DIFFER
from weighin.events.domain.faults import NOT_A_DATE
from weighin.rules import values, weights
from weighin.rules.faults import Fault, Faults, Listed, Sentence, Wrong
from weighin.scales.domain.faults import (
    NONE_OF_THESE,
    NOT_A_DIVISION,
    ODD_COMMAND,
    PATTERN_TOO_LONG,
    SCALE_WITHOUT_DIVISION,
    SCALE_WITHOUT_NAME,
    SHOWN_MISSING,
    TEST_BY_NOBODY,
    TEST_FAR_FROM_EVENT,
    TEST_TO_COME,
    TEST_WEIGHT_MISSING,
    TEST_WEIGHT_OF_NOTHING,
    TEST_WITHOUT_MOMENT,
    TEST_WITHOUT_TIME,
)
from weighin.scales.domain.layouts import KEY, LAYOUTS, OWN, layout_of
from weighin.scales.models import Scale, ScaleCheck

SCALE_FIELDS = (
    "name", "made_by", "division", "new", "in_use", "stations",
    "layout", "pattern", "ask", "baud", "data_bits", "parity", "stop_bits",
)  # fmt: skip
CHECK_FIELDS = ("moment", "at", "test_weight", "shown", "tested_by", "note")
BAUDS = (300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200)
MOST_DAYS_OFF = timedelta(days=7)


class _Reader:
    def __init__(self, written: Mapping[str, str | None]) -> None:
        self.written = {name: (text or "").strip() for name, text in written.items()}
        self.faults: list[Fault] = []

    def value(self, name: str, read: Callable[[str], Any], default: Any = None, missing: Sentence | None = None) -> Any:
        text = self.written.get(name, "")
        if not text:
            if missing:
                self.faults.append(missing.at(name))
            return default
        try:
            return read(text)
        except Wrong as error:
            self.faults.append(error.at(name))
            return default

    def finish(self) -> None:
        if self.faults:
            raise Faults(self.faults)


def read_scale(written: Mapping[str, str | None], unit: str) -> dict[str, Any]:
    """A scale's values, the fields of ``SCALE_FIELDS``, its division in ``unit``. Raises Faults with field names."""
    reader = _Reader(written)
    found: dict[str, Any] = {
        "name": reader.value("name", partial(values.line, most=40), "", SCALE_WITHOUT_NAME),
        "made_by": reader.value("made_by", values.line, ""),
        "division": reader.value(
            "division",
            lambda text: _division(text, unit),
            "",
            SCALE_WITHOUT_DIVISION,
        ),
        "new": reader.value("new", values.yes_no, False),
        "in_use": reader.value("in_use", values.yes_no, True),
        "stations": reader.value("stations", _stations, ""),
        "layout": reader.value("layout", lambda text: values.choice(text, [*LAYOUTS, OWN]), ""),
        "pattern": reader.value("pattern", str, ""),
        "ask": reader.value("ask", _ask, ""),
        "baud": reader.value("baud", lambda text: _one_of(text, BAUDS), 9600),
        "data_bits": reader.value("data_bits", lambda text: _one_of(text, (7, 8)), 8),
        "parity": reader.value("parity", lambda text: values.choice(text, Scale.Parity.values), Scale.Parity.NONE),
        "stop_bits": reader.value("stop_bits", lambda text: _one_of(text, (1, 2)), 1),
    }
    if found["layout"] != OWN:
        found["pattern"] = ""
    elif len(found["pattern"]) > 200:
        reader.faults.append(PATTERN_TOO_LONG.at("pattern"))
    else:
        try:
            layout_of(OWN, found["pattern"])
        except Faults as wrong:
            reader.faults.extend(wrong.faults)
    reader.finish()
    return found


def read_check(written: Mapping[str, str | None], scale: Scale, calendar: Calendar, now: datetime) -> dict[str, Any]:
    """A check's values, the fields of ``CHECK_FIELDS``; ``at_date`` and ``at_time`` blank are now. Raises Faults."""
    reader = _Reader(written)
    choices = ScaleCheck.Moment.values
    found: dict[str, Any] = {
        "moment": reader.value("moment", lambda text: values.choice(text, choices), "", TEST_WITHOUT_MOMENT),
        "at": _moment(reader, calendar, now),
        "tested_by": reader.value("tested_by", values.line, "", TEST_BY_NOBODY),
        "note": reader.value("note", values.lines, ""),
    }
    for name, missing in (
        ("test_weight", TEST_WEIGHT_MISSING),
        ("shown", SHOWN_MISSING),
    ):
        size = reader.value(name, lambda text: weights.read(text, scale.unit), None, missing)
        found[name] = reader.written.get(name, "")
        if name == "test_weight" and size == 0:
            reader.faults.append(TEST_WEIGHT_OF_NOTHING.at(name))
    reader.finish()
    return found


def _moment(reader: _Reader, calendar: Calendar, now: datetime) -> datetime | None:
    local = now.astimezone(calendar.zone)
    day = reader.value("at_date", _date, local.date())
    clock = reader.value("at_time", read_clock, None)
    if any(fault.field in ("at_date", "at_time") for fault in reader.faults):
        return None
    dates = [found.date for found in calendar.days.values()]
    if not min(dates) - MOST_DAYS_OFF <= day <= max(dates) + MOST_DAYS_OFF:
        reader.faults.append(TEST_FAR_FROM_EVENT.at("at_date", day=day, first=min(dates)))
        return None
    if clock is None:
        if day == local.date():
            return now
        reader.faults.append(TEST_WITHOUT_TIME.at("at_time"))
        return None
    try:
        moment = calendar.moment(datetime.combine(day, clock))
    except Wrong as error:
        reader.faults.append(error.at("at_time"))
        return None
    if moment > now + CLOCK_MAY_DIFFER:
        reader.faults.append(TEST_TO_COME.at("at_time", clock=f"{clock:%H:%M}", day=day))
    return moment


def _division(text: str, unit: str) -> str:
    size = weights.read(text, unit)
    if not Decimal(0) < size <= 5:
        raise NOT_A_DIVISION.wrong(written=text, example=_example(unit))
    return text


def _example(unit: str) -> str:
    return {"lb": "0.01", "lb-oz": "0-00.5", "kg": "0.005"}.get(unit, "0.01")


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise NOT_A_DATE.wrong(written=text[:40]) from None


def _stations(text: str) -> str:
    return ", ".join(dict.fromkeys(name.strip() for name in values.line(text, 400).split(",") if name.strip()))


def _ask(text: str) -> str:
    said = values.line(text, 10)
    if not said.isascii():
        raise ODD_COMMAND.wrong()
    return KEY if said.casefold() == KEY else said


def _one_of(text: str, choices: tuple[int, ...]) -> int:
    found = values.whole(text)
    if found not in choices:
        raise NONE_OF_THESE.wrong(found=found, choices=Listed(choices))
    return found

"""Kinds of values that only an event can read: its days, its clock, its unit of weight; and temperatures."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from functools import cached_property
from typing import Any, ClassVar

from weighin.events.domain import temperatures
from weighin.events.domain import value_faults as faults
from weighin.events.domain.calendar import read_clock, read_date
from weighin.records.domain.kinds import Beside, Count, Kind, Schema, is_sound, is_text, plain_moment, text_sent
from weighin.records.parsing.json_body import moment_sent, short
from weighin.rules import values, weights
from weighin.rules.faults import Sentence

MOST_DAYS = 1000
MOST_OF_A_LIST = 500
LONGEST_AFTER = timedelta(days=60)  # nothing is found of an event later than that

WEIGHT: Schema = {
    "type": "string",
    "pattern": r"^([0-9]+-)?[0-9]*\.?[0-9]*$",
    "maxLength": weights.LONGEST,
    "description": "As the scale showed it, in the event's unit: 9.47, 9-07.5, 4.295.",
    "examples": ["9.47"],
}
_WEIGHT = re.compile(r"(?:[0-9]+-)?[0-9]*\.?[0-9]*\Z", re.ASCII)


@dataclass(frozen=True)
class Day(Count):
    """A day of the event. ``cancelled`` is said of a row that is to count on a cancelled day; None: it may."""

    cancelled: Sentence | None = None

    def read(self, text: str, beside: Beside) -> int:
        day = values.whole(text, least=1, most=MOST_DAYS)
        days = beside.context.calendar.days
        if day not in days:
            raise faults.NO_SUCH_DAY.wrong(day=day, days=faults.DAYS.says(n=len(days)))
        if days[day].cancelled and beside.current and self.cancelled is not None:
            raise self.cancelled.wrong(day=day)
        return day


@dataclass(frozen=True)
class Clock(Kind):
    """A moment of the row's day: a time of day, or a date and time. Nothing is read of it while the day is not known."""

    @cached_property
    def schema(self) -> Schema:
        return {"type": "string", "format": "date-time", "description": "ISO 8601 with an offset."}

    def sent(self, value: Any) -> str:
        return moment_sent(value).isoformat()

    def read(self, text: str, beside: Beside) -> datetime | None:
        day = beside.values.get("day")
        found: datetime | None = beside.context.calendar.read(day, text) if day else None
        return found

    def text(self, value: Any) -> str:
        return "" if value is None else value.isoformat()

    def plain(self, value: Any) -> str | None:
        return plain_moment(value)

    def as_sent(self, value: Any, context: Any) -> str | None:
        return None if value is None else value.astimezone(context.calendar.zone).isoformat()


@dataclass(frozen=True)
class Moment(Kind):
    """A moment by the clock of a device, of whatever day."""

    @cached_property
    def schema(self) -> Schema:
        return {"type": "string", "format": "date-time", "description": "ISO 8601 with an offset."}

    def sent(self, value: Any) -> str:
        return moment_sent(value).isoformat()

    def read(self, text: str, beside: Beside) -> datetime:
        return datetime.fromisoformat(text)

    def plain(self, value: Any) -> str | None:
        return plain_moment(value)


@dataclass(frozen=True)
class EventDate(Kind):
    """A date from the day before the event to 60 days after it."""

    def read(self, text: str, beside: Beside) -> date:
        found = read_date(text)
        dates = [day.date for day in beside.context.calendar.days.values()]
        if not min(dates) - timedelta(days=1) <= found <= max(dates) + LONGEST_AFTER:
            raise faults.NOT_OF_THIS_TIME.wrong(date=found, first=min(dates))
        return found


@dataclass(frozen=True)
class TimeOfDay(Kind):
    """A time of day by itself."""

    def read(self, text: str, beside: Beside) -> time:
        return read_clock(text)


@dataclass(frozen=True)
class DateAndTime(Moment):
    """A moment that may come days after the event, written as a date and a time of day."""

    parts: ClassVar[Mapping[str, Kind]] = {"date": EventDate(), "time": TimeOfDay()}

    def joined(self, values: Sequence[Any], beside: Beside) -> datetime:
        found: datetime = beside.context.calendar.moment(datetime.combine(*values))
        return found


@dataclass(frozen=True)
class Weight(Kind):
    """A weight in the event's unit, kept as it was written; nothing written is ``nothing``."""

    blank: ClassVar[Any] = ""
    nothing: Decimal | None = None

    @cached_property
    def schema(self) -> Schema:
        return WEIGHT

    def sent(self, value: Any) -> str:
        if not is_text(value):
            raise faults.WEIGHT_IS_NO_TEXT.wrong()
        if not is_plain_weight(value):
            raise faults.NO_PLAIN_WEIGHT.wrong(shown=f"'{short(value)}'" if is_sound(value) else "'this'")
        return str(value)

    def read(self, text: str, beside: Beside) -> str:
        weights.read(text, beside.context.rules.unit)
        return text

    def as_sent(self, value: Any, context: Any) -> str | None:
        return plain_weight(value, context.rules.unit) if value else None

    def compared(self, value: Any, beside: Beside) -> Decimal | None:
        return weights.read(value, beside.context.rules.unit) if value else self.nothing


@dataclass(frozen=True)
class Tare(Weight):
    """An empty bag's weight: nothing written is what the rule sheet says of every bag."""

    def compared(self, value: Any, beside: Beside) -> Decimal | None:
        return super().compared(value, beside) if value else beside.context.rules.bag_tare


@dataclass(frozen=True)
class Weights(Kind):
    """Weights separated by commas, kept as they were written."""

    blank: ClassVar[Any] = ""

    @cached_property
    def schema(self) -> Schema:
        return {"type": "array", "items": WEIGHT}

    def sent(self, value: Any) -> str:
        if not isinstance(value, list):
            raise faults.NO_LIST_OF_WEIGHTS.wrong()
        found = [_WEIGHT_KIND.sent(one) for one in value]
        if not all(found):
            raise faults.EMPTY_WEIGHT.wrong()
        return ", ".join(found)

    def read(self, text: str, beside: Beside) -> str:
        read_weights(text, beside.context.rules.unit)
        found = ", ".join(part.strip() for part in text.split(",") if part.strip())
        if len(found) > MOST_OF_A_LIST:
            raise faults.TOO_MANY_WEIGHTS.wrong()
        return found

    def as_sent(self, value: Any, context: Any) -> list[str]:
        return [plain_weight(one.strip(), context.rules.unit) for one in value.split(",")] if value else []

    def compared(self, value: Any, beside: Beside) -> tuple[Decimal, ...]:
        return read_weights(value, beside.context.rules.unit) if value else ()


@dataclass(frozen=True)
class WaterTemperature(Kind):
    """A temperature of water with its unit, kept as it was written."""

    blank: ClassVar[Any] = ""

    @cached_property
    def schema(self) -> Schema:
        return {"type": "string", "maxLength": temperatures.LONGEST, "examples": ["82 F", "27.8 C"]}

    def sent(self, value: Any) -> str:
        written = text_sent(value, 500)
        if len(written) > temperatures.LONGEST:
            raise faults.TEMPERATURE_TOO_LONG.wrong()
        return written

    def read(self, text: str, beside: Beside) -> str:
        temperatures.water(text)
        return text


def read_weights(text: str, unit: str) -> tuple[Decimal, ...]:
    """Weights separated by commas, in the event's unit. Raises ValueError with a sentence."""
    return values.items(text, lambda item: weights.read(item, unit))


def is_plain_weight(text: str) -> bool:
    """Whether a weight is in ASCII figures with one point at most, and a dash between pounds and ounces."""
    return len(text) <= weights.LONGEST and _WEIGHT.match(text) is not None


def plain_weight(text: str, unit: str) -> str:
    """A weight as written; one written in another way, such as ``9 lb 7.5 oz``, as stations write it."""
    return text if is_plain_weight(text) else weights.show(weights.read(text, unit), unit)


_WEIGHT_KIND = Weight()

"""Kinds of values that only a scale of the event can say."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from functools import cached_property
from typing import Any, ClassVar

from weighin.events.domain.calendar import read_date
from weighin.events.domain.kinds import DateAndTime, TimeOfDay, Weight
from weighin.records.domain.kinds import Beside, Choice, Kind, Line, Schema, Text
from weighin.rules import values, weights
from weighin.rules.faults import Listed
from weighin.scales.domain import faults
from weighin.scales.domain.layouts import KEY, OWN
from weighin.scales.models import Scale

MOST_OF_A_LINE = 200
LARGEST_DIVISION = 5
MOST_DAYS_OFF = timedelta(days=7)
DIVISION_LIKE = {"lb": "0.01", "lb-oz": "0-00.5", "kg": "0.005"}


@dataclass(frozen=True)
class Division(Weight):
    """The smallest step of a scale, in the event's unit."""

    def read(self, text: str, beside: Beside) -> str:
        unit = beside.context.rules.unit
        if not Decimal(0) < weights.read(text, unit) <= LARGEST_DIVISION:
            raise faults.NOT_A_DIVISION.wrong(written=text, example=DIVISION_LIKE.get(unit, "0.01"))
        return text


@dataclass(frozen=True)
class TestWeight(Weight):
    """What a test weight is marked with."""

    def read(self, text: str, beside: Beside) -> str:
        if weights.read(text, beside.context.rules.unit) == 0:
            raise faults.TEST_WEIGHT_OF_NOTHING.wrong()
        return text


@dataclass(frozen=True)
class StationNames(Line):
    """Names with commas, each once."""

    most: int = 400

    def read(self, text: str, beside: Beside) -> str:
        names = (name.strip() for name in super().read(text, beside).split(","))
        return ", ".join(dict.fromkeys(name for name in names if name))


@dataclass(frozen=True)
class Command(Line):
    """What an indicator must be sent before it says its weight; ``key``: it waits for its own key."""

    most: int = 10

    def read(self, text: str, beside: Beside) -> str:
        said = super().read(text, beside)
        if not said.isascii():
            raise faults.ODD_COMMAND.wrong()
        return KEY if said.casefold() == KEY else said


@dataclass(frozen=True)
class Pattern(Kind):
    """How a line looks where no layout says it; nothing where one does."""

    blank: ClassVar[Any] = ""
    most: int = 200

    def read(self, text: str, beside: Beside) -> str:
        if beside.values["layout"] != OWN:
            return ""
        if len(text) > self.most:
            raise faults.PATTERN_TOO_LONG.wrong()
        return text


@dataclass(frozen=True)
class OneOf(Choice):
    """One of a few whole numbers."""

    def read(self, text: str, beside: Beside) -> Any:
        found = values.whole(text)
        if str(found) not in self.choices:
            raise faults.NONE_OF_THESE.wrong(found=found, choices=Listed(tuple(self.choices)))
        return found


@dataclass(frozen=True)
class Part(Choice):
    """The weight of a slip that a reading was taken into."""

    def read(self, text: str, beside: Beside) -> str:
        if text not in self.choices:
            raise faults.NO_SUCH_PART.wrong(parts=Listed(tuple(self.choices[:4])))
        return text


@dataclass(frozen=True)
class Unit(Choice):
    """A unit of weight: the event's."""

    def read(self, text: str, beside: Beside) -> str:
        unit = beside.context.rules.unit
        if text != unit:
            raise faults.ANOTHER_UNIT.wrong(unit=text[:10], event=unit)
        return text


@dataclass(frozen=True)
class ScaleLine(Text):
    """The line of a scale as it came; signs that cannot be seen as <STX>."""

    def read(self, text: str, beside: Beside) -> str:
        if len(text) > MOST_OF_A_LINE:
            raise faults.LINE_TOO_LONG.wrong(most=MOST_OF_A_LINE)
        return text


@dataclass(frozen=True)
class ScaleName(Kind):
    """A scale of the event, by its name."""

    @cached_property
    def schema(self) -> Schema:
        return Text().schema

    def sent(self, value: Any) -> str:
        return Text().sent(value)

    def read(self, text: str, beside: Beside) -> Scale:
        scale = scale_named(beside.context.event_id, text)
        if scale is None:
            raise faults.NO_SUCH_SCALE.wrong(**no_scale(beside.context.event_id, text))
        return scale

    def plain(self, value: Any) -> str | None:
        return None if value is None else value.name


@dataclass(frozen=True)
class TestDate(Kind):
    """A date of the event, or within a week of it."""

    def read(self, text: str, beside: Beside) -> date:
        day = read_date(text)
        dates = [found.date for found in beside.context.calendar.days.values()]
        if not min(dates) - MOST_DAYS_OFF <= day <= max(dates) + MOST_DAYS_OFF:
            raise faults.TEST_FAR_FROM_EVENT.wrong(day=day, first=min(dates))
        return day


@dataclass(frozen=True)
class TestedAt(DateAndTime):
    """When a scale was tested. Left blank it was now, so that one sent twice has two."""

    parts: ClassVar[Mapping[str, Kind]] = {"date": TestDate(), "time": TimeOfDay()}

    def compared(self, value: Any, beside: Beside) -> None:
        return None


def scale_named(event_id: int, name: str) -> Scale | None:
    """The event's scale of a name, whatever its case."""
    try:
        return Scale.objects.filter(event=event_id, name__iexact=values.line(name)).first()
    except ValueError:
        return None


def no_scale(event_id: int, name: str) -> dict[str, object]:
    """What is said of a name that no scale of the event has."""
    names = ", ".join(Scale.objects.filter(event=event_id).values_list("name", flat=True))
    return {"name": name[:40], "names": names or faults.NO_SCALES.says()}

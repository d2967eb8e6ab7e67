"""Kinds of values that only a scale of the event can say."""

from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from typing import Any, ClassVar

from weighin.events.domain.kinds import Moment, Weight
from weighin.records.domain.kinds import Beside, Choice, Kind, Line, Schema, Text
from weighin.rules import values, weights
from weighin.rules.faults import Listed
from weighin.scales.domain import faults
from weighin.scales.domain.layouts import KEY, OWN
from weighin.scales.models import Scale

MOST_OF_A_LINE = 200
LARGEST_DIVISION = 5
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
class TestedAt(Moment):
    """When a scale was tested; left blank it was now, so that one sent twice has two."""

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

"""The sheets of an event workbook and their columns, in order, with how each is read."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cached_property

from weighin.care.domain import fields as care
from weighin.checkin.domain import fields as checkin
from weighin.events.domain.kinds import Clock, Weight
from weighin.events.models import EventDay, Handling
from weighin.holding.domain import fields as holding
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Choice, Figure, Flag, Text
from weighin.rules.results import ROSTER_STATUSES
from weighin.rules.weights import UNITS
from weighin.slips.domain import fields as slips
from weighin.tanks.domain import fields as tanks


@dataclass(frozen=True)
class Column:
    """A column: its name, how its cells become text (``plain``, ``time``, ``date``, ``words``), whether it must be filled,
    what a spreadsheet offers in it, and whether it holds weights or other figures, which are numbers where they can be."""

    name: str
    kind: str = "plain"
    required: bool = False
    choices: tuple[str, ...] = ()
    number: bool = False


@dataclass(frozen=True)
class SheetSpec:
    """A sheet's title and its columns."""

    title: str
    columns: tuple[Column, ...]

    @cached_property
    def names(self) -> tuple[str, ...]:
        return tuple(column.name for column in self.columns)

    @cached_property
    def times(self) -> tuple[str, ...]:
        """The names of those that hold a moment of the row's day."""
        return tuple(column.name for column in self.columns if column.kind == "time")


YES_NO = ("yes", "no")


def _columns(written: str, **choices: tuple[str, ...]) -> tuple[Column, ...]:
    """``name``, ``name:kind``, with a star where the column must be filled; ``choices`` by the name of their column."""
    columns = []
    for word in written.split():
        name, _, kind = word.removesuffix("*").partition(":")
        columns.append(Column(name, kind or "plain", word.endswith("*"), choices.get(name, ())))
    return tuple(columns)


def declared(fields: Sequence[Field], filled: Collection[str] | None = None) -> tuple[Column, ...]:
    """The columns of rows whose fields are declared. What is required must be filled; ``filled`` says which alone, where
    a row may be a void and its reader asks for the rest."""
    found = []
    for field in fields:
        kind = "time" if isinstance(field.kind, Clock) else "words" if isinstance(field.kind, Text) else "plain"
        choices = tuple(field.kind.choices) if isinstance(field.kind, Choice) else ()
        choices = YES_NO if isinstance(field.kind, Flag) else choices
        if field.heading:
            required = field.required if filled is None else field.name in filled
            found.append(Column(field.heading, kind, required, choices, isinstance(field.kind, (Weight, Figure))))
    return tuple(found)


EVENT = SheetSpec(
    "Event",
    _columns(
        "club:words* season* event:words* water:words* date:date* days weight_unit* start_time:time due_time:time time_zone "
        "handling elevation_ft lake_temp entry_fee added_money permit:words note:words",
        weight_unit=UNITS,
        handling=tuple(Handling.values),
    ),
)
DAYS = SheetSpec(
    "Days",
    _columns(
        "day* date:date start_time:time due_time:time lake_temp air_temp weather:words status note:words",
        status=tuple(EventDay.Status.values),
    ),
)
FLIGHTS = SheetSpec("Flights", _columns("flight* day launch:time due_time:time*"))
RULES = "Rules"
TEAMS = SheetSpec(
    "Teams",
    _columns(
        "boat* team:words* angler_1:words* angler_2:words angler_3:words youth flight paid big_fish_pot status lot note:words",
        youth=YES_NO,
        paid=YES_NO,
        big_fish_pot=YES_NO,
        status=tuple(ROSTER_STATUSES),
    ),
)
SLIPS = SheetSpec(
    "Slips",
    (
        *_columns("slip"),
        *declared(slips.FIELDS[:-1], ("day", "boat")),
        *_columns("replaces"),
        *declared(slips.FIELDS[-1:], ()),
        *_columns("void", void=("yes",)),
    ),
)
CHECK_INS = SheetSpec(
    "Check-ins",
    declared(checkin.FIELDS),
)
FISH_CARE = SheetSpec(
    "Fish care",
    declared(care.NOTE),
)
TANKS = SheetSpec("Tanks", declared(tanks.READING))
HOLDING = SheetSpec("Holding", declared(holding.FINISHED))
TABLES = (DAYS, FLIGHTS, TEAMS, SLIPS, CHECK_INS, FISH_CARE, TANKS, HOLDING)

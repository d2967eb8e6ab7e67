"""The sheets of an event workbook and their columns, in order, with how each is read."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from weighin.care.domain import fields as care
from weighin.checkin.domain import fields as checkin
from weighin.events.domain.kinds import Clock
from weighin.holding.domain import fields as holding
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Text
from weighin.slips.domain import fields as slips
from weighin.tanks.domain import fields as tanks


@dataclass(frozen=True)
class Column:
    """A column: its name, how its cells become text (``plain``, ``time``, ``date``, ``words``), whether it must be filled."""

    name: str
    kind: str = "plain"
    required: bool = False


@dataclass(frozen=True)
class SheetSpec:
    """A sheet's title and its columns."""

    title: str
    columns: tuple[Column, ...]


def _columns(written: str) -> tuple[Column, ...]:
    """``name``, ``name:kind``, with a star where the column must be filled."""
    columns = []
    for word in written.split():
        name, _, kind = word.removesuffix("*").partition(":")
        columns.append(Column(name, kind or "plain", word.endswith("*")))
    return tuple(columns)


def declared(fields: Sequence[Field], filled: Collection[str] | None = None) -> tuple[Column, ...]:
    """The columns of rows whose fields are declared. What is required must be filled; ``filled`` says which alone, where
    a row may be a void and its reader asks for the rest."""
    found = []
    for field in fields:
        kind = "time" if isinstance(field.kind, Clock) else "words" if isinstance(field.kind, Text) else "plain"
        if field.heading:
            found.append(Column(field.heading, kind, field.required if filled is None else field.name in filled))
    return tuple(found)


EVENT = SheetSpec(
    "Event",
    _columns(
        "club:words* season* event:words* water:words* date:date* days weight_unit* start_time:time due_time:time time_zone "
        "handling elevation_ft lake_temp entry_fee added_money permit:words note:words"
    ),
)
DAYS = SheetSpec(
    "Days",
    _columns("day* date:date start_time:time due_time:time lake_temp air_temp weather:words status note:words"),
)
FLIGHTS = SheetSpec("Flights", _columns("flight* day launch:time due_time:time*"))
RULES = "Rules"
TEAMS = SheetSpec(
    "Teams",
    _columns(
        "boat* team:words* angler_1:words* angler_2:words angler_3:words youth flight paid big_fish_pot status lot note:words"
    ),
)
SLIPS = SheetSpec(
    "Slips",
    (
        *_columns("slip"),
        *declared(slips.FIELDS[:-1], ("day", "boat")),
        *_columns("replaces"),
        *declared(slips.FIELDS[-1:], ()),
        *_columns("void"),
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

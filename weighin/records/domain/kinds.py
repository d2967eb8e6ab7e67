"""Kinds of written values: how each is sent, read, written again, compared and described.

A kind that needs more than its own text (the day a time belongs to, the unit of a weight, the boats there are) asks
the ``Beside`` for it; such kinds stand in the app that knows these things.
"""

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from functools import cached_property
from typing import Any, ClassVar, Protocol
from uuid import UUID

from weighin.records.domain import faults
from weighin.rules import values

Schema = dict[str, Any]

MOST_SIGNS = 500
PLAIN_TEXT = r"^[^\u0000-\u001f\u007f-\u009f]*$"
UUID_FORM = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}\Z", re.IGNORECASE)


class Number(str):
    """A number of a JSON body, as it was written."""

    __slots__ = ()


class Beside(Protocol):
    """What a value is read beside."""

    context: Any
    current: bool
    values: dict[str, Any]


@dataclass(frozen=True)
class Kind:
    """A kind of value; the base is what most of them do."""

    # What a value is when nothing is written
    blank: ClassVar[Any] = None
    # The kinds of the parts that it is written in, by the ends of their names; none: it is written in one
    parts: ClassVar[Mapping[str, "Kind"]] = {}

    @cached_property
    def schema(self) -> Schema:
        """The JSON schema of a value as it is sent."""
        raise TypeError(f"{type(self).__name__} is not sent by stations")

    def sent(self, value: Any) -> str:
        """A value of a JSON body as text. Raises Wrong when it is of another type."""
        raise TypeError(f"{type(self).__name__} is not sent by stations")

    def read(self, text: str, beside: Beside) -> Any:
        """The value that is kept. Raises Wrong."""
        return text

    def joined(self, values: Sequence[Any], beside: Beside) -> Any:
        """The value of its parts. Raises Wrong."""
        raise TypeError(f"{type(self).__name__} is written in one")

    def text(self, value: Any) -> str:
        """The value as text that ``read`` takes again."""
        return "" if value is None else str(value)

    def plain(self, value: Any) -> Any:
        """The value in plain JSON, as history and chain hold it."""
        return value

    def as_sent(self, value: Any, context: Any) -> Any:
        """The value as a station would send it; None = not recorded."""
        return None if value == "" else value

    def compared(self, value: Any, beside: Beside) -> Any:
        """The value without what spelling adds: two of which this is the same say the same."""
        return value


@dataclass(frozen=True)
class Count(Kind):
    """A whole number, ``least`` to ``most``."""

    least: int = 0
    most: int = 1_000_000

    @cached_property
    def schema(self) -> Schema:
        return {"type": "integer", "minimum": 0}

    def sent(self, value: Any) -> str:
        if not isinstance(value, Number):
            raise faults.NO_WHOLE_NUMBER.wrong()
        return value

    def read(self, text: str, beside: Beside) -> int:
        return values.whole(text, least=self.least, most=self.most)


@dataclass(frozen=True)
class Flag(Kind):
    """Yes or no; ``words`` are what a page offers, where it is more than these two."""

    words: Sequence[tuple[str, Any]] = ()

    @cached_property
    def schema(self) -> Schema:
        return {"type": "boolean"}

    def sent(self, value: Any) -> str:
        if not isinstance(value, bool):
            raise faults.NO_FLAG.wrong()
        return "yes" if value else "no"

    def read(self, text: str, beside: Beside) -> bool:
        return values.yes_no(text)

    def text(self, value: Any) -> str:
        return "" if value is None else "yes" if value else "no"


@dataclass(frozen=True)
class Text(Kind):
    """Text of several lines, at most ``most`` characters."""

    blank: ClassVar[Any] = ""
    most: int = MOST_SIGNS

    @cached_property
    def schema(self) -> Schema:
        return {"type": "string", "maxLength": self.most, "pattern": PLAIN_TEXT}

    def sent(self, value: Any) -> str:
        return text_sent(value, self.most)

    def read(self, text: str, beside: Beside) -> str:
        return values.lines(text, self.most)


@dataclass(frozen=True)
class Line(Text):
    """Text of one line; ``offered`` names the list of a page in which those written before stand."""

    most: int = 120
    offered: str = ""

    def read(self, text: str, beside: Beside) -> str:
        return values.line(text, self.most)


@dataclass(frozen=True)
class Name(Text):
    """A person's name: something can be seen of it."""

    @cached_property
    def schema(self) -> Schema:
        return {"type": "string", "minLength": 1, "maxLength": self.most, "pattern": PLAIN_TEXT}

    def sent(self, value: Any) -> str:
        written = super().sent(value)
        if not any(unicodedata.category(sign)[0] not in "ZC" for sign in written):
            raise faults.BLANK_NAME.wrong()
        return written


@dataclass(frozen=True)
class Choice(Kind):
    """One of a few fixed names: ``options`` are pairs of name and label, as Django's choices are."""

    blank: ClassVar[Any] = ""
    options: Sequence[tuple[Any, Any]] = ()

    @cached_property
    def choices(self) -> list[str]:
        """The names."""
        return [str(name) for name, _ in self.options]

    @cached_property
    def schema(self) -> Schema:
        return {"type": "string", "maxLength": MOST_SIGNS, "pattern": PLAIN_TEXT, "enum": self.choices}

    def sent(self, value: Any) -> str:
        return text_sent(value, MOST_SIGNS)

    def read(self, text: str, beside: Beside) -> Any:
        return values.choice(text, self.choices)


@dataclass(frozen=True)
class Figure(Kind):
    """A measured figure from ``least`` to ``most``, kept as it was written."""

    blank: ClassVar[Any] = ""
    least: int = 0
    most: int = 100_000

    @cached_property
    def schema(self) -> Schema:
        return {"anyOf": [{"type": "number", "minimum": 0}, {"type": "string", "pattern": r"^[0-9]*\.?[0-9]*$"}]}

    def sent(self, value: Any) -> str:
        if not isinstance(value, Number) and not (is_text(value) and value.isascii() and is_sound(value)):
            raise faults.NO_FIGURE.wrong()
        return str(value)

    def read(self, text: str, beside: Beside) -> str:
        values.decimal(text, least=self.least, most=self.most)
        return text

    def as_sent(self, value: Any, context: Any) -> int | float | None:
        if not value:
            return None
        figure = Decimal(value)
        return int(figure) if figure == figure.to_integral_value() else float(figure)

    def compared(self, value: Any, beside: Beside) -> Decimal | None:
        return Decimal(value) if value else None


@dataclass(frozen=True)
class Excuse(Figure):
    """Minutes: nothing written is none."""

    def compared(self, value: Any, beside: Beside) -> Decimal:
        return Decimal(value or 0)


@dataclass(frozen=True)
class Id(Kind):
    """The id that a sender makes before it sends a row."""

    @cached_property
    def schema(self) -> Schema:
        return {"type": "string", "format": "uuid"}

    def sent(self, value: Any) -> str:
        return str(uuid_sent(value))

    def read(self, text: str, beside: Beside) -> UUID:
        return UUID(text)

    def plain(self, value: Any) -> str | None:
        return None if value is None else str(value)


@dataclass(frozen=True)
class Reference(Kind):
    """A row that is kept already: its number, or its id."""

    @cached_property
    def schema(self) -> Schema:
        return {"anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "format": "uuid"}]}


def plain_moment(value: datetime | None) -> str | None:
    """A moment in plain JSON: in UTC, ISO 8601."""
    return None if value is None else value.astimezone(UTC).isoformat()


def is_text(value: Any) -> bool:
    """Whether a value of a JSON body is a text, and no number."""
    return isinstance(value, str) and not isinstance(value, Number)


def is_sound(text: str) -> bool:
    """Whether a text has no control characters and no half characters."""
    return text.isprintable() or not any(unicodedata.category(sign) in ("Cc", "Cs") for sign in text)


def text_sent(value: Any, most: int) -> str:
    """A text of a JSON body. Raises Wrong for another type, a longer one, and control characters."""
    if not is_text(value):
        raise faults.NO_TEXT.wrong()
    if len(value) > most:
        raise faults.TEXT_TOO_LONG.wrong(n=len(value), most=most)
    if not is_sound(value):
        raise faults.CONTROL_SIGNS.wrong()
    return str(value)


def uuid_sent(value: Any) -> UUID:
    """A UUID of a JSON body. Raises Wrong."""
    if not is_text(value) or not UUID_FORM.match(value):
        raise faults.NO_UUID.wrong()
    return UUID(value)


def reference_sent(value: Any) -> int | UUID:
    """The number or id of a kept row in a JSON body. Raises Wrong."""
    if isinstance(value, Number) and value.isdigit() and 1 <= len(value) <= 9 and int(value) > 0:
        return int(value)
    if is_text(value) and UUID_FORM.match(value):
        return UUID(value)
    raise faults.NO_REFERENCE.wrong()

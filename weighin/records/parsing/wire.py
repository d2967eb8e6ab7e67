"""Messages of stations: JSON turned into the texts that the readers of slips, check-ins and notes take.

The form of a body is looked at here, and the type of every field; what a value may be is the readers' business.
"""

import json
import re
import unicodedata
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import cached_property
from typing import Any
from uuid import UUID

from weighin.records.parsing.fields import MOST_SIGNS, boat_and_day
from weighin.rules.faults import Fault

MOST_BYTES = 256 * 1024
MOST_ITEMS = 50
MOST_FIELDS = 100

_UUID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}\Z", re.IGNORECASE)
_TIME = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]{1,9})?)?(Z|[+-][0-9]{2}(:?[0-9]{2})?)\Z"
)
_WEIGHT = re.compile(r"(?:[0-9]+-)?[0-9]*\.?[0-9]*\Z", re.ASCII)


class BodyRefused(ValueError):
    """The whole body is not of the form of the contract; the message is one clear line. Nothing was written."""


class Number(str):
    """A number of a message, as it was written."""

    __slots__ = ()


@dataclass(frozen=True)
class Field:
    """One field of a message: its kind (a reader of ``KINDS``), whether it must be there, and what it means.

    ``reads`` is the name by which the reader of values knows it, when that is another.
    """

    kind: str
    meaning: str
    required: bool = False
    reads: str = ""
    choices: tuple[str, ...] = ()


SPECIES = {"black_crappie": "black_crappie", "white_crappie": "white_crappie", "other": "other_species"}


@dataclass
class Message:
    """One item of a body: its fields as texts, and what is wrong with their types."""

    id: UUID | None
    said_id: str | None
    texts: dict[str, str]
    replaces: int | UUID | None
    void: bool
    faults: list[Fault] = field(default_factory=list)
    names: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def boat_and_day(self) -> tuple[int, int]:
        """The boat and day it is for; noughts when they cannot be read."""
        return boat_and_day(self.texts) or (0, 0)

    @property
    def wrong(self) -> set[str]:
        """The fields of a wrong type."""
        return {fault.field for fault in self.faults}

    def told(self, found: Iterable[Fault]) -> list[Fault]:
        """The readers' faults under the names of the message, without those of fields of a wrong type."""
        wrong = self.wrong
        renamed = [Fault(self.names.get(fault.field, fault.field), fault.message) for fault in found]
        return [*self.faults, *(fault for fault in renamed if fault.field not in wrong)]


@dataclass(frozen=True)
class Answer:
    """What became of one item: ``state`` is kept, already, differs, second or refused.

    ``revision`` is the event's after it, when the event was looked at.
    """

    id: str | None
    state: str
    number: int | None = None
    faults: tuple[Fault, ...] = ()
    revision: int = 0

    def told(self, url: str | None) -> dict[str, Any]:
        """The answer in JSON."""
        return {
            "id": self.id,
            "state": self.state,
            "slip": self.number,
            "url": url,
            "faults": [{"field": fault.field, "message": fault.message} for fault in self.faults],
        }


def read_body(raw: bytes, key: str) -> tuple[list[dict[str, Any]], datetime | None]:
    """The items under ``key`` and the device's time of sending, if it says one.

    Raises BodyRefused when the body is not JSON in UTF-8, larger than 256 KiB, or not of the form
    ``{"<key>": [1 to 50 objects], "sent": time}``.
    """
    if len(raw) > MOST_BYTES:
        raise BodyRefused(f"The body has more than {MOST_BYTES // 1024} KiB: send fewer at once.")
    body = _parse(raw)
    if not isinstance(body, dict) or key not in body:
        raise BodyRefused(f'The body must be an object such as {{"{key}": [...]}}.')
    unknown = sorted(set(body) - {key, "sent"})
    if unknown:
        raise BodyRefused(f"The body has an unknown field {_short(unknown[0])}: it may have {key} and sent.")
    items = body[key]
    if not isinstance(items, list) or not 1 <= len(items) <= MOST_ITEMS:
        raise BodyRefused(f"{key} must be a list of 1 to {MOST_ITEMS}.")
    if not all(isinstance(item, dict) for item in items):
        raise BodyRefused(f"Everything in {key} must be an object.")
    return items, _sent(body.get("sent"))


def read_message(item: Mapping[str, Any], fields: Mapping[str, Field], of_a_void: Sequence[str] = ()) -> Message:
    """One item with its fields as texts. An absent field and null are the same: not recorded.

    ``of_a_void`` are the fields that must be there when the item is a void.
    """
    message = Message(None, None, {}, None, item.get("void") is True)
    message.names = {f.reads: name for name, f in fields.items() if f.reads}
    message.names |= {reads: "species" for reads in SPECIES.values() if "species" in fields}
    for name, value in item.items():
        known = fields.get(name)
        if known is None:
            message.faults.append(Fault(_short(name), "this field is not known: leave it out, or correct its name"))
        elif value is not None:
            try:
                _take(message, name, known, value)
            except ValueError as error:
                message.faults.append(Fault(name, str(error)))
    given = {name for name, value in item.items() if value is not None}
    for name, known in fields.items():
        needed = name in of_a_void if message.void and of_a_void else known.required
        if needed and name not in given:
            message.faults.append(Fault(name, f"{name} is missing: write it"))
    return message


def in_order(messages: Sequence[Message]) -> list[int]:
    """The order in which to take the items of one body: a correction after the one it corrects, else as sent."""
    first: dict[UUID, int] = {}
    for place, message in enumerate(messages):
        if message.id is not None:
            first.setdefault(message.id, place)
    order: list[int] = []
    done: set[int] = set()
    for start in range(len(messages)):
        waiting: list[int] = []
        at: int | None = start
        while at is not None and at not in done:
            done.add(at)
            waiting.append(at)
            named = messages[at].replaces
            at = first.get(named) if isinstance(named, UUID) else None
        order.extend(reversed(waiting))
    return order


def _take(message: Message, name: str, known: Field, value: Any) -> None:
    if known.kind == "id":
        message.said_id = value if isinstance(value, str) and _sound(value) and len(value) <= 100 else None
        message.id = _uuid(value)
    elif known.kind == "reference":
        message.replaces = _reference(value)
    elif known.kind == "species":
        message.texts.update(_species(value))
    else:
        message.texts[known.reads or name] = KINDS[known.kind](value)


def _count(value: Any) -> str:
    if not isinstance(value, Number):
        raise ValueError("this is not a number: write a whole number without quotation marks, such as 7")
    return value


def _flag(value: Any) -> str:
    if not isinstance(value, bool):
        raise ValueError("this is neither true nor false: write one of them without quotation marks")
    return "yes" if value else "no"


def _text(value: Any) -> str:
    if not _is_text(value):
        raise ValueError("this is not a text: write it in quotation marks")
    if len(value) > MOST_SIGNS:
        raise ValueError(f"this text has {len(value)} characters: write {MOST_SIGNS} or fewer")
    if not _sound(value):
        raise ValueError("this text has control characters in it: type it again on one line")
    return str(value)


def _official(value: Any) -> str:
    written = _text(value)
    if not any(unicodedata.category(sign)[0] not in "ZC" for sign in written):
        raise ValueError("this is blank: write a name")
    return written


def _weight(value: Any) -> str:
    if not _is_text(value):
        raise ValueError(
            'this is not a text: write the weight in quotation marks, as the scale showed it, such as "9.47"'
        )
    if not is_plain_weight(value):
        shown = _short(value) if _sound(value) else "this"
        raise ValueError(f"'{shown}' is not a weight: write plain figures and one point, as the scale showed them")
    return str(value)


def is_plain_weight(text: str) -> bool:
    """Whether a weight is in ASCII figures with one point at most, and a dash between pounds and ounces."""
    return len(text) <= 40 and _WEIGHT.match(text) is not None


def _weights(value: Any) -> str:
    if not isinstance(value, list):
        raise ValueError('this is not a list: write the weights as ["1.71", "1.66"]')
    found = [_weight(one) for one in value]
    if not all(found):
        raise ValueError("one of the weights is empty: leave it out, or write it")
    return ", ".join(found)


def _figure(value: Any) -> str:
    if not isinstance(value, Number) and not (_is_text(value) and value.isascii() and _sound(value)):
        raise ValueError("this is not a number: write figures with a decimal point, such as 4.5")
    return str(value)


def _time(value: Any) -> str:
    return moment(value).isoformat()


def moment(value: Any) -> datetime:
    """An ISO 8601 date and time with an offset, in UTC. Raises ValueError with a sentence."""
    shown = f"'{_short(value)}'" if _is_text(value) and _sound(value) else "this"
    if not _is_text(value) or not _TIME.match(value):
        raise ValueError(
            f"{shown} is not a time with an offset: write it as 2026-06-20T15:10:00-05:00 or 2026-06-20T20:10:00Z"
        )
    try:
        return datetime.fromisoformat(value).astimezone(UTC)
    except (ValueError, OverflowError):
        raise ValueError(f"{shown} does not exist: check date, time and offset") from None


def _temperature(value: Any) -> str:
    written = _text(value)
    if len(written) > 20:
        raise ValueError("this is too long for a temperature: write it with its unit, such as 82 F or 27.8 C")
    return written


def _uuid(value: Any) -> UUID:
    if not _is_text(value) or not _UUID.match(value):
        raise ValueError("this is not a UUID: write it as 8-4-4-4-12 hexadecimal figures")
    return UUID(value)


def _reference(value: Any) -> int | UUID:
    if isinstance(value, Number) and value.isdigit() and 1 <= len(value) <= 9 and int(value) > 0:
        return int(value)
    if isinstance(value, str) and not isinstance(value, Number) and _UUID.match(value):
        return UUID(value)
    raise ValueError("this names nothing that is kept: write its number, or its id in quotation marks")


def _species(value: Any) -> dict[str, str]:
    if not isinstance(value, dict):
        raise ValueError('this is not an object: write it as {"black_crappie": 3, "white_crappie": 2, "other": 0}')
    found = {}
    for name, count in value.items():
        if name not in SPECIES:
            raise ValueError(f"the species {_short(name)} is not known: write {', '.join(SPECIES)}")
        if count is not None:
            found[SPECIES[name]] = _count(count)
    return found


KINDS: dict[str, Callable[[Any], str]] = {
    "count": _count,
    "flag": _flag,
    "text": _text,
    "name": _official,
    "weight": _weight,
    "weights": _weights,
    "figure": _figure,
    "time": _time,
    "temperature": _temperature,
    "uuid": lambda value: str(_uuid(value)),
}


def _is_text(value: Any) -> bool:
    return isinstance(value, str) and not isinstance(value, Number)


def _sound(text: str) -> bool:
    """Whether a text has no control characters and nothing that cannot be written down."""
    if text.isprintable():
        return True
    return not any(unicodedata.category(sign) in ("Cc", "Cs") for sign in text)


def _short(text: str) -> str:
    kept = text if len(text) <= 40 else text[:37] + "..."
    return "".join(sign if unicodedata.category(sign) not in ("Cc", "Cs") else "\ufffd" for sign in kept)


def _sent(value: Any) -> datetime | None:
    if value is None:
        return None
    try:
        return moment(value)
    except ValueError as error:
        raise BodyRefused(f"sent: {error}.") from None


def _parse(raw: bytes) -> Any:
    try:
        return json.loads(
            raw.decode("utf-8"),
            parse_int=Number,
            parse_float=Number,
            parse_constant=_no_number,
            object_pairs_hook=_object,
        )
    except BodyRefused:
        raise
    except UnicodeDecodeError:
        raise BodyRefused("The body is not in UTF-8.") from None
    except (ValueError, RecursionError):
        raise BodyRefused("The body is not JSON, or only a part of it came: send it again.") from None


def _no_number(name: str) -> Any:
    raise BodyRefused(f"The body has {name} in it, which is no number.")


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    if len(pairs) > MOST_FIELDS:
        raise BodyRefused(f"One object has {len(pairs)} fields: {MOST_FIELDS} are the most.")
    found: dict[str, Any] = {}
    for name, value in pairs:
        if name in found:
            raise BodyRefused(f"The field {_short(name)} stands twice in one object: write it once.")
        found[name] = value
    return found

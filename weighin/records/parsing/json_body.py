"""What stations send: JSON turned into drafts, texts by field, as a form or a workbook row gives them.

The form of a body is looked at here, and the type of every field; what a value may be is the reader's business.
"""

import json
import re
import unicodedata
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any
from uuid import UUID

from weighin.records.domain import faults
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import Number, is_sound, is_text, reference_sent, uuid_sent
from weighin.records.domain.messages import Draft
from weighin.rules.faults import Sentence, Wrong, gettext_noop

MOST_BYTES = 256 * 1024
MOST_ITEMS = 50
MOST_FIELDS = 100
OWN = ("id", "replaces", "void")

NO_TIME = Sentence(
    "no_time_sent",
    gettext_noop(
        "%(shown)s is not a time with an offset: write it as 2026-06-20T15:10:00-05:00 or 2026-06-20T20:10:00Z"
    ),
)
TIME_DOES_NOT_EXIST = Sentence(
    "time_sent_does_not_exist", gettext_noop("%(shown)s does not exist: check date, time and offset")
)
UNKNOWN_MEMBER = Sentence("unknown_member_sent", gettext_noop("the species %(name)s is not known: write %(known)s"))

_TIME = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]{1,9})?)?(Z|[+-][0-9]{2}(:?[0-9]{2})?)\Z"
)


class BodyRefused(ValueError):
    """The whole body is not of the form of the contract; the message is one clear line. Nothing was written."""


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
        raise BodyRefused(f"The body has an unknown field {short(unknown[0])}: it may have {key} and sent.")
    items = body[key]
    if not isinstance(items, list) or not 1 <= len(items) <= MOST_ITEMS:
        raise BodyRefused(f"{key} must be a list of 1 to {MOST_ITEMS}.")
    if not all(isinstance(item, dict) for item in items):
        raise BodyRefused(f"Everything in {key} must be an object.")
    return items, _sent(body.get("sent"))


class ItemForm:
    """What an item of a body may have and must have.

    Besides ``fields`` an item ``has_id``, and then an ``id``, and may have ``replaces``, ``reason`` and ``void`` where ``fields`` has a
    ``reason``. ``of_a_void`` are the fields that must be there when the item is a void.
    """

    def __init__(self, fields: Sequence[Field], of_a_void: Sequence[str] = (), has_id: bool = True):
        own = OWN if any(field.name == "reason" for field in fields) else ("id",) if has_id else ()
        # The fields by the names they are sent under, and those that stand inside an object of the item
        self.known: dict[str, Field | None] = dict.fromkeys(own)
        self.inside: dict[str, dict[str, Field]] = {}
        self.names: dict[str, str] = {}
        for field in fields:
            outer, point, inner = field.sent_as.partition(".")
            if point:
                self.inside.setdefault(outer, {})[inner] = field
            elif outer:
                self.known[outer] = field
            if outer:
                self.names[field.name] = outer
        self.needed = [
            name
            for name, field in self.known.items()
            if name == "id" or (field is not None and (field.required or field.by_stations))
        ]
        self.of_a_void = [name for name in self.known if name in ("id", *of_a_void)] if of_a_void else self.needed


def read_item(item: Mapping[str, Any], form: ItemForm) -> Draft:
    """One item of a body as a draft. An absent field and null are the same: not recorded."""
    known, inside = form.known, form.inside
    draft = Draft({}, None, void=item.get("void") is True)
    draft.names = form.names
    texts: dict[str, str] = {}
    for name, value in item.items():
        if name not in known and name not in inside:
            draft.faults.append(faults.UNKNOWN_FIELD.at(short(name)))
        elif value is not None:
            try:
                _take(draft, texts, name, known[name] if name in known else inside[name], value)
            except Wrong as wrong:
                draft.faults.append(wrong.at(name))
    needed = form.of_a_void if draft.void else form.needed
    draft.faults.extend(faults.MISSING.at(name, field=name) for name in needed if item.get(name) is None)
    draft.texts = texts
    return draft


def in_order(drafts: Sequence[Draft]) -> list[int]:
    """The order in which to take the items of one body: a correction after the one it corrects, else as sent."""
    first: dict[UUID, int] = {}
    for place, draft in enumerate(drafts):
        if draft.id is not None:
            first.setdefault(draft.id, place)
    order: list[int] = []
    done: set[int] = set()
    for start in range(len(drafts)):
        waiting: list[int] = []
        at: int | None = start
        while at is not None and at not in done:
            done.add(at)
            waiting.append(at)
            named = drafts[at].replaces
            at = first.get(named) if isinstance(named, UUID) else None
        order.extend(reversed(waiting))
    return order


def moment_sent(value: Any) -> datetime:
    """An ISO 8601 date and time with an offset, in UTC. Raises Wrong."""
    shown = f"'{short(value)}'" if is_text(value) and is_sound(value) else "this"
    if not is_text(value) or not _TIME.match(value):
        raise NO_TIME.wrong(shown=shown)
    try:
        return datetime.fromisoformat(value).astimezone(UTC)
    except (ValueError, OverflowError):
        raise TIME_DOES_NOT_EXIST.wrong(shown=shown) from None


def short(text: str) -> str:
    """A text of a body as an answer may show it."""
    kept = text if len(text) <= 40 else text[:37] + "..."
    return "".join(sign if unicodedata.category(sign) not in ("Cc", "Cs") else "\ufffd" for sign in kept)


def _take(
    draft: Draft, texts: dict[str, str], name: str, field: Field | Mapping[str, Field] | None, value: Any
) -> None:
    if name == "id":
        draft.said_id = value if isinstance(value, str) and is_sound(value) and len(value) <= 100 else None
        draft.id = uuid_sent(value)
    elif name == "replaces" and field is None:
        draft.replaces = reference_sent(value)
    elif name == "void" and field is None:
        if not isinstance(value, bool):
            raise faults.NO_FLAG.wrong()
    elif isinstance(field, Field):
        texts[field.name] = field.kind.sent(value)
    elif field is not None:
        texts.update(_members(field, value))


def _members(fields: Mapping[str, Field], value: Any) -> dict[str, str]:
    if not isinstance(value, dict):
        example = ", ".join(f'"{name}": {n}' for name, n in zip(fields, (3, 2, 0), strict=False))
        raise faults.NO_OBJECT.wrong(example=f"{{{example}}}")
    found = {}
    for name, member in value.items():
        if name not in fields:
            raise UNKNOWN_MEMBER.wrong(name=short(name), known=", ".join(fields))
        if member is not None:
            found[fields[name].name] = fields[name].kind.sent(member)
    return found


def _sent(value: Any) -> datetime | None:
    if value is None:
        return None
    try:
        return moment_sent(value)
    except Wrong as wrong:
        raise BodyRefused(f"sent: {wrong}.") from None


def _parse(raw: bytes) -> Any:
    try:
        return _decoder.decode(raw.decode("utf-8"))
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
            raise BodyRefused(f"The field {short(name)} stands twice in one object: write it once.")
        found[name] = value
    return found


# Made once: json.loads would make one for every body
_decoder = json.JSONDecoder(parse_int=Number, parse_float=Number, parse_constant=_no_number, object_pairs_hook=_object)

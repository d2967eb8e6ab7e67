"""What a row says in its fields, and the content of it that a chain protects."""

from collections.abc import Sequence
from typing import Any

from weighin.audit.domain.chain import link
from weighin.records.domain.fields import Field
from weighin.records.domain.kinds import plain_moment


def value_of(row: Any, name: str) -> Any:
    """What a row says in a field; a row of a boat knows its number by its entry."""
    return row.entry.boat if name == "boat" and not hasattr(row, "boat") else getattr(row, name)


def chained(fields: Sequence[Field], row: Any) -> dict[str, Any]:
    """Everything of a row that its chain protects, in plain values.

    It carries the version of its content, so that a field declared later leaves older links valid; the first version
    said nothing of itself.
    """
    kept: dict[str, Any] = {
        field.name: field.kind.plain(value_of(row, field.name)) for field in fields if 0 < field.since <= row.version
    }
    kept |= {name: getattr(row, name) for name in ("number", "position", "void", "recorded_by")}
    kept["id"] = str(row.pk)
    kept["replaces"] = str(row.replaces_id) if row.replaces_id else None
    kept["received_at"] = plain_moment(row.received_at)
    if row.sent_at is not None:
        kept["sent_at"] = plain_moment(row.sent_at)
    if row.version > 1:
        kept["version"] = row.version
    return kept


def fingerprint(fields: Sequence[Field], row: Any) -> str:
    """A digest of what a row says, by which a page knows whether it changed meanwhile; empty where there is none."""
    if row is None:
        return ""
    said = {field.name: field.kind.plain(value_of(row, field.name)) for field in fields}
    return link("", {name: None if value in (None, "") else str(value) for name, value in said.items()})

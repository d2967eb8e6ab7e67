"""What a write changed: the values before and after, for the history entry's details and sentence."""

from collections.abc import Collection, Mapping
from typing import Any

Changes = dict[str, list[Any]]


def changes(before: Mapping[str, Any], after: Mapping[str, Any]) -> Changes:
    """``{name: [before, after]}`` of every value that differs, in plain JSON."""
    return {name: [_plain(before.get(name)), _plain(now)] for name, now in after.items() if before.get(name) != now}


def in_words(found: Changes, personal: Collection[str] = ()) -> str:
    """``status is withdrawn, was entered; paid is yes, was no``; of what is ``personal`` only that it changed."""
    return "; ".join(
        f"{name} changed" if name in personal else f"{name.replace('_', ' ')} is {_word(now)}, was {_word(was)}"
        for name, (was, now) in found.items()
    )


def _plain(value: Any) -> Any:
    return value if value is None or isinstance(value, bool | int | str | list) else str(value)


def _word(value: Any) -> str:
    if value is None or value == "":
        return "blank"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)

"""Whether teams can sign up at a moment."""

from dataclasses import dataclass
from datetime import datetime
from enum import Enum


class Door(Enum):
    """How the page of a sign-up stands."""

    NEVER = "never"  # closed, and never was open: there is no such page
    SOON = "soon"
    OPEN = "open"
    OVER = "over"


@dataclass(frozen=True)
class Opening:
    """The door at a moment, and from when to when it is open; ``since`` None: at once."""

    door: Door
    since: datetime | None
    until: datetime


def door_at(
    now: datetime, *, is_open: bool, was_open: bool, opens: datetime | None, until: datetime, taken: bool
) -> Door:
    """How the door stands ``now``. ``until`` is when it closes by itself; ``taken``: the entries are closed."""
    begun = opens is None or opens <= now
    if not is_open:
        return Door.OVER if was_open else Door.NEVER
    if not begun:
        return Door.SOON
    return Door.OVER if taken or now >= until else Door.OPEN

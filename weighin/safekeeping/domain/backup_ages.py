"""Which backups stay when they grow old: every one of the last day, one an hour of the last week, one a day of a season."""

import re
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

EVERY_ONE, ONE_AN_HOUR, ONE_A_DAY = timedelta(days=1), timedelta(days=7), timedelta(days=200)
# What is made by itself has a name of its own; nothing else is ever deleted
NAME = re.compile(r"by-itself-(\d{8}-\d{6})\.(sqlite3|dump)")


def name_at(moment: datetime, ending: str) -> str:
    """The name of a backup that is made by itself."""
    return f"by-itself-{moment.astimezone(UTC):%Y%m%d-%H%M%S}.{ending}"


def made_at(name: str) -> datetime | None:
    """When the backup of a name was made; None for any other file."""
    found = NAME.fullmatch(name)
    return datetime.strptime(found[1], "%Y%m%d-%H%M%S").replace(tzinfo=UTC) if found else None


def too_old(names: Iterable[str], now: datetime) -> list[str]:
    """The names of those that go: of each hour and day the newest stays, and the newest of all whatever its age.

    One whose name says a time to come stays: the clock was set back.
    """
    dated = sorted(((at, name) for name in names if (at := made_at(name)) is not None), reverse=True)
    kept: set[tuple[str, ...]] = set()
    gone = []
    for place, (at, name) in enumerate(dated):
        age = now - at
        if age <= EVERY_ONE or place == 0:
            continue
        if age <= ONE_AN_HOUR:
            span = ("hour", f"{at:%Y%m%d%H}")
        elif age <= ONE_A_DAY:
            span = ("day", f"{at:%Y%m%d}")
        else:
            gone.append(name)
            continue
        if span in kept:
            gone.append(name)
        kept.add(span)
    return gone

"""The lines of a lock: what is pinned, where, and to which hashes."""

import re
from dataclasses import dataclass
from pathlib import Path

LINE = re.compile(r"(?P<name>[a-z0-9-]+)==(?P<version>[^\s;]+)(?: ; (?P<marker>.+?))?(?P<hashes>(?: --hash=\S+)*)")


@dataclass(frozen=True)
class Pin:
    """One line of a lock; ``marker`` says on which machines it holds, and is empty where it does on all."""

    name: str
    version: str
    marker: str
    hashes: tuple[str, ...]


def pins(lock: Path) -> list[Pin]:
    """Every line of the lock. Raises ValueError for one that pins nothing, such as an index or an address."""
    text = re.sub(r"\\\n\s*", "", lock.read_text(encoding="utf-8"))
    found = []
    for line in filter(None, (line.split("#")[0].rstrip() for line in text.splitlines())):
        match = LINE.fullmatch(line)
        if match is None:
            raise ValueError(f"{lock.name} has a line that pins nothing: {line}")
        hashes = tuple(match["hashes"].replace("--hash=", "").split())
        found.append(Pin(match["name"], match["version"], match["marker"] or "", hashes))
    return found

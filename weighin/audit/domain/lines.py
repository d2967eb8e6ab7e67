"""The chain of a history: what of a line is chained, and the seals by which acts bind what they left behind."""

from collections.abc import Mapping, Sequence
from datetime import UTC
from enum import IntEnum
from typing import Any, Protocol

from django.utils.translation import gettext

from weighin.audit.domain.chain import START, link, linked

EARLIER = "earlier line "


class Line(Protocol):
    """A line of a history, as it is kept (``audit.models.HistoryEntry``)."""

    pk: Any
    at: Any
    actor: str
    act: str
    club_id: int | None
    event_id: int | None
    subject: str
    sentence: str
    details: Any
    bound: dict[str, str | None] | None
    position: int | None
    digest: str
    link: str


# The last seal of everything that is bound, with the line that says it
Sealed = Mapping[str, tuple[str | None, Line]]


class Chain(IntEnum):
    """Whose chain a line belongs to."""

    EVENT = 1
    CLUB = 2
    SITE = 3

    @classmethod
    def of(cls, club_id: int | None, event_id: int | None) -> "tuple[Chain, tuple[int, ...]]":
        """The chain of a line, and the key of its holder."""
        if event_id is not None:
            return cls.EVENT, (event_id,)
        return (cls.SITE, ()) if club_id is None else (cls.CLUB, (club_id,))

    @property
    def condition(self) -> tuple[str, ...]:
        """What lines of a chain fulfil, in SQL with ``%s`` for the holder's key."""
        event, club = "event_id IS NULL", "club_id IS NULL"
        return (("event_id = %s",), (event, "club_id = %s"), (event, club))[self - 1]


def digest(line: Line) -> str:
    """The digest of everything that a line says."""
    return link(
        "",
        {
            "at": line.at.astimezone(UTC).isoformat(),
            "actor": line.actor,
            "act": line.act,
            "club": line.club_id,
            "event": line.event_id,
            "subject": line.subject,
            "sentence": line.sentence,
            "details": line.details,
            "bound": line.bound,
        },
    )


def next_link(before: str, position: int, of: str) -> str:
    """The link of a line with digest ``of`` that follows the link ``before``.

    The link is made of the digest, so that what a line says may be erased lawfully: a later act binds ``line N`` anew.
    """
    return linked(before, f"{position} {of}")


def seal(content: Mapping[str, Any], version: int = 1) -> str:
    """What an act binds of something that it left behind: the version of its content, and the digest of that.

    ``content`` is plain JSON. A part that is added later goes into the next version, so that older seals stay valid.
    """
    return f"{version}:{link('', content)}"


def walked(lines: Sequence[Line]) -> tuple[list[str], Sealed]:
    """What does not fit in a chain, in words, and what it binds.

    ``lines`` are all of the chain in order of position, those that are older than the chain first.
    """
    chained = [line for line in lines if line.position is not None]
    bound: dict[str, tuple[str | None, Line]] = {}
    for line in chained:
        bound |= {name: (sealed, line) for name, sealed in (line.bound or {}).items()}
    found = [
        gettext("%(line)s was altered after it was written") % {"line": named(line)}
        for line in lines
        if not _says_what_it_said(line, bound)
    ]
    before, position = START, 0
    for line in chained:
        position += 1
        if line.position != position:
            gap = {"first": position, "last": (line.position or 0) - 1}
            found.append(
                gettext("line %(first)s of the history is missing") % gap
                if gap["first"] == gap["last"]
                else gettext("lines %(first)s to %(last)s of the history are missing") % gap
            )
            position = line.position or 0
        if next_link(before, position, line.digest) != line.link:
            found.append(
                gettext("%(line)s does not follow from the one before it: one of the two was altered, moved or added")
                % {"line": named(line)}
            )
        before = line.link
    known = {str(line.pk) for line in lines if line.position is None}
    found += [
        gettext("a line of the history from before %(at)s is missing") % {"at": f"{line.at:%Y-%m-%d}"}
        for name, (sealed, line) in bound.items()
        if name.startswith(EARLIER) and sealed is not None and name.removeprefix(EARLIER) not in known
    ]
    return found, bound


def named(line: Line) -> str:
    """A line of the history, as a fault names it."""
    said = {"at": f"{line.at:%Y-%m-%d %H:%M} UTC", "actor": line.actor, "sentence": line.sentence[:80]}
    if line.position is None:
        return gettext("an earlier line of the history (%(at)s, %(actor)s: %(sentence)s)") % said
    return gettext("line %(position)s of the history (%(at)s, %(actor)s: %(sentence)s)") % {
        **said,
        "position": line.position,
    }


def _says_what_it_said(line: Line, bound: Sealed) -> bool:
    """Whether a line says what it was chained with, or what a later act left of it."""
    if line.position is None:
        sealed, _ = bound.get(f"{EARLIER}{line.pk}", (None, line))
        return sealed == sealed_line(line)
    sealed, _ = bound.get(f"line {line.position}", (None, line))
    return digest(line) == line.digest if sealed is None else sealed == sealed_line(line)


def sealed_line(line: Line) -> str:
    """The seal of what a line says."""
    return seal({"digest": digest(line)})

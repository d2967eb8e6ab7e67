"""Headings in the many ways clubs write them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from weighin.roster.domain.team_list import Matching

SAME = {
    "boat": "boat, boat no, boat number, team no, team number, team #, no, number, #",
    "team": "team, team name",
    "angler_1": "angler 1, angler, angler one, first angler, captain, boater, partner 1",
    "angler_2": "angler 2, angler two, second angler, partner, partner 2, co angler, non boater",
    "angler_3": "angler 3, third angler",
    "anglers": "anglers, names, name, team members",
    "phone": "phone, cell, mobile, tel, telephone",
    "emergency": "emergency, emergency contact",
    "email": "email, e mail",
    "paid": "paid, fee, entry fee",
    "big_fish_pot": "big fish, big fish pot, pot",
    "flight": "flight",
    "youth": "youth, junior",
    "status": "status",
    "note": "note, notes, comments",
}
NAMES = frozenset({"team", "angler_1", "angler_2", "angler_3", "anglers"})
_PASSED_OVER = re.compile(r"[\s.?:_\-\u2010-\u2014\ufeff\u200b]+")


def key_of(heading: str) -> str:
    """A heading without regard to case, spaces and signs; ``#`` stays, since alone it is the boat."""
    return _PASSED_OVER.sub("", heading).casefold()


_KNOWN = {key_of(word): field for field, words in SAME.items() for word in words.split(",")}
# What an export writes over a column: the first word of each
HEADS = {field: words.split(",")[0] for field, words in SAME.items()}


@dataclass(frozen=True)
class Headings:
    """A heading row: its place among the rows, and the fields of its columns from 0; a field may stand twice."""

    place: int
    fields: Mapping[int, str]


def field_of(heading: str) -> str:
    """The field that a heading means; empty when it is not known."""
    key = key_of(heading)
    return _KNOWN.get(key) or _KNOWN.get(key.replace("#", ""), "")


def find_headings(rows: Sequence[tuple[int, Sequence[str]]], matching: Matching) -> Headings | None:
    """The first row that holds two known headings, of which one names a team or an angler."""
    named = {key_of(heading): field for heading, field in matching.named.items()}
    for place, (number, cells) in enumerate(rows):
        if matching.row not in (None, number):
            continue
        fields = {}
        for index, cell in enumerate(cells):
            found = (named.get(key_of(cell)) or field_of(cell)) if cell.strip() else ""
            field = matching.at.get(index, found)
            if field:
                fields[index] = field
        if len(fields) >= 2 and NAMES & set(fields.values()):
            return Headings(place, fields)
    return None

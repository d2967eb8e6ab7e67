"""Passwords that are little more than what everybody at the lake knows: the club, the person, the sport, the program."""

import re
from collections.abc import Iterable

EVERYBODYS = (
    "weighin crappie bass walleye tournament fishing fish lake livewell scale weigh director official club password "
    "welcome admin secret"
).split()
# Letters beside the words that make a password one's own; figures and signs are what people add to get it through
OWN_LETTERS = 4


def guessed(password: str, about: Iterable[str]) -> str:
    """The words that a password is made of when it holds little else; empty for one that will do."""
    written = "".join(re.findall(r"[^\W\d_]+", password.casefold()))
    words = {word for text in about for word in re.findall(r"[^\W\d_]{3,}", text.casefold())} | set(EVERYBODYS)
    found, left = [], written
    # The longest first: what is left without it may hold no shorter one any more
    for word in sorted(words, key=len, reverse=True):
        if word in left:
            found.append(word)
            left = left.replace(word, " ")
    own = sum(len(piece) for piece in left.split())
    return ", ".join(found) if found and own < OWN_LETTERS else ""

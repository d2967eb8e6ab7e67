"""A name for a team that has none: its anglers' last words, with the first words before them where that is taken."""

from collections.abc import Container, Sequence

from weighin.rules.look_alikes import look_of


def team_name(anglers: Sequence[str], taken: Container[str]) -> str:
    """The name of a team by its anglers; ``taken`` are looks of names.

    >>> team_name(["Ann Alder", "Bob Birch"], ())
    'Alder & Birch'
    >>> team_name(["Ann Alder", "Bob Birch"], {"alder & birch"})
    'Ann Alder & Bob Birch'
    >>> team_name(["Ann Alder", "Bob Alder"], {"alder & alder"})
    'Ann & Bob Alder'
    """
    words = [name.split() for name in anglers]
    last = " & ".join(one[-1] for one in words)
    return last if look_of(last) not in taken else _with_first(words)


def _with_first(words: Sequence[list[str]]) -> str:
    """First and last words; a last word that the next angler has too stands once, behind both."""
    parts = []
    for place, one in enumerate(words):
        shared = place + 1 < len(words) and len(one) > 1 and words[place + 1][-1] == one[-1]
        parts.append(one[0] if shared or len(one) == 1 else f"{one[0]} {one[-1]}")
    return " & ".join(parts)

"""The word by which every page, paper and file tells a rehearsal from the event: its name begins with it."""

MARK = "REHEARSAL"


def marked(name: str) -> str:
    """The name of an event's rehearsal, cut to the 120 signs that a name may have; once marked it stays as it is.

    >>> marked("Midsummer Pairs"), marked("REHEARSAL Midsummer Pairs")
    ('REHEARSAL Midsummer Pairs', 'REHEARSAL Midsummer Pairs')
    """
    return name if is_marked(name) else f"{MARK} {name}"[:120].rstrip()


def is_marked(name: str) -> bool:
    """Whether a name begins with the word."""
    return name.split()[:1] == [MARK]

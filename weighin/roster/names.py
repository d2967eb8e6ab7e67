"""When two written names mean the same team or person."""

LONGEST = 120


def folded_name(name: str) -> str:
    """A name without regard to case and spacing, at most 120 characters: some letters grow when they are folded."""
    return " ".join(name.split()).casefold()[:LONGEST]

"""When two written names mean the same team or person."""


def folded_name(name: str) -> str:
    """A name without regard to case and spacing."""
    return " ".join(name.split()).casefold()

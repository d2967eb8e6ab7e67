"""Pages that still show texts which are not looked up. The list only gets shorter."""

OPEN: frozenset[str] = frozenset()

"""Faults that name fields, in the words of the page."""

import re
from collections.abc import Mapping

_NAMES = re.compile(r"[a-z]+(?:_[a-z]+)+|^[a-z]+(?= is )|(?<= is before )[a-z]+(?=:)")


def in_labels(message: str, labels: Mapping[str, str]) -> str:
    """A fault's message with field names such as ``bag_emptied`` as the page calls them.

    A name of one word, such as ``released``, is one where a fault begins with it or compares with it.

    >>> in_labels("released is before weighed: correct one of the two times", {"released": "Released", "weighed": "Weighed"})
    '“Released” is before “Weighed”: correct one of the two times'
    """
    return _NAMES.sub(lambda found: f"“{labels[found[0]]}”" if found[0] in labels else found[0], message)

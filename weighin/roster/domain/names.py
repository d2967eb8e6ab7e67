"""When two written names mean the same team or person."""

import unicodedata

LONGEST = 120
# Cyrillic and Greek letters that a reader takes for Latin ones (Unicode Technical Standard 39, confusables, from memory)
LOOK_ALIKE = str.maketrans(
    "АВЕЅІЈКМНОРСТХҮаеѕіјорсхуһԁԛԝгΑΒΕΖΗΙΚΜΝΟΡΤΥΧονιαρυκχ",
    "ABESIJKMHOPCTXYaesijopcxyhdqwrABEZHIKMNOPTYXoviapukx",
)


def folded_name(name: str) -> str:
    """A name without regard to case and spacing, at most 120 characters: some letters grow when they are folded."""
    return " ".join(name.split()).casefold()[:LONGEST]


def look_of(name: str) -> str:
    """A name as a reader sees it: without regard to case, spacing, invisible signs, and letters of other scripts that
    look the same. Two names of one look cannot be told apart on a result."""
    seen = unicodedata.normalize("NFKC", name)
    seen = "".join(sign for sign in seen if unicodedata.category(sign) != "Cf").translate(LOOK_ALIKE)
    return folded_name(seen)

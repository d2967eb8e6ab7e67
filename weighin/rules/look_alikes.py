"""When two written names mean the same team or person, and which names would be taken for another.

Compared is what a reader sees: the compatibility form (NFKC), without case and spacing, with letters of other scripts
as the Latin ones that look the same. The table holds the letters of Unicode Technical Standard 39 (confusables, from
memory) between Latin, Cyrillic and Greek. Names in one script stay as they are written.
"""

import re
import unicodedata

from weighin.rules.faults import Sentence, gettext_noop
from weighin.rules.values import line

LONGEST = 120
LOOK_ALIKE = str.maketrans(
    "АВЕЅІЈКМНОРСТХҮаеѕіјорсхуһԁԛԝгӀӏԌґΑΒΕΖΗΙΚΜΝΟΡΤΥΧονιαρυκχγϲ",
    "ABESIJKMHOPCTXYaesijopcxyhdqwrIlGrABEZHIKMNOPTYXoviapukxyc",
)
SCRIPTS = ("LATIN", "CYRILLIC", "GREEK")

UNSEEN_SIGNS = Sentence(
    "unseen_signs", gettext_noop("this has signs in it that nobody sees: type it again in letters, figures and spaces")
)
MIXED_SCRIPTS = Sentence(
    "mixed_scripts",
    gettext_noop("the word '%(word)s' mixes letters of two scripts that look alike: write each word in one script"),
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


def name_line(text: str, most: int = LONGEST) -> str:
    """A name on one line, as ``values.line``, without unseen signs and without words of two scripts.

    Raises Wrong otherwise; blank text is the caller's business.
    """
    written = line(text, most)
    if written.isascii():
        return written
    if any(unicodedata.category(sign) == "Cf" for sign in written):
        raise UNSEEN_SIGNS.wrong()
    for word in re.findall(r"[^\W\d_]+", unicodedata.normalize("NFKC", written)):
        names = [unicodedata.name(sign, "") for sign in word]
        if sum(any(name.startswith(script) for name in names) for script in SCRIPTS) > 1:
            raise MIXED_SCRIPTS.wrong(word=word)
    return written

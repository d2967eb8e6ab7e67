"""Words and figures that no page says: dates and times of another form, phrases that were given up."""

import re
from collections.abc import Iterator

from language.outside import Reading

MONTHS = "Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec"
# Clocks of 12 hours and dates of American English, by the settings of the demo's clubs
FORMS = {
    "date": rf"\b\d{{4}}-\d\d-\d\d\b|\b\d{{1,2}} (?:{MONTHS})[a-z]*\b|\b\d{{1,2}}/\d{{1,2}}/\d{{2,4}}\b",
    "clock": r"(?<![\d:.])(?:[01]?\d|2[0-3]):[0-5]\d(?::[0-5]\d)?(?![\d:])(?!\s[AP]M\b)|(?<![:\d])\d{1,2} [AP]M\b|\b[ap]\.m\.|\d[ap]m\b|\d (?:am|pm)\b",
    "zone": r"\bUTC\b",
    "temperature": r"\b\d+(?:\.\d+)? ?[FC]\b(?! ?[-/])",
}
GIVEN_UP = (
    r"crews?", r"contestants?", r"shrunk(?:en)?", r"honou?red", r"(?:no|other) word (?:of|from)",
    r"gross", r"the scale showed", r"taken off", r"nothing (?:is |was )?written", r"(?<!number )(?<!lily )pads?", r"write down", r"written down", r"bring in", r"brought in",
    r"take out", r"put in", r"hand(?:ed)? out", r"take back", r"look into", r"make an event", r"write a (?:look|walk|slip|treatment|check)",
    r"something was put in", r"version \d+ is out", r"ledger", r"(?<!only a )digest", r"hash", r"the last hour", r"hold places back", r"take the pages back",
    r"nineteen in twenty", r"by luck", r"luck alone", r"may or may not have been", r"the warning came", r"parted by their own rates", r"beside boats that did not",
    r"would say of those that did not", r"is reckoned at", r"makes no boat safe", r"shares of the purse", r"the book is empty",
    r"cannot tell", r"which way it went", r"(?:takes?|took) the word", r"boats? that did", r"frozen \w+ \d", r"paid, first place has", r"(?:a|the|each|every|its|their|of) wells?", r"fish care: going on",
)  # fmt: skip
PHRASES = re.compile(rf"\b(?:{'|'.join(GIVEN_UP)})\b", re.I)


class _Read(Reading):
    """Every text of the page with letters or figures, attributes that are heard included."""

    def _keep(self, piece: str) -> None:
        if piece.strip():
            self.pieces.append(" ".join(piece.split()))


def wrong_words(html: str) -> Iterator[tuple[str, str]]:
    """Kind and text of what a page says in another form or in words that were given up."""
    reading = _Read()
    reading.feed(html)
    reading.close()
    for piece in dict.fromkeys(reading.pieces):
        for kind, form in FORMS.items():
            if found := re.search(form, piece):
                yield kind, _around(piece, found)
        if found := PHRASES.search(piece):
            yield "words", f"«{found.group()}»: {_around(piece, found)}"


def _around(piece: str, found: "re.Match[str]") -> str:
    return piece[max(0, found.start() - 40) : found.end() + 40]

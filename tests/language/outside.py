"""What of a page stands outside the brackets: texts and attributes that a person reads or hears."""

from html.parser import HTMLParser
from io import BytesIO

from language.pseudo import OPENS, SHUTS
from pypdf import PdfReader

READ = {"title", "aria-label", "aria-description", "placeholder", "alt", "data-label", "label", "summary"}
UNSEEN = {"script", "style", "textarea"}
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Reading(HTMLParser):
    """Collects the pieces outside brackets; ``broken`` tells where a bracket has no partner."""

    def __init__(self) -> None:
        super().__init__()
        self.pieces: list[str] = []
        self.broken: list[str] = []
        self._within: list[str] = []
        self._depth = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self._within.append(tag)
        given = {name: value or "" for name, value in attrs}
        for name, value in given.items():
            read = (
                name in READ or (name == "value" and given.get("type") == "submit") or self._described(tag, name, given)
            )
            if read and self._take(value, 0) != 0:
                self.broken.append(f"{name}={value}")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        while tag in self._within and self._within.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if not UNSEEN & set(self._within):
            self._depth = self._take(data, self._depth)

    def _described(self, tag: str, name: str, given: dict[str, str]) -> bool:
        return tag == "meta" and name == "content" and given.get("name") == "description"

    def _take(self, text: str, depth: int) -> int:
        """Keep what of ``text`` is outside; the depth after it."""
        piece = ""
        for sign in text:
            if sign == OPENS:
                depth += 1
            elif sign == SHUTS:
                depth -= 1
                if depth < 0:
                    self.broken.append(text)
                    depth = 0
            elif depth == 0:
                piece += sign
                continue
            self._keep(piece)
            piece = ""
        self._keep(piece)
        return depth

    def _keep(self, piece: str) -> None:
        if any(sign.isalpha() for sign in piece):
            self.pieces.append(" ".join(piece.split()))


def outside_of_pdf(file: bytes) -> tuple[list[str], list[str]]:
    """The same of a PDF, in the order in which its texts were drawn."""
    reading = Reading()
    for page in PdfReader(BytesIO(file)).pages:
        reading.handle_data(page.extract_text())
    return reading.pieces, reading.broken


def outside(page: str) -> tuple[list[str], list[str]]:
    """The pieces with letters outside all brackets, in their order, and the texts whose brackets are broken."""
    reading = Reading()
    reading.feed(page)
    reading.close()
    return reading.pieces, reading.broken

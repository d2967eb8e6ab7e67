"""A page of the site as it stands in a plain file: its links led elsewhere, and nothing in it that needs a server."""

from collections.abc import Callable
from html import escape
from html.parser import HTMLParser
from urllib.parse import urlsplit

LINKS = ("href", "src")
# Elements that end where they begin (the HTML standard, 13.1.2: void elements)
VOID = frozenset(("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"))
WITHIN_WAYS = frozenset(("nav", "footer"))
OF_A_HOST = frozenset(("og:url", "og:image"))
ASKED_OF_A_SITE = ("data-check", "data-proof", "data-live", "data-made")
Attributes = list[tuple[str, str | None]]


def still(page: str, lead: Callable[[str], str | None], has_site: bool) -> str:
    """The page with each link as ``lead`` has it.

    Where it has none, a link loses itself and keeps its words; a button, a way to other pages, a PDF and the *why* of a
    total go with theirs.
    Forms, modules (a browser loads none from a disk) and the time at which the page was made go; so does, unless
    there ``has_site`` that is linked to, what is marked ``data-live``.
    """
    made = _Still(lead, has_site)
    made.feed(page)
    made.close()
    return "".join(made.out)


class _Still(HTMLParser):
    def __init__(self, lead: Callable[[str], str | None], has_site: bool) -> None:
        super().__init__(convert_charrefs=False)
        self.lead, self.has_site = lead, has_site
        self.out: list[str] = []
        self.dropped, self.depth = "", 0  # the element that is left out, and how deep in others of its name
        self.ways = 0
        self.bare = False  # in a link that keeps its words alone

    def handle_starttag(self, tag: str, attrs: Attributes) -> None:
        if self.dropped:
            self.depth += tag == self.dropped
            return
        said = dict(attrs)
        if self._goes(tag, said):
            self._drop(tag)
            return
        self.ways += tag in WITHIN_WAYS
        if tag == "meta" and said.get("property") in OF_A_HOST:
            # The copy's own address is not known: the picture is led to by the page's, which most readers of links take
            path = self.lead(urlsplit(said.get("content") or "").path) if said.get("property") == "og:image" else None
            if path is not None:
                self._write(tag, attrs, {"content": path})
            return
        changed = {name: self.lead(value) for name, value in attrs if name in LINKS and value}
        if None in changed.values():
            if tag == "a" and not self._goes_with_words(said):
                self.bare = True
            else:
                self._drop(tag)
            return
        self._write(tag, attrs, changed)

    def handle_startendtag(self, tag: str, attrs: Attributes) -> None:
        """``<path …/>``: in a drawing; nothing in one leads anywhere."""
        self._add(self.get_starttag_text() or "")

    def handle_endtag(self, tag: str) -> None:
        if self.dropped:
            self.depth -= tag == self.dropped
            if not self.depth:
                self.dropped = ""
        elif tag == "a" and self.bare:
            self.bare = False
        else:
            self.ways -= tag in WITHIN_WAYS
            self._add(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        self._add(data)

    def handle_entityref(self, name: str) -> None:
        self._add(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self._add(f"&#{name};")

    def handle_decl(self, decl: str) -> None:
        self._add(f"<!{decl}>")

    def _goes(self, tag: str, said: dict[str, str | None]) -> bool:
        if tag == "form" or "data-made" in said or (tag == "script" and said.get("type") == "module"):
            return True
        return not self.has_site and (tag == "noscript" or "data-live" in said)

    def _goes_with_words(self, said: dict[str, str | None]) -> bool:
        where = said.get("href") or ""
        words = (said.get("class") or "").split()
        return bool(self.ways) or "button" in words or "why" in words or where.endswith(".pdf")

    def _drop(self, tag: str) -> None:
        if tag not in VOID:
            self.dropped, self.depth = tag, 1

    def _write(self, tag: str, attrs: Attributes, changed: dict[str, str | None]) -> None:
        kept = [(name, changed.get(name, value)) for name, value in attrs if name not in ASKED_OF_A_SITE]
        if kept == attrs:
            self._add(self.get_starttag_text() or "")
            return
        words = "".join(f" {name}" if value is None else f' {name}="{escape(value)}"' for name, value in kept)
        self._add(f"<{tag}{words}>")

    def _add(self, text: str) -> None:
        if not self.dropped:
            self.out.append(text)

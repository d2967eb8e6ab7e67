"""The walk: every link that a role sees is asked for, and of each view some pages are looked at in three widths and on paper."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from browser.crawl.layout import misfits
from browser.crawl.long_names import BOATS, PASS_PHRASE
from browser.crawl.said import wrong_words
from browser.crawl.sheet import FULL, first_sheet
from walking import Opened, walk

WINDOWS = {1280: 4000, 820: 5500, 390: 8000}  # width: the tallest page of 30 boats
ZOOMED = (640, 320)  # what 200 % and 400 % leave of a laptop's 1280 (WCAG 2.2, 1.4.10: no scrolling in two directions)
# A menu lies over the page while it is open; a fold opens into it
UNFOLD = """() => { const shut = [...document.querySelectorAll("details:not([open])")].filter((one) => !one.closest("nav"));
  shut.forEach((one) => { one.open = true; }); return shut.length; }"""
LONG = ("forty-going-on-2026", "forty-official-2026")
STARTS = (*(f"/events/{slug}/" for slug in LONG), *(f"/results/{slug}/" for slug in LONG), "/")


@dataclass(frozen=True)
class Finding:
    """One thing that is wrong on one page."""

    role: str
    width: int  # 0 where it goes by no width
    address: str
    kind: str
    what: str
    view: str = ""

    def __str__(self) -> str:
        return f"{self.role}\t{self.width or '-'}\t{self.address}\t{self.kind}\t{self.what}"


@dataclass(frozen=True)
class Many:
    """How much of the site is walked: pages of a view, of them of one event or club, and how many are looked at."""

    of_a_view: int
    of_an_event: int
    looked_at: int


@dataclass(frozen=True)
class _Answer:
    status_code: int
    headers: dict[str, str]
    content: bytes


class Client:
    """Asks for pages as a browser with these cookies does, without drawing them; what ``walk`` needs of Django's client."""

    def __init__(self, context: Any) -> None:
        self._request = context.request

    def get(self, address: str) -> _Answer:
        answer = self._request.get(address, max_redirects=0)
        headers = {name.title(): value for name, value in answer.headers.items()}
        try:
            return _Answer(answer.status, {"Content-Type": "", **headers}, answer.body())
        finally:
            answer.dispose()


@dataclass
class Walker:
    """Somebody of one role in a window of their own."""

    page: Any
    role: str

    def sign_in(self) -> None:
        if self.role == "nobody":
            return
        self.page.goto("/sign-in/")
        self.page.fill("[name=username]", f"walks-as-{self.role}")
        self.page.fill("[name=password]", PASS_PHRASE)
        self.page.press("[name=password]", "Enter")
        self.page.wait_for_url(lambda url: "/sign-in/" not in url)

    @cached_property
    def axe(self) -> Axe:
        return Axe()

    def links(self, many: Many) -> Iterator[tuple[Opened, list[Finding]]]:
        """Everything that this role is led to, with what is wrong about the answer and its words."""
        for opened in walk(Client(self.page.context), many.of_a_view, STARTS, many.of_an_event):
            status = opened.answer.status_code
            found = []
            # Where a walk starts, no link leads this role
            if status >= 400 and opened.shown_on:
                found.append(self._finding(opened, 0, "status", f"{status}, led to by {opened.shown_on}"))
            elif opened.is_page:
                for kind, what in wrong_words(opened.answer.content.decode()):
                    found.append(self._finding(opened, 0, kind, what))
            yield opened, found

    def look(self, opened: Opened) -> Iterator[Finding]:
        """What does not fit on the page, folded and not, what axe says of it, and how its first sheet prints."""
        boats = BOATS if any(slug in opened.address for slug in LONG) else 30
        for width, tallest in WINDOWS.items():
            self.at(width)
            self.page.goto(opened.address)
            yield from self.found(opened, width, tallest * boats // 30)
            if width == 1280:
                for kind, what in wrong_words(self.page.content()):
                    yield self._finding(opened, 0, kind, what)
                sheets, full = first_sheet(self.page)
                if full < FULL:
                    yield self._finding(opened, 0, "print", f"first of {sheets} sheets is {full:.0%} full")
            if self.page.evaluate(UNFOLD):
                yield from self.found(opened, width, by_axe=width != 820)
        for width in ZOOMED:
            self.at(width)
            for kind, what in misfits(self.page):
                if kind == "sideways":
                    yield self._finding(opened, width, kind, what)

    def at(self, width: int) -> None:
        """Make the window as wide as that."""
        self.page.set_viewport_size({"width": width, "height": 844 if width < 700 else 900})

    def found(self, opened: Opened, width: int, tallest: int = 0, by_axe: bool = True) -> Iterator[Finding]:
        """What is wrong on the page as it stands in the window; it may be as tall as it likes where ``tallest`` is 0."""
        for kind, what in misfits(self.page, tallest):
            yield self._finding(opened, width, kind, what)
        if by_axe:
            for fault in self.axe.run(self.page).response["violations"]:
                targets = "; ".join(str(node["target"][-1]) for node in fault["nodes"][:3])
                yield self._finding(opened, width, "axe", f"{fault['id']}: {targets}")

    def _finding(self, opened: Opened, width: int, kind: str, what: str) -> Finding:
        return Finding(self.role, width, opened.address, kind, what, opened.view)


def chosen(opened: list[Opened], of_a_view: int) -> list[Opened]:
    """The first pages of each view: what is to be looked at."""
    seen: Counter[str] = Counter()
    kept = []
    for one in opened:
        # A page to be saved is not drawn
        if one.is_page and one.view and "Content-Disposition" not in one.answer.headers:
            seen[one.view] += 1
            if seen[one.view] <= of_a_view:
                kept.append(one)
    return kept


def everybody(browser: Any, address: str, roles: Mapping[str, Many]) -> Iterator[Finding]:
    """What is wrong for each role: what is behind its links, and how pages of views look at which no role before looked."""
    looked_at: set[str] = set()
    for role, many in roles.items():
        walker = Walker(browser.new_context(base_url=address).new_page(), role)
        asked: set[str] = set()
        walker.page.on("request", lambda request, asked=asked: asked.add(request.url))
        walker.sign_in()
        opened = []
        for one, wrong in walker.links(many):
            opened.append(one)
            yield from wrong
        pages = [page for page in chosen(opened, many.looked_at) if page.view not in looked_at]
        for page in pages:
            yield from walker.look(page)
        looked_at |= {page.view for page in pages}
        for url in sorted(url for url in asked if not url.startswith((address, "data:", "blob:"))):
            yield Finding(role, 0, url, "host", "another host was asked")
        walker.page.context.close()

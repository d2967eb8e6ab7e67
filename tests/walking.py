"""Every page that somebody is led to: from the front page along all links, the first rows of lists for the rest."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import unescape
from typing import Any, Protocol
from urllib.parse import urljoin, urlsplit
from uuid import uuid4

import world
from django.urls import Resolver404, resolve

from weighin.clubs.models import Club
from weighin.registration.services.draws import draw, draw_anew, show_draws
from weighin.signup.services.sign_ups import approve, sign_up
from weighin.signup.services.terms import set_terms
from weighin.slips.services.slips import record_slip
from weighin.standings.services import publish_result

LINK = re.compile(r'<(?:a|form)\b[^>]*?\s(?:href|hx-get)="([^"]+)"', re.S)


@dataclass(frozen=True)
class Opened:
    """An address that was asked for, the page that led to it, and the answer."""

    address: str
    shown_on: str
    answer: Any

    @property
    def view(self) -> str:
        """The name of its view, such as ``standings:live``."""
        return _place(urlsplit(self.address).path)[0]

    @property
    def is_page(self) -> bool:
        return self._is("text/html")

    @property
    def is_pdf(self) -> bool:
        return self._is("application/pdf")

    def _is(self, kind: str) -> bool:
        return self.answer.status_code == 200 and self.answer.headers["Content-Type"].startswith(kind)


def busy_club() -> Club:
    """A club with an event that is official and drawn, one whose scales are open with a boat of two slips, and one not begun."""
    official = world.plain()
    draw(official, "launch", "test", "heads")
    draw_anew(official, "launch", "test", "Nobody saw the coin", "tails, once more")
    show_draws(official, True, "test")
    publish_result(official, "test")
    event = world.event(days=2)
    for boat in "12":
        record_slip(event, world.slip(boat=boat), "quill")
    record_slip(event, world.slip(boat="2", gross="9.00"), "quill")
    world.event("Not begun")
    to_come = world.event("To come", date="2199-06-15")
    said = {"name": "Wren pair", "angler_1": "Ash Wren", "minor_1": "no", "phone": "555-0171"}
    set_terms(
        to_come,
        {"is_open": "yes", "approval": "by_hand", "show_teams": "yes", "guardian_below": "18", "places": "4"},
        "test",
    )
    approve(sign_up(to_come, said, uuid4()), "test")
    sign_up(to_come, {**said, "name": "Late pair", "angler_1": "Ash Late"}, uuid4())
    return event.club


def _place(path: str) -> tuple[str, str]:
    """The name of the view at ``path`` and the event, season or club in it; blank where nothing is there."""
    try:
        found = resolve(path)
    except Resolver404:
        return "", path
    return found.view_name, next(iter(map(str, found.kwargs.values())), "")


class Asks(Protocol):
    """Whoever is asked for pages: Django's client, or one that asks a server."""

    def get(self, path: str, /) -> Any: ...


def walk(client: Asks, of_a_view: int = 3, starts: Sequence[str] = ("/",), of_one: int = 0) -> Iterator[Opened]:
    """Everything that links lead to, each address once; where one redirects, what it leads to follows.

    ``of_a_view`` pages of one view are opened: a list's first rows stand for the rest. Of them ``of_one`` are of the
    same event, season or club; without it as many as come.
    """
    waiting, seen = [(start, "") for start in starts], set(starts)
    opened, of_whom = Counter[str](), Counter[tuple[str, str]]()
    while waiting:
        address, shown_on = waiting.pop(0)
        answer = client.get(address)
        found = Opened(address, shown_on, answer)
        yield found
        if answer.status_code in (301, 302):
            target = answer.headers["Location"]
            if target not in seen:
                seen.add(target)
                waiting.append((target, address))
        if not found.is_page:
            continue
        for found_link in LINK.findall(answer.content.decode()):
            link = urljoin(address, unescape(found_link).split("#")[0]) or address
            path = urlsplit(link).path
            if urlsplit(link).scheme or urlsplit(link).netloc or path.startswith("/static/") or link in seen:
                continue
            seen.add(link)
            view, whose = _place(path)
            of_whom[view, whose] += 1
            if of_one and of_whom[view, whose] > of_one:
                continue
            opened[view] += 1
            if opened[view] <= of_a_view:
                waiting.append((link, address))

"""Every page that somebody is led to: from the front page along all links, the first rows of lists for the rest."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import unescape
from typing import Any
from urllib.parse import urljoin, urlsplit
from uuid import uuid4

import world
from django.test import Client
from django.urls import resolve

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
        return resolve(urlsplit(self.address).path).view_name

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


def walk(client: Client, of_a_view: int = 3, starts: Sequence[str] = ("/",)) -> Iterator[Opened]:
    """Everything that links lead to, each address once; where one redirects, what it leads to follows.

    ``of_a_view`` pages of one view are opened: a list's first rows stand for the rest.
    """
    waiting, seen, opened = [(start, "") for start in starts], set(starts), Counter[str]()
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
            name = resolve(path).view_name
            opened[name] += 1
            if opened[name] <= of_a_view:
                waiting.append((link, address))

"""Every link on every page leads somewhere for the person who is shown it: no 403 and no 404."""

import re
from collections import Counter
from html import unescape
from urllib.parse import urljoin, urlsplit

import pytest
import world
from django.test import Client
from django.urls import resolve
from slips.table import open_event, record

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db
A_VIEW = 3  # pages of one view that are opened: a list's first rows stand for the rest
LINK = re.compile(r'<(?:a|form)\b[^>]*?\s(?:href|hx-get)="([^"]+)"', re.S)


def walk(client: Client) -> tuple[dict[str, str], Counter[str]]:
    """Broken links with the page that shows them, and how many pages of each view were opened."""
    waiting, seen, opened, broken = [("/", "")], {"/"}, Counter[str](), dict[str, str]()
    while waiting:
        address, shown_on = waiting.pop(0)
        answer = client.get(address)
        if answer.status_code in (301, 302):
            target = answer.headers["Location"]
            if target not in seen:
                seen.add(target)
                waiting.append((target, address))
            continue
        if answer.status_code != 200:
            broken[address] = f"{answer.status_code}, shown on {shown_on}"
            continue
        if not answer.headers["Content-Type"].startswith("text/html"):
            continue
        for found in LINK.findall(answer.content.decode()):
            link = urljoin(address, unescape(found).split("#")[0]) or address
            path = urlsplit(link).path
            if urlsplit(link).netloc or path.startswith("/static/") or link in seen:
                continue
            seen.add(link)
            name = resolve(path).view_name
            opened[name] += 1
            if opened[name] <= A_VIEW:
                waiting.append((link, address))
    return broken, opened


@pytest.fixture
def club(db: None) -> object:
    """A club with an event that is official and one whose scales are open, with everything a page links to."""
    official = world.plain()
    publish_result(official, "test")
    event = open_event(days=2)
    for boat in "12":
        record(event, boat=boat)
    record(event, boat="2", gross="9.00")
    assert HistoryEntry.objects.exists()
    return event.club


@pytest.mark.parametrize("role", list(Role))
def test_every_link_on_every_page_can_be_followed(club: object, role: str) -> None:
    broken, opened = walk(world.member(club, role))  # type: ignore[arg-type]
    assert not broken, "\n".join(f"{link}: {how}" for link, how in broken.items())
    assert len(opened) > 40, sorted(opened)


def test_every_link_the_public_is_shown_can_be_followed(club: object) -> None:
    broken, opened = walk(Client())
    assert not broken, "\n".join(f"{link}: {how}" for link, how in broken.items())
    assert "public:standings" in opened and "public:result" in opened

"""Every link on every page leads somewhere for the person who is shown it, and every label and table says what it is of."""

import re
from collections import Counter

import pytest
import world
from django.test import Client
from walking import busy_club, walk

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry

pytestmark = pytest.mark.django_db


def broken_links(client: Client) -> tuple[dict[str, str], set[str]]:
    """Broken links with the page that shows them, and the views that were opened."""
    broken, opened = dict[str, str](), set[str]()
    for found in walk(client):
        opened.add(found.view)
        if found.answer.status_code not in (200, 301, 302):
            broken[found.address] = f"{found.answer.status_code}, shown on {found.shown_on}"
        elif found.is_page and (unclear := unclear_parts(found.answer.content.decode())):
            broken[found.address] = unclear
    return broken, opened


def unclear_parts(page: str) -> str:
    """Ids that stand twice, so that a label is of another form's field, and tables without a caption."""
    twice = [one for one, times in Counter(re.findall(r'\sid="([^"]*)"', page)).items() if times > 1]
    nameless = re.findall(r"<table[^>]*>(?!\s*<caption)", page)
    return ", ".join([*twice, *nameless])


@pytest.fixture
def club(db: None) -> object:
    """A club with everything a page links to."""
    found = busy_club()
    assert HistoryEntry.objects.exists()
    return found


@pytest.mark.parametrize("role", list(Role))
def test_every_link_on_every_page_can_be_followed(club: object, role: str) -> None:
    broken, opened = broken_links(world.member(club, role))  # type: ignore[arg-type]
    assert not broken, "\n".join(f"{link}: {how}" for link, how in broken.items())
    assert len(opened) > 40, sorted(opened)


def test_every_link_the_public_is_shown_can_be_followed(club: object) -> None:
    broken, opened = broken_links(Client())
    assert not broken, "\n".join(f"{link}: {how}" for link, how in broken.items())
    assert "public:standings" in opened and "public:result" in opened

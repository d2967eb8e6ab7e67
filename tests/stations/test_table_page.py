"""The page at the table and its worker, as the server gives them out."""

import re

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from weighin.accounts.domain.roles import Role

pytestmark = pytest.mark.django_db


def test_the_paired_page_is_the_same_for_any_address_and_tells_nothing() -> None:
    event = world.event()
    with CaptureQueriesContext(
        connection,
    ) as asked:
        known, unknown = Client().get(f"/table/{event.slug}/"), Client().get("/table/no-such-event/")
    assert not asked.captured_queries and not known.cookies
    assert known.content.decode().replace(event.slug, "no-such-event") == unknown.content.decode()
    assert event.name not in known.content.decode()


def test_members_who_may_weigh_get_the_page_and_the_cookie_it_sends_with() -> None:
    event = world.event()
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    page = client.get(f"/events/{event.slug}/table/")
    assert page.status_code == 200 and "csrftoken" in page.cookies and event.name in page.content.decode()
    assert world.member(event.club, Role.CLUB_REVIEWER).get(f"/events/{event.slug}/table/").status_code == 403


@pytest.mark.parametrize("way", ["table/{}/", "events/{}/table/"])
def test_the_worker_changes_with_the_page(way: str) -> None:
    events = [world.event("One"), world.event("Two")]
    client = world.member(events[0].club, Role.WEIGH_OFFICIAL)
    versions = []
    for event in events:
        address = "/" + way.format(event.slug)
        worker = client.get(f"{address}worker.js")
        assert worker["Cache-Control"] == "no-cache" and f'const PAGE = "{address}";' in worker.content.decode()
        found = re.search('VERSION = "([0-9a-f]{16})"', worker.content.decode())
        assert found is not None
        versions.append(found[1])
    assert versions[0] != versions[1]


def test_nothing_on_the_page_is_inline() -> None:
    text = Client().get("/table/any/").content.decode()
    assert not re.search(r"<script(?![^>]*src=)|<style|\sstyle=|\son\w+=", text)

"""The site of an open club: its pages, the season, the feed; nothing that is not told, and no angler."""

import json
import re
from datetime import datetime
from typing import Any

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from weighin.clubs.services.clubs import open_club
from weighin.events.models import Event
from weighin.standings.services import post_result, publish_result, set_public, start_embargo
from weighin.ui.kept import KEEPER

pytestmark = pytest.mark.django_db

SLIPS = [
    world.slip(gross="9.47", big_fish="1.80"),
    world.slip(boat="2", fish="6", alive="5", dead="1", gross="8.25", big_fish="1.95", big_fish_alive="yes"),
]


@pytest.fixture
def event() -> Event:
    made = world.event("First light", slips=SLIPS)
    open_club(made.club, True, "test")
    return made


def club_page(event: Event) -> str:
    return reverse("public:club", args=[event.club.slug])


def season_page(event: Event) -> str:
    return reverse("public:season", args=[event.club.slug, event.season.slug])


def text(address: str) -> str:
    answer = Client().get(address)
    assert answer.status_code == 200, address
    return answer.content.decode()


def test_the_club_shows_season_result_big_fish_and_the_dead_with_their_denominator(event: Event) -> None:
    publish_result(event, "test")
    page = text(club_page(event))
    assert "First light pair 1 leads after the last event." in page and season_page(event) in page
    assert "First light pair 1 won with 9.47 lb" in page and "1.95 lb, First light pair 2" in page
    assert "1 of 13 fish was dead by release" in page
    assert f'href="{reverse("public:event", args=[event.slug])}"' in page


def test_a_season_has_teams_and_no_angler_and_no_way_to_members_pages(event: Event) -> None:
    publish_result(event, "test")
    page = text(season_page(event))
    assert "First light pair 1" in page and "Big fish of the year: 1.95 lb" in page and "1 of 13 fish" in page
    for address in (club_page(event), season_page(event), feed_address(event)):
        assert "First light angler" not in text(address)
        assert "/teams/" not in text(address) and "/points/" not in text(address)


def test_pages_say_what_they_are_to_search_engines_and_are_readable_without_scripts(event: Event) -> None:
    publish_result(event, "test")
    for address in (club_page(event), season_page(event), reverse("public:event", args=[event.slug])):
        page = text(address)
        assert '<meta name="robots" content="index, follow">' in page
        (said,) = re.findall(r'<meta name="description" content="([^"]{20,})">', page)
        assert f'<meta property="og:description" content="{said}">' in page
        assert re.search(r'<meta property="og:title" content="[^"]+">', page) and '<meta property="og:type"' in page
        assert "First light pair 1" in re.sub(r"<script.*?</script>", "", page, flags=re.S)
    assert 'content="index, follow"' in text(reverse("public:standings", args=[event.slug]))
    assert "noindex" in text(reverse("public:screen", args=[event.slug]))


def test_a_planned_event_is_not_indexed(event: Event) -> None:
    planned = world.event("Planned", date="2030-06-20")
    set_public(planned, True, "test")
    assert 'content="noindex"' in text(reverse("public:event", args=[planned.slug]))


def test_what_is_not_published_or_held_back_is_counted_nowhere(event: Event) -> None:
    hidden = world.event("Kept quiet", slips=[world.slip(boat="3", gross="11.11")], date="2026-06-27")
    publish_result(event, "test")
    for address in (club_page(event), season_page(event)):
        page = text(address)
        assert "11.11" not in page and "Kept quiet pair 3" not in page and "1 of 13 fish" in page
    assert "Not counted until the result is shown: Kept quiet." in text(season_page(event))
    set_public(hidden, True, "test")
    assert "11.11" in text(club_page(event)) and "Kept quiet pair 3" in text(season_page(event))
    start_embargo(hidden, timezone.now(), "test")
    for address in (club_page(event), season_page(event)):
        assert "11.11" not in text(address) and "Kept quiet pair 3" not in text(address)


def test_a_season_of_a_club_that_is_not_open_is_its_members(event: Event) -> None:
    open_club(event.club, False, "test")
    for address in (season_page(event), feed_address(event)):
        assert Client().get(address).status_code == 404 and world.stranger().get(address).status_code == 404
    answer = world.member(event.club).get(season_page(event))
    assert answer.status_code == 302 and answer["Location"].endswith("/points/")
    open_club(event.club, True, "test")
    assert Client().get(f"/clubs/{event.club.slug}/seasons/none/").status_code == 404
    assert Client().get("/clubs/nowhere/feed.json").status_code == 404


def test_pages_are_kept_until_something_changes(event: Event) -> None:
    tags = {
        address: Client().get(address)["ETag"]
        for address in (club_page(event), season_page(event), feed_address(event))
    }
    for address, tag in tags.items():
        assert Client().get(address, headers={"If-None-Match": tag}).status_code == 304
    publish_result(event, "test")
    for address, tag in tags.items():
        assert Client().get(address, headers={"If-None-Match": tag}).status_code == 200


def test_the_page_of_a_large_event_is_small() -> None:
    large = world.large(300)
    publish_result(large, "test")
    assert len(Client().get(reverse("public:event", args=[large.slug])).content) <= 60_000


def test_the_same_queries_for_one_event_and_for_many(event: Event) -> None:
    publish_result(event, "test")
    counts = []
    for rounds in range(2):
        for address in (club_page(event), season_page(event), feed_address(event)):
            KEEPER.clear()
            with CaptureQueriesContext(connection) as found:
                text(address)
            counts.append(len(found))
        for number in range(4 * (1 - rounds)):
            publish_result(world.event(f"More {number}", slips=SLIPS, date=f"2026-07-{10 + number}"), "test")
    assert counts[:3] == counts[3:]


def feed_address(event: Event) -> str:
    return reverse("public:feed", args=[event.club.slug])


def feed(event: Event, **more: Any) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(Client().get(feed_address(event), **more).content)
    return found


# JSON Feed 1.1, https://www.jsonfeed.org/version/1.1/ (from memory of its text): "version", "title" and "items" are
# required of a feed, "id" of an item, and of content_html and content_text one; addresses are whole, dates by RFC 3339.
TOP = {"version": str, "title": str, "items": list, "home_page_url": str, "feed_url": str}
ITEM = {"id": str, "url": str, "title": str, "summary": str, "content_text": str, "date_published": str, "date_modified": str, "tags": list}  # fmt: skip
RFC_3339 = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")


def hold_to_the_format(told: dict[str, Any]) -> None:
    assert told["version"] == "https://jsonfeed.org/version/1.1"
    assert set(told) == set(TOP) and all(isinstance(told[name], kind) for name, kind in TOP.items())
    for item in told["items"]:
        assert set(item) == set(ITEM) and all(isinstance(item[name], kind) for name, kind in ITEM.items())
        assert item["id"] and item["content_text"]
        assert RFC_3339.fullmatch(item["date_published"]) and RFC_3339.fullmatch(item["date_modified"])
        assert re.fullmatch(r"https?://[^/]+/results/[\w-]+/", item["url"])
    assert len({item["id"] for item in told["items"]}) == len(told["items"])


def test_the_feed_has_provisional_and_official_results_newest_first(event: Event) -> None:
    assert feed(event)["items"] == []
    post_result(event, "test")
    later = world.event("Second light", slips=SLIPS, date="2026-07-04")
    publish_result(later, "test")
    told = feed(event)
    hold_to_the_format(told)
    assert [item["tags"] for item in told["items"]] == [["official"], ["provisional"]]
    assert told["items"][1]["content_text"].startswith("First light pair 1 leads First light with 9.47 lb.")
    before = told["items"][1]
    publish_result(event, "test")
    told = feed(event)
    hold_to_the_format(told)
    after = told["items"][1]
    assert (after["id"], after["date_published"]) == (before["id"], before["date_published"])
    assert datetime.fromisoformat(after["date_modified"]) > datetime.fromisoformat(before["date_modified"])
    assert after["content_text"].splitlines()[0] == "First light pair 1 won First light with 9.47 lb."
    assert "Fish: 12 of 13 weighed were alive at the scales." in after["content_text"]


def test_the_feed_names_the_address_by_which_it_was_asked(event: Event) -> None:
    publish_result(event, "test")
    for host in ("localhost", "127.0.0.1:8000", "localhost"):
        told = feed(event, headers={"Host": host})
        assert told["feed_url"] == f"http://{host}{feed_address(event)}"
        assert told["items"][0]["url"] == f"http://{host}{reverse('public:event', args=[event.slug])}"


def test_what_is_held_back_is_not_in_the_feed(event: Event) -> None:
    post_result(event, "test")
    assert len(feed(event)["items"]) == 1
    start_embargo(event, timezone.now(), "test")
    assert feed(event)["items"] == []

"""Every address for every role: who gets in, who is refused, and what strangers are told."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest
import world
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse
from django.urls.converters import UUIDConverter

from weighin.accounts.domain.roles import TABLE, Can, Role
from weighin.events.models import Event
from weighin.standings.services import publish_result

README = Path(__file__).resolve().parent.parent / "README.md"
# Addresses that anyone may open; each has its own test.
OPEN = {
    "public:calendar",
    "public:catalogue",
    "public:club",
    "public:check_script",
    "public:feed",
    "public:first_event",
    "public:glossary",
    "public:programs",
    "public:season",
    "public:home",
    "public:openapi",
    "accounts:sign_in",
    "accounts:sign_in_step",
    "clubs:begin",
    "clubs:join",
    "operations:certificate",
    "operations:authority",
    "operations:check_file",
    "planning:planner",
    "signup:sign_up",
    "signup:team",
    "signup:withdraw",
    "privacy:notice",
    "privacy:club_notice",
    "stations:paired_table",
    "stations:paired_table_worker",
    "care:paired_ramp",
    "care:paired_ramp_worker",
}
# Addresses that ask only for somebody who has signed in.
SIGNED_IN = {
    "accounts:sign_out",
    "accounts:password",
    "accounts:devices",
    "accounts:second_factor",
    "clubs:answer",
    "clubs:new",
    "events:mine",
    "privacy:mine",
    "privacy:mine_file",
}
# Addresses of stations, which ask for a token or a log-in themselves; tests/stations/test_station_access.py tries them.
BY_TOKEN = {
    "stations:api_station",
    "stations:api_slips",
    "stations:api_checkins",
    "stations:api_scales",
    "stations:api_scales_now",
    "stations:api_readings",
    "care:api_care",
    "care:api_ramp",
}


def addresses() -> list[tuple[str, Any]]:
    """(name, view) of every address of ours."""

    def walk(patterns: list[Any], space: str = "") -> Iterator[tuple[str, Any]]:
        for pattern in patterns:
            if isinstance(pattern, URLResolver):
                yield from walk(pattern.url_patterns, pattern.namespace or space)
            elif isinstance(pattern, URLPattern):
                yield f"{space}:{pattern.name}", pattern

    return sorted(walk(get_resolver().url_patterns), key=lambda found: found[0])


@pytest.fixture
def event(db: None) -> Event:
    found = world.plain()
    publish_result(found, "test")
    found.refresh_from_db()
    return found


def address(name: str, pattern: URLPattern, event: Event) -> str:
    known: dict[str, Any] = {
        "event_slug": event.slug,
        "club_slug": event.club.slug,
        "season_slug": event.season.slug,
        "boat": 1,
        "day": 1,
        "number": 1,
        "version": 1,
        "form": "json",
        "key": "0" * 32,
        "water_pk": event.water_id,
        "member_pk": 1,
        "flight_pk": 1,
        "line_pk": 1,
        "entry_pk": event.entries.values_list("pk", flat=True)[0],
        "reading_pk": event.tank_readings.values_list("pk", flat=True)[0],
        "record_pk": event.holding_pens.values_list("pk", flat=True)[0],
    }
    # An address that names something this event does not have is walked with 1: who may ask is settled before it is looked for.
    words = {
        key: known.get(key, UUID(int=0) if isinstance(converter, UUIDConverter) else 1)
        for key, converter in pattern.pattern.converters.items()
    }
    return reverse(name, kwargs=words)


def test_every_view_says_what_it_asks_for() -> None:
    silent = [
        name
        for name, pattern in addresses()
        if not hasattr(pattern.callback, "can") and name not in OPEN | SIGNED_IN | BY_TOKEN
    ]
    assert not silent
    assert {name for name, pattern in addresses() if hasattr(pattern.callback, "by_token")} == BY_TOKEN


def test_there_are_addresses_to_walk() -> None:
    assert len(addresses()) > 40


@pytest.mark.parametrize("role", list(Role))
def test_members_get_in_where_the_table_says(role: Role, event: Event) -> None:
    client = world.member(event.club, role)
    for name, pattern in addresses():
        can = getattr(pattern.callback, "can", None)
        if can is None:
            continue
        status = client.get(address(name, pattern, event)).status_code
        if can in TABLE[role]:
            # 404: the walk's job, member or flight does not exist; 405: an address that only takes posts.
            assert status in (200, 302, 404, 405), (name, status)
        else:
            assert status in (403, 405), (name, status)
        status = client.post(address(name, pattern, event), {}).status_code
        assert (status == 403) == (can not in TABLE[role]) or status == 405 or _needs_more(can, role), (name, status)


def _needs_more(can: Can, role: Role) -> bool:
    """A page that members may read and only some may act on refuses the act itself."""
    return can in (Can.VIEW_EVENT, Can.VIEW_SEASON) and role is not Role.DIRECTOR


def test_strangers_are_told_that_nothing_is_there(event: Event) -> None:
    client = world.stranger()
    for name, pattern in addresses():
        if getattr(pattern.callback, "can", None) is not None:
            where = address(name, pattern, event)
            assert client.get(where).status_code in (404, 405), name
            assert client.post(where, {}).status_code in (404, 405), name


def test_without_log_in_members_pages_ask_for_it(event: Event) -> None:
    client = Client()
    for name, pattern in addresses():
        if getattr(pattern.callback, "can", None) is not None or name in SIGNED_IN - {"accounts:sign_out"}:
            where = address(name, pattern, event)
            answer = client.get(where)
            answer = client.post(where, {}) if answer.status_code == 405 else answer
            assert answer.status_code == 302 and answer["Location"].startswith(reverse("accounts:sign_in")), name


def test_public_pages_are_open_only_while_published(event: Event) -> None:
    public = [
        (name, pattern)
        for name, pattern in addresses()
        if hasattr(pattern.callback, "can") and pattern.callback.can is None
    ]
    assert len(public) >= 6
    for name, pattern in public:
        assert Client().get(address(name, pattern, event)).status_code == 200, name
    Event.objects.filter(pk=event.pk).update(is_public=False)
    for name, pattern in public:
        assert Client().get(address(name, pattern, event)).status_code == 404, name


def test_public_pages_show_no_notes(event: Event) -> None:
    event.note = "Call Ash at 555-0100"
    event.save()
    entry = event.entries.first()
    assert entry is not None
    entry.note = "ash@example.org"
    entry.save()
    for name, pattern in addresses():
        if hasattr(pattern.callback, "can") and pattern.callback.can is None:
            said = Client().get(address(name, pattern, event)).content.decode(errors="replace")
            assert "555-0100" not in said and "ash@example.org" not in said, name


def test_the_readme_tells_the_table() -> None:
    """The table in the README says of every role what the Role x Can table says."""
    lines = [line.split("|") for line in README.read_text(encoding="utf-8").splitlines() if line.startswith("| ")]
    rows = {cells[1].strip(): [cell.strip() for cell in cells[2:7]] for cells in lines if len(cells) == 9}
    order = (Role.DIRECTOR, Role.DESK_OFFICIAL, Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER)
    told = {
        "the club's events, slips, standings, fish care": Can.VIEW_EVENT,
        "season points and mortality summary, files": Can.VIEW_SEASON,
        "write, correct and void slips, check boats in, give bags, test scales": Can.CORRECT_SLIP,
        "care notes and boat checks, tanks, bags to the release tank, releases": Can.RECORD_CARE,
        "read the history": Can.VIEW_HISTORY,
        "teams, their fees, phone numbers and emergency contacts, team lists in and out": Can.MANAGE_TEAMS,
        "payments, receipts, what is owed, the cash-up, pay-outs": Can.TAKE_MONEY,
        "events, rules, import, publishing, members": Can.MANAGE_EVENT,
    }
    for words, can in told.items():
        assert rows[words] == ["yes" if can in TABLE[role] else "" for role in order], words

"""Places held back in the last hour: nothing public tells what came since."""

import re
from datetime import datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import world
from django.test import Client
from django.urls import get_resolver, reverse
from django.utils import timezone

from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip, record_slip, void_slip
from weighin.standings.models import Holdback
from weighin.standings.queries.embargo import embargo_start, moment_of
from weighin.standings.services import lift_embargo, publish_result, set_public, start_embargo

pytestmark = pytest.mark.django_db
HELD = {"boat": "4", "day": "1", "fish": "1", "alive": "0", "dead": "1", "gross": "1.37", "reason": "misread"}


def opened() -> Event:
    event = world.plain()
    set_public(event, True, "test")
    return Event.objects.get(pk=event.pk)


def slip_of(event: Event, boat: int = 4) -> WeighSlip:
    return WeighSlip.objects.current().get(event=event, entry__boat=boat, day=1)


def public_addresses(event: Event) -> list[str]:
    """Every public address of the event that needs nothing but its name and a boat."""
    known: dict[str, Any] = {"event_slug": event.slug, "boat": 4}
    found = []
    for resolver in get_resolver().url_patterns:
        if getattr(resolver, "namespace", None) != "public":
            continue
        for pattern in resolver.url_patterns:
            needs = set(pattern.pattern.converters)
            # The code on paper holds the host that was asked, so it is not kept: tests/proof/test_check_page.py
            # The poster, certificates and press text ask for a director: tests/public/test_result_paper.py
            asks = getattr(pattern.callback, "can", None) is not None
            if "event_slug" in needs and needs <= set(known) and pattern.name != "check_code" and not asks:
                found.append(reverse(f"public:{pattern.name}", kwargs={key: known[key] for key in needs}))
    return found


def bodies(event: Event) -> dict[str, bytes]:
    """What every public address of the event gives; the one that changes with the clock is left out."""
    without = (".pdf", "/proof", "/check.html")  # a proof is not there meanwhile: tests/proof/test_proof_document.py
    answers = {where: Client().get(where) for where in public_addresses(event) if not where.endswith(without)}
    assert all(answer.status_code == 200 for answer in answers.values())
    return {where: re.sub(rb"as of \d+:\d\d.{1,3}[AP]M", b"", answer.content) for where, answer in answers.items()}


def test_nothing_public_tells_a_held_slip() -> None:
    event = opened()
    start_embargo(event, timezone.now(), "test")
    before = bodies(event)
    assert len(before) >= 7
    correct_slip(slip_of(event), HELD, "test")
    after = bodies(event)
    for where, body in after.items():
        assert b"1.37" not in body, where
        assert body == before[where], where
    lift_embargo(event, "test")
    assert any(b"1.37" in body for body in bodies(event).values())


def test_a_void_after_the_moment_leaves_the_boat_weighed() -> None:
    event = opened()
    start_embargo(event, timezone.now(), "test")
    before = bodies(event)
    void_slip(slip_of(event), "wrong boat", "test")
    assert bodies(event) == before


def test_a_new_slip_after_the_moment_tells_nothing() -> None:
    event = opened()
    void_slip(slip_of(event), "weighed again", "test")
    start_embargo(event, timezone.now(), "test")
    before = bodies(event)
    written = {key: text for key, text in HELD.items() if key != "reason"}
    record_slip(event, {**written, "official": "P. Rowe"}, "test")
    assert bodies(event) == before
    lift_embargo(event, "test")
    changed = {where for where, body in bodies(event).items() if body != before[where]}
    assert {
        reverse(f"public:{name}", args=[event.slug]) for name in ("screen", "crowd", "standings", "event")
    } <= changed


def test_each_page_says_that_places_are_held_back() -> None:
    event = opened()
    start_embargo(event, timezone.now(), "test")
    for name in ("event", "standings", "mortality"):
        said = Client().get(reverse(f"public:{name}", args=[event.slug])).content.decode()
        assert "are not shown yet." in said and "read out at the weigh-in" in said, name
    said = world.member(event.club).get(reverse("standings:live", args=[event.slug])).content.decode()
    assert "The public sees no weights after" in said


def test_a_moment_to_come_changes_the_entity_tag_when_it_comes(monkeypatch: pytest.MonkeyPatch) -> None:
    event = opened()
    since = timezone.now() + timedelta(hours=1)
    start_embargo(event, since, "test")
    assert embargo_start(event) is None and embargo_start(event, since) == since
    where = reverse("public:event", args=[event.slug])
    tag = Client().get(where)["ETag"]
    monkeypatch.setattr("django.utils.timezone.now", lambda: since)
    answer = Client().get(where, headers={"if-none-match": tag})
    assert answer.status_code == 200 and "are not shown yet." in answer.content.decode()


def test_publishing_shows_all_again_and_an_old_version_stays() -> None:
    event = opened()
    start_embargo(event, timezone.now(), "test")
    publish_result(event, "test")
    assert embargo_start(event) is None
    assert HistoryEntry.objects.filter(event_id=event.pk, act="standings.shown").exists()
    start_embargo(event, timezone.now(), "test")
    assert Client().get(reverse("public:result", args=[event.slug, 1])).status_code == 200


def test_only_a_director_turns_the_switch() -> None:
    event = opened()
    where = reverse("standings:results", args=[event.slug])
    assert world.member(event.club, "weigh_official").post(where, {"act": "hold-back"}).status_code == 403
    assert not Holdback.objects.exists()
    director = world.member(event.club, username="chief")
    assert "This is not a time" in director.post(where, {"act": "hold-back", "since": "soon"}).content.decode()
    revision = Event.objects.get(pk=event.pk).revision
    assert director.post(where, {"act": "hold-back", "since": ""}).status_code == 302
    event.refresh_from_db()
    assert embargo_start(event) is not None and event.revision > revision
    assert "Show all weights again" in director.get(where).content.decode()
    assert director.post(where, {"act": "lift"}).status_code == 302
    event.refresh_from_db()
    assert embargo_start(event) is None


@pytest.mark.parametrize(
    ("now", "clock", "moment"),
    [
        ("2026-06-20T23:50", time(0, 30), "2026-06-21T00:30"),
        ("2026-06-21T00:10", time(23, 30), "2026-06-20T23:30"),
        ("2026-06-20T14:00", time(14, 30), "2026-06-20T14:30"),
        ("2026-06-20T14:00", time(13), "2026-06-20T13:00"),
    ],
)
def test_a_time_of_a_night_is_the_nearest(monkeypatch: Any, now: str, clock: time, moment: str) -> None:
    event = opened()
    zone = ZoneInfo(event.time_zone)
    monkeypatch.setattr(
        "weighin.standings.queries.embargo.timezone.now", lambda: datetime.fromisoformat(now).replace(tzinfo=zone)
    )
    assert moment_of(event, clock) == datetime.fromisoformat(moment).replace(tzinfo=zone)

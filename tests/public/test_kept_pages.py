"""Public pages are kept: each thing that they depend on changes them, and nobody's own page is ever among them."""

import uuid
from collections.abc import Callable
from datetime import datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import world
from django.core.management import call_command
from django.db import connection
from django.template import engines
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from public.test_embargo import public_addresses

from weighin.audit.database.life import begin_another_life
from weighin.audit.models import DatabaseLife
from weighin.audit.services import writing
from weighin.checkin.services.check_ins import record_check_in
from weighin.clubs.services.clubs import change_water, rename_club
from weighin.events.models import Event
from weighin.events.services.events import DAY_FIELDS, FIELDS, change_day, change_event
from weighin.events.services.rule_sheet import change_rules
from weighin.line.queries import day_of
from weighin.line.services.words import say
from weighin.public.access import MADE
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import change_entry
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip, record_slip, settle, void_slip
from weighin.standings.queries.shown import standings_shown
from weighin.standings.queries.standings import Standings, standings_of
from weighin.standings.services import lift_embargo, publish_result, set_public, start_embargo
from weighin.tanks.services.bags import hand_over
from weighin.ui.kept import KEEPER

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("still_clock")]
SLIP = {"boat": "4", "day": "1", "fish": "1", "alive": "0", "dead": "1", "gross": "1.37", "official": "P. Rowe"}


def opened() -> Event:
    event = world.plain()
    world.member(event.club)
    set_public(event, True, "test")
    return Event.objects.get(pk=event.pk)


def addresses(event: Event) -> list[str]:
    return [*public_addresses(event), "/"]


def shown(event: Event) -> dict[str, tuple[int, str, bytes]]:
    answers = {where: Client().get(where) for where in addresses(event)}
    return {
        where: (said.status_code, said.get("ETag", ""), MADE.sub(b"", said.content)) for where, said in answers.items()
    }


def slip_of(event: Event, boat: int = 4) -> WeighSlip:
    return WeighSlip.objects.current().get(event=event, entry__boat=boat, day=1)


def corrected(event: Event) -> None:
    correct_slip(slip_of(event), {**SLIP, "reason": "misread"}, "test")


def voided(event: Event) -> None:
    void_slip(slip_of(event), "wrong boat", "test")


def weighed_again(event: Event) -> None:
    record_slip(event, SLIP, "test")


def settled(event: Event) -> None:
    settle(slip_of(event, 3), "the other tablet", "test")


def checked_in(event: Event, boat: int, day: int = 1) -> None:
    late = datetime.combine(event.event_days.get(number=day).date, time(16, 30), ZoneInfo(event.time_zone))
    said = {"boat": str(boat), "day": str(day), "whereabouts": "in_by_water", "official": "P. Rowe"}
    record_check_in(event, {**said, "checked_in": late.isoformat()}, "test", uuid.uuid4(), asked=False)


def checked_in_late(event: Event) -> None:
    checked_in(event, 4)


def turned_out(event: Event) -> None:
    entry = event.entries.get(boat=4)
    mine = tuple(angler.name for angler in entry.anglers.all())
    change_entry(entry, EntryValues(4, entry.name, mine, None, entry.flight_name, True, status="disqualified"), "test")


def renamed_team(event: Event) -> None:
    entry = event.entries.get(boat=4)
    change_entry(entry, EntryValues(4, "Otherwise", ("A. Name",), None, entry.flight_name, True), "test")


def weather(event: Event) -> None:
    day = event.event_days.get(number=1)
    said: dict[str, Any] = {name: getattr(day, name) for name in DAY_FIELDS}
    change_day(event, 1, {**said, "weather": "A dry squall", "lake_temp": "91 F"}, "test")


def due_earlier(event: Event) -> None:
    said: dict[str, Any] = {name: getattr(event, name) for name in FIELDS} | {"days": 3, "ramp": "North ramp"}
    change_event(event, {**said, "name": "Renamed event"}, "test")


def renamed_club(event: Event) -> None:
    rename_club(event.club, "Another Club of the Bank", "test")


def higher_water(event: Event) -> None:
    change_water(event.water, "Renamed water", 6000, "test")


def bag_given(event: Event) -> None:
    checked_in(event, 5, day_of(event))
    say(event, day_of(event), "bag_issued", "test", word_id=uuid.uuid4(), boat=5)


def held_line(event: Event) -> None:
    say(event, day_of(event), "hold", "test", word_id=uuid.uuid4(), oxygen_minutes=5)


def handed(event: Event) -> None:
    hand_over(event, 1, 2, "test")


def published(event: Event) -> None:
    publish_result(event, "test")


def held_back(event: Event) -> None:
    start_embargo(event, timezone.now(), "test")


def taken_back(event: Event) -> None:
    set_public(event, False, "test")


def restored(event: Event) -> None:
    """Another life of the database has the same revision and other rows."""
    with writing():
        begin_another_life()
        Event.objects.filter(pk=event.pk).update(name="Of another life")


CHANGES: dict[Callable[[Event], None], tuple[str, ...]] = {
    corrected: ("event", "standings", "screen", "crowd", "mortality", "why", "api_event", "api_proof", "check"),
    voided: ("event", "standings", "screen", "crowd", "mortality", "why", "api_event", "api_proof", "check"),
    weighed_again: ("standings", "why", "api_event", "api_proof", "check"),
    checked_in_late: ("standings", "why", "api_event", "api_proof", "check"),
    turned_out: ("standings", "screen", "crowd", "api_event", "api_proof", "check"),
    renamed_team: ("standings", "api_event", "api_proof", "check"),
    weather: ("event", "briefing", "briefing_file"),
    due_earlier: ("event", "standings", "screen", "crowd", "rules", "mortality", "briefing", "api_event", "home"),
    renamed_club: ("event", "api_event", "home"),
    higher_water: ("event", "briefing", "api_event", "home"),
    held_line: ("crowd", "screen"),
    published: ("event", "standings", "screen", "crowd"),
    held_back: ("event", "standings", "screen", "crowd", "mortality"),
    restored: ("event", "standings", "screen", "crowd", "rules", "mortality", "briefing", "api_event", "home"),
    taken_back: ("home",),
    handed: (),
    bag_given: ("crowd", "screen"),
}  # fmt: skip


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.__name__)
def test_each_thing_changes_the_pages_that_show_it_and_leaves_nothing_stale(change: Callable[[Event], None]) -> None:
    event = opened()
    DatabaseLife.objects.get_or_create(pk=1)
    before = shown(event)
    assert shown(event) == before
    change(event)
    after = shown(event)
    KEEPER.clear()
    anew = shown(event)
    for where, (status, tag, body) in anew.items():
        assert after[where][0] == status and (after[where][2] == body or where.endswith(".pdf")), where
        if status == 200 and not where.endswith(".pdf"):
            assert after[where][1] == tag and (tag == before[where][1]) == (body == before[where][2]), where
    known: dict[str, Any] = {"event_slug": event.slug, "boat": 4}
    for name in CHANGES[change]:
        keys = {} if name == "home" else {key: known[key] for key in known if key != "boat" or name == "why"}
        where = reverse(f"public:{name}", kwargs=keys)
        assert after[where][1] != before[where][1], where
        assert Client().get(where, headers={"if-none-match": before[where][1]}).status_code == 200, where
    if change is taken_back:
        assert {said[0] for where, said in after.items() if where != "/"} == {404}


def test_the_standings_of_a_revision_are_worked_out_once_for_all_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    event, worked_out = opened(), list[int]()

    def counted(of: Event, held: datetime | None) -> Standings:
        worked_out.append(of.revision)
        return standings_of(of, held)

    monkeypatch.setattr("weighin.standings.queries.shown.standings_of", counted)
    names = ("crowd", "standings", "api_event")
    for _ in range(2):
        before = [Client().get(reverse(f"public:{name}", args=[event.slug])).content for name in names]
    assert len(worked_out) == 1
    old = Event.objects.get(pk=event.pk)
    corrected(event)
    after = [Client().get(reverse(f"public:{name}", args=[event.slug])).content for name in names]
    assert len(worked_out) == 2 and all(b"1.37" in now for now in after[1:]) and before[1] != after[1]
    # Whoever read the event before the correction makes standings for itself alone
    standings_shown(old, None)
    assert worked_out[2:] == [old.revision]
    assert standings_shown(Event.objects.get(pk=event.pk), None) and len(worked_out) == 3


def test_rules_change_before_the_first_slip() -> None:
    event = world.event("Rules", 3)
    set_public(event, True, "test")
    where = reverse("public:rules", args=[event.slug])
    before = Client().get(where).content.decode()
    change_rules(event, {**event.rule_sheet.written, "dead_fish_penalty": "0.77"}, "test")
    assert "0.77" not in before and "0.77" in Client().get(where).content.decode()


def test_an_imported_event_takes_the_place_of_the_one_before(tmp_path: Any) -> None:
    event = world.event("Brought in", 3)
    set_public(event, True, "test")
    where = reverse("public:event", args=[event.slug])
    file = tmp_path / "event.xlsx"
    call_command("export_event", event.slug, format="xlsx", out=file)
    before = Client().get(where)
    event.refresh_from_db()
    call_command("import_event", str(file), replace=True)
    again = Event.objects.get(slug=event.slug)
    assert again.pk != event.pk or again.revision != event.revision
    assert Client().get(where).status_code == (200 if again.is_public else 404) and before.status_code == 200


def test_the_end_of_a_hold_shows_all_again_at_once() -> None:
    event = opened()
    held_back(event)
    corrected(event)
    where = reverse("public:api_event", args=[event.slug])
    assert "1.37" not in Client().get(where).content.decode()
    lift_embargo(event, "test")
    assert "1.37" in Client().get(where).content.decode()


def test_what_may_not_be_seen_changes_no_entity_tag() -> None:
    event = opened()
    held_back(event)
    before = shown(event)
    for number in range(5):
        correct_slip(slip_of(event), {**SLIP, "gross": f"1.4{number}", "reason": "misread"}, "test")
        after = shown(event)
        assert {where: said[1] for where, said in after.items() if not where.endswith(".pdf")} == {
            where: said[1] for where, said in before.items() if not where.endswith(".pdf")
        }


def test_time_that_passes_shows_where_a_page_tells_it(monkeypatch: pytest.MonkeyPatch) -> None:
    event = opened()
    where = reverse("public:crowd", args=[event.slug])
    begun = datetime(2026, 6, 20, 20, 10, 30, tzinfo=timezone.get_default_timezone())
    monkeypatch.setattr("django.utils.timezone.now", lambda: begun)
    first = Client().get(where)
    monkeypatch.setattr("django.utils.timezone.now", lambda: begun + timedelta(seconds=20))
    assert Client().get(where).content == first.content
    monkeypatch.setattr("django.utils.timezone.now", lambda: begun + timedelta(minutes=2))
    later = Client().get(where)
    assert "as of 3:10 PM" in first.content.decode() and "as of 3:12 PM" in later.content.decode()
    assert later["ETag"] == first["ETag"]  # nothing else is different, so a poll is a 304
    dark = timedelta(hours=6)
    screen = reverse("public:screen", args=[event.slug])
    assert 'data-light="sun"' in Client().get(screen).content.decode()
    monkeypatch.setattr("django.utils.timezone.now", lambda: begun + dark)
    assert 'data-light="night"' in Client().get(screen).content.decode()


def test_the_day_after_the_last_makes_the_finding_final(monkeypatch: pytest.MonkeyPatch) -> None:
    event = world.event("Empty", 3)
    set_public(event, True, "test")
    where = reverse("public:mortality", args=[event.slug])
    evening = datetime.combine(event.date, time(23, 59, 50), datetime.fromisoformat("2026-06-20T00:00-05:00").tzinfo)
    monkeypatch.setattr("django.utils.timezone.now", lambda: evening)
    assert "No fish is at the scales yet." in Client().get(where).content.decode()
    monkeypatch.setattr("django.utils.timezone.now", lambda: evening + timedelta(seconds=11))
    assert "No fish was brought to the scales." in Client().get(where).content.decode()


def test_words_that_a_page_does_not_know_are_the_page_without_them() -> None:
    event = opened()
    where = reverse("public:crowd", args=[event.slug])
    plain = Client().get(where)
    with CaptureQueriesContext(connection) as asked:
        other = Client().get(where, {"x": "1", "light": "pink"})
    assert other.content == plain.content and len(asked) == 1
    assert Client().get(where, {"light": "night"}).content != plain.content
    found = Client().get(reverse("public:standings", args=[event.slug]), {"q": "pair", "x": "<b>"})
    assert found.status_code == 200 and "<b>" not in found.content.decode()


def test_a_kept_page_and_a_304_ask_one_statement() -> None:
    event = opened()
    for where in addresses(event):
        tag = Client().get(where)["ETag"]
        for headers in ({}, {"if-none-match": tag}):
            with CaptureQueriesContext(connection) as asked:
                said = Client().get(where, headers=headers)
            assert said.status_code == (304 if headers else 200)
            assert len(asked) == (2 if where == "/" else 1), where
            assert "JOIN" not in asked[-1]["sql"], where


def test_no_signed_in_persons_page_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """Even where a page would say who reads it, the one that is kept says nobody."""
    event = opened()
    django = engines["django"].engine  # type: ignore[attr-defined]

    def marked(request: Any) -> dict[str, Any]:
        told = f"{request.user} {sorted(request.COOKIES)} {request.META.get('HTTP_X_OWN')}"
        return {"unit": told, "sections": [], "events": [{"name": told, "date": event.date}]}

    monkeypatch.setitem(django.__dict__, "template_context_processors", (*django.template_context_processors, marked))
    member = world.member(event.club, username="somebody")
    for where in public_addresses(event):
        first = member.get(where, headers={"x-own": "mine"}).content
        stranger = Client().get(where).content
        for body in (first, stranger):
            assert b"somebody" not in body and b"sessionid" not in body and b"mine" not in body, where
        assert "Set-Cookie" not in str(Client().get(where).headers) and b"csrfmiddlewaretoken" not in stranger, where


def test_the_list_of_events_tells_who_signed_out_and_nobody_else() -> None:
    event = opened()
    member = world.member(event.club)
    assert "You are signed out." in member.post(reverse("accounts:sign_out"), follow=True).content.decode()
    assert "You are signed out." not in Client().get("/").content.decode()

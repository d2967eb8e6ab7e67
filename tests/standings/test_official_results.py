"""Official results: frozen, numbered, refused when they should be, and never changed."""

import pytest
import world
from django.db import DatabaseError, connection, transaction
from django.urls import reverse

from weighin.audit.models import AppendOnlyError, HistoryEntry
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip, record_slip
from weighin.standings.models import OfficialResult
from weighin.standings.services import publish_result, set_closed

pytestmark = pytest.mark.django_db
CHANGED = {"boat": "4", "day": "1", "fish": "1", "alive": "1", "dead": "0", "gross": "1.50", "reason": "misread"}


def slip_of(event: Event, boat: int) -> WeighSlip:
    return WeighSlip.objects.current().get(event=event, entry__boat=boat, day=1)


def test_a_later_version_needs_a_change_and_a_reason_and_leaves_the_first_alone() -> None:
    event = world.plain()
    first = publish_result(event, "dora")
    with pytest.raises(Faults, match="nothing changed"):
        publish_result(event, "dora", "again")
    correct_slip(slip_of(event, 4), CHANGED, "dora")
    with pytest.raises(Faults, match="why there is a new one"):
        publish_result(event, "dora")
    second = publish_result(event, "dora", "boat 4 was misread")
    assert (first.version, second.version) == (1, 2)
    kept = OfficialResult.objects.get(pk=first.pk)
    assert kept.document["standings"] != second.document["standings"]
    assert HistoryEntry.objects.filter(event_id=event.pk, act="result.published").count() == 2


def test_nothing_is_published_while_a_team_is_in_question_or_nothing_is_weighed() -> None:
    event = world.plain()
    record_slip(event, {"boat": "4", "day": "1", "fish": "0", "alive": "0", "dead": "0"}, "test")
    with pytest.raises(Faults, match="boat 4 has two slips"):
        publish_result(event, "dora")
    with pytest.raises(Faults, match="no slip is saved"):
        publish_result(world.event_of(world.plain_sheets(without=["Slips"], event="Empty")), "dora")
    assert not OfficialResult.objects.exists()


def test_a_result_cannot_be_changed_by_code_or_in_the_database() -> None:
    result = publish_result(world.plain(), "dora")
    result.reason = "another"
    with pytest.raises(AppendOnlyError):
        result.save()
    with pytest.raises(AppendOnlyError):
        OfficialResult.objects.update(reason="another")
    for statement in ("UPDATE standings_officialresult SET reason = 'another'", "DELETE FROM standings_officialresult"):
        with pytest.raises(DatabaseError, match="only ever added"), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(statement)


def test_a_closed_event_takes_no_slip_until_it_is_opened_again() -> None:
    event = world.plain()
    set_closed(event, True, "dora")
    with pytest.raises(Faults, match="is closed"):
        correct_slip(slip_of(event, 4), CHANGED, "dora")
    with pytest.raises(Faults, match="reopened"):
        set_closed(event, False, "dora")
    set_closed(event, False, "dora", "a slip was forgotten")
    assert correct_slip(slip_of(event, 4), CHANGED, "dora").gross == "1.50"


def test_the_pages_of_the_public_can_be_taken_back() -> None:
    event = world.plain()
    client, where = world.member(event.club), reverse("standings:results", args=[event.slug])
    assert "No official result yet" in client.get(where).content.decode()
    publish_result(event, "dora")
    assert "Official results, version 1" in client.get(where).content.decode()
    assert client.get(reverse("standings:result", args=[event.slug, 1])).status_code == 200
    assert client.get(reverse("standings:result", args=[event.slug, 2])).status_code == 404
    client.post(where, {"act": "take-back"})
    event.refresh_from_db()
    assert not event.is_public


def test_only_directors_publish_and_close() -> None:
    event = world.plain()
    results = reverse("standings:results", args=[event.slug])
    for role in ("weigh_official", "fish_care_official", "club_reviewer"):
        client = world.member(event.club, role)
        assert "See what is open" not in client.get(results).content.decode()
        for act in ("publish", "close"):
            where = reverse(f"operations:{act}", args=[event.slug])
            assert client.get(where).status_code == client.post(where, {"sure": "on"}).status_code == 403
    assert not OfficialResult.objects.exists()


def test_what_is_no_longer_so_is_not_called_official() -> None:
    event = world.plain()
    publish_result(event, "dora")
    event.refresh_from_db()
    client, where = world.member(event.club), reverse("standings:live", args=[event.slug])
    assert "Standings, official" in client.get(where).content.decode()
    entry = event.entries.get(boat=2)
    entry.paid = False
    entry.save()
    Event.objects.filter(pk=event.pk).update(revision=event.revision + 1)
    html = client.get(where).content.decode()
    assert "Standings, provisional" in html and "Something changed since official results, version 1" in html
    public = client.get(reverse("public:event", args=[event.slug])).content.decode()
    assert "Version 1</a> holds until" in public and reverse("public:result", args=[event.slug, 1]) in public
    assert publish_result(event, "dora", "a refund").version == 2


def test_on_a_phone_a_penalty_says_what_it_is() -> None:
    event = world.plain()
    publish_result(event, "dora")
    page = world.member(event.club).get(reverse("standings:result", args=[event.slug, 1])).content.decode()
    assert 'taken-off" data-label="Penalty"' in page, "its head is not seen there, and it stands after the points"


def test_a_version_says_short_fish_and_points_as_the_live_standings_and_the_file_do() -> None:
    event = world.plain()
    publish_result(event, "dora")
    director = world.member(event.club)
    page = director.get(reverse("standings:result", args=[event.slug, 1])).content.decode()
    live = director.get(reverse("standings:live", args=[event.slug])).content.decode()
    assert "1 short" in page and "1 short" in live
    assert 'data-label="Points">0</td>' in page, "a boat without points has 0, as in its PDF"


def test_every_version_can_be_read_in_public() -> None:
    event = world.plain()
    publish_result(event, "dora")
    correct_slip(slip_of(event, 4), CHANGED, "dora")
    publish_result(event, "dora", "boat 4 was misread")
    client = world.stranger()
    first = client.get(reverse("public:result", args=[event.slug, 1])).content.decode()
    second = client.get(reverse("public:result", args=[event.slug, 2])).content.decode()
    assert "boat 4 was misread" in second and "boat 4 was misread" not in first
    assert client.get(reverse("public:result", args=[event.slug, 3])).status_code == 404

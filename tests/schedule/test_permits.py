"""The permit checklist: dates counted back from the event, who did what and when, and what is due next."""

from datetime import date

import pytest
import world
from checkin.clock import Clock, clock
from django.urls import reverse

from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.schedule.models import PermitLine
from weighin.schedule.queries.permits import checklist_of, next_due
from weighin.schedule.services.calling_off import postpone_event
from weighin.schedule.services.permits import begin_checklist, keep_line, tick

__all__ = ["clock"]
pytestmark = pytest.mark.django_db


@pytest.fixture
def event(clock: Clock) -> Event:
    clock("2026-06-01T12:00:00-05:00")
    return world.event()


def test_it_begins_with_the_usual_lines_and_defers_to_the_agency(event: Event) -> None:
    director, where = world.member(event.club), reverse("schedule:permits", args=[event.slug])
    page = director.get(where).content.decode()
    assert "No permit checklist yet." in page and "Your agency’s rules and your permit come first" in page
    director.post(reverse("schedule:permits_begin", args=[event.slug]))
    lines = list(PermitLine.objects.filter(event=event))
    assert lines[0].what == "Agency permit for the tournament" and len(lines) > 6
    director.post(reverse("schedule:permits_begin", args=[event.slug]))
    assert PermitLine.objects.count() == len(lines)
    page = director.get(where).content.decode()
    assert "lines are late" in page and "Next: Agency permit for the tournament: 41 days late" in page


def test_due_counts_back_from_the_first_day_and_moves_with_it(event: Event) -> None:
    keep_line(event, {"what": "Insurance", "days_before": "14"}, "test")
    (one,) = checklist_of(event)
    assert one.line.due == date(2026, 6, 6) and one.said == "due in 5 days" and not one.is_late
    assert next_due(event) == "Insurance: due in 5 days, Jun 6."
    postpone_event(event, date(2026, 6, 27), "High water", "test")
    event.refresh_from_db()
    assert checklist_of(event)[0].line.due == date(2026, 6, 13)


@pytest.mark.parametrize(("days", "said"), [("19", "due today"), ("20", "1 day late"), ("18", "due in 1 day")])
def test_how_it_stands_in_words(event: Event, days: str, said: str) -> None:
    keep_line(event, {"what": "Insurance", "days_before": days}, "test")
    assert checklist_of(event)[0].said == said


def test_ticked_off_by_whom_and_when_and_opened_again(event: Event) -> None:
    line = keep_line(event, {"what": "Insurance", "days_before": "14"}, "test")
    director, where = (
        world.member(event.club, username="ash"),
        reverse("schedule:permit_tick", args=[event.slug, line.pk]),
    )
    page = director.post(where, follow=True).content.decode()
    assert "done Jun 1 by ash" in page and "Everything on the permit checklist is done." in page
    assert next_due(event) == ""
    page = director.post(where, {"open": "yes"}, follow=True).content.decode()
    assert "due in 5 days" in page
    line.refresh_from_db()
    assert line.done_on is None and line.done_by == ""


def test_a_line_is_added_changed_and_removed_each_with_its_history(event: Event) -> None:
    director = world.member(event.club)
    said = {"act": "change", "what": "Ramp", "days_before": "30", "who": "Wren", "note": "Ask the park office"}
    director.post(reverse("schedule:permit_new", args=[event.slug]), said)
    line = PermitLine.objects.get()
    assert (line.what, line.days_before, line.who, line.note) == ("Ramp", 30, "Wren", "Ask the park office")
    where = reverse("schedule:permit", args=[event.slug, line.pk])
    assert "Ask the park office" in director.get(where).content.decode()
    director.post(where, {**said, "who": "Teal", "done_on": "2026-05-20", "done_by": "Teal"})
    line.refresh_from_db()
    assert line.who == "Teal" and line.done_on == date(2026, 5, 20)
    page = director.post(where, {**said, "done_on": "2026-05-20", "days_before": "soon", "what": ""}).content.decode()
    assert "This is blank: write what is to be settled." in page and "soon" in page
    page = director.post(where, {**said, "done_on": "2026-05-20"}).content.decode()
    assert "Write who did it." in page
    page = director.post(where, {**said, "done_by": "Teal"}).content.decode()
    assert "Write the date on which it was done." in page
    director.post(where, {"act": "remove"})
    assert not PermitLine.objects.exists()
    assert [entry.act for entry in HistoryEntry.objects.filter(act__startswith="permit_line").order_by("id")] == [
        "permit_line.written", "permit_line.changed", "permit_line.taken_out",
    ]  # fmt: skip
    assert director.get(where).status_code == 404


def test_the_events_page_says_what_is_due_next_before_the_day_only(event: Event, clock: Clock) -> None:
    keep_line(event, {"what": "Insurance", "days_before": "14"}, "test")
    viewer, page = world.member(event.club, "club_reviewer"), reverse("operations:day", args=[event.slug])
    assert "Insurance: due in 5 days, Jun 6." in viewer.get(page).content.decode()
    clock("2026-06-25T12:00:00-05:00")
    assert "Insurance" not in viewer.get(page).content.decode()


def test_a_closed_event_keeps_its_list(event: Event) -> None:
    line = keep_line(event, {"what": "Insurance", "days_before": "14"}, "test")
    Event.objects.filter(pk=event.pk).update(closed_at="2026-06-22T00:00:00Z")
    director = world.member(event.club)
    page = director.post(reverse("schedule:permit_tick", args=[event.slug, line.pk]), follow=True).content.decode()
    assert "is closed" in page and "Done<span" not in page
    page = director.post(reverse("schedule:permits_begin", args=[event.slug]), follow=True)
    assert PermitLine.objects.count() == 1
    PermitLine.objects.all().delete()
    page = director.post(reverse("schedule:permits_begin", args=[event.slug]), follow=True).content.decode()
    assert "is closed" in page and not PermitLine.objects.exists()


def test_it_goes_with_an_event_that_is_removed(event: Event) -> None:
    begin_checklist(event, "test")
    tick(PermitLine.objects.all()[0], date(2026, 5, 1), "test")
    world.member(event.club).post(
        reverse("events:remove", args=[event.slug]), {"name": event.name, "reason": "by mistake"}
    )
    assert not Event.objects.exists() and not PermitLine.objects.exists()

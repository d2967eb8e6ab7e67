"""The next event from the last, in one act: what is agreed goes along, what was paid and written of the day does not."""

from datetime import date

import pytest
import world
from django.urls import reverse

from weighin.audit.models import HistoryEntry
from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.line.queries import terms_of
from weighin.line.services.words import set_terms
from weighin.planning.queries import care_plan_values
from weighin.registration.services.payments import take_payment
from weighin.registration.services.side_pots import declare_side_pot
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.queries import contacts_of
from weighin.roster.services.contacts import keep_contact
from weighin.roster.services.erasing import erase_anglers
from weighin.roster.services.teams import enter_team
from weighin.schedule.services.next_event import make_next
from weighin.schedule.services.permits import keep_line, tick
from weighin.workbooks.parsing.reading import read_workbook

pytestmark = pytest.mark.django_db


def test_teams_flights_rules_and_days_go_along_and_money_and_slips_do_not() -> None:
    event = world.plain()
    event.entries.filter(boat=5).update(status=Entry.Status.WITHDRAWN)
    director = world.member(event.club)
    where = reverse("operations:next_event", args=[event.slug])
    assert "Payments, pot entries, draws, permit, weather, slips and care notes are not copied." in director.get(where).content.decode()  # fmt: skip
    answer = director.post(where, {"name": "Autumn event", "season": event.season_id, "date": "2026-10-03"})
    assert answer.status_code == 302, answer.content.decode()
    made = Event.objects.get(name="Autumn event")
    assert answer["Location"] == reverse("events:setup", args=[made.slug])
    assert [day.date for day in made.event_days.all()] == [date(2026, 10, 3), date(2026, 10, 4), date(2026, 10, 5)]
    assert {day.status for day in made.event_days.all()} == {"fished"}
    assert {day.weather + day.lake_temp + day.note for day in made.event_days.all()} == {""}
    kept = ("start_time", "due_time")
    assert [[getattr(d, n) for n in kept] for d in made.event_days.all()] == [
        [getattr(d, n) for n in kept] for d in event.event_days.all()
    ]
    assert made.rule_sheet.written == event.rule_sheet.written
    flights = ("name", "day", "launch", "due_time")
    assert list(made.flights.values_list(*flights)) == list(event.flights.values_list(*flights))
    teams = ("boat", "name", "team_id", "youth", "flight_name")
    assert list(made.entries.values_list(*teams)) == list(event.entries.exclude(boat=5).values_list(*teams))
    assert [a.name for e in made.entries.all() for a in e.anglers.all()] == [
        a.name for e in event.entries.exclude(boat=5) for a in e.anglers.all()
    ]
    assert event.entries.filter(paid=True).exists()
    assert not made.entries.filter(paid=True).exists() and not made.entries.filter(big_fish_pot=True).exists()
    assert not made.entries.exclude(lot=None).exists() and not made.entries.exclude(note="").exists()
    assert not made.slips.exists() and not made.care_notes.exists() and not made.is_public
    assert HistoryEntry.objects.filter(event_id=made.pk, act="event.made_from").exists()


def test_names_that_were_erased_go_along_to_no_event() -> None:
    event = world.plain()
    first, second = event.entries.order_by("number")[:2]
    # Of the first team one name is erased, of the second all
    gone = [first.anglers.all()[0], *second.anglers.all()]
    with writing():
        erase_anglers(event, gone, lambda text: False, "test")
    page = world.member(event.club).get(reverse("operations:next_event", args=[event.slug]))
    made = make_next(event, {"name": "Autumn", "season": event.season, "date": date(2026, 10, 3)}, "test")
    named = {entry.boat: [angler.name for angler in entry.anglers.all()] for entry in made.entries.all()}
    assert named[first.boat] == [first.anglers.all()[1].name] and second.boat not in named
    assert page.context["teams"] == len(named) == event.entries.count() - 1


def test_one_press_makes_it_with_contacts_pots_and_the_checklist_undone() -> None:
    event = world.plain()
    director, where = world.member(event.club), reverse("operations:next_event", args=[event.slug])
    entry = event.entries.get(boat=2)
    reached = ContactValues(phone="555-0107", emergency="Teal 555-0199", email="ash@example.org")
    keep_contact(entry, reached, "test")
    enter_team(event, EntryValues(boat=None, name="Waiting pair", anglers=("Zed",)), "test")
    declare_side_pot(event, {"name": "Slab", "fee": "10", "wins": "big_fish", "shares": "60, 40"}, "test")
    take_payment(event, {"entry": "2", "kind": "side_pot", "pot": "Slab", "amount": "10", "means": "cash"}, "test")
    line = keep_line(
        event, {"what": "Insurance", "days_before": "30", "who": "Wren", "note": "Policy in the box"}, "test"
    )
    tick(line, date(2026, 1, 2), "test")
    set_terms(event, "test", scales=3, bags=9, walk_seconds=40, boat_seconds=100)
    form = director.get(where).context["form"]
    answer = director.post(
        where, {name: form[name].value() for name in ("name", "season")} | {"date": form["date"].value()}
    )
    assert answer.status_code == 302, answer.content.decode()
    made = Event.objects.get(name="Plain event 2")
    assert (made.date - event.date).days % 7 == 0
    assert contacts_of(made)[made.entries.get(boat=2).pk] == reached and len(contacts_of(made)) == 1
    assert Entry.everyone.filter(event=made, boat=None).count() == 1
    assert list(made.side_pots.values_list("name", "fee", "wins", "shares")) == [("Slab", 10, "big_fish", "60, 40")]
    assert not made.payments.exists()
    copied = made.permit_lines.get()
    assert (copied.what, copied.days_before, copied.who, copied.note) == ("Insurance", 30, "Wren", "Policy in the box")
    assert copied.done_on is None and copied.done_by == ""
    assert (terms_of(made).scales, terms_of(made).walk_seconds, terms_of(made).boat_seconds) == (3, 40, 100)
    assert care_plan_values(made, made.event_days.all()[0])["scales"] == "3"


def test_its_tanks_are_offered_with_their_volume_and_no_load() -> None:
    event = world.plain()
    event.tank_readings.update(tank="Blue", volume_gal="150", fish_lb="40")
    director = world.member(event.club)
    director.post(reverse("operations:next_event", args=[event.slug]), {"name": "Autumn event", "season": event.season_id, "date": "2026-10-03"})  # fmt: skip
    made = Event.objects.get(name="Autumn event")
    page = director.get(reverse("tanks:tanks_new", args=[made.slug]) + "?tank=blue").content.decode()
    assert '<option value="Blue">' in page and 'value="150"' in page and 'value="40"' not in page


def test_a_name_that_is_taken_or_a_wrong_date_makes_nothing() -> None:
    event = world.plain()
    director, where = world.member(event.club), reverse("operations:next_event", args=[event.slug])
    page = director.post(where, {"name": event.name, "season": event.season_id, "date": "2026-10-03"}).content.decode()
    assert "already: write another name" in page
    assert "Write a date such as" in director.post(where, {"name": "B", "season": event.season_id, "date": "soon"}).content.decode()  # fmt: skip
    assert Event.objects.count() == 1
    assert world.member(event.club, "weigh_official").get(where).status_code == 403


def test_a_day_before_the_first_is_a_fault(tmp_path: object) -> None:
    """A workbook of the last event whose Days sheet was forgotten."""
    from second_reading.workbook import write

    sheets = world.plain_sheets(date="2026-12-05")
    assert sheets["Days"]
    sheets["Days"][0]["date"] = "2026-11-28"
    file = tmp_path / "event.xlsx"  # type: ignore[operator]
    write(sheets, file)
    plan, report = read_workbook(file)
    assert plan is None
    assert any("day 1 is on 2026-11-28, but the event begins on 2026-12-05" in message for _, message in report.faults)
    event = world.plain()
    page = world.member(event.club).post(
        reverse("events:day", args=[event.slug, 2]), {"status": "fished", "date": "2026-02-01"}
    )
    assert "before the event’s first day" in page.content.decode()

"""Making, changing and listing events in the browser's words."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.events.access import find
from weighin.events.models import Event
from weighin.events.services.events import make_event
from weighin.rules.rulebook import defaults

Said = dict[str, str]


def send(client: Client, event: Event, said: Said) -> str:
    """The event form sent for a change; the page that comes back."""
    return client.post(reverse("events:edit", args=[event.slug]), said, follow=True).content.decode()


def fresh(event: Event) -> Event:
    found = find(event.slug)
    assert found is not None
    return found


def test_an_event_is_made_with_its_days_and_the_default_rules(director: Client, club: Club, said: Said) -> None:
    answer = director.post(reverse("events:new", args=[club.slug]), said)
    assert answer["Location"] == reverse("events:setup", args=["midsummer-pairs-2026"])
    event = Event.objects.get()
    assert [(d.number, str(d.date)) for d in event.event_days.all()] == [(1, "2026-06-20"), (2, "2026-06-21")]
    assert event.rule_sheet.written == defaults("lb").written()
    assert (event.elevation_ft, event.revision, event.is_public) == ("740", 1, False)
    entry = HistoryEntry.objects.get()
    assert (entry.actor, entry.act, entry.event_id) == ("mara", "event.made", event.pk)
    page = director.get(answer["Location"]).content.decode()
    assert "Two days, no flights, no team yet." in page


@pytest.mark.parametrize(
    ("field", "text", "sentence"),
    [
        ("name", "", "This is blank"),
        ("name", "Bad\tname", "line breaks or control characters"),
        ("days", "0", "Write 1 or more"),
        ("days", "61", "Write 60 or less"),
        ("date", "midsummer", "Write a date such as Jun 20, 2026"),
        ("due_time", "25:00", "Write a time such as 2:30 PM"),
        ("time_zone", "Chicago", "is not a time zone"),
        ("weight_unit", "stone", "Select a valid choice"),
        ("lake_temp", "820", "outside the range of water"),
        ("lake_temp", "150 F", "outside the range of water"),
        ("elevation_ft", "high", "is not a number"),
        ("entry_fee", "-1", "is negative"),
        ("entry_fee", "1.234", "2 decimal places"),
        ("season", "999999", "Select a valid choice"),
    ],
)
def test_a_fault_stands_at_its_field_and_nothing_is_lost(
    director: Client, club: Club, said: Said, field: str, text: str, sentence: str
) -> None:
    page = director.post(reverse("events:new", args=[club.slug]), said | {field: text, "permit": "WD-12"})
    assert sentence in page.content.decode()
    assert 'value="WD-12"' in page.content.decode()
    assert field in page.context["form"].errors
    assert not Event.objects.exists() and not HistoryEntry.objects.exists()


def test_all_faults_are_named_at_once(director: Client, club: Club, said: Said) -> None:
    wrong = said | {"time_zone": "Chicago", "lake_temp": "820", "elevation_ft": "high"}
    form = director.post(reverse("events:new", args=[club.slug]), wrong).context["form"]
    assert set(form.errors) == {"time_zone", "lake_temp", "elevation_ft"}


def test_a_time_that_the_clocks_skip_is_refused(director: Client, club: Club, said: Said) -> None:
    spring = said | {"date": "2026-03-08", "days": "1", "start_time": "02:30"}
    page = director.post(reverse("events:new", args=[club.slug]), spring).content.decode()
    assert "2:30 AM does not exist on Mar 8, 2026" in page
    assert not Event.objects.exists()


def test_names_are_used_once_a_season_and_addresses_once_a_site(
    director: Client, club: Club, said: Said, event: Event
) -> None:
    where = reverse("events:new", args=[club.slug])
    assert (
        "has an event midsummer pairs already"
        in director.post(where, said | {"name": "midsummer  pairs"}).content.decode()
    )
    club.seasons.create(name="Other", slug="other")
    director.post(where, said | {"season": str(club.seasons.get(slug="other").pk)})
    assert set(Event.objects.values_list("slug", flat=True)) == {"midsummer-pairs-2026", "midsummer-pairs-2026-2"}


def test_the_next_event_starts_from_the_last_one(director: Client, club: Club, said: Said, event: Event) -> None:
    where = reverse("events:new", args=[club.slug])
    form = director.get(where).context["form"]
    assert form["entry_fee"].initial == event.entry_fee and form["rules_from"].initial == event
    event.rule_sheet.written = {**event.rule_sheet.written, "fish_limit": "5"}
    event.rule_sheet.save()
    director.post(where, said | {"name": "August Morning", "rules_from": str(event.pk)})
    assert Event.objects.get(name="August Morning").rule_sheet.written["fish_limit"] == "5"


def test_another_clubs_rule_sheet_season_and_water_cannot_be_named(
    director: Client, club: Club, said: Said, event: Event
) -> None:
    other = world.plain()
    wrong = said | {
        "name": "New",
        "rules_from": str(other.pk),
        "season": str(other.season_id),
        "water": str(other.water_id),
    }
    form = director.post(reverse("events:new", args=[club.slug]), wrong).context["form"]
    assert set(form.errors) == {"rules_from", "season", "water"}


def test_a_club_without_season_or_water_is_told_so(club: Club, director: Client) -> None:
    club.waters.all().delete()
    said = director.get(reverse("events:new", args=[club.slug])).content.decode()
    assert "An event needs a season and a lake first." in said and "<form class" not in said


def test_a_change_is_noted_with_before_and_after(director: Client, said: Said, event: Event) -> None:
    page = send(director, event, said | {"entry_fee": "75.00", "name": "Midsummer  Doubles", "days": "3"})
    assert "Midsummer  Doubles is saved." in page
    after = fresh(event)
    assert (after.name, str(after.entry_fee), after.slug) == ("Midsummer Doubles", "75.00", event.slug)
    assert [str(d.date) for d in after.event_days.all()] == ["2026-06-20", "2026-06-21", "2026-06-22"]
    assert after.revision == event.revision + 1
    entry = HistoryEntry.objects.get(act="event.changed")
    assert entry.details["changed"]["entry_fee"] == ["60.00", "75.00"]
    assert entry.details["changed"]["days"] == [2, 3]
    assert "name is Midsummer Doubles, was Midsummer Pairs" in entry.sentence


def test_nothing_changed_is_nothing_noted(director: Client, said: Said, event: Event) -> None:
    send(director, event, said | {"elevation_ft": "740"})
    assert fresh(event).revision == event.revision
    assert not HistoryEntry.objects.filter(act="event.changed").exists()


def test_a_new_first_day_moves_all_days(director: Client, said: Said, event: Event) -> None:
    send(director, event, said | {"date": "2026-06-27"})
    assert [str(d.date) for d in fresh(event).event_days.all()] == ["2026-06-27", "2026-06-28"]


def test_the_unit_is_changed_with_the_rule_sheet_until_there_are_weights_of_its_own(
    director: Client, said: Said, event: Event
) -> None:
    send(director, event, said | {"weight_unit": "kg"})
    assert fresh(event).rule_sheet.written["dead_fish_penalty"] == defaults("kg").written()["dead_fish_penalty"]
    send(director, event, said | {"weight_unit": "lb"})
    sheet = fresh(event).rule_sheet
    sheet.written = {**sheet.written, "dead_fish_penalty": "0.25, 0.50"}
    sheet.save()
    assert "The rule sheet has weights of its own in lb (dead_fish_penalty)" in send(
        director, event, said | {"weight_unit": "kg"}
    )
    assert fresh(event).weight_unit == "lb"
    send(director, event, said | {"weight_unit": "lb-oz"})
    assert fresh(event).rule_sheet.written["dead_fish_penalty"] == "0-04, 0-08"


def test_what_slips_hold_on_to_stays(db: None) -> None:
    event = world.plain()
    director = world.member(event.club)
    where = reverse("events:edit", args=[event.slug])
    initial = director.get(where).context["form"].initial
    base = {
        **{name: str(value) for name, value in initial.items()},
        "season": str(event.season_id),
        "water": str(event.water_id),
    }
    for name, text in (("weight_unit", "kg"), ("date", "2027-01-02"), ("time_zone", "America/Denver")):
        form = director.post(where, base | {name: text}).context["form"]
        assert "of this event are saved" in str(form.errors[name]), name
    form = director.post(where, base | {"days": "1"}).context["form"]
    assert "there are weigh slips for day" in str(form.errors["days"]).lower()
    assert director.post(where, base | {"entry_fee": "1.00", "fee_reason": "agreed"}).status_code == 302


def test_a_closed_event_is_opened_again_first(director: Client, said: Said, event: Event) -> None:
    from weighin.standings.services import set_closed

    set_closed(event, True, "test")
    assert "is closed: reopen it on its results page first" in send(director, event, said | {"entry_fee": "1"})
    assert str(fresh(event).entry_fee) == "60.00"


def test_a_day_is_changed_and_its_blanks_are_the_events_own(director: Client, event: Event) -> None:
    where = reverse("events:day", args=[event.slug, 2])
    day = {
        "status": "shortened", "date": "2026-06-21", "start_time": "", "due_time": "13:00", "lake_temp": "27.8 C",
        "air_temp": "95 F", "weather": "Thunder after noon", "note": "",
    }  # fmt: skip
    director.post(where, day)
    kept = fresh(event).event_days.get(number=2)
    assert (kept.status, kept.start_time, f"{kept.due_time:%H:%M}", kept.lake_temp) == (
        "shortened", None, "13:00", "27.8 C",
    )  # fmt: skip
    assert HistoryEntry.objects.get(act="event.day").details["changed"]["status"] == ["fished", "shortened"]
    assert fresh(event).revision == event.revision + 1
    form = director.post(where, day | {"lake_temp": "900", "air_temp": "hot"}).context["form"]
    assert set(form.errors) == {"lake_temp", "air_temp"}
    assert director.get(reverse("events:day", args=[event.slug, 3])).status_code == 404


def test_the_first_day_moved_moves_the_event(director: Client, event: Event) -> None:
    day = {"status": "fished", "date": "2026-06-19"}
    director.post(reverse("events:day", args=[event.slug, 1]), day)
    assert str(fresh(event).date) == "2026-06-19"


def test_a_day_with_slips_is_not_cancelled_and_not_moved(db: None) -> None:
    event = world.plain()
    director = world.member(event.club)
    date = str(event.event_days.get(number=1).date)
    where = reverse("events:day", args=[event.slug, 1])
    form = director.post(where, {"status": "cancelled", "date": date}).context["form"]
    assert "void them first" in str(form.errors["status"])
    form = director.post(where, {"status": "fished", "date": "2026-01-01"}).context["form"]
    assert "the date stays" in str(form.errors["date"])


def test_the_lists_ask_the_database_as_often_for_one_event_as_for_many(
    director: Client, club: Club, said: Said, event: Event
) -> None:
    from weighin.events.forms.events import NewEventForm

    pages = [reverse("events:club", args=[club.slug]), reverse("events:mine")]
    for page in pages:
        director.get(page)
    counts = []
    for number in range(2):
        found = []
        for page in pages:
            with CaptureQueriesContext(connection) as queries:
                assert "Midsummer Pairs" in director.get(page).content.decode()
            found.append(len(queries))
        counts.append(found)
        for further in range(30 if number == 0 else 0):
            form = NewEventForm(said | {"name": f"Event {further}", "date": "2026-05-01"}, club=club)
            assert form.is_valid()
            make_event(club, form.cleaned_data, "test")
    assert counts[0] == counts[1]


def test_my_page_says_what_is_next(director: Client, event: Event) -> None:
    said = director.get(reverse("events:mine")).content.decode()
    assert "Midsummer Pairs is next, on Sat, June 20, 2026." in said
    here = datetime.now(ZoneInfo(event.time_zone)).date()
    event.event_days.filter(number=1).update(date=here)
    assert "Midsummer Pairs is today." in director.get(reverse("events:mine")).content.decode()
    assert "Alder Crappie Club" in said
    assert "Midsummer Pairs" not in world.stranger().get(reverse("events:mine")).content.decode()


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER])
def test_only_directors_set_an_event_up(club: Club, event: Event, said: Said, role: str) -> None:
    client = world.member(club, role)
    for name, args in (
        ("events:new", [club.slug]),
        ("events:setup", [event.slug]),
        ("events:edit", [event.slug]),
        ("events:day", [event.slug, 1]),
        ("events:flights_new", [event.slug]),
        ("events:rules_edit", [event.slug]),
    ):
        refused = client.get(reverse(name, args=args))
        assert refused.status_code == 403, name
        assert f"of {club} you cannot add events" in refused.content.decode()
    assert client.post(reverse("events:edit", args=[event.slug]), said | {"name": "Taken over"}).status_code == 403
    assert fresh(event).name == "Midsummer Pairs"
    setup = reverse("events:setup", args=[event.slug])
    ways = client.get(event.get_absolute_url()).content.decode()
    assert setup not in ways and setup in world.member(club).get(event.get_absolute_url()).content.decode()
    assert (reverse("operations:history", args=[event.slug]) in ways) == (role == Role.CLUB_REVIEWER)

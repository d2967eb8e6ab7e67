"""Points rules of a season: its own go before its latest event's; events that are made in it take them."""

import json
from io import StringIO

import pytest
import world
from django.core.management import CommandError, call_command
from django.urls import reverse

from weighin.accounts.domain.roles import Role
from weighin.advice.services.season_rules import change_season_rules, clear_season_rules
from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Season
from weighin.events.access import find
from weighin.events.models import Event
from weighin.events.queries.events import rules_of, rules_said
from weighin.events.services.rule_sheet import change_rules
from weighin.rules.faults import Faults
from weighin.rules.sheet.keys import SEASON_KEYS
from weighin.schedule.services.next_event import make_next
from weighin.seasons.queries.standings import season_standings
from weighin.standings.queries.season_rules import season_rules
from weighin.standings.queries.standings import standings_of

pytestmark = pytest.mark.django_db


def fished(name: str, first: str, *gross: str, **rules: str) -> Event:
    """An event on a date, one slip a boat."""
    slips = [world.slip(boat=str(boat), gross=weight) for boat, weight in enumerate(gross, start=1)]
    return world.event(name, world.pairs(len(gross)), slips, date=first, rules=rules)


def two_events() -> Season:
    """Pair 1 wins the first by much, Pair 2 the second; the latest event counts all."""
    fished("May", "2026-05-02", "9.00", "7.00", points_first="50")
    return fished("June", "2026-06-06", "6.00", "8.00", points_first="50").season


def sheet(event: Event) -> dict[str, str]:
    found = find(event.slug)
    assert found is not None
    return dict(found.rule_sheet.written)


def test_without_rules_of_its_own_a_season_goes_by_its_latest_event() -> None:
    season = two_events()
    latest = Event.objects.get(name="June")
    latest.rule_sheet.written |= {"count_best": "1"}
    latest.rule_sheet.save()
    rules = season_rules(season)
    assert rules is not None and rules.count_best == 1 and rules == season_standings(season).rules
    assert season_rules(world.season("2031", of=season.club)) is None


def test_its_own_rules_count_the_season_and_leave_what_is_weighed() -> None:
    season = two_events()
    assert [row.points for row in season_standings(season).teams] == [99, 99]
    before = {event.name: standings_of(event).outcome.points for event in Event.objects.all()}
    change_season_rules(season, {"count_best": "1", "season_ties": "total_weight, share"}, "mara", "voted in May")
    rows = season_standings(season).teams
    assert [(row.team, row.place, row.points, len(row.counted)) for row in rows] == [
        ("Pair 1", 1, 50, 1),
        ("Pair 2", 1, 50, 1),
    ]
    assert {event.name: standings_of(event).outcome.points for event in Event.objects.all()} == before
    entry = HistoryEntry.objects.get(act="season.rules")
    assert entry.details["reason"] == "voted in May" and "voted in May" in entry.sentence
    # A key that was not said stayed as the latest event has it
    assert season.rules["points_first"] == "50" and set(season.rules) == set(SEASON_KEYS)
    clear_season_rules(season, "mara", "the vote was void")
    assert [row.points for row in season_standings(season).teams] == [99, 99] and not season.rules


def test_a_change_after_the_first_weigh_in_needs_a_reason() -> None:
    season = two_events()
    with pytest.raises(Faults) as refused:
        change_season_rules(season, {"count_best": "0", "fish_limit": "5"}, "mara")
    assert {fault.field for fault in refused.value.faults} == {"count_best", "fish_limit", "reason"}
    with pytest.raises(Faults) as refused:
        change_season_rules(season, {"count_best": "1"}, "mara", " x" * 300)
    assert [fault.field for fault in refused.value.faults] == ["reason"]
    season.refresh_from_db()
    assert not season.rules
    empty = world.season("2031", of=season.club)
    change_season_rules(empty, {"count_best": "4"}, "mara")
    rules = season_rules(empty)
    assert rules is not None and rules.count_best == 4
    change_season_rules(empty, {"count_best": "4"}, "mara")
    assert HistoryEntry.objects.filter(act="season.rules").count() == 1


def test_events_made_in_the_season_take_its_rules_and_those_not_weighed_follow() -> None:
    season = two_events()
    last = Event.objects.get(name="June")
    change_season_rules(season, {"points_first": "30", "count_best": "3"}, "mara", "voted")
    last.season.refresh_from_db()
    made = make_next(last, {"name": "July", "season": season, "date": last.date.replace(month=7)}, "mara")
    assert (sheet(made)["points_first"], sheet(made)["count_best"], sheet(made)["fish_limit"]) == ("30", "3", "7")
    double = make_next(last, {"name": "August", "season": season, "date": last.date.replace(month=8)}, "mara")
    change_rules(double, {"points_first": "60"}, "mara")
    assert sheet(double)["count_best"] == "3"
    revision = Event.objects.get(name="May").revision
    change_season_rules(season, {"points_first": "40", "count_best": "2"}, "mara", "voted again")
    assert (sheet(made)["points_first"], sheet(made)["count_best"]) == ("40", "2")
    # An event with points of its own keeps them
    assert (sheet(double)["points_first"], sheet(double)["count_best"]) == ("60", "2")
    assert sheet(last)["points_first"] == "50" and rules_of(last).count_best is None
    # Its page says what the season says all the same, and is not kept from before
    assert rules_said(Event.objects.get(pk=last.pk)).count_best == 2
    assert Event.objects.get(name="May").revision == revision + 1


def test_a_director_sets_them_on_the_seasons_page_and_others_read() -> None:
    season = two_events()
    where = reverse("advice:points_rules", args=[season.club.slug, season.slug])
    director, official = world.member(season.club), world.member(season.club, Role.WEIGH_OFFICIAL)
    page = director.get(where).content.decode()
    assert "goes by its latest event" in page and "First place gets 50 points" in page
    assert where in director.get(reverse("events:club", args=[season.club.slug])).content.decode()
    typed = dict.fromkeys(SEASON_KEYS, "") | {"act": "set", "count_best": "1", "reason": ""}
    refused = director.post(where, typed).content.decode()
    assert "say why the rules change" in refused and 'value="1"' in refused
    assert official.post(where, typed).status_code == 403
    answer = director.post(where, typed | {"reason": "voted"}, follow=True).content.decode()
    assert "has points rules of its own" in answer and "best 1 event of the season" in answer
    rules = reverse("events:rules", args=[Event.objects.get(name="June").slug])
    assert where in official.get(rules).content.decode()
    director.post(where, {"act": "clear", "reason": "no vote was needed"})
    season.refresh_from_db()
    assert not season.rules and "goes by its latest event" in official.get(where).content.decode()


def test_the_form_of_an_event_leaves_out_what_its_season_says() -> None:
    event = world.event("July", world.pairs(2), [])
    director, edit = world.member(event.club), reverse("events:rules_edit", args=[event.slug])
    assert "season_ties" in director.get(edit).context["form"].fields
    change_season_rules(event.season, {"count_best": "3"}, "mara")
    form = director.get(edit).context["form"]
    assert set(form.fields).isdisjoint({"count_best", "season_ties"}) and "points_first" in form.fields
    director.post(edit, dict.fromkeys(form.fields, "") | {"fish_limit": "5"})
    assert (sheet(event)["fish_limit"], sheet(event)["count_best"]) == ("5", "3")


def test_the_command_says_and_sets_them() -> None:
    season = two_events()
    out = StringIO()
    call_command("season_rules", season.club.slug, season.slug, stdout=out)
    assert json.loads(out.getvalue())["own"] is False
    with pytest.raises(CommandError, match=r"reason: .*why"):
        call_command("season_rules", season.club.slug, season.slug, "count_best=2")
    out = StringIO()
    call_command("season_rules", season.club.slug, season.slug, "count_best=2", reason="voted", stdout=out)
    assert json.loads(out.getvalue()) == {"own": True, "rules": Season.objects.get(pk=season.pk).rules}
    call_command("season_rules", season.club.slug, season.slug, clear=True, reason="void", stdout=out)
    assert Season.objects.get(pk=season.pk).rules == {}
    with pytest.raises(CommandError, match="no such season"):
        call_command("season_rules", season.club.slug, "2099")

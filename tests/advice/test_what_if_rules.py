"""Another rule sheet on a season's slips: the same as if it had been the rule sheet; refused where slips do not tell."""

from decimal import Decimal

import pytest
import world
from django.urls import reverse
from mortality.seasons import fished, season_of
from second_reading.plain_event import plain_event

from weighin.advice.domain.other_sheet import OtherSheet
from weighin.advice.queries.replay import EventReplay, replay_season
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.seasons.queries.standings import season_standings
from weighin.slips.services.slips import record_slip
from weighin.standings.queries.standings import standings_of

pytestmark = pytest.mark.django_db
CATCHES = [(7, 0), (7, 2), (7, 1), (6, 0), (5, 3), (0, 0)]
GROSS = ["8.00", "8.90", "8.20", "7.95", "9.10", ""]
CAME_IN = ["14:50", "15:00", "15:00:40", "15:07", "15:14", "14:30"]


def weighed(name: str, *, rules: dict[str, str] | None = None, **keys: str) -> Event:
    """Six boats, dead fish and late ones among them, all paid."""
    slips = [
        {"day": "1", "boat": str(boat), "fish": str(fish), "alive": str(fish - dead), "dead": str(dead), "gross": gross,
         "checked_in": clock, **({"big_fish": "1.60", "big_fish_alive": "yes"} if fish else {})}
        for boat, ((fish, dead), gross, clock) in enumerate(zip(CATCHES, GROSS, CAME_IN, strict=True), start=1)
    ]  # fmt: skip
    event = fished(name, [], boats=6, slips=slips, rules=rules, entry_fee="60", due_time="15:00", **keys)
    event.entries.update(paid=True)
    return event


def outcome_of(event: Event) -> dict[int, tuple[object, ...]]:
    found = standings_of(event)
    purse = found.outcome.purse
    return {
        (boat := row.result.team.boat): (
            row.place,
            row.result.status,
            row.result.total,
            purse.prizes.get(boat, Decimal(0)) + purse.pot_prizes.get(boat, Decimal(0)),
            found.outcome.points[boat],
        )
        for row in found.outcome.ranked
    }


def replayed(event: Event, due_minutes: int = 0, **changes: str) -> EventReplay:
    (one,) = replay_season([event], OtherSheet(changes, due_minutes), with_season=False).events
    return one


def after(one: EventReplay) -> dict[int, tuple[object, ...]]:
    return {row.boat: tuple(row.after.__dict__.values()) for row in one.teams}


@pytest.mark.parametrize(
    "changes",
    [
        {"dead_fish_penalty": "1"},
        {"dead_fish_penalty": "0, 0.5"},
        {"live_fish_bonus": "0.3"},
        {"late_penalty_per_minute": "0.1"},
        {"late_grace_minutes": "5"},
        {"late_disqualify_after_minutes": "6"},
        {"late_disqualify_after_minutes": "none", "dead_fish_penalty": "0"},
        {"fish_limit": "8"},
    ],
)
def test_a_replay_is_what_the_other_rule_sheet_makes_of_the_event(changes: dict[str, str]) -> None:
    one = replayed(weighed("As it was"), **changes)
    assert not one.refused
    assert after(one) == outcome_of(weighed("Under the other", rules=changes))


@pytest.mark.parametrize(("minutes", "clock"), [(10, "15:10"), (-5, "14:55"), (120, "17:00")])
def test_another_due_time_is_exact_too(minutes: int, clock: str) -> None:
    one = replayed(weighed("As it was"), minutes)
    other = weighed("Due then")
    Event.objects.filter(pk=other.pk).update(due_time=clock)
    other.event_days.update(due_time=clock)
    assert after(one) == outcome_of(Event.objects.get(pk=other.pk))


def test_who_moves_is_told_with_money_and_points() -> None:
    one = replayed(weighed("As it was"), dead_fish_penalty="1")
    places = {row.boat: (row.before.place, row.after.place) for row in one.moved}
    assert places and all(before != now for before, now in places.values() if before and now)
    assert one.winner_changed == (one.teams[0].before.place != 1)
    gained = sum(max(Decimal(0), row.after.prize - row.before.prize) for row in one.teams)
    lost = sum(max(Decimal(0), row.before.prize - row.after.prize) for row in one.teams)
    assert one.money_moved == gained == lost


def test_the_same_sheet_moves_nobody() -> None:
    one = replayed(weighed("As it was"), dead_fish_penalty="0.25")
    assert one.moved == [] and one.places_changed == 0 and one.money_moved == 0 and not one.winner_changed


def test_a_lower_limit_is_not_made_up() -> None:
    one = replayed(weighed("As it was"), fish_limit="5")
    assert "4 slips hold more than 5 fish within the limit of 7." in one.refused
    assert "was not recorded" in one.refused and one.teams == []


def test_an_earlier_due_time_needs_the_check_ins() -> None:
    event = fished("No clock", [(7, 0), (7, 1)])
    assert "2 slips have no time of check-in" in replayed(event, -10).refused
    assert not replayed(event, 10).refused


def test_written_minutes_late_move_with_the_due_time() -> None:
    slips = [{"day": "1", "boat": "1", "fish": "5", "alive": "5", "dead": "0", "gross": "8.00", "minutes_late": "12"}]
    one = replayed(fished("By hand", [], boats=1, slips=slips), 10)
    assert (one.teams[0].before.total, one.teams[0].after.total) == (Decimal("0"), Decimal("6.00"))
    earlier = replayed(fished("By hand too", [], boats=1, slips=slips, season="2025"), -5)
    assert earlier.teams[0].after.total == 0


def test_fish_that_were_never_on_the_scale_are_not_weighed() -> None:
    """With 'penalty' for fish over the limit the smallest stay off: a higher limit would have put them on."""
    slips = [{"day": "1", "boat": "1", "fish": "7", "alive": "7", "dead": "0", "gross": "8.00"}]
    rules = {"fish_limit": "5", "over_limit": "penalty"}
    one = replayed(fished("Over", [], boats=1, slips=slips, rules=rules), fish_limit="7")
    assert "other fish would have gone on the scale" in one.refused


def test_another_cut_is_not_played_on() -> None:
    event = world.event_of(plain_event())
    one = replayed(event, dead_fish_penalty="6")
    assert "Other teams would have gone on after the cut" in one.refused


def test_a_doubled_day_waits_in_the_replay_too() -> None:
    event = weighed("As it was")
    record_slip(event, {"boat": "1", "day": "1", "fish": "0", "alive": "0", "dead": "0"}, "test")
    one = replayed(event, dead_fish_penalty="1")
    assert {row.after.status for row in one.teams if row.boat == 1} == {"in_question"}


def test_the_season_s_points_move_as_its_list_would() -> None:
    events = [
        weighed("First", date="2026-04-11"),
        weighed("Second", date="2026-05-09", rules={"late_grace_minutes": "5"}),
    ]
    found = replay_season(events, OtherSheet({"dead_fish_penalty": "1"}), with_season=True)
    others = [
        weighed("First", date="2026-04-11", season="2027", rules={"dead_fish_penalty": "1"}),
        weighed(
            "Second", date="2026-05-09", season="2027", rules={"late_grace_minutes": "5", "dead_fish_penalty": "1"}
        ),
    ]
    was = {row.team: (row.place, row.points) for row in season_standings(season_of(*events)).teams}
    would = {row.team: (row.place, row.points) for row in season_standings(season_of(*others)).teams}
    assert found.season is not None
    moved = {
        row.team: ((row.place_before, row.points_before), (row.place_after, row.points_after)) for row in found.season
    }
    assert moved == {team: (was[team], would[team]) for team in was if was[team] != would[team]}
    assert moved


def test_a_rule_that_cannot_be_read_is_refused() -> None:
    with pytest.raises(Faults):
        replayed(weighed("As it was"), dead_fish_penalty="half")


def page(season: Season, role: str = "club_reviewer", **asked: str) -> str:
    answer = world.member(season.club, role).get(reverse("advice:what_if", args=[season.club.slug, season.slug]), asked)
    assert answer.status_code == 200
    return answer.content.decode().replace("\u00a0", " ")


def test_the_page_says_whose_places_change() -> None:
    season = season_of(weighed("First"))
    text = page(season, dead_fish_penalty="1")
    assert "would change" in text and "in prizes would go to others." in text
    assert "People fish to the rules they have, so this is arithmetic and no forecast." in text
    assert "Pair 2" in text and "First: another winner, " in text


def test_the_page_before_anything_is_asked() -> None:
    text = page(season_of(weighed("First")))
    assert "<h1>What if?</h1>" in text and "No result changes." in text


def test_the_page_says_where_nobody_would_move() -> None:
    assert "Nobody’s place, prize or points would change." in page(
        season_of(weighed("First")), dead_fish_penalty="0.25"
    )


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"dead_fish_penalty": "half"}, "half"),
        ({"fish_limit": "0"}, "fish_limit"),
        ({"due_minutes": "soon"}, "soon"),
        ({"due_minutes": "500"}, "120"),
        ({"due_minutes": "1.5"}, "Write whole minutes."),
        ({"lake": "82"}, "82"),
        ({"fewer": "0"}, "fewer"),
        ({"event": "nowhere"}, "Choose an event of this season."),
    ],
)
def test_what_cannot_be_read_stands_at_its_line(asked: dict[str, str], said: str) -> None:
    text = page(season_of(weighed("First")), **asked)
    assert "Something here cannot be read." in text and said in text


def test_weights_of_different_units_ask_for_one_event() -> None:
    events = weighed("Pounds"), fished("Kilograms", [(5, 0)], weight_unit="kg", date="2026-07-04")
    season = season_of(*events)
    assert "choose one event above" in page(season, dead_fish_penalty="0.5")
    assert "choose one event above" not in page(season, "director", dead_fish_penalty="0.5", event=events[0].slug)


def test_pounds_and_ounces_take_the_same_penalty() -> None:
    slips = [{"day": "1", "boat": "1", "fish": "5", "alive": "4", "dead": "1", "gross": "8-00"}]
    ounces = fished("Ounces", [], boats=1, slips=slips, weight_unit="lb-oz", date="2026-07-04")
    (one,) = replay_season([ounces], OtherSheet({"dead_fish_penalty": "0, 0.3"}, unit="lb"), with_season=False).events
    assert one.teams[0].after.total == Decimal("8")
    (one,) = replay_season([ounces], OtherSheet({"dead_fish_penalty": "0.3"}, unit="lb"), with_season=False).events
    assert one.teams[0].after.total == Decimal("7.7")
    season = season_of(weighed("Pounds"), ounces)
    assert "cannot be read" not in page(season, dead_fish_penalty="0.3")
    assert "cannot be read" in page(season, "director", dead_fish_penalty="0-08")


def test_nothing_is_written() -> None:
    event = weighed("First")
    before = outcome_of(event), event.revision
    page(season_of(event), dead_fish_penalty="2", due_minutes="-30")
    event.refresh_from_db()
    assert (outcome_of(Event.objects.get(pk=event.pk)), event.revision) == before

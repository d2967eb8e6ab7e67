"""The care record of a season: live shares and times by team, and honours that small numbers cannot win by luck."""

from typing import Any

import numpy as np
import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from slips.table import record
from tanks.shore import text

from weighin.accounts.domain.roles import Role
from weighin.care.domain.honours import honours
from weighin.care.queries.season import care_record, mean_time
from weighin.care.services.notes import write_care_note
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.slips.models import WeighSlip

FISH = 7


def seasons(luck: Any, rates: Any, days: Any, correlation: float) -> list[tuple[int, int, int]]:
    """(team, dead, fish) of every team and day: fish of a livewell die together with the correlation given."""
    strength = 1 / correlation - 1 if correlation else 0.0
    rows = []
    for team, (rate, fished) in enumerate(zip(rates, days, strict=True)):
        for _ in range(fished):
            well = luck.beta(rate * strength, (1 - rate) * strength) if correlation else rate
            rows.append((team, int(luck.binomial(FISH, well)), FISH))
    return rows


def raw_winners(rows: list[tuple[int, int, int]]) -> list[int]:
    """The teams whose share as counted is the lowest."""
    dead: dict[int, int] = {}
    fish: dict[int, int] = {}
    for team, lost, brought in rows:
        dead[team] = dead.get(team, 0) + lost
        fish[team] = fish.get(team, 0) + brought
    best = min(dead[team] / fish[team] for team in fish)
    return [team for team in fish if dead[team] / fish[team] == best]


@pytest.mark.parametrize("correlation", [0.0, 0.1, 0.2])
def test_small_numbers_cannot_win_by_luck(correlation: float) -> None:
    """Thirty teams of one true rate, a third of them with a single day of seven fish. By the shares as counted most
    seasons would be won by such a team; by the shrunken ones none is, and nobody is honoured for luck."""
    luck = np.random.default_rng(11)
    days = [1] * 10 + [4] * 10 + [8] * 10
    small_first = honoured = raw_small = 0
    for _ in range(120):
        rows = seasons(luck, [0.06] * 30, days, correlation)
        found = honours(rows)
        assert found is not None
        small_first += days[found.standings[0].team] == 1  # type: ignore[index, call-overload]
        honoured += bool(found.honoured)
        winners = raw_winners(rows)
        raw_small += days[winners[int(luck.integers(len(winners)))]] == 1
    assert small_first == 0
    assert honoured <= 2
    assert raw_small > 60


def test_teams_that_are_better_are_found_and_luck_is_not() -> None:
    """Where teams do differ, those honoured are nearly all truly below the mean, and the first is mostly a good one."""
    luck = np.random.default_rng(12)
    days = [1] * 10 + [4] * 10 + [8] * 10
    strength = 0.06 * 0.94 / 0.06**2 - 1
    honoured = truly = small = first = 0
    for _ in range(150):
        rates = luck.beta(0.06 * strength, 0.94 * strength, 30)
        found = honours(seasons(luck, rates, days, 0.1))
        assert found is not None
        for one in found.honoured:
            honoured += 1
            truly += rates[one.team] < rates.mean()  # type: ignore[index]
            small += days[one.team] == 1  # type: ignore[index, call-overload]
        first += rates[found.standings[0].team] <= np.median(rates)  # type: ignore[index]
    assert honoured > 100 and small == 0
    assert truly / honoured > 0.9 and first / 150 > 0.85


def test_shares_are_drawn_towards_the_clubs_by_how_few_the_fish_are() -> None:
    rows = [("many", 0, 7)] * 9 + [("few", 0, 3)] + [("others", 3, 40)] * 6 + [("worst", 9, 20)]
    found = honours(rows)
    assert found is not None and found.club == pytest.approx(27 / 326)
    rate = {one.team: one.shrunk.rate for one in found.standings}
    assert rate["many"] < rate["few"] < rate["worst"] < 9 / 20 and rate["few"] > 0.05
    assert found.standings[0].team == "many" and found.design_effect >= 1


def test_without_two_teams_there_is_no_order() -> None:
    assert honours([]) is None and honours([("one", 0, 7), ("one", 1, 7), ("two", 0, 0)]) is None
    none_dead = honours([("one", 0, 7), ("two", 0, 14)])
    assert none_dead is not None and not none_dead.honoured


def test_a_mean_of_several_days_has_a_range() -> None:
    """Student's t of one degree of freedom is 12.706 at 95 %: of 10 and 14 the mean 12 has a range of 25.4 either way."""
    found = mean_time([None, 10, 14])  # type: ignore[list-item]
    assert found is not None and (found.mean, found.days) == (12.0, 2)
    assert found.low == 0.0 and found.high == pytest.approx(12 + 12.706 * 2, abs=0.01)
    one = mean_time([10])  # type: ignore[list-item]
    assert one is not None and one.low is None and mean_time([None]) is None


def teams(event: Event) -> dict[str, Any]:
    return {team.team: team for team in care_record(event.season).teams}


def test_a_team_is_the_same_over_the_season_by_its_name(event: Event) -> None:
    later = world.event("Later")
    Event.objects.filter(pk=later.pk).update(date="2026-07-20")
    Entry.objects.filter(event=later, boat=1).update(name="open TABLE  pair 1")
    record(event, alive="6", dead="1", bag_issued="14:50", weighed="15:00", released="15:20")
    record(later, alive="7", dead="0", dead_at_release="2", weighed="15:30")
    write_care_note(
        event, {"day": "1", "boat": "1", "pump_ok": "yes", "thermometer_ok": "no", "first_fish": "08:00"}, "lunt"
    )
    found = teams(event)["open TABLE  pair 1"]
    assert (found.fish, found.lost, found.events) == (14, 3, 2)
    assert found.rate.rate == pytest.approx(3 / 14) and found.rate.clusters == 2
    # 7 h 20 min from the first fish, and at most 9 h 30 min from the start of the day
    assert found.held.mean == pytest.approx((440 + 570) / 2) and found.held_is_upper_bound
    assert found.in_bag.mean == 10 and found.in_bag.low is None and found.checks == (2, 3)


def test_fish_in_another_boats_livewell_are_in_nobodys_record(event: Event) -> None:
    record(event, boat="1", alive="5", dead="2", well_boat="2")
    record(event, boat="2", alive="7", dead="0", well_boat="2")
    found = teams(event)
    assert (found["Open table pair 1"].fish, found["Open table pair 1"].elsewhere) == (0, 7)
    assert (found["Open table pair 2"].fish, found["Open table pair 2"].lost) == (7, 0)
    assert found["Open table pair 1"].rate is None and found["Open table pair 1"].held is None


def test_doubled_and_cancelled_days_and_voids_are_left_out(event: Event) -> None:
    for _ in range(2):
        record(event, boat="1", alive="0", dead="7")
    record(event, boat="2")
    other = world.event("Called off")
    record(other, boat="3", alive="0", dead="7")
    other.event_days.update(status="cancelled")
    assert set(teams(event)) == {"Open table pair 2"}


def test_the_pages_say_the_record(event: Event) -> None:
    client = world.member(event.club, Role.CLUB_REVIEWER, "reader")
    url = reverse("care:care_record", args=[event.club.slug, event.season.slug])
    assert "No fish is on a slip of this season yet." in text(client.get(url))
    record(event, boat="1", alive="6", dead="1", weighed="15:00")
    assert "6 fish of 7 alive by release." in text(client.get(url))
    record(event, boat="2", weighed="15:00")
    record(event, boat="3", alive="5", dead="2", weighed="15:00", well_boat="4")
    shown = text(client.get(url))
    for words in (
        "No team is clearly better than chance.",
        "1 of 14 fish that the teams’ own livewells held were dead by release.",
        "no team is named",
        "Adjusted for small numbers",
        "one-sided 95 %",
        "7 fish held in another boat’s livewell are in nobody’s record.",
        "the cause is not shown",
        "at most 9 h",
    ):
        assert words in shown, words
    assert "100 %" in shown and "one day" in shown
    entry = Entry.objects.get(event=event, boat=1)
    page = text(client.get(reverse("care:care_team", args=[event.club.slug, event.season.slug, entry.pk])))
    assert "Open table pair 1: 1 of 7 fish dead by release." in page and "Open table Jun 20" in page
    for wrong in (10**9, Entry.objects.get(event=event, boat=4).pk):
        assert (
            client.get(reverse("care:care_team", args=[event.club.slug, event.season.slug, wrong])).status_code == 404
        )
    assert client.get(reverse("care:care_record", args=[event.club.slug, "1999"])).status_code == 404
    assert url in text_links(client, event)


def text_links(client: Any, event: Event) -> str:
    """The club's page, where the record is found."""
    return str(client.get(reverse("events:club", args=[event.club.slug])).content.decode())


def test_an_honoured_team_is_named(event: Event) -> None:
    """Sixty fish alive in ten events, where the others lose one in three."""
    client = world.member(event.club, username="director")
    for number in range(9):
        made = world.event(f"Round {number}")
        for boat in range(1, 5):
            Entry.objects.filter(event=made, boat=boat).update(name=f"Pair {boat}")
            dead = 0 if boat == 1 else 2 if boat < 4 else 3
            record(made, boat=str(boat), alive=str(7 - dead), dead=str(dead))
    shown = text(client.get(reverse("care:care_record", args=[event.club.slug, event.season.slug])))
    assert "Pair 1 lost fewer fish than chance explains." in shown and "Named for care: Pair 1." in shown


def test_the_record_asks_the_same_number_of_questions_for_1_team_and_for_300(db: None) -> None:
    counts = []
    for boats in (1, 300):
        event = world.large(boats, name=f"Record {boats}")
        client = world.member(event.club, username=f"reader-{boats}")
        url = reverse("care:care_record", args=[event.club.slug, event.season.slug])
        client.get(url)
        with CaptureQueriesContext(connection) as asked:
            assert client.get(url).status_code == 200
        counts.append(len(asked))
    assert WeighSlip.objects.count() == 301
    assert counts[0] == counts[1] <= 12, counts

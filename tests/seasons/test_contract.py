"""What the contract says of season standings, sentence by sentence."""

import json
from decimal import Decimal
from io import StringIO

import pytest
import world
from django.core.management import CommandError, call_command
from django.db.models import F
from django.urls import reverse

from weighin.audit.services import writing
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.roster.models import Angler, Entry
from weighin.roster.services.erasing import erase_anglers
from weighin.seasons.queries.document import standings_document
from weighin.seasons.queries.standings import season_standings

pytestmark = pytest.mark.django_db

TABLE = {"points_first": "100", "points_step": "10", "ties": "big_fish, share"}


def held(number: int, order: list[str], teams: list[world.Row] | None = None, **rules: str) -> Event:
    """Event ``number`` of the year, fished by the teams of ``order``, best first."""
    rows = teams or [
        {"boat": str(n), "team": name, "angler_1": f"{name} One"} for n, name in enumerate(sorted(order), 1)
    ]
    boats = {row["team"]: row["boat"] for row in rows}
    slips = [
        world.slip(boat=boats[name], gross=f"{9 - place}.50", big_fish=f"{2 - place / 10:.2f}")
        for place, name in enumerate(order)
    ]
    return world.event(f"Round {number}", rows, slips, rules=TABLE | rules, date=f"2026-{number:02d}-10")


def document(event: Event) -> dict:
    return standings_document(season_standings(Season.objects.get(pk=event.season_id)))


def row(rows: list[dict], name: str, who: str = "team") -> dict:
    return next(one for one in rows if one[who] == name)


def test_a_row_has_every_field_of_the_contract_and_nothing_else() -> None:
    event = held(4, ["Alder", "Birch"])
    out = StringIO()
    call_command("season_standings", event.club.slug, event.season.slug, "--format", "json", stdout=out)
    found = json.loads(out.getvalue())
    assert list(found) == ["teams", "anglers", "classes"] and list(found["classes"]) == ["youth"]
    assert found["teams"][0] == {
        "place": 1,
        "tied": False,
        "team": "Alder",
        "points": 100,
        "counted": [{"event": "round-4-2026", "place": 1, "points": 100}],
        "dropped": [],
        "big_fish": "2.00",
        "total_weight": "9.50",
        "best_possible": 100,
        "in_reach": True,
    }
    assert found["anglers"][0] == {**{k: v for k, v in found["teams"][0].items() if k != "team"}, "angler": "Alder One"}


def test_of_equal_results_the_later_is_dropped() -> None:
    for number in (3, 4, 5):
        event = held(number, ["Alder", "Birch"], count_best="2")
    alder = row(document(event)["teams"], "Alder")
    assert [one["event"] for one in alder["counted"]] == ["round-3-2026", "round-4-2026"]
    assert [one["event"] for one in alder["dropped"]] == ["round-5-2026"]


def test_weights_are_pounds_also_of_an_event_in_kilograms() -> None:
    rows = [{"boat": "1", "team": "Alder", "angler_1": "A"}]
    rules = {"bag_tare": "0"}
    event = world.event(
        "Kilos", rows, [world.slip(gross="4.5359237", big_fish="0.9071847")], rules=rules, weight_unit="kg"
    )
    alder = document(event)["teams"][0]
    assert Decimal(alder["total_weight"]) == 10
    assert round(Decimal(alder["big_fish"]), 5) == 2


def test_a_class_holds_who_was_in_it_at_all_events_entered() -> None:
    def teams(*young: str) -> list[world.Row]:
        rows = world.pairs(3, "Pair")
        return [one | ({"youth": "yes"} if one["team"] in young else {}) for one in rows]

    held(4, ["Pair 1", "Pair 2", "Pair 3"], teams("Pair 2", "Pair 3"))
    event = held(5, ["Pair 1", "Pair 2", "Pair 3"], teams("Pair 3"))
    found = document(event)
    (only,) = found["classes"]["youth"]
    assert (only["team"], only["place"], only["points"]) == ("Pair 3", 1, 160)
    assert row(found["teams"], "Pair 3")["place"] == 3
    held(6, [], teams("Pair 2"))
    assert document(event)["classes"]["youth"] == []


def test_a_team_only_in_events_to_come_stands_with_0() -> None:
    held(4, ["Alder", "Birch"])
    event = held(6, [], world.pairs(1, "Newt"))
    newt = row(document(event)["teams"], "Newt 1")
    assert (newt["points"], newt["counted"], newt["dropped"], newt["place"]) == (0, [], [], 3)
    assert (newt["big_fish"], newt["total_weight"]) == (None, "0")


def test_a_team_that_waits_for_a_boat_number_is_in_no_standings() -> None:
    event = held(4, ["Alder", "Birch"])
    later = held(9, [], world.pairs(1, "Newt"))
    Entry.everyone.filter(event=later).update(boat=None)
    Event.objects.filter(pk=later.pk).update(revision=F("revision") + 1)
    assert [one["team"] for one in document(event)["teams"]] == ["Alder", "Birch"]


def points_page(event: Event) -> str:
    address = reverse("seasons:standings", args=[event.club.slug, event.season.slug])
    return world.member(event.club).get(address).content.decode()


def test_best_possible_is_every_event_to_come_won_with_the_drops_worked_out_again() -> None:
    held(3, ["Alder", "Birch", "Cedar"], count_best="2")
    held(4, ["Alder", "Cedar", "Birch"], count_best="2")
    event = held(9, [], world.pairs(1, "Newt"), points_first="105")
    found = document(event)["teams"]
    best = {one["team"]: (one["points"], one["best_possible"], one["in_reach"]) for one in found}
    assert best == {
        "Alder": (200, 205, True),
        "Birch": (170, 195, False),
        "Cedar": (170, 195, False),
        "Newt 1": (0, 105, False),
    }


def test_who_can_come_to_what_another_has_is_in_reach_also_when_it_is_no_more() -> None:
    held(3, ["Alder", "Birch"])
    held(4, ["Alder", "Birch"])
    event = held(9, [], points_first="20")
    assert row(document(event)["teams"], "Birch")["in_reach"] is True
    assert "Best possible" in points_page(event)
    other = held(10, ["Alder", "Birch"], points_first="101", points_step="1")
    assert row(document(other)["teams"], "Birch")["in_reach"] is False


@pytest.mark.parametrize("adds", [{"points_per_pound": "1"}, {"points_big_fish": "5"}])
def test_both_are_null_where_an_event_to_come_adds_points_for_fish(adds: dict[str, str]) -> None:
    event = held(3, ["Alder", "Birch"], **adds)
    assert row(document(event)["teams"], "Alder")["best_possible"] is not None
    held(9, [], world.pairs(1, "Newt"), **adds)
    assert all(one["best_possible"] is None and one["in_reach"] is None for one in document(event)["teams"])
    assert "Best possible" not in points_page(event), "no column without a figure"


def test_a_cancelled_event_is_none_and_the_rules_are_those_of_the_latest_that_is_one() -> None:
    held(3, ["Alder", "Birch"], count_best="none")
    event = held(4, ["Alder", "Birch"], count_best="1")
    rows = world.pairs(1, "Newt")
    cancelled = {"Days": [{"day": "1", "date": "2026-05-10", "status": "cancelled"}]}
    world.event("Storm", rows, more=cancelled, rules={"points_per_pound": "1"}, date="2026-05-10")
    held(11, [], world.pairs(1, "Otter"), count_best="7")
    found = document(event)["teams"]
    assert [one["team"] for one in found] == ["Alder", "Birch", "Otter 1"]
    assert len(found[0]["counted"]) == 1 and found[0]["best_possible"] == 100


def test_an_event_one_was_disqualified_in_cannot_be_dropped() -> None:
    rows = [
        {"boat": "1", "team": "Alder", "angler_1": "A", "status": "disqualified"},
        {"boat": "2", "team": "Birch", "angler_1": "B"},
    ]
    held(3, ["Birch"], rows)
    held(4, ["Alder", "Birch"])
    event = held(5, ["Alder", "Birch"], count_best="2")
    alder = row(document(event)["teams"], "Alder")
    assert [(one["event"], one["place"]) for one in alder["counted"]] == [("round-3-2026", None), ("round-4-2026", 1)]
    assert [one["event"] for one in alder["dropped"]] == ["round-5-2026"]


def test_two_people_of_one_name_in_one_event_are_told_apart_by_their_teams() -> None:
    event = held(4, ["Alder", "Birch"])
    Angler.objects.update(name="Pat Reed")  # as a list brings them in with --namesakes
    assert [one["angler"] for one in document(event)["anglers"]] == ["Pat Reed (Alder)", "Pat Reed (Birch)"]


def test_who_had_the_name_erased_is_in_no_list_of_anglers() -> None:
    event = held(4, ["Alder", "Birch"])
    with writing():
        erase_anglers(event, Angler.objects.filter(name="Alder One"), lambda words: False, "test")
    assert [one["angler"] for one in document(event)["anglers"]] == ["Birch One"]
    assert len(document(event)["teams"]) == 2


def test_an_unknown_series_is_refused_with_those_there_are() -> None:
    event = held(4, ["Alder", "Birch"])
    call_command("series", event.club.slug, event.season.slug, "Night", event.slug, stdout=StringIO())
    with pytest.raises(CommandError, match="Night"):
        call_command("season_standings", event.club.slug, event.season.slug, "--series", "Day", "--format", "json")

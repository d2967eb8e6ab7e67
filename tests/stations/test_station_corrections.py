"""Corrections and voids as stations send them, in whatever order they arrive, and what they must name."""

from itertools import permutations
from typing import Any

import pytest
import world
from stations.speaking import Speaker, fields, message, new_id

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.slips.queries.slips import current_slips
from weighin.slips.services.slips import correct_slip
from weighin.standings.queries.standings import standings_of


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


def correcting(old: Any, **values: Any) -> dict[str, Any]:
    return message(**{"gross": "8.60", "replaces": old, "reason": "misread the scale", **values})


def void(old: Any, **values: Any) -> dict[str, Any]:
    return {
        "id": new_id(), "day": 1, "boat": 1, "official": "R. Quill", "void": True, "replaces": old,
        "reason": "wrong boat", **values,
    }  # fmt: skip


def said(answer: dict[str, Any], field: str = "replaces") -> str:
    assert field in fields(answer)
    return str(next(fault["message"] for fault in answer["faults"] if fault["field"] == field))


@pytest.mark.parametrize("by", ["number", "id"])
def test_a_correction_names_the_slip_by_number_or_id(event: Event, table: Speaker, by: str) -> None:
    first = message()
    number = table.one(first)["slip"]
    answer = table.one(correcting(number if by == "number" else first["id"]))
    assert (answer["state"], answer["slip"]) == ("kept", 2)
    (current,) = current_slips(event)
    assert (current.number, current.gross, current.reason) == (2, "8.60", "misread the scale")
    assert str(current.replaces_id) == first["id"]
    assert "replaces slip 1" in HistoryEntry.objects.get(act="slip.corrected").sentence


def test_a_correction_again_is_already_kept_however_it_names_the_slip(table: Speaker) -> None:
    first = message()
    table.one(first)
    sent = correcting(1)
    table.one(sent)
    assert table.one(sent)["state"] == "already"
    assert table.one({**sent, "replaces": first["id"]})["state"] == "already"
    assert table.one({**sent, "replaces": 2})["state"] == "differs"
    assert table.one({**sent, "replaces": None, "reason": None})["state"] == "differs"
    assert table.one({**sent, "reason": "another"})["state"] == "differs"
    assert WeighSlip.objects.count() == 2


def chain() -> list[dict[str, Any]]:
    first = message()
    second = correcting(first["id"])
    third = correcting(second["id"], gross="8.70")
    return [first, second, third, void(third["id"])]


@pytest.mark.parametrize("order", list(permutations(range(4))))
def test_within_a_body_the_order_of_arrival_does_not_matter(event: Event, order: tuple[int, ...]) -> None:
    items = chain()
    table = Speaker(event)
    answers = table.send(*(items[place] for place in order))
    assert {answer["state"] for answer in answers} == {"kept"}
    numbers = {answer["id"]: answer["slip"] for answer in answers}
    assert [numbers[item["id"]] for item in items] == [1, 2, 3, 4]
    assert not current_slips(event)
    assert not breaks(WeighSlip.objects.order_by("position").select_related("entry"))


def test_others_of_the_body_stay_in_their_order(table: Speaker) -> None:
    a, b, c = message(boat=2), message(boat=3), message(boat=4)
    fix = correcting(c["id"], boat=4)
    numbers = [answer["slip"] for answer in table.send(a, fix, b, c)]
    assert numbers == [1, 3, 4, 2]


def test_across_bodies_a_correction_before_its_slip_waits_at_the_station(table: Speaker) -> None:
    first = message()
    fix = correcting(first["id"])
    assert "send that one first" in said(table.one(fix))
    assert table.one(first)["state"] == "kept"
    assert table.one(fix)["state"] == "kept"
    assert WeighSlip.objects.count() == 2


def test_two_that_replace_each_other_are_both_refused(table: Speaker) -> None:
    a, b = new_id(), new_id()
    answers = table.send(correcting(b, id=a), correcting(a, id=b))
    assert [fields(answer) for answer in answers] == [{"replaces"}, {"replaces"}]
    own = new_id()
    assert fields(table.one(correcting(own, id=own))) == {"replaces"}


def test_a_slip_that_was_replaced_already_is_refused_naming_the_current_one(table: Speaker) -> None:
    first = message()
    table.one(first)
    table.one(correcting(1))
    table.one(correcting(2, gross="8.70"))
    for old in (1, 2, first["id"]):
        assert "current one is slip 3" in said(table.one(correcting(old, gross="9.00")))
    assert "slip 3" in said(table.one(void(1)))
    assert WeighSlip.objects.count() == 3


def test_an_unknown_slip_is_refused_naming_the_boats_current_one(table: Speaker) -> None:
    table.one(message())
    for old in (7, new_id()):
        assert "current one of boat 1 is slip 1" in said(table.one(correcting(old)))
    assert "send that one first" in said(table.one(correcting(7, boat=2)))


def test_a_slip_of_another_event_is_unknown_here(table: Speaker) -> None:
    other = Speaker(world.event("Elsewhere"), "Table 9")
    theirs = message()
    other.one(theirs)
    assert "not saved here" in said(table.one(correcting(theirs["id"])))


@pytest.mark.parametrize("wrong", [0, -1, 1.5, "1", "", "abc", True, [1], {"slip": 1}, 99999999999999999999, "9" * 36])
def test_what_names_no_slip_is_a_fault(table: Speaker, wrong: Any) -> None:
    table.one(message())
    assert "replaces" in fields(table.one(correcting(wrong)))
    assert WeighSlip.objects.count() == 1


@pytest.mark.parametrize("reason", [None, "", "   "])
def test_a_correction_needs_a_reason(table: Speaker, reason: str | None) -> None:
    table.one(message())
    assert fields(table.one(correcting(1, reason=reason))) == {"reason"}
    assert fields(table.one(void(1, reason=reason))) == {"reason"}


def test_a_correction_is_for_the_same_boat(table: Speaker) -> None:
    table.one(message())
    assert "boat 1’s" in said(table.one(correcting(1, boat=2)))


def test_all_faults_of_a_correction_come_at_once(table: Speaker) -> None:
    answer = table.one(correcting(7, alive=3, note=5, reason=None))
    assert fields(answer) >= {"replaces", "note"}


def test_a_void_takes_the_slip_out_and_the_boat_may_weigh_again(event: Event, table: Speaker) -> None:
    table.one(message())
    assert table.one(void(1))["state"] == "kept"
    assert not current_slips(event)
    result = next(row.result for row in standings_of(event).outcome.ranked if row.result.team.boat == 1)
    assert result.status == "not_weighed"
    again = table.one(message(gross="8.40"))
    assert (again["state"], again["slip"]) == ("kept", 3)


def test_a_void_may_carry_the_slips_fields_which_are_not_scored(table: Speaker) -> None:
    first = message()
    table.one(first)
    assert table.one({**void(1), **{k: v for k, v in first.items() if k != "id"}, "alive": 2})["state"] == "kept"


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"replaces": None}, "replaces"),
        ({"official": None}, "official"),
        ({"boat": None}, "boat"),
        ({"day": None}, "day"),
        ({"day": 2}, "day"),
        ({"boat": 2}, "replaces"),
        ({"void": "true"}, "void"),
        ({"void": 1}, "void"),
        ({"gross": "9,47"}, "gross"),
    ],
)
def test_what_a_void_must_have(table: Speaker, values: dict[str, Any], field: str) -> None:
    table.one(message())
    assert field in fields(table.one(void(1, **values)))
    assert WeighSlip.objects.count() == 1


def test_a_void_itself_is_not_corrected(table: Speaker) -> None:
    table.one(message())
    table.one(void(1))
    assert "voids another" in said(table.one(correcting(2)))
    assert "voided by slip 2" in said(table.one(correcting(1)))


def test_replays_of_a_void_are_already(table: Speaker) -> None:
    table.one(message())
    sent = void(1)
    table.one(sent)
    assert table.one(sent)["state"] == "already"
    assert table.one({**sent, "void": False})["state"] == "differs"


@pytest.mark.parametrize("change", [void(1), correcting(2, gross="8.50")], ids=["void", "correction"])
def test_only_a_director_settles_a_doubled_day(event: Event, table: Speaker, change: dict[str, Any]) -> None:
    table.send(message(), message(gross="8.70"))
    (fault,) = table.one(change)["faults"]
    assert fault["field"] == "replaces" and "only a director decides which one counts" in fault["message"]
    official, director = world.member(event.club, Role.WEIGH_OFFICIAL), world.member(event.club, Role.DIRECTOR)
    where = f"/api/events/{event.slug}/slips"
    for client, states in ((official, {"refused"}), (director, {"kept", "second"})):
        answer = client.post(where, {"slips": [change]}, content_type="application/json")
        assert answer.json()["slips"][0]["state"] in states


def test_a_correction_moves_a_slip_to_its_right_day(table: Speaker) -> None:
    table.one(message())
    moved = correcting(1, day=2, weighed="2026-06-21T15:10:00-05:00")
    assert table.one(moved)["state"] == "kept"


def test_a_correction_made_on_the_page_meanwhile_is_named(event: Event, table: Speaker) -> None:
    table.one(message())
    slip = WeighSlip.objects.select_related("entry", "event").get()
    words = {"day": "1", "boat": "1", "fish": "7", "alive": "7", "dead": "0", "gross": "8.55", "reason": "misread"}
    correct_slip(slip, words, "quill")
    assert "slip 2" in said(table.one(correcting(1)))


def test_a_member_corrects_by_role(event: Event) -> None:
    """Weigh officials write and correct; others of the club do neither."""
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    first = message()
    for body in (first, correcting(first["id"])):
        answer = client.post(f"/api/events/{event.slug}/slips", {"slips": [body]}, content_type="application/json")
        assert answer.json()["slips"][0]["state"] == "kept"
    reviewer = world.member(event.club, Role.CLUB_REVIEWER)
    answer = reviewer.post(f"/api/events/{event.slug}/slips", {"slips": [first]}, content_type="application/json")
    assert answer.status_code == 403

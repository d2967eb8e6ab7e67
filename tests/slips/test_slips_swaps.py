"""Two boats keyed for each other: swapped in one act, by a page and by the corrections a tablet sends."""

from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse
from slips.table import record
from stations.speaking import Speaker, message, new_id

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.slips.queries.slips import current_slips
from weighin.slips.services import slips as services


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2)


@pytest.fixture
def pair(event: Event) -> tuple[WeighSlip, WeighSlip]:
    """Boat 1's slip holds boat 2's fish, and the other way round."""
    one = record(event, gross="9.10", alive="6", dead="1", checked_in="14:50", note="big one", well_boat="2")
    return one, record(event, boat="2", gross="5.20", checked_in="15:01", excused_minutes="2", official="A. Sedge")


def stands(event: Event) -> list[tuple[int, str, int, str]]:
    return [(slip.entry.boat, slip.gross, slip.dead, slip.official) for slip in current_slips(event)]


def test_each_boat_gets_what_the_other_slip_says(event: Event, pair: tuple[WeighSlip, WeighSlip]) -> None:
    before = Event.objects.get(pk=event.pk).revision
    one, two = services.swap_slips(*pair, "keyed for each other", "quill")
    assert stands(event) == [(1, "5.20", 0, "A. Sedge"), (2, "9.10", 1, "R. Quill")]
    assert (one.replaces_id, two.replaces_id) == (pair[0].pk, pair[1].pk)
    assert one.reason == two.reason == "keyed for each other"
    one.refresh_from_db(), two.refresh_from_db()
    assert (one.checked_in, one.excused_minutes) == (pair[0].checked_in, ""), "the check-in is the boat's"
    assert (two.checked_in, two.excused_minutes) == (pair[1].checked_in, "2")
    assert (two.note, two.well_boat) == ("big one", None), "its own livewell needs no word"
    told = [entry.sentence for entry in HistoryEntry.objects.filter(act="slip.corrected").order_by("id")]
    assert told == [
        "Slip 3 replaces slip 1 of boat 1: keyed for each other",
        "Slip 4 replaces slip 2 of boat 2: keyed for each other",
    ]
    assert Event.objects.get(pk=event.pk).revision > before
    assert not breaks(WeighSlip.objects.order_by("position").select_related("entry"))


def test_swapped_twice_everything_is_as_before(event: Event, pair: tuple[WeighSlip, WeighSlip]) -> None:
    before = stands(event)
    swapped = services.swap_slips(*pair, "keyed for each other", "quill")
    services.swap_slips(*swapped, "no, it was right", "quill")
    assert stands(event) == before


@pytest.mark.parametrize("which", [0, 1])
def test_nothing_is_swapped_when_either_was_replaced(
    event: Event, pair: tuple[WeighSlip, WeighSlip], which: int
) -> None:
    services.void_slip(pair[which], "not theirs", "quill")
    rows = WeighSlip.objects.count()
    with pytest.raises(Faults, match="was replaced by slip 3 meanwhile"):
        services.swap_slips(*pair, "keyed for each other", "quill")
    assert WeighSlip.objects.count() == rows


def test_nothing_is_swapped_when_one_of_the_two_cannot_stand(event: Event) -> None:
    one = record(event, gross="9.10", weighed="15:10")
    two = record(event, boat="2", gross="5.20", weighed="14:30")
    from weighin.care.services.notes import write_care_note

    write_care_note(event, {"day": "1", "boat": "1", "launched": "14:45"}, "quill")
    rows = WeighSlip.objects.count()
    with pytest.raises(Faults):  # boat 1 was not launched when the other slip was weighed
        services.swap_slips(one, two, "keyed for each other", "quill")
    assert WeighSlip.objects.count() == rows and not HistoryEntry.objects.filter(act="slip.corrected").exists()


def test_a_swap_has_a_reason_and_two_boats_of_one_day(event: Event, pair: tuple[WeighSlip, WeighSlip]) -> None:
    other_day = record(event, boat="3", day="2", weighed="2026-06-21 15:00")
    for second, reason in ((pair[1], " "), (pair[0], "why"), (other_day, "why")):
        with pytest.raises(Faults):
            services.swap_slips(pair[0], second, reason, "quill")
    assert WeighSlip.objects.count() == 3


def test_the_page_lays_them_side_by_side_and_swaps(event: Event, pair: tuple[WeighSlip, WeighSlip]) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL, "quill")
    address = reverse("slips:slip_swap", args=[event.slug, 1])
    assert address in client.get(reverse("slips:slip", args=[event.slug, 1])).content.decode()
    chosen = client.get(address).content.decode()
    assert "Boat 2, Open table pair 2: slip 2, 7 fish, 5.20" in chosen
    beside = client.get(address, {"with": "2"}).content.decode()
    assert "Swap boat 1 and boat 2?" in beside and "9.10" in beside and "5.20" in beside
    refused = client.post(f"{address}?with=2", {"reason": ""})
    assert refused.status_code == 200 and "A correction needs a reason" in refused.content.decode()
    done = client.post(f"{address}?with=2", {"reason": "keyed for each other"}, follow=True)
    assert "Swapped: slip 3 is boat 1’s, slip 4 is boat 2’s." in done.content.decode()
    assert [gross for _, gross, _, _ in stands(event)] == ["5.20", "9.10"]
    again = client.get(address, follow=True)
    assert "Slip 1 was replaced by slip 3" in again.content.decode()
    for odd in ("99", "1", "x", "-1", "9" * 30):
        assert client.get(reverse("slips:slip_swap", args=[event.slug, 3]), {"with": odd}).status_code in (200, 404)


def test_with_no_other_slip_there_is_nothing_to_swap(event: Event) -> None:
    record(event)
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    said = client.get(reverse("slips:slip_swap", args=[event.slug, 1])).content.decode()
    assert "No other boat has a slip for day 1." in said


def test_of_a_doubled_day_only_a_director_swaps(event: Event, pair: tuple[WeighSlip, WeighSlip]) -> None:
    record(event, boat="2", gross="6.00")
    address = f"{reverse('slips:slip_swap', args=[event.slug, 1])}?with=2"
    assert world.member(event.club, Role.WEIGH_OFFICIAL).get(address).status_code == 403
    assert world.member(event.club, Role.DIRECTOR).get(address).status_code == 200


# ---- from a tablet: two corrections in one body


def swap(first: dict[str, Any], second: dict[str, Any]) -> list[dict[str, Any]]:
    def half(mine: dict[str, Any], other: dict[str, Any]) -> dict[str, Any]:
        return {**other, "id": new_id(), "boat": mine["boat"], "replaces": mine["id"], "reason": "keyed for each other"}

    return [half(first, second), half(second, first)]


@pytest.mark.parametrize("order", [(0, 1, 2, 3), (3, 1, 2, 0), (2, 3, 0, 1)])
def test_a_tablets_swap_in_any_order_within_a_body_and_again(event: Event, order: tuple[int, ...]) -> None:
    table = Speaker(event)
    slips = [message(gross="9.10"), message(boat=2, gross="5.20")]
    items = [*slips, *swap(*slips)]
    answers = table.send(*(items[place] for place in order))
    assert {answer["state"] for answer in answers} == {"kept"}, "no boat has two slips at any moment"
    assert [(boat, gross) for boat, gross, _, _ in stands(event)] == [(1, "5.20"), (2, "9.10")]
    again = table.send(*(items[place] for place in reversed(order)))
    assert {answer["state"] for answer in again} == {"already"} and WeighSlip.objects.count() == 4


def test_one_half_of_a_tablets_swap_waits_for_its_slip(event: Event) -> None:
    table = Speaker(event)
    slips = [message(gross="9.10"), message(boat=2, gross="5.20")]
    halves = swap(*slips)
    table.one(slips[0])
    assert [answer["state"] for answer in table.send(*halves)] == ["kept", "refused"]
    table.one(slips[1])
    assert [answer["state"] for answer in table.send(*halves)] == ["already", "kept"]
    assert [(boat, gross) for boat, gross, _, _ in stands(event)] == [(1, "5.20"), (2, "9.10")]


# ---- after the fish are released


RELEASED = "2026-06-20T15:30:00-05:00"


def test_after_release_a_station_changes_nothing(event: Event) -> None:
    table = Speaker(event)
    first = message()
    table.one(first)
    back = {**first, "id": new_id(), "replaces": 1, "reason": "they are back", "released": RELEASED}
    assert table.one(back)["state"] == "kept"
    void = {"id": new_id(), "day": 1, "boat": 1, "official": "Q", "void": True, "replaces": 2, "reason": "wrong"}
    changes = ({"gross": "9.50"}, {"tare": "0.10"}, {"released": None}, {"dead_at_release": 1}, {"note": "windy"})
    for sent in (void, *({**back, "id": new_id(), "replaces": 2, **change} for change in changes)):
        (fault,) = table.one(sent)["faults"]
        assert fault["field"] == "replaces" and "only a director may correct or void it" in fault["message"]
    assert [slip.number for slip in current_slips(event)] == [2]


def test_after_release_a_director_rules_and_an_official_does_not(event: Event) -> None:
    first = message(released=RELEASED)
    Speaker(event).one(first)
    fix = {**first, "id": new_id(), "replaces": 1, "reason": "the scale was off", "gross": "8.90"}
    where = f"/api/events/{event.slug}/slips"

    def state(client: Client) -> str:
        sent = client.post(where, {"slips": [fix]}, content_type="application/json")
        return str(sent.json()["slips"][0]["state"])

    official, director = world.member(event.club, Role.WEIGH_OFFICIAL), world.member(event.club, Role.DIRECTOR)
    void = reverse("slips:slip_void", args=[event.slug, 1])
    assert "Only a director may" not in official.get(void).content.decode()
    said = official.post(void, {"reason": "wrong"}).content.decode()
    assert "only a director may change their weight or void the slip" in said
    assert state(official) == "refused" and state(director) == "kept"
    assert [slip.gross for slip in current_slips(event)] == ["8.90"]


def test_after_release_an_official_does_not_swap(event: Event, pair: tuple[WeighSlip, WeighSlip]) -> None:
    third = record(event, boat="3", gross="7.00", weighed="15:05", released="15:30")
    with pytest.raises(Faults, match="only a director"):
        services.swap_slips(pair[0], third, "keyed for each other", "quill", ruling=False)
    services.swap_slips(pair[0], third, "keyed for each other", "marrow")
    assert [gross for _, gross, _, _ in stands(event)] == ["7.00", "5.20", "9.10"]

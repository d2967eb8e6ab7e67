"""Release by bag: alive at the table = back + dead when let go + kept + lent + in the tank, and nothing counted twice."""

import uuid
from typing import Any

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from slips.table import record
from stations.speaking import Speaker, fields, message
from world import member

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.records.domain.messages import Draft, Sender
from weighin.records.services.door import write
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip, void_slip
from weighin.tanks.models import HandedBag, KeptFish, Release
from weighin.tanks.pages.bag_words import headline, remarks
from weighin.tanks.queries.bags import Account, account_of
from weighin.tanks.services.bags import hand_over, let_go, take_back
from weighin.tanks.services.releases import KEPT_FISH, RELEASE

pytestmark = pytest.mark.django_db
BATCH = {"day": "1", "by": "batch", "place": "The point", "time": "16:05"}


@pytest.fixture
def event() -> Event:
    found = world.event()
    record(found, boat="1", fish="7", alive="7", dead="0")
    record(found, boat="2", fish="7", alive="6", dead="1")
    record(found, boat="3", fish="4", alive="4", dead="0")
    return found


def adds_up(found: Account) -> bool:
    parts = found.back + found.died + found.kept + found.lent + found.tank_fish + found.unknown
    return found.alive == parts


def kept(event: Event, **written: str) -> KeptFish:
    texts = {"day": "1", "went": "kept", "alive": "yes", **written}
    return write(KEPT_FISH, event.pk, Draft(texts), Sender("quill", asked=True)).kept()


def batch(event: Event, **written: str) -> Release:
    return write(RELEASE, event.pk, Draft({**BATCH, **written}), Sender("quill", asked=True)).kept()


def test_before_anything_all_is_unknown_and_every_boat_is_named(event: Event) -> None:
    found = account_of(event, 1)
    assert (found.alive, found.unknown) == (17, 17) and adds_up(found)
    assert [boat.boat for boat in found.waiting] == [1, 2, 3]
    assert headline(found) == "17 fish of 17 that came in alive are not accounted for."


def test_from_the_table_by_the_tank_to_the_water(event: Event) -> None:
    first, second = hand_over(event, 1, 1, "crew"), hand_over(event, 1, 2, "crew")
    found = account_of(event, 1)
    assert (found.tank_fish, found.unknown) == (13, 4) and adds_up(found)
    release = let_go(event, [first.pk, second.pk], {**BATCH, "fish": "13", "dead": "2"}, "crew", uuid.uuid4())
    found = account_of(event, 1)
    assert (found.back, found.died, found.tank_fish, found.unknown) == (11, 2, 0, 4) and adds_up(found)
    backs = {boat.boat: boat.back for boat in found.boats}
    assert backs == {1: release.time, 2: release.time, 3: None}
    assert [boat.boat for boat in found.waiting] == [3]
    said = HistoryEntry.objects.get(act="bag.let_go")
    assert said.sentence == "Fish of boats 1, 2 back in the water at The point" and said.details["boats"] == [1, 2]


def test_a_double_tap_and_a_form_sent_twice_count_once(event: Event) -> None:
    bag = hand_over(event, 1, 1, "crew")
    assert hand_over(event, 1, 1, "crew").pk == bag.pk and HandedBag.objects.count() == 1
    key = uuid.uuid4()
    for _ in range(2):
        let_go(event, [bag.pk], {**BATCH, "fish": "7"}, "crew", key)
    assert Release.objects.count() == 1
    assert HistoryEntry.objects.filter(act__in=("bag.let_go", "bag.handed")).count() == 2
    with pytest.raises(Faults, match="changed meanwhile"):
        let_go(event, [bag.pk], {**BATCH, "fish": "7"}, "crew", uuid.uuid4())
    assert Release.objects.count() == 1


def test_kept_given_and_lent_fish_have_their_lines(event: Event) -> None:
    kept(event, boat="1", fish="2")
    kept(event, went="given", fish="1", boat="1")
    kept(event, went="lent", fish="3", boat="2", came_back="1")
    kept(event, went="disposed", alive="no", fish="1", boat="2")
    found = account_of(event, 1)
    assert (found.kept, found.lent, found.unknown) == (3, 2, 12) and adds_up(found)
    assert hand_over(event, 1, 1, "crew").fish == 4 and hand_over(event, 1, 2, "crew").fish == 4
    assert "Lent fish come back into the tally" in remarks(account_of(event, 1))[0]


def test_fish_let_go_one_by_one_count_by_their_slip(event: Event) -> None:
    slip = record(event, boat="4", fish="5", alive="5", dead="0", released="15:40", dead_at_release="1")
    found = account_of(event, 1)
    assert (found.back, found.died, found.unknown) == (4, 1, 17) and adds_up(found)
    with pytest.raises(Faults, match=f"slip {slip.number} says"):
        hand_over(event, 1, 4, "crew")


def test_fish_that_only_the_slip_says_were_kept_are_kept_once(event: Event) -> None:
    record(event, boat="4", fish="5", alive="5", dead="0", released="15:40", kept="2")
    found = account_of(event, 1)
    assert (found.back, found.kept, found.unknown) == (3, 2, 17) and adds_up(found)
    kept(event, boat="4", fish="2")
    found = account_of(event, 1)
    assert (found.back, found.kept, found.unknown) == (3, 2, 17) and adds_up(found)


def test_a_batch_without_boats_names_nobody_and_counts_no_slip_twice(event: Event) -> None:
    record(event, boat="4", fish="5", alive="5", dead="0", released="15:40")
    batch(event, fish="22", dead="0")
    found = account_of(event, 1)
    assert (found.alive, found.back, found.unknown) == (22, 22, 0) and adds_up(found)
    assert found.waiting == [] and "names no boats" in remarks(found)[0]
    batch(event, fish="3")
    found = account_of(event, 1)
    assert found.unknown == -3 and adds_up(found)
    assert headline(found) == "3 fish more are recorded than came in alive."


def test_a_release_taken_out_leaves_its_bags_in_the_tank(event: Event) -> None:
    bag = hand_over(event, 1, 1, "crew")
    release = let_go(event, [bag.pk], {**BATCH, "fish": "7"}, "crew", uuid.uuid4())
    with pytest.raises(Faults, match="void that release first"):
        take_back(event, bag.pk, "crew")
    write(RELEASE, event.pk, Draft({"reason": "wrong day"}, replaces=release.pk, void=True), Sender("crew")).kept()
    assert account_of(event, 1).tank_fish == 7
    take_back(event, bag.pk, "crew")
    found = account_of(event, 1)
    assert found.tank_fish == 0 and [boat.boat for boat in found.waiting] == [1, 2, 3]


def test_a_bag_that_went_back_with_a_batch_locks_its_slip_for_all_but_a_director(event: Event) -> None:
    slip = WeighSlip.objects.get(event=event, entry__boat=1)
    bag = hand_over(event, 1, 1, "crew")
    heavier = world.slip(gross="9.00", reason="misread")
    let_go(event, [bag.pk], {**BATCH, "fish": "7"}, "crew", uuid.uuid4())
    answer = Speaker(event).one(message(gross="9.00", replaces=slip.number, reason="misread"))
    assert fields(answer) == {"replaces"} and "are released" in answer["faults"][0]["message"]
    with pytest.raises(Faults, match="are released"):
        correct_slip(slip, heavier, "crew", ruling=False)
    assert correct_slip(slip, heavier, "quill").replaces_id == slip.pk


def test_a_correction_of_the_slip_shows_as_a_difference_and_is_not_hidden(event: Event) -> None:
    hand_over(event, 1, 3, "crew")
    slip = next(boat.slip for boat in account_of(event, 1).boats if boat.boat == 3)
    written = {
        "boat": "3",
        "day": "1",
        "fish": "4",
        "alive": "3",
        "dead": "1",
        "gross": slip.gross,
        "official": "R. Quill",
    }
    correct_slip(slip, {**written, "reason": "judged again"}, "quill")
    found = account_of(event, 1)
    assert (found.alive, found.tank_fish, found.unknown) == (16, 4, 12) and adds_up(found)
    assert "Boat 3 brought 4 fish to the tank; its slip now has 3 to go back." in remarks(found)[0]


def test_a_bag_whose_slip_no_longer_counts_stays_in_sight(event: Event) -> None:
    bag = hand_over(event, 1, 1, "crew")
    slip = next(boat.slip for boat in account_of(event, 1).boats if boat.boat == 1)
    void_slip(slip, "the wrong boat", "quill")
    found = account_of(event, 1)
    assert found.astray == [bag] and found.tank_fish == 0 and adds_up(found)
    assert "Boat 1’s 7 fish are in the tank, but its slip no longer counts" in remarks(found)[0]
    crew = member(event.club, Role.FISH_CARE_OFFICIAL)
    where = reverse("tanks:account", args=[event.slug])
    assert "1 bag of boats whose slip no longer counts." in crew.get(where).content.decode()
    crew.post(reverse("tanks:bag_taken_back", args=[event.slug, bag.pk]))
    assert account_of(event, 1).astray == []


@pytest.mark.parametrize(
    ("written", "field"),
    [
        ({"fish": "7", "dead": "8"}, "dead"),
        ({"fish": "0"}, "fish"),
        ({"fish": "7", "place": ""}, "place"),
        ({"fish": "7", "day": "9"}, "day"),
    ],
)
def test_bad_input_changes_nothing(event: Event, written: dict[str, str], field: str) -> None:
    bag = hand_over(event, 1, 1, "crew")
    with pytest.raises(Faults) as faults:
        let_go(event, [bag.pk], {**BATCH, **written}, "crew", uuid.uuid4())
    assert field in {fault.field for fault in faults.value.faults}
    bag.refresh_from_db()
    assert bag.release is None and not Release.objects.exists()


@pytest.mark.parametrize("boat", [99, 5])
def test_a_boat_without_a_slip_is_refused(event: Event, boat: int) -> None:
    with pytest.raises(Faults, match="no slip that counts"):
        hand_over(event, 1, boat, "crew")


class TestPages:
    def where(self, event: Event, name: str = "account", *args: Any) -> str:
        return reverse(f"tanks:{name}", args=[event.slug, *args])

    def test_a_fish_care_official_walks_the_whole_way(self, event: Event) -> None:
        crew = member(event.club, Role.FISH_CARE_OFFICIAL)
        shown = crew.get(self.where(event)).content.decode()
        assert "17 fish of 17 that came in alive are not accounted for." in shown
        for boat in (1, 2, 3):
            shown = crew.post(self.where(event, "bag_handed", 1, boat), follow=True).content.decode()
        assert "17 fish are still in the tank" in shown
        form = crew.get(self.where(event, "bags_let_go", 1)).content.decode()
        assert 'value="17"' in form and "Release 3 boats’ fish" in form
        bags = list(HandedBag.objects.values_list("pk", flat=True))
        told = {**BATCH, "fish": "17", "dead": "1", "bag": bags, "key": str(uuid.uuid4())}
        shown = crew.post(self.where(event, "bags_let_go", 1), told, follow=True).content.decode()
        assert "All 17 fish that came in alive are accounted for." in shown and "with the batch at The point" in shown

    def test_what_was_typed_stays_when_it_cannot_be_kept(self, event: Event) -> None:
        crew = member(event.club, Role.FISH_CARE_OFFICIAL)
        bag = hand_over(event, 1, 1, "crew")
        told = {**BATCH, "fish": "7", "dead": "9", "bag": [bag.pk], "key": str(uuid.uuid4())}
        shown = crew.post(self.where(event, "bags_let_go", 1), told).content.decode()
        assert "9 dead are more than the 7 fish brought" in shown and "The point" in shown
        assert f'name="bag" value="{bag.pk}"' in shown

    def test_who_may(self, event: Event) -> None:
        for role in (Role.WEIGH_OFFICIAL, Role.CLUB_REVIEWER):
            other = member(event.club, role)
            shown = other.get(self.where(event))
            assert shown.status_code == 200 and "In the tank<span" not in shown.content.decode()
            assert other.post(self.where(event, "bag_handed", 1, 1)).status_code == 403
        assert Client().get(self.where(event)).status_code in (302, 404)

    def test_a_closed_event_is_read_only(self, event: Event) -> None:
        crew = member(event.club, Role.FISH_CARE_OFFICIAL)
        Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
        assert "The event is closed." in crew.get(self.where(event)).content.decode()
        crew.post(self.where(event, "bag_handed", 1, 1))
        assert not HandedBag.objects.exists()

    def test_a_day_that_is_not_there(self, event: Event) -> None:
        crew = member(event.club, Role.FISH_CARE_OFFICIAL)
        for day in ("9", "x", "-1", "1" * 30, "0000011", "000001" + "1" * 5000):
            assert crew.get(self.where(event), {"day": day}).status_code == 404
        assert crew.get(self.where(event, "bags_let_go", 9)).status_code == 404

    def test_the_same_queries_for_one_bag_and_for_four(self, event: Event) -> None:
        crew = member(event.club, Role.FISH_CARE_OFFICIAL)
        counts = []
        for boat in (1, 2, 3):
            hand_over(event, 1, boat, "crew")
            crew.get(self.where(event))
            with CaptureQueriesContext(connection) as asked:
                crew.get(self.where(event))
            counts.append(len(asked))
        assert len(set(counts)) == 1, counts

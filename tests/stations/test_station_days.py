"""What stations send over a whole day: the check-in reaches the score in either order, and no cut locks a doubled day out."""

from itertools import permutations
from typing import Any

import pytest
import world
from stations.speaking import Speaker, fields, message, new_id

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import settle
from weighin.standings.queries.standings import standings_of

LATE = {"day": 1, "boat": 1, "checked_in": "2026-06-20T15:02:10-05:00", "official": "A. Sedge"}


def total(event: Event, boat: int = 1) -> Any:
    return next(row.result.total for row in standings_of(event).outcome.ranked if row.result.team.boat == boat)


@pytest.mark.parametrize("order", list(permutations(("slips", "checkins"))), ids=" then ".join)
def test_a_check_in_reaches_the_score_in_either_order(db: None, order: tuple[str, ...]) -> None:
    event = world.event(rules={"late_penalty_per_minute": "1.00", "bag_tare": "0"})
    table = Speaker(event)
    sent = {"slips": message(), "checkins": {"id": new_id(), **LATE}}
    for what in order:
        assert table.one(sent[what], what=what)["state"] == "kept"
    assert str(total(event)) == "5.50", "three minutes begun of 8.50"
    page = world.member(event.club, Role.WEIGH_OFFICIAL).get(f"/events/{event.slug}/slips/1/").content.decode()
    assert "by the check-in table" in page
    assert all(table.one(sent[what], what=what)["state"] == "already" for what in order)


def test_a_second_time_is_second_and_the_first_stands(db: None) -> None:
    event = world.event(rules={"late_penalty_per_minute": "1.00", "bag_tare": "0"})
    table = Speaker(event)
    table.one(message())
    assert table.one({"id": new_id(), **LATE}, what="checkins")["state"] == "kept"
    later = {"id": new_id(), **LATE, "checked_in": "2026-06-20T15:09:00-05:00"}
    assert table.one(later, what="checkins")["state"] == "second"
    minutes = {"id": new_id(), "day": 1, "boat": 1, "minutes_late": 9}
    assert table.one(minutes, what="checkins")["state"] == "second"
    excuse = {"id": new_id(), "day": 1, "boat": 1, "excused_minutes": 1}
    assert table.one(excuse, what="checkins")["state"] == "kept"
    assert str(total(event)) == "6.50", "two minutes begun, one excused"


def test_the_cut_locks_no_doubled_day_out(db: None) -> None:
    event = world.event(days=2, rules={"cut_after_day": "1", "cut_keep": "2", "bag_tare": "0"})
    table = Speaker(event)
    weights = {1: "9.00", 2: "8.00", 3: "7.00", 4: "6.00"}
    for boat, gross in weights.items():
        assert table.one(message(boat=boat, gross=gross))["state"] == "kept"
    second = message(boat=1, gross="8.90")
    assert table.one(second)["state"] == "second"
    next_day = {"day": 2, "weighed": "2026-06-21T15:10:00-05:00"}
    assert table.one(message(boat=1, gross="5.00", **next_day))["state"] == "kept", "the leader stays in"
    assert fields(table.one(message(boat=4, gross="5.00", **next_day))) == {"boat"}, "fourth is not let in"
    assert table.one(message(boat=2, gross="5.00", **next_day))["state"] == "kept"
    assert table.one(message(boat=2, gross="1.00"))["state"] == "second", "late, and promised"
    slip = WeighSlip.objects.select_related("event", "entry").get(pk=second["id"])
    settle(slip, "the second reading", "marrow")
    correction = message(boat=1, gross="1.00", replaces=str(slip.pk), reason="misread")
    assert table.one(correction)["state"] == "kept", "a correction is never refused for the cut"

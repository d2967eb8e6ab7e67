"""What stands open is asked in one place: what must be settled, and what may be overruled."""

import pytest
import world
from slips.table import record
from stations.speaking import Speaker, new_id

from weighin.accounts.domain.roles import Can
from weighin.operations.queries.day import day_of
from weighin.operations.queries.open_questions import CLOSE, PUBLISH, open_questions
from weighin.operations.services.publishing import publish
from weighin.rules.faults import Faults
from weighin.standings.models import OfficialResult


@pytest.mark.django_db
def test_slip_and_roll_that_disagree_a_second_slip_and_a_boat_out_are_named_by_day() -> None:
    event = world.event()
    table = Speaker(event)
    for boat in "123":
        record(event, boat=boat, checked_in="14:30", weighed="15:30")
    record(event, boat="3", gross="9.00", checked_in="14:30", weighed="15:31")
    for boat in (1, 2, 3):
        at = "15:05" if boat == 1 else "14:30"
        line = {
            "id": new_id(),
            "day": 1,
            "boat": boat,
            "official": "A. Sedge",
            "checked_in": f"2026-06-20T{at}:00-05:00",
        }
        assert table.one(line, "checkins")["state"] == "kept"
    found = {question.code: question for question in open_questions(event)}
    assert found["lateness_in_doubt"].words == "Day 1: slip and check-in disagree on how late boat 1 came."
    assert found["lateness_in_doubt"].at.endswith("/roll/1/1/") and not found["lateness_in_doubt"].must_settle
    assert found["second_slip"].must_settle and "boat 3 has two slips" in found["second_slip"].words
    assert found["second_slip"].at.endswith("/slips/3/counts/")
    assert found["boats_out"].must_settle and "boat 4 is still out" in found["boats_out"].words
    assert "boats_out" in {question.code for question in open_questions(event, CLOSE)}
    needs = [words for words, _ in day_of(event, set(Can)).needs]
    assert [words.split(":")[0] for words in needs if "Which counts?" in words] == ["Boat 1, day 1"]
    assert not [words for words in needs if "disagree" in words]  # the same doubt is told once
    everything = {question.key: "never mind" for question in found.values()}
    with pytest.raises(Faults) as refused:
        publish(event, "dora", "", everything)
    assert {fault.message.split(":")[0] for fault in refused.value.faults} == {"Day 1"}
    assert len(refused.value.faults) == 2 and not OfficialResult.objects.exists()


@pytest.mark.django_db
def test_a_reason_longer_than_a_version_keeps_is_refused() -> None:
    event = world.event(teams=1, slips=[world.slip(boat="1")])
    overruled = {question.key: "Known" for question in open_questions(event, PUBLISH)}
    with pytest.raises(Faults, match="501 characters: shorten it to 500"):
        publish(event, "mara", "x" * 501, overruled)
    assert publish(event, "mara", "x" * 500, overruled).reason == "x" * 500

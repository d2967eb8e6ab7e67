"""What becomes of a slip that a station sends: kept, already, differs, second, refused."""

import json
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
import world
from django.test import Client
from django.utils import timezone
from slips.table import record
from stations.speaking import Speaker, fields, message, new_id

from weighin.audit.models import HistoryEntry
from weighin.care.services.notes import write_care_note
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks
from weighin.standings.queries.standings import standings_of
from weighin.standings.services import set_closed

FULL = {
    "fish": 7, "alive": 5, "dead": 2, "short": 1, "gross": "9.47", "tare": "0.32", "big_fish": "1.66", "big_fish_alive": True,
    "largest_weights": ["1.71", "1.66"], "species": {"black_crappie": 4, "white_crappie": 2, "other": 1}, "well_boat": 2,
    "checked_in": "2026-06-20T15:02:10-05:00", "excused_minutes": 1.5, "bag_issued": "2026-06-20T15:05:00-05:00",
    "weighed": "2026-06-20T20:10:00.250Z", "bag_emptied": "2026-06-20T15:11:00-05:00", "released": "2026-06-20T15:30:00-05:00",
    "dead_at_release": 1, "kept": 1, "extra_penalty": "0.50", "extra_penalty_reason": "net left on the ramp",
    "disqualified_reason": None, "official": "R. Quill", "note": "Bag split; reweighed — twice", "void": False,
}  # fmt: skip

DAY_1 = {"day": 1, "weighed": "2026-06-20T15:10:00-05:00"}
DAY_2 = {"day": 2, "weighed": "2026-06-21T15:10:00-05:00"}


@pytest.fixture
def event(db: None) -> Event:
    return world.event(
        days=2,
        rules={"bag_tare": "0.32", "dead_fish_penalty": "0.25, 0.50", "short_fish": "lose_largest", "fish_limit": "7"},
    )


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


def rows() -> int:
    return WeighSlip.objects.count()


def test_a_slip_is_kept_with_every_field(event: Event, table: Speaker) -> None:
    before = Event.objects.get(pk=event.pk).revision
    sent = message(**FULL)
    answer = table.post("slips", {"slips": [sent]})
    told = answer.json()
    now = Event.objects.get(pk=event.pk).revision
    assert told == {
        "slips": [
            {
                "id": sent["id"],
                "state": "kept",
                "slip": 1,
                "url": f"http://testserver/events/{event.slug}/slips/1/",
                "faults": [],
            }
        ],
        "revision": now,
    }
    assert now == before + 1
    slip = WeighSlip.objects.get(pk=sent["id"])
    assert (slip.entry.boat, slip.day, slip.fish, slip.alive, slip.dead, slip.short) == (1, 1, 7, 5, 2, 1)
    assert (slip.gross, slip.tare, slip.big_fish, slip.largest_weights) == ("9.47", "0.32", "1.66", "1.71, 1.66")
    assert (slip.black_crappie, slip.white_crappie, slip.other_species, slip.well_boat) == (4, 2, 1, 2)
    assert slip.weighed == datetime(2026, 6, 20, 20, 10, 0, 250_000, UTC)
    assert (slip.excused_minutes, slip.big_fish_alive, slip.dead_at_release, slip.kept) == ("1.5", True, 1, 1)
    assert (slip.extra_penalty, slip.extra_penalty_reason) == ("0.50", "net left on the ramp")
    assert (slip.official, slip.note, slip.void) == ("R. Quill", "Bag split; reweighed — twice", False)
    assert slip.recorded_by == "station Table 1" and slip.sent_at is None
    entry = HistoryEntry.objects.get(act="slip.recorded")
    assert (entry.actor, entry.event_id) == ("station Table 1", event.pk)


def test_the_page_of_a_kept_slip_opens_at_its_url(event: Event, table: Speaker) -> None:
    url = table.one(message())["url"]
    assert Client().get(url).status_code == 302  # asks for a log-in, so it is there


def test_a_slip_that_is_kept_counts(event: Event, table: Speaker) -> None:
    table.one(message(gross="8.82"))
    result = next(row.result for row in standings_of(event).outcome.ranked if row.result.team.boat == 1)
    assert (result.status, str(result.total)) == ("ranked", "8.50")


def test_sent_again_it_is_already_kept(table: Speaker) -> None:
    sent = message(**FULL)
    first = table.one(sent)
    again = table.one(sent)
    assert again == {**first, "state": "already"}
    assert rows() == 1


@pytest.mark.parametrize(
    "spelling",
    [
        {"short": 0},
        {"short": None},
        {"tare": "0.32"},
        {"tare": "0.320"},
        {"tare": None},
        {"gross": "8.500"},
        {"excused_minutes": 0},
        {"excused_minutes": "0.0"},
        {"dead_at_release": 0, "kept": 0},
        {"void": False, "reason": "", "note": " "},
        {"largest_weights": []},
        {"species": {}},
        {"species": {"black_crappie": None}},
        {"extra_penalty": "0"},
        {"weighed": "2026-06-20T20:10:00Z"},
        {"weighed": "2026-06-20T20:10:00.000+00:00"},
        {"official": " R. Quill "},
        {"replaces": None},
    ],
)
def test_another_spelling_is_the_same_content(table: Speaker, spelling: dict[str, object]) -> None:
    sent = message()
    table.one(sent)
    assert table.one({**sent, **spelling})["state"] == "already"
    assert table.one(dict(reversed({**sent, **spelling}.items())))["state"] == "already"
    assert rows() == 1


def test_key_order_spacing_and_the_case_of_the_id_do_not_matter(table: Speaker) -> None:
    sent = message()
    table.one(sent)
    body = json.dumps({"slips": [{**dict(reversed(sent.items())), "id": sent["id"].upper()}]}, indent=7)
    assert table.post("slips", body).json()["slips"][0]["state"] == "already"


@pytest.mark.parametrize(
    "other",
    [
        {"gross": "8.51"},
        {"boat": 2},
        {"day": 2, "weighed": "2026-06-21T15:10:00-05:00"},
        {"alive": 6, "dead": 1},
        {"weighed": "2026-06-20T15:10:01-05:00"},
        {"official": "A. Sedge"},
        {"note": "second look"},
        {"species": {"other": 0}},
        {"well_boat": 2},
        {"fish": "seven"},
        {"no_such_field": 1},
        {"weighed": None},
        {"boat": 99},
        {"replaces": 1, "reason": "misread"},
    ],
)
def test_the_same_id_with_other_content_differs(event: Event, table: Speaker, other: dict[str, object]) -> None:
    sent = message()
    table.one(sent)
    before = (rows(), HistoryEntry.objects.count(), Event.objects.get(pk=event.pk).revision)
    answer = table.one({**sent, **other})
    assert (answer["state"], answer["slip"], [fault["field"] for fault in answer["faults"]]) == ("differs", 1, ["id"])
    assert (rows(), HistoryEntry.objects.count(), Event.objects.get(pk=event.pk).revision) == before


def test_an_id_of_another_event_differs_and_tells_nothing(table: Speaker) -> None:
    other = Speaker(world.event("Elsewhere"), "Table 9")
    sent = message(note="nobody's business")
    other.one(sent)
    answer = table.one(sent)
    assert (answer["state"], answer["slip"], answer["url"]) == ("differs", None, None)
    assert "Elsewhere" not in json.dumps(answer) and "slip 1" not in json.dumps(answer)
    assert rows() == 1


def test_a_second_slip_is_kept_and_neither_counts(event: Event, table: Speaker) -> None:
    first, second = table.one(message()), table.one(message(gross="8.70"))
    assert (first["state"], second["state"], second["slip"]) == ("kept", "second", 2)
    assert second["faults"] == [] and second["url"].endswith("/slips/2/")
    result = next(row.result for row in standings_of(event).outcome.ranked if row.result.team.boat == 1)
    assert result.status == "in_question"


def test_a_second_slip_is_told_from_one_for_another_day_or_boat(table: Speaker) -> None:
    states = [table.one(message(boat=boat, **day))["state"] for boat in (1, 2) for day in (DAY_1, DAY_2)]
    assert states == ["kept"] * 4


def test_a_slip_kept_on_the_page_makes_the_stations_the_second(event: Event, table: Speaker) -> None:
    record(event)
    assert table.one(message())["state"] == "second"


def test_replays_of_a_second_are_already(table: Speaker) -> None:
    a, b = message(), message(gross="8.70")
    table.send(a, b)
    assert [answer["state"] for answer in table.send(b, a)] == ["already", "already"]


def test_each_slip_of_a_body_is_taken_for_itself(table: Speaker) -> None:
    good, bad, other = message(), message(boat=99), message(boat=2)
    answers = table.send(good, bad, other)
    assert [answer["state"] for answer in answers] == ["kept", "refused", "kept"]
    assert rows() == 2 and [answer["slip"] for answer in answers] == [1, None, 2]


def test_the_same_slip_twice_in_one_body_is_one_row(table: Speaker) -> None:
    sent = message()
    assert [answer["state"] for answer in table.send(sent, sent)] == ["kept", "already"]
    assert rows() == 1


def test_fifty_slips_go_in_one_body(table: Speaker) -> None:
    answers = table.send(*(message(boat=1 + n % 4, day=1) for n in range(50)))
    assert [answer["slip"] for answer in answers] == list(range(1, 51))
    assert not breaks(WeighSlip.objects.order_by("position").select_related("entry"))


def test_the_replay_stands_whatever_changed_since(event: Event, table: Speaker) -> None:
    """What a slip had to fit with when it was kept does not matter when it comes again."""
    sent = message(checked_in="2026-06-20T14:00:00-05:00")
    table.one(sent)
    write_care_note(event, {"boat": "1", "day": "1"}, "quill")
    note = event.care_notes.get()
    note.launched = datetime(2026, 6, 20, 19, 30, tzinfo=UTC)  # after the boat checked in
    note.save()
    event.event_days.filter(number=1).update(start_time="15:30")
    assert table.one(sent)["state"] == "already"
    assert "weighed" in fields(table.one(message(boat=2))) and "checked_in" in fields(
        table.one({**sent, "id": new_id()})
    )


def test_times_are_held_against_the_care_note(event: Event, table: Speaker) -> None:
    write_care_note(event, {"boat": "1", "day": "1", "launched": "06:30", "first_fish": "15:05"}, "quill")
    early = message(checked_in="2026-06-20T15:04:00-05:00")
    assert fields(table.one(early)) == {"checked_in"}
    assert table.one({**early, "checked_in": "2026-06-20T15:06:00-05:00"})["state"] == "kept"


def test_a_slip_after_a_missed_cut_is_refused(db: None) -> None:
    table = Speaker(world.event(days=2, rules={"cut_after_day": "1", "cut_keep": "1"}))
    table.send(message(boat=1, gross="9.00"), message(boat=2, gross="5.00"))
    answers = table.send(message(boat=2, **DAY_2), message(boat=1, **DAY_2))
    assert fields(answers[0]) == {"boat"} and answers[1]["state"] == "kept"


def test_a_closed_event_takes_nothing_and_the_token_is_dead(event: Event, table: Speaker) -> None:
    table.one(message())
    set_closed(event, True, "quill")
    answer = table.post("slips", {"slips": [message(boat=2)]})
    assert answer.status_code == 401 and event.name in answer.json()["error"]
    assert rows() == 1


@pytest.mark.parametrize(("off", "marked"), [(0, False), (119, False), (-119, False), (200, True), (-7300, True)])
def test_a_clock_that_is_off_is_marked(table: Speaker, off: int, marked: bool) -> None:
    sent = message()
    at = timezone.now() + timedelta(seconds=off)
    answer = table.post("slips", {"slips": [sent], "sent": at.isoformat()}).json()
    slip = WeighSlip.objects.get(pk=sent["id"])
    assert answer["slips"][0]["state"] == "kept" and slip.sent_at == at
    assert (slip.clock_off is not None) == marked == ("clock" in answer)
    if marked:
        assert abs(answer["clock"]["off_seconds"] - off) < 5
        assert ("ahead" if off > 0 else "behind") in answer["clock"]["message"]
        assert slip.clock_off is not None and abs(slip.clock_off.total_seconds() - off) < 5


def test_a_slip_from_the_future_is_kept_and_marked(event: Event, table: Speaker) -> None:
    tomorrow = (timezone.now() + timedelta(hours=20)).astimezone(ZoneInfo(event.time_zone))
    Event.objects.filter(pk=event.pk).update(date=tomorrow.date())
    event.event_days.filter(number=1).update(date=tomorrow.date(), start_time="00:00")
    sent = message(weighed=tomorrow.isoformat())
    assert table.one(sent)["state"] == "kept"
    off = WeighSlip.objects.get(pk=sent["id"]).clock_off
    assert off is not None and off > timedelta(hours=19)


def test_the_senders_clock_is_chained_too(event: Event, table: Speaker) -> None:
    table.post("slips", {"slips": [message()], "sent": "2026-06-20T20:11:00Z"})
    slips = list(WeighSlip.objects.select_related("entry"))
    assert not breaks(slips)
    slips[0].sent_at = None
    assert breaks(slips)

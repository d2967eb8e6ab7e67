"""A rehearsal is a marked copy: it runs through the tablets' addresses, leaves the event as it is, and goes as a whole."""

from typing import Any

import pytest
import world
from rehearsal.sent import FAST, in_process, rehearsed, rows

from weighin.audit.database.triggers import removed_whole
from weighin.audit.models import HistoryEntry
from weighin.audit.services import writing
from weighin.checkin.models import CheckIn
from weighin.events.models import Event
from weighin.events.services.events import DAY_FIELDS, change_day
from weighin.operations.queries.ledgers import ledger_of
from weighin.rehearsal.models import Rehearsal
from weighin.rehearsal.services import running
from weighin.rehearsal.services.copying import make_rehearsal
from weighin.rehearsal.services.loopback import NoAnswer
from weighin.rehearsal.services.running import run_rehearsal, stop_rehearsal
from weighin.rehearsal.services.wiping import wipe_rehearsal
from weighin.roster.models import Entry, Team
from weighin.rules.faults import Faults
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import record_slip

__all__ = ["in_process"]
pytestmark = pytest.mark.usefixtures("in_process")
# What tells that there was one, when it is gone: a line of the club's history a time, and the tablets that were paired
STAYS = ("audit.HistoryEntry", "accounts.SecurityEntry")


@pytest.fixture
def event(db: None) -> Event:
    return world.event("Dawn pairs", 12, rules={"dead_fish_penalty": "0.25"}, entry_fee="60.00")


def test_nothing_is_lost_and_the_report_says_so(event: Event) -> None:
    made, report = rehearsed(event)
    assert report["faults"] == []
    assert (report["boats"], report["slips"]) == (12, 13)  # one was written twice
    assert set(report) == {"boats", "slips", "minutes_in_bag", "over_minutes_share", "longest_line", "faults"}
    assert 0 < report["minutes_in_bag"]["p50"] <= report["minutes_in_bag"]["p90"] <= report["minutes_in_bag"]["max"]
    assert 0 <= report["over_minutes_share"] <= 1 and 1 <= report["longest_line"] <= 12
    kept = WeighSlip.objects.filter(event=made.event)
    assert kept.count() == 13 and sum(kept.values_list("dead", flat=True)) > 0
    assert CheckIn.objects.filter(event=made.event).count() == 12
    assert ledger_of(made.event).faults == ()
    made.refresh_from_db()
    assert made.report == report and made.ended_at is not None


def test_the_same_seed_gives_the_same_report(event: Event) -> None:
    reports = []
    for seed in (7, 7, 8):
        reports.append(rehearsed(event, seed=seed)[1])
        wipe_rehearsal(event, "quill")
    assert reports[0] == reports[1] != reports[2]


def test_the_event_its_rules_and_ledger_stay_untouched(event: Event) -> None:
    def of_the_event() -> dict[str, Any]:
        hanging = next(hanging for owner, hanging in removed_whole() if owner is Event)
        return {
            model._meta.label: list(model._base_manager.filter(**{"__".join(way): event.pk}).order_by("pk").values())
            for model, way in hanging
        } | {"event": Event.everyone.filter(pk=event.pk).values().get()}

    before = of_the_event()
    assert before["roster.Entry"] and before["audit.HistoryEntry"] and before["events.RuleSheet"]
    rehearsed(event)
    assert of_the_event() == before
    wipe_rehearsal(event, "quill")
    assert of_the_event() == before
    assert ledger_of(event).faults == ()


def test_wiping_leaves_no_row(event: Event) -> None:
    before = rows(without=STAYS)
    made, _ = rehearsed(event, boats=20)  # eight are invented, and so are their teams
    assert Team.objects.count() == 20
    wipe_rehearsal(event, "quill")
    assert rows(without=STAYS) == before
    assert not HistoryEntry.objects.filter(event_id=made.event_id).exists()
    said = HistoryEntry.objects.filter(event_id=None, act__startswith="rehearsal.").values_list("act", flat=True)
    assert list(said) == ["rehearsal.begun", "rehearsal.wiped"]


def test_what_people_write_in_it_goes_too(event: Event) -> None:
    made, report = rehearsed(event, boats=3)
    assert report["boats"] == 3
    record_slip(made.event, world.slip(boat="9"), "quill")
    wipe_rehearsal(event, "quill")
    assert WeighSlip.objects.count() == 0 and Rehearsal.objects.count() == 0


def test_two_at_once_are_refused(event: Event) -> None:
    make_rehearsal(event, "quill")
    with pytest.raises(Faults) as refused:
        make_rehearsal(event, "quill")
    assert "wipe that rehearsal" in refused.value.faults[0].message
    assert Event.everyone.count() == 2


def test_an_event_with_a_slip_is_not_rehearsed(event: Event) -> None:
    record_slip(event, world.slip(), "quill")
    with pytest.raises(Faults, match="before its first slip"):
        make_rehearsal(event, "quill")


def test_what_is_asked_is_checked_all_at_once(event: Event) -> None:
    with pytest.raises(Faults) as refused:
        make_rehearsal(event, "quill", seed=-1, speed=0, boats=0)
    assert {fault.field for fault in refused.value.faults} == {"seed", "speed", "boats"}


def test_a_rehearsal_is_not_rehearsed(event: Event) -> None:
    with pytest.raises(Faults, match="is a rehearsal itself"):
        make_rehearsal(make_rehearsal(event, "quill").event, "quill")


def test_an_event_without_teams_wants_to_know_how_many(db: None) -> None:
    empty = world.event("Nobody yet", 0)
    with pytest.raises(Faults, match="no team is entered"):
        make_rehearsal(empty, "quill")
    assert rehearsed(empty, boats=2)[1]["boats"] == 2


def test_an_event_that_is_cancelled_has_no_day_to_rehearse(event: Event) -> None:
    event.event_days.update(status="cancelled")
    with pytest.raises(Faults, match="every day of"):
        make_rehearsal(event, "quill")


def test_the_first_day_not_fished_is_rehearsed(db: None) -> None:
    event = world.event("Two mornings", 4, days=2)
    day = event.event_days.get(number=1)
    change_day(event, 1, {**{name: getattr(day, name) for name in DAY_FIELDS}, "status": "cancelled"}, "quill")
    made, report = rehearsed(event)
    assert report["faults"] == [] and made.day == 2
    assert set(WeighSlip.objects.values_list("day", flat=True)) == {2}


def test_teams_that_wait_for_a_number_get_one_in_the_copy_alone(event: Event) -> None:
    Entry.everyone.filter(event=event, boat=3).update(boat=None)
    made, report = rehearsed(event)
    assert report["boats"] == 12
    assert not Entry.everyone.filter(event=made.event, boat=None).exists()
    assert Entry.everyone.filter(event=event, boat=None).count() == 1


@pytest.mark.parametrize("unit", ["lb", "lb-oz", "kg"])
def test_every_unit_and_rule_sheet_can_be_rehearsed(db: None, unit: str) -> None:
    rules = {"dead_fish": "not_weighed"} if unit == "kg" else {"late_disqualify_after_minutes": "5"}
    event = world.event("Units", 8, rules=rules, weight_unit=unit)
    assert rehearsed(event)[1]["faults"] == []


def test_it_ends_once_the_event_itself_has_a_slip_which_is_kept(event: Event) -> None:
    made = make_rehearsal(event, "quill", speed=FAST)
    record_slip(event, world.slip(), "quill")
    report = run_rehearsal(made)
    assert report is not None and report["boats"] == 0 and report["faults"] == []
    assert event.slips.count() == 1
    wipe_rehearsal(event, "quill")
    assert event.slips.count() == 1


def test_it_can_be_stopped_and_wiped_while_boats_come_in(event: Event) -> None:
    made = make_rehearsal(event, "quill", speed=FAST)
    stop_rehearsal(event)
    report = run_rehearsal(made)
    assert report is not None and report["slips"] == 0
    wipe_rehearsal(event, "quill")
    again = make_rehearsal(event, "quill", speed=FAST)
    wipe_rehearsal(event, "quill")
    assert run_rehearsal(again) is None
    with pytest.raises(Faults, match="nothing to wipe"):
        wipe_rehearsal(event, "quill")


def test_wiped_in_the_midst_of_a_body_it_ends_quietly(event: Event, monkeypatch: pytest.MonkeyPatch) -> None:
    made = make_rehearsal(event, "quill", speed=FAST)

    def gone(*asked: Any) -> Any:
        wipe_rehearsal(event, "quill")
        raise NoAnswer("401")

    monkeypatch.setattr(running.Tablet, "post", gone)
    assert run_rehearsal(made) is None


def test_what_is_not_answered_refused_or_altered_is_a_fault(event: Event, monkeypatch: pytest.MonkeyPatch) -> None:
    post, asked = running.Tablet.post, []

    def at_times(tablet: Any, address: str, body: dict[str, Any]) -> Any:
        asked.append(address)
        if len(asked) == 3:
            raise NoAnswer("no line")
        if address == "slips" and asked.count("slips") == 2:
            body["slips"][0]["alive"] = 99
        found = post(tablet, address, body)
        if address == "slips" and asked.count("slips") == 4:  # acknowledged, and never kept
            found["slips"][0]["state"] = "kept"
        return found

    monkeypatch.setattr(running.Tablet, "post", at_times)
    _, report = rehearsed(event)
    said = " ".join(report["faults"])
    assert "nothing answered: no line" in said and "was sent and not taken" in said


def test_a_lost_or_altered_slip_is_found(event: Event, monkeypatch: pytest.MonkeyPatch) -> None:
    post = running.Tablet.post

    def forgetful(tablet: Any, address: str, body: dict[str, Any]) -> Any:
        found = post(tablet, address, body)
        if address == "slips":
            if "lost" not in done:
                done["lost"] = body["slips"][0]["id"]
                body["slips"][0]["id"] = "00000000-0000-4000-8000-000000000000"
            elif "altered" not in done:
                done["altered"] = body["slips"][0]["id"]
                body["slips"][0]["gross"] = "99.00"
        return found

    done: dict[str, str] = {}
    monkeypatch.setattr(running.Tablet, "post", forgetful)
    _, report = rehearsed(event)
    said = " ".join(report["faults"])
    assert "was acknowledged and is not there" in said
    assert "gross was sent as 99.00" in said


def test_standings_that_differ_from_what_was_sent_are_found(event: Event, monkeypatch: pytest.MonkeyPatch) -> None:
    from weighin.rehearsal.queries import checking

    def without_fees(*asked: Any) -> Any:
        found = run(*asked)
        return type(found)(found.ranked[1:], found.purse, found.points)

    run = checking.run
    monkeypatch.setattr(checking, "run", without_fees)
    assert "and what was sent comes to" in rehearsed(event)[1]["faults"][0]


def test_a_copy_with_all_that_an_event_can_have(db: None) -> None:
    from weighin.line.services.words import set_terms

    fresh = world.event("With flights", [{**row, "flight": "A", "paid": "yes"} for row in world.pairs(6)], more={"Flights": [{"flight": "A", "due_time": "14:30"}]})  # fmt: skip
    set_terms(fresh, "quill", scales=2, bags=4, walk_seconds=60, boat_seconds=120)
    with writing():
        made = make_rehearsal(fresh, "quill", speed=FAST)
    report = run_rehearsal(made)
    assert report is not None and report["faults"] == []
    assert made.event.flights.count() == 1 and made.event.line_terms.get().scales == 2
    assert set(Entry.objects.filter(event=made.event).values_list("paid", flat=True)) == {True}

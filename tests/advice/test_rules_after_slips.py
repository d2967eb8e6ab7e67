"""Rules that change after the first slip: looked at first, with a reason, from the next day on or for the whole event."""

import io
import json
import re
import tempfile
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from django.urls import reverse
from django.utils import timezone

from weighin.accounts.domain.roles import Role
from weighin.advice.services.rule_change import change_rules_after_slips, look_at_change
from weighin.audit.models import HistoryEntry
from weighin.events.access import find
from weighin.events.models import Event
from weighin.events.queries.events import rules_by_day, rules_of
from weighin.operations.queries.open_questions import open_questions
from weighin.reports.files.event import event_file
from weighin.rules.faults import Faults
from weighin.rules.sheets.changes import changes_in, written_on
from weighin.slips.services.slips import correct_slip
from weighin.standings.queries.standings import standings_of
from weighin.standings.services import publish_result
from weighin.workbooks.parsing.reading import read_workbook

pytestmark = pytest.mark.django_db
EVENING = datetime(2026, 6, 13, 23, 30, tzinfo=UTC)  # day 1 is weighed, day 2 not begun


def fished(days: int = 2, name: str = "Two days", **rules: str) -> Event:
    """Three paid boats weighed on day 1, the heaviest with two dead fish; boat 2 two minutes late."""
    rows = [
        world.slip(
            slip="1",
            boat="1",
            gross="9.40",
            alive="5",
            dead="2",
            big_fish="1.50",
            big_fish_alive="yes",
            official="R. Quill",
        ),
        world.slip(slip="2", boat="2", gross="9.00", minutes_late="2", official="R. Quill"),
        world.slip(slip="3", boat="3", gross="7.80", official="R. Quill"),
    ]
    return world.event(
        name, world.pairs(3, paid="yes"), rows, days=days, date="2026-06-13", entry_fee="100",
        rules={"late_penalty_per_minute": "0.10", "places_paid": "2"} | rules,
    )  # fmt: skip


def fresh(event: Event) -> Event:
    found = find(event.slug)
    assert found is not None
    return found


def places(event: Event, as_of: datetime | None = None) -> dict[int, tuple[Any, ...]]:
    found = standings_of(fresh(event), as_of).outcome
    return {
        (boat := row.result.team.boat): (
            row.place,
            row.result.total,
            found.purse.prizes.get(boat, 0),
            found.points[boat],
        )
        for row in found.ranked
    }


def fields(refused: pytest.ExceptionInfo[Faults]) -> set[tuple[str, str]]:
    return {(fault.field, fault.code) for fault in refused.value.faults}


def test_a_correction_of_the_whole_event_is_seen_beforehand_and_is_then_what_was_seen() -> None:
    event = fished()
    assert [places(event)[boat][:2] for boat in (1, 2)] == [(1, Decimal("8.90")), (2, Decimal("8.80"))]
    _, looked = look_at_change(event, {"dead_fish_penalty": "0.50"}, EVENING)
    moved = {row.boat: row for row in looked.replay.moved}
    assert set(moved) == {1, 2} and looked.replay.winner_changed
    assert (moved[1].before.place, moved[1].after.place, moved[1].after.total) == (1, 2, Decimal("8.40"))
    before = places(event)
    assert looked.changed == {"dead_fish_penalty": ["0.25", "0.50"]}
    change_rules_after_slips(event, {"dead_fish_penalty": "0.50"}, "mara", "the printed sheet says 0.50", whole=True)
    after = places(event)
    for boat, row in moved.items():
        assert (row.before.place, row.before.total, row.before.prize, row.before.points) == before[boat]
        assert (row.after.place, row.after.total, row.after.prize, row.after.points) == after[boat]
    assert after[3] == before[3]
    (change,) = changes_in(fresh(event).rule_sheet.versions)
    assert (change.from_day, change.by, change.reason) == (None, "mara", "the printed sheet says 0.50")
    entry = HistoryEntry.objects.get(act="rules.changed")
    assert "whole event" in entry.sentence and "the printed sheet says 0.50" in entry.sentence
    assert fresh(event).revision > event.revision and not rules_by_day(fresh(event))
    out = StringIO()
    call_command("check_ledger", event.slug, stdout=out)


def test_the_files_carry_one_sheet_that_makes_the_same_places() -> None:
    event = fished()
    change_rules_after_slips(event, {"minimum_length_in": "11"}, "mara", "agency", whole=False, now=EVENING)
    change_rules_after_slips(event, {"dead_fish_penalty": "0.50"}, "mara", "misprint", whole=True)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "event.xlsx"
        file.write_bytes(event_file(fresh(event), "xlsx"))
        plan, report = read_workbook(file)
    assert plan is not None and not report.faults
    assert plan.rules.written() == fresh(event).rule_sheet.written
    frozen = publish_result(fresh(event), "mara").document
    assert frozen["rules"] == fresh(event).rule_sheet.written
    assert [row["boat"] for row in frozen["standings"]] == [2, 1, 3]


def test_a_change_counts_from_the_next_day_on_where_what_is_weighed_stays() -> None:
    event = fished()
    before = places(event)
    said = {"minimum_length_in": "12", "late_disqualify_after_minutes": "5", "boat_limit": "10"}
    kept = change_rules_after_slips(event, said, "mara", "heat", whole=False, now=EVENING)
    assert kept.through == 1 and not kept.replay.moved and kept.not_by_day is None
    assert places(event) == before
    (change,) = changes_in(fresh(event).rule_sheet.versions)
    assert change.from_day == 2 and len(change.lines) == 3
    ((day, sheet),) = rules_by_day(fresh(event)).items()
    assert day == 1 and sheet.minimum_length_in is None and rules_of(fresh(event)).minimum_length_in == 12
    assert "from day 2 on" in HistoryEntry.objects.get(act="rules.changed").sentence
    # What is corrected for all later holds on day 1 too, and only that
    change_rules_after_slips(event, {"boat_limit": "12"}, "mara", "misprint", whole=True, now=EVENING)
    sheet_of_day = written_on(1, fresh(event).rule_sheet.written, changes_in(fresh(event).rule_sheet.versions))
    assert (sheet_of_day["boat_limit"], sheet_of_day["minimum_length_in"]) == ("12", "none")


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ({"dead_fish_penalty": "0.50"}, "changes_days_weighed"),
        ({"late_penalty_per_minute": "1"}, "changes_days_weighed"),
        ({"live_fish_bonus": "0.1"}, "changes_days_weighed"),
        ({"places_paid": "1"}, "rules_of_whole_event"),
        ({"ties": "fewest_deductions, share"}, "rules_of_whole_event"),
        ({"points_first": "50"}, "rules_of_whole_event"),
    ],
)
def test_what_would_change_days_fished_counts_for_the_whole_event_or_not_at_all(
    said: dict[str, str], code: str
) -> None:
    event = fished()
    with pytest.raises(Faults) as refused:
        change_rules_after_slips(event, said, "mara", "why", whole=False, now=EVENING)
    assert fields(refused) == {("counts", code)} and refused.value.faults[0].message
    assert not fresh(event).rule_sheet.versions
    change_rules_after_slips(event, said, "mara", "why", whole=True, now=EVENING)
    assert fresh(event).rule_sheet.versions


def test_a_day_that_is_still_fished_keeps_its_rules_until_it_is_over() -> None:
    event = fished()
    noon = datetime(2026, 6, 14, 17, 0, tzinfo=UTC)
    with pytest.raises(Faults) as refused:
        change_rules_after_slips(event, {"boat_limit": "10"}, "mara", "why", whole=False, now=noon)
    assert fields(refused) == {("counts", "no_later_day")}
    event = fished(days=3, name="Three days")
    with pytest.raises(Faults) as refused:
        change_rules_after_slips(event, {"boat_limit": "10"}, "mara", "why", whole=False, now=noon)
    assert fields(refused) == {("counts", "day_going_on")} and "day 2" in refused.value.faults[0].message


def test_checks_of_fish_care_of_days_fished_stay() -> None:
    rows = [world.slip(boat="1", official="", bag_issued="14:00", weighed="14:12", bag_emptied="14:15")]
    event = world.event("Bags", world.pairs(1), rows, days=2, date="2026-06-13")
    with pytest.raises(Faults) as refused:
        change_rules_after_slips(event, {"care_max_bag_minutes": "20"}, "mara", "why", whole=False, now=EVENING)
    assert fields(refused) == {("counts", "changes_checks")}
    change_rules_after_slips(event, {"care_max_bag_minutes": "14"}, "mara", "why", whole=False, now=EVENING)


def test_a_slip_that_scores_otherwise_since_is_asked_about_before_the_result() -> None:
    event = fished()
    said = {
        "late_penalty_per_minute": "0.10",
        "dead_fish_penalty": "0.25",
        "over_limit_penalty": "2",
        "short_fish_penalty": "2",
    }
    change_rules_after_slips(event, said, "mara", "voted", whole=False, now=EVENING)

    def asked() -> list[str]:
        return [question.words for question in open_questions(fresh(event)) if question.code == "other_rules"]

    assert asked() == []
    slip = event.slips.get(number=3)
    texts = {
        "day": "1",
        "boat": "3",
        "fish": "7",
        "alive": "7",
        "dead": "0",
        "short": "1",
        "gross": "7.80",
        "official": "R. Quill",
        "reason": "recount",
    }
    correct_slip(slip, texts, "mara")
    (words,) = asked()
    assert words.startswith("Day 1: the slip of boat 3 scores otherwise")
    change_rules_after_slips(event, {"short_fish_penalty": "1"}, "mara", "as day 1 was fished", whole=True, now=EVENING)
    assert asked() == []


def test_what_stands_in_the_way_is_said_all_at_once() -> None:
    event = fished()
    with pytest.raises(Faults) as refused:
        look_at_change(event, {"fish_limit": "7"})
    assert fields(refused) == {("", "no_rule_changed")}
    with pytest.raises(Faults) as refused:
        look_at_change(event, {"fish_limit": "some", "bag": "1"})
    assert {field for field, _ in fields(refused)} == {"fish_limit", "bag"}
    with pytest.raises(Faults) as refused:
        look_at_change(event, {"cut_after_day": "2", "cut_keep": "1"})
    assert {field for field, _ in fields(refused)} == {"cut_after_day"}
    # Seven fish were weighed in one bag: what the best six weigh nobody knows
    with pytest.raises(Faults) as refused:
        change_rules_after_slips(event, {"fish_limit": "6"}, "mara", " ", False, event.revision + 1, EVENING)
    assert {code for _, code in fields(refused)} == {
        "not_replayed", "change_without_reason", "changes_days_weighed", "changed_since_look",
    }  # fmt: skip
    with pytest.raises(Faults) as refused:
        change_rules_after_slips(event, {"bag_tare": "0.1"}, "mara", "x" * 300, whole=True)
    assert {field for field, _ in fields(refused)} == {"reason"}
    with pytest.raises(Faults) as refused:
        look_at_change(world.event("Not begun", world.pairs(1), []), {"fish_limit": "5"})
    assert fields(refused) == {("", "not_weighed_yet")}


def test_places_that_are_held_back_stay_by_the_sheet_of_then() -> None:
    event = fished()
    since, before = timezone.now(), places(event)
    change_rules_after_slips(event, {"dead_fish_penalty": "0.50"}, "mara", "misprint", whole=True)
    assert places(event, since) == before != places(event)
    assert places(event, timezone.now() + timedelta(seconds=1)) == places(event)


def test_a_director_looks_and_saves_on_the_page_and_everybody_reads_it() -> None:
    event = fished(days=1)
    publish_result(event, "mara")
    director, official = world.member(event.club), world.member(event.club, Role.WEIGH_OFFICIAL)
    where, rules = (reverse(name, args=[event.slug]) for name in ("advice:rule_change", "events:rules"))
    assert where in director.get(rules).content.decode() and where not in official.get(rules).content.decode()
    assert official.get(where).status_code == 403
    form = director.get(where).context["form"]
    assert "counts" not in form.fields  # an event whose last day is past
    typed = fresh(event).rule_sheet.written | {"dead_fish_penalty": "0.50", "reason": "", "act": "look", "seen": "0"}
    page = director.post(where, typed).content.decode()
    assert re.findall("<h1>(.*?)</h1>", page) == [
        "2 places would change, the winner’s among them; $100.00 in prizes would go to others."
    ]
    moved = re.sub(r"<[^>]+>|\s+", " ", page.partition("Who moves")[2].partition("</table>")[0])
    assert "Pair 1 boat 1" in " ".join(moved.split()) and "1 → 2" in " ".join(moved.split())
    assert "Save the change" in page
    assert not fresh(event).rule_sheet.versions
    seen = str(fresh(event).revision)
    refused = director.post(where, typed | {"act": "save", "seen": seen}).content.decode()
    assert "say why the rules change" in refused and "Save the change" in refused
    stale = director.post(where, typed | {"act": "save", "reason": "misprint"}).content.decode()
    assert "look again" in stale and not fresh(event).rule_sheet.versions
    said = director.post(
        where, typed | {"act": "save", "seen": seen, "reason": "misprint"}, follow=True
    ).content.decode()
    assert "For the whole event" in said and "misprint" in said and "0.50, was 0.25" in said
    publish_result(fresh(event), "mara", "the sheet was corrected")
    for version, shown in ((1, False), (2, True)):
        for name, client in (("standings:result", official), ("public:result", world.stranger())):
            html = client.get(reverse(name, args=[event.slug, version])).content.decode()
            assert ("0.50, was 0.25" in html) is shown, (name, version)
    public = world.stranger().get(reverse("public:rules", args=[event.slug])).content.decode()
    assert "misprint" in public and "· director" not in public and "· director" in said
    empty = world.event("Not begun", world.pairs(1), [])
    answer = world.member(empty.club).get(reverse("advice:rule_change", args=[empty.slug]))
    assert answer.status_code == 302 and answer["Location"] == reverse("events:rules_edit", args=[empty.slug])


def test_the_command_looks_and_changes() -> None:
    event = fished()

    def ask(*words: str, **more: Any) -> dict[str, Any]:
        out = io.StringIO()
        call_command("change_rules", event.slug, *words, stdout=out, **more)
        return dict(json.loads(out.getvalue() or "{}"))

    found = ask("dead_fish_penalty=0.50", check=True)
    assert found["from_day"] is None and "no day is still to come" in found["whole_event_because"]
    assert [row["boat"] for row in found["moved"]] == [2, 1] and found["moved"][0]["after"]["place"] == 1
    assert not fresh(event).rule_sheet.versions
    with pytest.raises(CommandError, match="reason: "):
        ask("dead_fish_penalty=0.50", whole_event=True)
    assert ask("dead_fish_penalty=0.50", whole_event=True, reason="misprint")["refused"] is None
    assert fresh(event).rule_sheet.written["dead_fish_penalty"] == "0.50"
    with pytest.raises(CommandError, match="no event"):
        call_command("change_rules", "nowhere", "fish_limit=5")
    planned = world.event("Not begun", world.pairs(1), [])
    call_command("change_rules", planned.slug, "fish_limit=5")
    assert fresh(planned).rule_sheet.written["fish_limit"] == "5" and not fresh(planned).rule_sheet.versions

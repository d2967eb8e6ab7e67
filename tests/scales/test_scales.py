"""Scales and their checks: what is kept, what fails, and which slips that marks."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from slips.table import record

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.scales.models import Scale, ScaleCheck, ScaleReading
from weighin.scales.services.scales import take_out_check, write_check, write_scale
from weighin.slips.models import WeighSlip
from weighin.slips.queries.scale_doubts import Doubts, doubts_of, readings_of
from weighin.slips.queries.slips import current_slips
from weighin.slips.services.slips import correct_slip, swap_slips

pytestmark = [pytest.mark.django_db, pytest.mark.database]


def scale(event: Event, name: str = "Table 1", **more: str) -> Scale:
    return write_scale(event, {"name": name, "division": "0.01", **more}, "quill")


def check(of: Scale, time: str, shown: str, weight: str = "7.00", **more: str) -> ScaleCheck:
    said = {"moment": "during", "at_date": "2026-06-20", "at_time": time, "test_weight": weight, "shown": shown}
    return write_check(of, {**said, "tested_by": "R. Quill", **more}, "quill")


def faults(write: Any) -> dict[str, str]:
    with pytest.raises(Faults) as refused:
        write()
    return {fault.field: fault.message for fault in refused.value.faults}


@pytest.fixture
def event(monkeypatch: pytest.MonkeyPatch) -> Event:
    now = datetime(2026, 6, 20, 23, 30, tzinfo=UTC)
    monkeypatch.setattr("django.utils.timezone.now", lambda: now)
    return world.event()


def weighed(event: Event) -> list[WeighSlip]:
    """Boats 1 to 4 at 15:00, 15:20, 15:40 and 16:00."""
    times = ("15:00", "15:20", "15:40", "16:00")
    return [record(event, boat=str(boat), weighed=time) for boat, time in enumerate(times, 1)]


def marked(event: Event) -> list[int]:
    slips = current_slips(event)
    doubts = doubts_of(event, slips)
    return [slip.entry.boat for slip in slips if slip.pk in doubts.marks]


def test_a_scale_and_its_checks_are_kept_with_their_history(event: Event) -> None:
    revision = event.revision
    one = scale(event, made_by="Merrow 30, no. 118")
    kept = check(one, "14:00", "7.01")
    assert (kept.unit, kept.division, kept.at) == ("lb", "0.01", datetime(2026, 6, 20, 19, 0, tzinfo=UTC))
    event.refresh_from_db()
    assert event.revision > revision
    assert HistoryEntry.objects.filter(act="scale.passed", event_id=event.pk).get().sentence == (
        "Scale Table 1 tested with 7.00 lb: passed, 0.01 lb heavy; 0.02 lb is allowed"
    )
    write_scale(event, {"name": "Table 1", "division": "0.005"}, "quill", one)
    kept.refresh_from_db()
    assert kept.division == "0.01", "a check keeps the division it was made with"


def test_what_no_scale_and_no_check_can_say(event: Event) -> None:
    assert set(faults(lambda: write_scale(event, {}, "quill"))) == {"name", "division"}
    wrong = {
        "name": "x" * 41, "division": "0", "baud": "9601", "data_bits": "9", "parity": "X", "stop_bits": "3",
        "layout": "somebody's", "ask": "\u00dc",
    }  # fmt: skip
    assert set(faults(lambda: write_scale(event, wrong, "quill"))) == set(wrong)
    own = {"name": "A", "division": "0.01", "layout": "own", "pattern": "{figures}"}
    assert "unit" in faults(lambda: write_scale(event, own, "quill"))["pattern"]
    one = scale(event)
    assert "already" in faults(lambda: scale(event, "TABLE 1"))["name"]
    assert set(faults(lambda: write_check(one, {}, "quill"))) >= {"moment", "test_weight", "shown", "tested_by"}
    assert "kg" in faults(lambda: check(one, "14:00", "7.01 kg"))["shown"]
    assert "more than nothing" in faults(lambda: check(one, "14:00", "7", "0"))["test_weight"]
    assert "not come yet" in faults(lambda: check(one, "23:00", "7"))["at_time"]
    assert "a week" in faults(lambda: check(one, "14:00", "7", at_date="2026-08-01"))["at_date"]
    assert "25:00" in faults(lambda: check(one, "25:00", "7"))["at_time"]
    assert Scale.objects.count() == 1 and not ScaleCheck.objects.exists()


def test_a_scale_written_again_has_the_unit_of_the_event(event: Event) -> None:
    one = scale(event)
    Event.objects.filter(pk=event.pk).update(weight_unit="kg", revision=event.revision + 10)
    assert "in kg now, the scale is in lb" in faults(lambda: check(one, "14:00", "7.00"))[""]
    write_scale(event, {"name": "Table 1", "division": "0.01"}, "quill", one)
    assert check(one, "14:00", "7.00").unit == "kg", "the same figure is another division"


def test_a_check_sent_twice_is_kept_once(event: Event) -> None:
    one = scale(event)
    first = check(one, "14:00", "7.00")
    said = {
        "moment": "during",
        "at_date": "2026-06-20",
        "at_time": "14:00",
        "test_weight": "7.00",
        "tested_by": "R. Quill",
    }
    assert write_check(one, {**said, "shown": "7.00"}, "quill", first.pk) == first
    assert "other figures" in faults(lambda: write_check(one, {**said, "shown": "7.50"}, "quill", first.pk))[""]
    assert ScaleCheck.objects.count() == 1


def test_a_failed_check_marks_the_slips_between_the_good_ones(event: Event) -> None:
    one = scale(event)
    weighed(event)
    check(one, "14:30", "7.00", moment="before")
    check(one, "15:10", "7.01")
    assert marked(event) == []
    check(one, "15:50", "7.05")
    assert marked(event) == [2, 3, 4], "from the last good check on, until a good one comes"
    check(one, "15:55", "5.00", weight="5.00")
    assert marked(event) == [2, 3, 4], "a check with another weight says nothing of this one"
    check(one, "15:58", "7.00")
    assert marked(event) == [2, 3]
    (failure,) = doubts_of(event, []).failures
    assert str(failure.error) == "0.05" and failure.since is not None and failure.until is not None


def test_a_check_that_was_never_good_marks_everything(event: Event) -> None:
    weighed(event)
    kept = check(scale(event), "16:30", "6.90")
    assert marked(event) == [1, 2, 3, 4]
    assert "why" in faults(lambda: take_out_check(kept, " ", "quill"))["reason"]
    take_out_check(kept, "read on the wrong scale", "quill")
    assert marked(event) == []
    assert "already" in faults(lambda: take_out_check(kept, "again", "quill"))[""]


def test_of_several_scales_a_slip_goes_by_its_reading_then_its_station_else_it_is_marked(event: Event) -> None:
    first, second = scale(event, stations="Table 1"), scale(event, "Table 2", stations="Table 2, Table 3")
    slips = [
        record(event, boat="1", weighed="15:00"),
        record(event, by="station Table 1", boat="2", weighed="15:00"),
        record(event, by="station Table 3", boat="3", weighed="15:00"),
        record(event, by="station Table 1", boat="4", weighed="15:00"),
    ]
    ScaleReading.objects.create(
        event=event, scale=second, slip_id=slips[3].pk, field="gross", text="8.50", unit="lb", raw="8.50 lb",
        taken_at=slips[3].received_at, recorded_by="station Table 1",
    )  # fmt: skip
    check(second, "15:30", "7.50")
    doubts: Doubts = doubts_of(event, slips)
    assert [slip.entry.boat for slip in slips if slip.pk in doubts.marks] == [1, 3, 4]
    assert [doubts.marks[slip.pk].sure for slip in (slips[0], slips[2], slips[3])] == [False, True, True]
    assert first.pk != second.pk
    corrected = correct_slip(
        slips[1], world.slip(boat="2", weighed="15:00", gross="8.40", reason="misread"), "director"
    )
    assert corrected.pk not in doubts_of(event, [corrected]).marks, "it was weighed where the first one was"


def test_ounces(event: Event) -> None:
    event = world.event("Ounces", weight_unit="lb-oz")
    one = scale(event, division="0-00.5")
    check(one, "14:00", "5-00.5", weight="5-00")
    assert not doubts_of(event, []).failures
    check(one, "14:30", "5-01", weight="5-00")
    (failure,) = doubts_of(event, []).failures
    assert failure.error == failure.worst.verdict.tolerance * 2


# ---- pages


def test_the_page_says_what_failed_and_the_slips_say_it_too(event: Event) -> None:
    one = scale(event)
    director = world.member(event.club, Role.DIRECTOR)
    address = f"/events/{event.slug}/scales/"
    assert "No test weight was put on it yet" in director.get(address).content.decode()
    slips = weighed(event)
    assert "has no check today" in director.get(address).content.decode()
    official = world.member(event.club, Role.WEIGH_OFFICIAL)
    form = {"moment": "during", "test_weight": "7.00", "shown": "7.05", "at_date": "2026-06-20", "at_time": "15:50",
            "tested_by": "R. Quill", "note": ""}  # fmt: skip
    told = official.post(f"{address}{one.pk}/test/", form, follow=True).content.decode()
    assert "Four slips are in doubt" in told and "0.05 lb heavy; 0.02 lb is allowed" in told
    assert "has no check today" not in told
    assert "scale in doubt" in director.get(f"/events/{event.slug}/slips/").content.decode()
    page = director.get(f"/events/{event.slug}/slips/{slips[0].number}/").content.decode()
    assert "weighed on scale Table 1 between good checks: the scale was up to 0.05 lb off" in page
    kept = ScaleCheck.objects.get()
    out = official.post(f"{address}tests/{kept.pk}/", {"reason": "wrong scale"}, follow=True).content.decode()
    assert "wrong scale" in out and "in doubt" not in out
    assert official.get(f"{address}tests/{kept.pk}/").status_code == 404


def test_the_form_names_every_fault_and_keeps_what_was_typed(event: Event) -> None:
    director = world.member(event.club, Role.DIRECTOR)
    page = director.post(
        f"/events/{event.slug}/scales/new/",
        {"name": "Table 9", "division": "none", "speaks": "asked", "layout": "sics"},
    ).content.decode()
    assert "Not saved." in page and 'value="Table 9"' in page and "asks for a weight" in page
    kept = director.post(
        f"/events/{event.slug}/scales/new/",
        {"name": "Table 9", "division": "0.01", "speaks": "asked", "ask": "S", "layout": "sics", "baud": "4800"},
    )
    assert kept.status_code == 302
    found = Scale.objects.get()
    assert (found.layout, found.ask, found.baud) == ("sics", "S", 4800)
    again = director.get(f"/events/{event.slug}/scales/{found.pk}/").content.decode()
    assert 'value="4800" selected' in again and 'value="S"' in again


def test_nothing_is_written_of_a_closed_event(event: Event) -> None:
    one = scale(event)
    Event.objects.filter(pk=event.pk).update(closed_at=datetime(2026, 6, 20, 23, tzinfo=UTC))
    event.refresh_from_db()
    assert "closed" in faults(lambda: check(one, "14:00", "7"))[""]
    assert "closed" in faults(lambda: scale(event, "Table 2"))[""]


def test_the_page_asks_as_much_of_one_check_as_of_many(event: Event) -> None:
    one = scale(event)
    weighed(event)
    check(one, "14:00", "7.50")
    director = world.member(event.club, Role.DIRECTOR)
    counts = []
    for _ in range(2):
        with CaptureQueriesContext(connection) as asked:
            director.get(f"/events/{event.slug}/scales/")
        counts.append(len(asked))
        other = scale(event, f"Table {len(counts) + 1}")
        for minute in range(10, 40):
            check(other, f"14:{minute}", "7.50")
    assert counts[0] == counts[1]


def test_the_record_prints(event: Event) -> None:
    from io import BytesIO

    from pypdf import PdfReader

    check(scale(event, made_by="Merrow 30"), "15:50", "7.05", note="wind on the pan")
    answer = world.member(event.club, Role.CLUB_REVIEWER).get(f"/events/{event.slug}/scales/checks.pdf")
    assert answer["Content-Type"] == "application/pdf"
    text = "".join(page.extract_text() for page in PdfReader(BytesIO(answer.content)).pages)
    assert "failed, 0.05 lb heavy" in " ".join(text.split()) and "Merrow 30" in text and "\u25a0" not in text


def test_checks_are_due_only_on_a_day_that_is_fished(event: Event, monkeypatch: pytest.MonkeyPatch) -> None:
    scale(event)
    later = datetime(2026, 6, 20, 18, tzinfo=UTC) + timedelta(days=5)
    monkeypatch.setattr("django.utils.timezone.now", lambda: later)
    page = world.member(event.club, Role.DIRECTOR).get(f"/events/{event.slug}/scales/").content.decode()
    assert "has no check today" not in page


def test_a_swap_takes_the_lines_of_the_scale_along(event: Event) -> None:
    """Weights that were keyed for each other's boats keep the scales they were read from."""
    good, bad = scale(event, "A"), scale(event, "B")
    first, second = weighed(event)[:2]
    for slip, of in ((first, good), (second, bad)):
        ScaleReading.objects.create(
            event=event, scale=of, slip_id=slip.pk, field="gross", text=slip.gross, unit="lb", raw="x",
            taken_at=slip.weighed, recorded_by="station Table 1",
        )  # fmt: skip
    check(bad, "16:30", "7.30")
    others = [3, 4]  # typed: which scale weighed them is not known
    assert sorted(marked(event)) == [2, *others]
    one, two = swap_slips(first, second, "keyed for each other", "quill")
    assert sorted(marked(event)) == [1, *others]
    assert [reading.scale.name for slip in (one, two) for reading in readings_of(slip)] == ["B", "A"]
    swap_slips(one, two, "and back", "quill")
    assert sorted(marked(event)) == [2, *others]

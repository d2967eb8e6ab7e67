"""Holding studies: the draw, pens and their looks, the result by pens, and what the page may and may not say."""

from datetime import UTC, datetime, timedelta
from io import BytesIO

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone
from openpyxl import load_workbook
from slips.table import record
from tanks.shore import acts, again, faults, page, send, text

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.holding.models import HoldingPen, PenCheck, StudyPen
from weighin.mortality.queries.event import event_mortality
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.reports.writers.event_workbook import write_event_workbook

PEN = {
    "kind": "tournament", "pen": "T1", "group": "Saturday", "held": "20", "planned_hours": "72", "species": "black crappie",
    "started_date": "2026-06-20", "started_time": "16:00", "source": "drawn with 1234",
}  # fmt: skip
CHECK = {"dead": "1", "missing": "0", "escaped": "0", "at_date": "2026-06-21", "at_time": "04:00", "water_temp": "78", "shows": "F", "do": "6.1"}  # fmt: skip
RECORD = {
    "kind": "tournament",
    "group": "Saturday",
    "pen": "T9",
    "held": "20",
    "dead": "2",
    "hours": "72",
    "shows": "F",
}


def keep(carer: Client, event: Event, name: str, *args: object, **data: str) -> None:
    answer = send(carer, event, f"holding:{name}", *args, **data)
    assert answer.status_code == 302, faults(answer)


def put_in(carer: Client, event: Event, **changed: str) -> StudyPen:
    keep(carer, event, "pens_new", **{**PEN, **changed})
    return StudyPen.objects.get(pen=changed.get("pen", "T1"))


def look(carer: Client, event: Event, pen: StudyPen, **changed: str) -> None:
    keep(carer, event, "checks_new", pen.pk, **{**CHECK, **changed})


def records(
    event: Event, tournament: list[tuple[int, int]], reference: list[tuple[int, int]], hours: str = "72"
) -> None:
    """Finished pens as (dead, held)."""
    for kind, pens in (("tournament", tournament), ("reference", reference)):
        for number, (dead, held) in enumerate(pens, start=1):
            HoldingPen.objects.create(
                event=event, group="S", kind=kind, pen=f"{kind[0]}{number}", hours=hours, held=held, dead=dead
            )


def said(carer: Client, event: Event) -> str:
    return text(page(carer, event, "holding:holding"))


def test_the_result_is_abbotts_with_pens_as_clusters(event: Event, carer: Client) -> None:
    """Tournament 2, 3 and 9 dead of 20, reference 1, 0 and 1 of 20: 20.69 % with a standard error of 11.46 points by pen
    (computed; 5.96 were the fish taken one by one). The range by pens reaches far beyond that by fish."""
    records(event, [(2, 20), (3, 20), (9, 20)], [(1, 20), (0, 20), (1, 20)])
    shown = said(carer, event)
    assert "About 21 % of the tournament fish died after release beyond what the reference fish did." in shown
    assert "14 of 60 fish of the tournament died, and 2 of 60 fish that never saw it." in shown
    assert "The study speaks through 72 hours in the pens, and of nothing later." in shown
    assert "anywhere from no increase to" in shown and "3 pens beside 3 pens of reference fish" in shown
    found = event_mortality(event)
    assert found.delayed == pytest.approx(0.2069, abs=0.0001)


def test_above_ten_per_cent_of_reference_deaths_take_care_above_twenty_give_no_estimate(
    event: Event, carer: Client
) -> None:
    for dead, caution, estimate in (
        (2, False, True),
        (3, True, True),
        (4, True, True),
        (5, True, False),
        (20, True, False),
    ):
        HoldingPen.objects.all().delete()
        records(event, [(6, 20), (7, 20), (8, 20)], [(dead, 20)])
        answer = page(carer, event, "holding:holding")
        shown = text(answer)
        assert ("reference fish died. Above 10 %" in shown) is (caution and estimate), dead
        assert ("no estimate is given." in shown or "can tell nothing" in shown) is not estimate, dead
        assert bool(answer.context["figure"]) is estimate
        assert "21 of 60 fish of the tournament died" in shown
    # One rule everywhere: the export gives no figure either
    HoldingPen.objects.all().delete()
    records(event, [(6, 20)], [(5, 20)])
    assert event_document(whole_event(event))["mortality"]["delayed"] is None


def test_without_reference_fish_deaths_of_holding_are_in_the_figure_and_that_is_said(
    event: Event, carer: Client
) -> None:
    records(event, [(2, 20), (3, 20), (1, 20)], [])
    shown = said(carer, event)
    assert "About 10 % died after release, deaths of holding among them." in shown and "No reference fish." in shown


def test_no_increase_is_said_when_the_reference_fish_fared_worse(event: Event, carer: Client) -> None:
    records(event, [(0, 20), (0, 20), (1, 20)], [(1, 20), (1, 20), (1, 20)])
    assert "No increase of deaths after release is shown." in said(carer, event)


def test_the_shortest_pen_says_through_how_many_hours_a_study_speaks(event: Event, carer: Client) -> None:
    records(event, [(2, 20)], [(1, 20)], hours="72")
    records(event, [(2, 20)], [], hours="48")
    shown = said(carer, event)
    assert "speaks through 48 hours" in shown and "Some pens were watched for 72 hours" in shown


def test_few_pens_and_another_species_are_cautioned(event: Event, carer: Client) -> None:
    records(event, [(2, 20), (1, 20)], [(1, 20)])
    shown = said(carer, event)
    assert "Few pens." in shown and "fewer than three" in shown.casefold()
    HoldingPen.objects.filter(kind="reference").update(species="bluegill")
    assert "The reference fish are of another species." in said(carer, event)


def test_a_pen_under_way_is_in_no_figure_but_its_own_pages(event: Event, carer: Client) -> None:
    record(event, alive="6", dead="1")
    pen = put_in(carer, event)
    assert event_mortality(event).delayed is None and "no check yet" in said(carer, event)
    look(carer, event, pen, dead="3")
    assert event_mortality(event).delayed is None and not HoldingPen.objects.exists()
    shown = said(carer, event)
    assert "About 15 % died after release so far" in shown and "speaks through 12 hours" in shown
    assert "Only ended pens count in the mortality" in shown


def test_a_pen_is_looked_into_ended_and_counted(event: Event, carer: Client) -> None:
    pen = put_in(carer, event)
    look(carer, event, pen, dead="1", missing="1")
    look(carer, event, pen, dead="0", escaped="2", at_date="2026-06-23", at_time="16:00", water_temp="25.5", shows="C")
    shown = text(page(carer, event, "holding:pen", pen.pk))
    assert "1 of 20 fish dead, 3 missing or escaped." in shown and "watched as long as planned" in shown
    assert send(carer, event, "holding:pen_end", pen.pk).status_code == 302
    row = HoldingPen.objects.get()
    assert (row.dead, row.missing, row.held, row.hours, row.water_temp) == (1, 3, 20, "72", "25.5 C")
    assert row.started == "2026-06-20 16:00" and row.note == "2 of the missing escaped."
    assert acts(event)[-4:] == ["study_pen.written", "pen_check.written", "pen_check.written", "study_pen.ended"]
    # Ended twice, or looked into again, nothing changes
    assert "is ended already" in text(send(carer, event, "holding:pen_end", pen.pk))
    assert "this pen is ended".capitalize() in text(send(carer, event, "holding:checks_new", pen.pk, **CHECK))
    assert "this pen is ended".capitalize() in text(
        send(carer, event, "holding:pen_change", pen.pk, **{**PEN, "seen": "x"})
    )
    # The finished row is not changed by hand; taken out, the pen is under way again
    keep(carer, event, "holding_record", row.pk, **RECORD)
    row.refresh_from_db()
    assert row.dead == 1
    keep(carer, event, "holding_record", row.pk, act="take_out", **{"out-reason": "one look was wrong"})
    pen.refresh_from_db()
    assert pen.record_id is None and "Add a check" in text(page(carer, event, "holding:pen", pen.pk))


def test_the_finished_row_goes_into_the_workbook(event: Event, carer: Client) -> None:
    pen = put_in(carer, event)
    look(carer, event, pen)
    send(carer, event, "holding:pen_end", pen.pk)
    out = BytesIO()
    write_event_workbook(event, out)
    rows = list(load_workbook(BytesIO(out.getvalue()))["Holding"].iter_rows(values_only=True))
    row = dict(zip(rows[0], rows[1], strict=True))
    assert (row["pen"], row["hours"], row["held"], row["dead"], row["missing"]) == ("T1", 12, 20, 1, 0)


def test_a_pen_without_a_look_cannot_be_ended(event: Event, carer: Client) -> None:
    pen = put_in(carer, event)
    assert "This pen has no check yet: add one first" in text(send(carer, event, "holding:pen_end", pen.pk))
    assert not HoldingPen.objects.exists()


@pytest.mark.parametrize(
    ("wrong", "field", "words"),
    [
        ({"held": "0"}, "held", "1 or more"),
        ({"held": "20.5"}, "held", "not a whole number"),
        ({"kind": ""}, "kind", "missing"),
        ({"pen": ""}, "pen", "missing"),
        ({"planned_hours": "-1"}, "planned_hours", "1 or more"),
        ({"started_date": "2026-09-20"}, "started_date", "not in the time of this event"),
        ({"started_time": ""}, "started_time", "missing"),
    ],
)
def test_a_pens_faults_stand_at_their_fields(
    event: Event, carer: Client, wrong: dict[str, str], field: str, words: str
) -> None:
    sent = {**PEN, **wrong}
    answer = send(carer, event, "holding:pens_new", **sent)
    found = faults(answer)
    assert set(found) == {field} and words in found[field] and not StudyPen.objects.exists()
    assert all(answer.context["form"][name].value() == value for name, value in sent.items())


def test_two_pens_have_two_names_and_a_form_sent_twice_makes_one(event: Event, carer: Client) -> None:
    sent = again(page(carer, event, "holding:pens_new"), **PEN)
    for _ in range(2):
        keep(carer, event, "pens_new", **sent)
    assert StudyPen.objects.count() == 1
    assert set(faults(send(carer, event, "holding:pens_new", **{**PEN, "pen": "t1"}))) == {"pen"}


@pytest.mark.parametrize(
    ("wrong", "field", "words"),
    [
        ({"dead": "18"}, "dead", "more than the 17 that were still in the pen"),
        ({"dead": "10", "missing": "4", "escaped": "4"}, "dead", "18 fish are more than the 17"),
        ({"dead": ""}, "dead", "missing"),
        ({"at_date": "2026-06-20", "at_time": "15:59"}, "at_time", "before the fish went in"),
        ({"water_temp": "78", "shows": "C"}, "water_temp", "outside the range of water"),
        ({"do": "99"}, "do", "too large"),
    ],
)
def test_a_looks_faults_stand_at_their_fields(
    event: Event, carer: Client, wrong: dict[str, str], field: str, words: str
) -> None:
    pen = put_in(carer, event)
    look(carer, event, pen, dead="2", escaped="1")
    found = faults(send(carer, event, "holding:checks_new", pen.pk, **{**CHECK, "at_time": "16:00", **wrong}))
    assert set(found) == {field} and words in found[field] and PenCheck.objects.count() == 1


def test_a_look_is_changed_within_what_the_pen_held(event: Event, carer: Client) -> None:
    pen = put_in(carer, event)
    look(carer, event, pen, dead="2")
    check = PenCheck.objects.get()
    opened = page(carer, event, "holding:check", check.pk)
    assert set(faults(send(carer, event, "holding:check", check.pk, **again(opened, dead="21")))) == {"dead"}
    keep(carer, event, "check", check.pk, **again(opened, dead="20"))
    # The pen then held no fewer, and began no later
    opened = page(carer, event, "holding:pen_change", pen.pk)
    assert set(faults(send(carer, event, "holding:pen_change", pen.pk, **again(opened, held="19")))) == {"held"}
    later = again(opened, started_date="2026-06-21", started_time="05:00")
    assert set(faults(send(carer, event, "holding:pen_change", pen.pk, **later))) == {"started_time"}
    assert "void them first" in text(
        send(carer, event, "holding:pen_change", pen.pk, act="take_out", **{"out-reason": "x"})
    )
    keep(carer, event, "check", check.pk, act="take_out", **{"out-reason": "other pen"})
    keep(carer, event, "pen_change", pen.pk, act="take_out", **{"out-reason": "never used"})
    assert not StudyPen.objects.exists()


def test_a_look_that_is_late_is_said(event: Event, carer: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    pen = put_in(carer, event)
    start = datetime(2026, 6, 20, 21, tzinfo=UTC)
    for hours, late in ((13, False), (14.5, True)):
        monkeypatch.setattr(
            "weighin.events.queries.care_context.timezone.now", lambda h=hours: start + timedelta(hours=h)
        )
        assert ("Pen T1: a check is due." in said(carer, event)) is late
    look(carer, event, pen)
    assert "waits for its look" not in said(carer, event)


def test_a_study_goes_on_after_the_event_is_closed(event: Event, carer: Client) -> None:
    pen = put_in(carer, event)
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    revision = Event.objects.get(pk=event.pk).revision
    look(carer, event, pen)
    send(carer, event, "holding:pen_end", pen.pk)
    assert HoldingPen.objects.count() == 1 and Event.objects.get(pk=event.pk).revision == revision + 2


def test_a_paper_record_is_written_down_as_a_whole(event: Event, carer: Client) -> None:
    for wrong, field in (
        ({"hours": "0"}, "hours"),
        ({"hours": ""}, "hours"),
        ({"dead": "21"}, "dead"),
        ({"dead": "10", "missing": "11"}, "missing"),
        ({"started": "Saturday"}, "started"),
        ({"water_temp": "78", "shows": ""}, "water_temp"),
    ):
        assert field in faults(send(carer, event, "holding:holding_records_new", **{**RECORD, **wrong})), wrong
    sent = again(page(carer, event, "holding:holding_records_new"), **RECORD, water_temp="78")
    for _ in range(2):
        keep(carer, event, "holding_records_new", **sent)
    row = HoldingPen.objects.get()
    assert (row.missing, row.water_temp) == (0, "78 F") and acts(event).count("holding.written") == 1
    keep(
        carer, event, "holding_record", row.pk, **again(page(carer, event, "holding:holding_record", row.pk), dead="3")
    )
    row.refresh_from_db()
    assert row.dead == 3


def test_the_protocol_leads_from_the_draw_to_what_may_be_said(event: Event, carer: Client) -> None:
    shown = said(carer, event)
    for words in (
        "No fish of this event are held yet.",
        "at least three pens of each",
        "Draw the fish; do not choose them.",
        "Check twice a day",
        "Abbott’s",
        "from memory",
        "Life jackets at the pens.",
        "No published study",
    ):
        assert words in shown, words


def test_others_read_a_study_and_write_none(event: Event, carer: Client) -> None:
    pen = put_in(carer, event)
    reader = world.member(event.club, Role.CLUB_REVIEWER, "reader")
    shown = page(reader, event, "holding:holding")
    assert "Pen T1" in text(shown) and "/new/" not in shown.content.decode()
    assert "Add a check" not in text(page(reader, event, "holding:pen", pen.pk))
    for name, args in (
        ("pens_new", ()),
        ("checks_new", (pen.pk,)),
        ("pen_end", (pen.pk,)),
        ("holding_records_new", ()),
    ):
        assert send(reader, event, f"holding:{name}", *args).status_code == 403
    other = world.event("Elsewhere")
    assert page(carer, other, "holding:pen", pen.pk).status_code == 404


def test_the_page_asks_the_same_number_of_questions_for_1_pen_and_for_300(event: Event, carer: Client) -> None:
    counts = []
    start = datetime(2026, 6, 20, 21, tzinfo=UTC)
    for number in (1, 300):
        PenCheck.objects.all().delete()
        StudyPen.objects.all().delete()
        pens = StudyPen.objects.bulk_create(
            StudyPen(event=event, group="S", kind="tournament", pen=str(n), started=start, planned_hours=72, held=9) for n in range(number)
        )  # fmt: skip
        PenCheck.objects.bulk_create(PenCheck(pen=pen, at=start + timedelta(hours=12), dead=1) for pen in pens)
        records(event, [(1, 9)] * number, [])
        page(carer, event, "holding:holding")
        with CaptureQueriesContext(connection) as asked:
            assert page(carer, event, "holding:holding").status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1] <= 13, counts

"""The pages on which slips are corrected, taken out and settled."""

from django.test import Client
from slips.table import posted, record
from slips.test_slips_pages import page, text

from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import counting_slips
from weighin.slips.services import slips as services


def test_a_correction_starts_from_what_was_written(event: Event, official: Client) -> None:
    record(
        event,
        gross="8.50 lb",
        checked_in="15:00:30",
        excused_minutes="1.5",
        well_boat="2",
        big_fish="1.5",
        big_fish_alive="yes",
    )
    form = official.get(page("slip_correct", event, 1)).context["form"]
    assert {name: form.initial[name] for name in ("boat", "gross", "checked_in", "excused_minutes", "well_boat", "big_fish_alive", "short")} == {
        "boat": "1", "gross": "8.50 lb", "checked_in": "15:00:30", "excused_minutes": "1.5", "well_boat": "2", "big_fish_alive": "yes", "short": "0",
    }  # fmt: skip
    sent = {name: form[name].value() or "" for name in form.fields}
    answer = official.post(page("slip_correct", event, 1), sent)
    assert "A correction needs a reason" in answer.context["form"].errors["reason"][0]
    said = text(
        official.post(
            page("slip_correct", event, 1),
            {**sent, "dead": "1", "alive": "6", "fish": "7", "reason": "one dead"},
            follow=True,
        )
    )
    assert "Slip 2 is saved and replaces slip 1." in said
    kept = WeighSlip.objects.get(number=2)
    assert kept.dead == 1 and kept.gross == "8.50 lb" and kept.excused_minutes == "1.5" and kept.checked_in is not None


def test_a_correction_for_another_boat_moves_the_slip(event: Event, official: Client) -> None:
    record(event)
    said = text(official.post(page("slip_correct", event, 1), posted(boat="4", reason="14 keyed for 41"), follow=True))
    assert "Slip 3 is saved for boat 4; slip 1 of boat 1 is void." in said
    assert [(slip.number, slip.entry.boat) for slip in counting_slips(event)] == [(3, 4)]


def test_a_slip_replaced_meanwhile_is_said_and_what_was_typed_stays(event: Event, official: Client) -> None:
    slip = record(event)
    services.correct_slip(slip, {**posted(), "fish": "7", "reason": "first"}, "bell")
    answer = official.post(page("slip_correct", event, 1), posted(gross="9.99", reason="mine"))
    assert "Slip 1 was replaced by slip 2 meanwhile: correct that one." in text(answer)
    assert 'value="9.99"' in answer.content.decode() and WeighSlip.objects.count() == 2
    said = text(official.get(page("slip_correct", event, 1), follow=True))
    assert "Slip 1 was replaced by slip 2: correct that one." in said


def test_taking_a_slip_out_needs_a_reason(event: Event, official: Client) -> None:
    record(event)
    assert "loses the 8.50 lb it shows" in text(official.get(page("slip_void", event, 1)))
    assert official.post(page("slip_void", event, 1), {"reason": " "}).context["form"].errors["reason"]
    said = text(official.post(page("slip_void", event, 1), {"reason": "wrong page"}, follow=True))
    assert "Slip 1 is void." in said and "voided by slip 2 : wrong page" in said
    said = text(official.get(page("slip", event, 2)))
    assert "Slip 1 of boat 1 is void." in said and "Correct it" not in said
    assert "voided another slip" in text(official.get(page("slip_correct", event, 2), follow=True))


def test_two_slips_stand_side_by_side_as_equals(event: Event, director: Client) -> None:
    record(event, official="R. Quill")
    record(event, by="bell", gross="9.00", official="P. Lunt")
    answer = director.get(page("slip_counts", event, 1))
    said, html = text(answer), answer.content.decode()
    assert "Boat 1 has two slips for day 1. Which one counts?" in said
    for words in ("8.50 lb 9.00 lb", "Saved by differs quill bell", "Official differs R. Quill P. Lunt"):
        assert words in said
    for number in (1, 2):
        assert f'class="button outlined" formaction="{page("slip_counts", event, number)}"' in html
    assert text(director.get(page("slip_counts", event, 2))).count("counts") == said.count("counts")


def test_a_director_says_with_a_reason_which_one_counts(event: Event, director: Client) -> None:
    record(event)
    record(event, gross="9.00")
    answer = director.post(page("slip_counts", event, 2), {"reason": ""})
    assert answer.context["form"].errors["reason"] and len(counting_slips(event)) == 0
    said = text(director.post(page("slip_counts", event, 2), {"reason": "the checked scale"}, follow=True))
    assert "Slip 2 counts for boat 1, day 1." in said and [s.number for s in counting_slips(event)] == [2]
    assert "Slip 2 counts: the checked scale" in text(director.get(page("slip", event, 1)))
    for number in (1, 2):
        assert "Nothing to settle" in text(director.get(page("slip_counts", event, number), follow=True))

"""The pages of slips: the list, writing, reading back, correcting, taking out and settling."""

import re
import uuid
from datetime import date, datetime, time
from html import unescape
from typing import Any
from zoneinfo import ZoneInfo

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from slips.table import EXAMPLE, EXAMPLE_RULES, posted, record

from weighin.accounts.domain.roles import Role
from weighin.events.domain.calendar import Calendar, Day
from weighin.events.models import Event
from weighin.slips.forms.slips import day_going_on
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import counting_slips, current_slips
from weighin.slips.services import slips as services


def page(name: str, event: Event, *more: Any) -> str:
    return reverse(f"slips:{name}", args=[event.slug, *more])


def text(answer: Any) -> str:
    """What a page says, without its markup."""
    bare = re.sub(r"<(script|style)[^>]*>.*?</\1>", " ", answer.content.decode(), flags=re.S)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", bare)).split())


# ---- the list


def test_the_list_says_what_each_slip_is_worth(event: Event, official: Client) -> None:
    first = record(event, note="a tear in the bag")
    services.correct_slip(first, {**posted(), "fish": "7", "reason": "misread", "gross": "8.60"}, "quill")
    services.void_slip(record(event, boat="2"), "wrong page", "quill")
    record(event, boat="3")
    record(event, boat="3", gross="9.00")
    said = text(official.get(page("slips", event)))
    assert "2 of 4 boats have a slip." in said and "Two of 5 slips were replaced or voided" in said
    assert "Boat 3, Open table pair 3, has two slips for day 1." in said
    for words in ("replaced by slip 2", "voided by slip 4", "voids slip 3", "waits: two slips for one day"):
        assert words in said
    assert "Look at both" not in said  # only a director settles


@pytest.mark.parametrize(
    ("asked", "numbers"),
    [
        ({"q": "pair 2"}, [2]),
        ({"q": "quill"}, [4, 3, 2]),
        ({"q": "3"}, [3]),
        ({"q": "wiped"}, [4]),
        ({"boat": "1"}, [4, 1]),
        ({"day": "2"}, [3]),
        ({"state": "current"}, [4, 3, 2]),
        ({"state": "replaced"}, [1]),
        ({"sort": "number"}, [1, 2, 3, 4]),
        ({"sort": "-total"}, [3, 4, 2, 1]),
        ({"sort": "boat", "state": "current"}, [4, 2, 3]),
        ({"q": "nobody"}, []),
        ({"boat": "x" * 500, "day": "²"}, []),
    ],
)
def test_the_list_is_searched_sorted_and_filtered(
    event: Event, official: Client, asked: dict[str, str], numbers: list[int]
) -> None:
    first = record(event, official="R. Bell")
    record(event, boat="2", gross="7.00")
    record(event, boat="3", day="2", gross="9.00")
    services.correct_slip(first, {**posted(note="scale wiped dry"), "fish": "7", "reason": "misread"}, "quill")
    answer = official.get(page("slips", event), asked)
    assert [row.record.number for row in answer.context["table"].rows] == numbers
    assert ("No slip fits what you asked for" in text(answer)) == (not numbers)


def test_empty_lists_say_what_comes_and_when(event: Event, official: Client) -> None:
    said = text(official.get(page("slips", event)))
    assert "No boat is weighed yet." in said and "No slip is saved yet." in said and "Add a slip" in said


def test_the_list_asks_the_same_number_of_questions_for_1_slip_and_for_300(db: None) -> None:
    counts = []
    for boats in (1, 300):
        event = world.large(boats, name=f"Size {boats}")
        client = world.member(event.club, username=f"reader-{boats}")
        client.get(page("slips", event))
        with CaptureQueriesContext(
            connection,
        ) as asked:
            assert client.get(page("slips", event)).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1] <= 12


# ---- writing


def test_a_slip_is_written_and_read_back(db: None) -> None:
    event = world.event(rules=EXAMPLE_RULES)
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    shown = client.get(page("slips_new", event))
    assert "Save the slip" in text(shown) and 'inputmode="decimal"' in shown.content.decode()
    sent = {name: value for name, value in EXAMPLE.items() if name != "fish"}
    answer = client.post(page("slips_new", event), {**sent, "id": str(uuid.uuid4())}, follow=True)
    assert answer.redirect_chain == [(page("slip", event, 1), 302)]
    said = text(answer)
    assert "Slip 1 is saved." in said and "Boat 1, Open table pair 1: 3.69 lb." in said
    for words in (
        "Scale reading, 6 fish and bag 9.47",
        "1 short fish: the largest fish left removed",
        "Slip 1 of 1",
    ):
        assert words in said
    slip = WeighSlip.objects.get(event=event)
    assert slip.fish == 7 and slip.link in said and slip.official == "R. Quill"


def test_faults_stand_at_their_fields_and_nothing_typed_is_lost(event: Event, official: Client) -> None:
    sent = posted(alive="6", dead="2", fish="7", gross="9,47", bag_issued="2:50 PM", note="wet <hands>", boat="3")
    answer = official.post(page("slips_new", event), sent)
    form = answer.context["form"]
    assert answer.status_code == 200 and WeighSlip.objects.count() == 0
    assert list(form.errors) == ["gross", "fish"] and "has a comma" in form.errors["gross"][0]
    html = answer.content.decode()
    for name, value in sent.items():
        if name not in ("day", "note"):
            assert re.search(
                rf'name="{name}"[^>]*value="{re.escape(value)}"|value="{re.escape(value)}"[^>]*name="{name}"', html
            ), name
    assert "wet &lt;hands&gt;" in html and "<hands>" not in html
    assert 'id="id_gross_error"' in html and "Not saved." in html
    again = official.post(page("slips_new", event), {**sent, "gross": "9.47"})
    assert list(again.context["form"].errors) == ["fish"]


@pytest.mark.parametrize(
    ("sent", "field", "words"),
    [
        ({"boat": ""}, "boat", "The boat is missing"),
        ({"boat": "77"}, "boat", "There is no boat 77"),
        ({"dead": ""}, "dead", "is missing: write it, 0 if there are none"),
        ({"day": "5"}, "day", "There is no day 5"),
        ({"gross": ""}, "gross", "write the scale reading"),
        ({"alive": "6", "dead": "1", "big_fish": "1.5"}, "big_fish_alive", "say whether the big fish was alive"),
        ({"weighed": "14:10", "bag_emptied": "14:00"}, "bag_emptied", "“Bag emptied” is before “Weighed”"),
        ({"checked_in": "15:01", "minutes_late": "1"}, "minutes_late", "Both “Checked in” and “Minutes late” are given"),
        ({"extra_penalty": "1.00"}, "extra_penalty", "“Reason of the extra penalty”"),
        ({"note": "x" * 501}, "note", "write 500 or fewer"),
    ],
)  # fmt: skip
def test_each_fault_says_what_to_do_in_the_words_of_the_page(
    event: Event, official: Client, sent: dict[str, str], field: str, words: str
) -> None:
    form = official.post(page("slips_new", event), posted(**sent)).context["form"]
    assert words in form.errors[field][0] and WeighSlip.objects.count() == 0
    assert form.fields[field].widget.attrs.get("autofocus")


def test_sending_the_page_twice_keeps_one_slip(event: Event, official: Client) -> None:
    sent = posted(id=str(uuid.uuid4()))
    for _ in range(2):
        assert official.post(page("slips_new", event), sent).headers["Location"] == page("slip", event, 1)
    assert WeighSlip.objects.count() == 1


def test_a_correction_and_a_void_sent_twice_are_kept_once(event: Event, official: Client) -> None:
    record(event)
    for values in ({"gross": "8.60"}, {"boat": "2", "gross": "8.60"}):
        before = WeighSlip.objects.count()
        (slip,) = current_slips(event)
        sent = posted(id=str(uuid.uuid4()), reason="misread", **values)
        said = [official.post(page("slip_correct", event, slip.number), sent) for _ in range(2)]
        assert said[0].status_code == 302 and said[0].headers["Location"] == said[1].headers["Location"]
        assert WeighSlip.objects.count() - before == (2 if "boat" in values else 1)
    (slip,) = current_slips(event)
    before = WeighSlip.objects.count()
    for _ in range(2):
        assert official.post(page("slip_void", event, slip.number), {"reason": "not theirs"}).status_code == 302
    assert WeighSlip.objects.count() == before + 1 and not current_slips(event)


def test_of_two_days_going_on_the_one_that_began_last_is_written(db: None) -> None:
    days = (Day(1, date(2026, 6, 20), time(6), time(15)), Day(2, date(2026, 6, 21), time(5), time(14)))
    calendar = Calendar(ZoneInfo("America/Chicago"), days)
    assert day_going_on(calendar, datetime.fromisoformat("2026-06-21T05:30:00-05:00")) == 2
    nights = (Day(1, date(2026, 6, 20), time(19), time(1)), Day(2, date(2026, 6, 21), time(19), time(1)))
    calendar = Calendar(ZoneInfo("America/Chicago"), nights)
    assert day_going_on(calendar, datetime.fromisoformat("2026-06-21T00:30:00-05:00")) == 1


def test_the_page_gone_back_to_with_other_values_keeps_nothing_unasked(event: Event, official: Client) -> None:
    key = str(uuid.uuid4())
    official.post(page("slips_new", event), posted(id=key))
    answer = official.post(page("slips_new", event), posted(id=key, boat="2"))
    assert WeighSlip.objects.count() == 1 and "saved as slip 1 already, with other values" in text(answer)
    fresh = answer.context["form"]["id"].value()
    assert fresh != key and f'value="{fresh}"' in answer.content.decode()
    official.post(page("slips_new", event), posted(id=fresh, boat="2"))
    assert WeighSlip.objects.get(pk=fresh).entry.boat == 2


def test_a_second_slip_says_plainly_that_both_wait(event: Event, official: Client) -> None:
    record(event)
    said = text(official.post(page("slips_new", event), posted(gross="9.00"), follow=True))
    assert "Slip 2 is saved. Boat 1 has slip 1 for day 1 already: both stay, and neither counts" in said
    assert counting_slips(event) == []


def test_the_largest_weights_are_asked_only_where_the_rules_take_some(event: Event, official: Client, db: None) -> None:
    assert "largest_weights" not in official.get(page("slips_new", event)).context["form"].fields
    taking = world.event("Taking", rules={"over_limit": "remove_largest"})
    shown = world.member(taking.club).get(page("slips_new", taking))
    assert "largest_weights" in shown.context["form"].fields


def test_a_blank_time_of_weighing_is_now_while_the_day_goes_on(
    event: Event, official: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = timezone.datetime.fromisoformat("2026-06-21T15:12:34.5-05:00")
    monkeypatch.setattr("weighin.slips.views.slips.timezone.now", lambda: now)
    shown = official.get(page("slips_new", event)).context["form"]
    assert shown.initial["day"] == "2" and "weighed_now" in shown.fields
    for values in (
        {"weighed_now": "on"},
        {},
        {"weighed_now": "on", "weighed": "15:00"},
        {"weighed_now": "on", "day": "1"},
    ):
        official.post(page("slips_new", event), {**posted(boat="1", day="2"), **values})
    kept = [slip.weighed for slip in WeighSlip.objects.filter(event=event)]
    assert (
        kept[0] == now.replace(microsecond=0)
        and kept[1] is None
        and kept[2]
        and kept[2].minute == 0
        and kept[3] is None
    )


def test_long_after_the_event_no_time_is_guessed(event: Event, official: Client) -> None:
    form = official.get(page("slips_new", event)).context["form"]
    assert "weighed_now" not in form.fields or form.going is not None
    official.post(page("slips_new", event), posted(weighed_now="on"))
    assert WeighSlip.objects.get().weighed is None


def test_a_closed_event_says_so(event: Event, official: Client) -> None:
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    assert "A director must reopen it" in text(official.get(page("slips_new", event)))
    answer = official.post(page("slips_new", event), posted())
    assert "is closed: a director must reopen it" in text(answer) and WeighSlip.objects.count() == 0
    assert 'value="8.50"' in answer.content.decode()


# ---- while it is being written


def test_the_score_is_told_while_the_slip_is_written(db: None) -> None:
    event = world.event(rules=EXAMPLE_RULES)
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    ask = page("slip_so_far", event)
    assert "The total waits for: boat, alive, dead." in text(client.get(ask, {"day": "1"}))
    said = text(client.get(ask, {"day": "1", "boat": "2", "alive": "5", "dead": "2", "short": "1"}))
    assert "Open table pair 2" in said and "6 fish go on the scale, 1 short does not." in said
    assert "The total waits for: scale reading, largest fish." in said
    assert "3.69" in text(client.get(ask, {k: v for k, v in EXAMPLE.items() if k != "fish"}))
    assert "No boat has this number" in text(client.get(ask, {"day": "1", "boat": "77"}))
    wrong = text(client.get(ask, {"day": "1", "boat": "1", "alive": "7", "dead": "0", "gross": "9,4"}))
    assert "The total waits for what is wrong." in wrong and "has a comma" in wrong


def test_a_boat_that_has_a_slip_is_named_before_the_weight(event: Event, official: Client) -> None:
    record(event)
    ask = page("slip_so_far", event)
    assert "Boat 1 has slip 1 for day 1." in text(official.get(ask, {"day": "1", "boat": "1"}))
    assert "has slip" not in text(official.get(ask, {"day": "2", "boat": "1"}))
    assert "has slip" not in text(official.get(ask, {"day": "1", "boat": "1", "corrects": "1"}))


# ---- one slip


def test_the_history_tells_who_when_why_and_what(event: Event, official: Client) -> None:
    first = record(event, big_fish="1.5")
    services.correct_slip(
        first, {**posted(alive="6", dead="1", big_fish="1.5", big_fish_alive="yes"), "fish": "7", "reason": "one was dead"}, "bell"
    )  # fmt: skip
    said = text(official.get(page("slip", event, 1)))
    assert "This slip does not count. It was replaced by slip 2 : one was dead" in said
    assert "Replaces slip 1." in said and "by bell. Reason: one was dead" in said
    for words in ("Alive 7 6", "Dead 0 1", "The big fish was not recorded alive"):
        assert words in said
    assert "Correct it" not in said
    said = text(official.get(page("slip", event, 2)))
    assert "Slip 2, this one" in said and "Correct it" in said and "Void it" in said


def test_a_slip_that_is_not_there(event: Event, official: Client) -> None:
    for number in (1, 2**31, 10**20):
        for name in ("slip", "slip_correct", "slip_void"):
            assert official.get(page(name, event, number)).status_code == 404


# ---- putting one right


# ---- who may


@pytest.mark.parametrize("role", [Role.FISH_CARE_OFFICIAL, Role.CLUB_REVIEWER])
def test_members_who_only_read_see_slips_and_no_way_to_write(event: Event, role: Role) -> None:
    record(event)
    record(event, boat="2")
    record(event, boat="2")
    client = world.member(event.club, role)
    for said in (text(client.get(page("slips", event))), text(client.get(page("slip", event, 1)))):
        for words in ("Add a slip", "Add the next slip", "Correct it", "Void it", "Look at both"):
            assert words not in said
    for name, more in (
        ("slips_new", ()),
        ("slip_so_far", ()),
        ("slip_correct", (1,)),
        ("slip_void", (1,)),
        ("slip_counts", (2,)),
    ):
        assert client.get(page(name, event, *more)).status_code == 403
        if name != "slip_so_far":  # which is only ever read
            assert client.post(page(name, event, *more), posted(reason="x")).status_code == 403
    assert WeighSlip.objects.count() == 3


def test_a_weigh_official_writes_and_corrects_but_does_not_settle(event: Event, official: Client) -> None:
    record(event)
    assert official.get(page("slip_correct", event, 1)).status_code == 200
    record(event)
    # Taking one of two slips out, or correcting it away, would settle which one counts.
    for act in ("slip_counts", "slip_void", "slip_correct"):
        assert official.post(page(act, event, 1), {"reason": "mine"}).status_code == 403
    assert counting_slips(event) == []

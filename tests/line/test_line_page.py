"""The line's page: call, take back, hold and let go on; who may; what it says; what it costs."""

import re
import uuid
from datetime import timedelta
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from line.in_line import checked_in, said, weighed

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.line.models import LineTerms, LineWord

pytestmark = pytest.mark.django_db
Said = LineWord.Said
__all__ = ["clock"]


@pytest.fixture
def event(clock: Clock) -> Event:
    """Boats 1, 2 and 3 are checked in; it is 15:00."""
    now = clock("2026-06-20T15:00:00-05:00")
    found = world.event("Line event", 5)
    for boat in (2, 1, 3):
        checked_in(found, boat, now - timedelta(minutes=10 - boat))
    return found


def at(name: str, event: Event) -> str:
    return reverse(f"line:{name}", args=[event.slug])


def text_of(answer: Any) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.content.decode()))


def press(client: Client, event: Event, word: str, boat: int | None = None, **more: str) -> Any:
    values = {"word_id": str(uuid.uuid4()), "day": "1", "said": word, "boat": str(boat or ""), **more}
    return client.post(at("line_say", event), values, follow=True)


def test_it_says_whom_to_call_in_order_of_check_in(event: Event) -> None:
    page = text_of(world.member(event.club, Role.WEIGH_OFFICIAL).get(at("line", event)))
    assert "Call boat 1: give it a bag." in page
    assert page.index("Line event pair 1") < page.index("Line event pair 2") < page.index("Line event pair 3")
    assert "assumed: none is timed yet today" in page and "checked in 2:51 PM, waits 9 minutes" in page


def test_a_bag_counts_up_and_is_over_at_the_limit(event: Event, clock: Clock) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    assert "Bag given to boat 1, 3:00 PM." in text_of(press(client, event, Said.BAG_ISSUED, 1))
    clock("2026-06-20T15:04:30-05:00")
    answer = client.get(at("line", event))
    assert (
        '<span class="figure" data-since="2026-06-20T20:00:00+00:00" data-limit="10.0">4</span>'
        in answer.content.decode()
    )
    assert "5 min left of the limit" in text_of(answer)
    clock("2026-06-20T15:12:00-05:00")
    page = text_of(client.get(at("line", event)))
    assert "Boat 1 is over 10 minutes in the bag." in page and "Over the limit by 2 min" in page


def test_a_button_pressed_twice_gives_one_bag(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    key = str(uuid.uuid4())
    for _ in range(2):
        assert press(client, event, Said.BAG_ISSUED, 1, word_id=key).redirect_chain
    assert LineWord.objects.count() == 1
    answer = press(client, event, Said.BAG_ISSUED, 2, word_id=key)
    assert "saved already with other values" in text_of(answer) and LineWord.objects.count() == 1


def test_a_second_tablet_gets_a_sentence(event: Event) -> None:
    first, second = (world.member(event.club, Role.WEIGH_OFFICIAL, name) for name in ("anna", "bert"))
    press(first, event, Said.BAG_ISSUED, 1)
    page = text_of(press(second, event, Said.BAG_ISSUED, 1))
    assert "Not done." in page and "Boat 1 has had a bag since 3:00:00 PM, given by anna" in page
    assert LineWord.objects.filter(said=Said.BAG_ISSUED).count() == 1


def test_no_more_bags_when_the_line_cannot_take_them(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    LineTerms(event=event, scales=1, bags=20, walk_seconds=60, boat_seconds=300, recorded_by="test").save()
    press(client, event, Said.BAG_ISSUED, 1)
    page = text_of(client.get(at("line", event)))
    assert "No more bags now: wait about" in page and "Boat 2 is next." in page and "Give a bag all the same" in page
    LineTerms(event=event, scales=1, bags=1, walk_seconds=60, boat_seconds=60, recorded_by="test").save()
    assert "All one bags are out" not in text_of(client.get(at("line", event)))
    assert "The one bag there is is out." in text_of(client.get(at("line", event)))


def test_hold_and_resume(event: Event, clock: Clock) -> None:
    client = world.member(event.club, Role.FISH_CARE_OFFICIAL)
    assert "write a whole number" in text_of(press(client, event, Said.HOLD, oxygen_minutes="soon")).lower()
    assert not LineWord.objects.exists()
    page = text_of(press(client, event, Said.HOLD, oxygen_minutes="10", remark="tank 2 is full"))
    assert "The line is held since 3:00 PM: no bags out." in page and "tank 2 is full" in page
    assert "stay on time" in page and "Check the oxygen at 3:10 PM." in page
    scales = world.member(event.club, Role.WEIGH_OFFICIAL)
    assert "no bag goes out until somebody resumes it" in text_of(press(scales, event, Said.BAG_ISSUED, 1))
    clock("2026-06-20T15:11:00-05:00")
    assert "The oxygen check was due at 3:10 PM." in text_of(client.get(at("line", event)))
    assert "Check the oxygen at 3:21 PM." in text_of(press(client, event, Said.OXYGEN))
    nameless = press(client, event, Said.RESUME, person=" ")
    assert "Write the name of whoever resumes the line" in text_of(nameless)
    assert "Line resumed by D. Reed" in text_of(press(client, event, Said.RESUME, person="D. Reed"))
    assert "Call boat 1" in text_of(client.get(at("line", event)))
    assert "not held anymore" in text_of(press(client, event, Said.RESUME, person="D. Reed"))


def test_what_was_written_stays_in_a_refused_form(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    answer = press(client, event, Said.HOLD, oxygen_minutes="99", remark="storm from the west")
    assert 'value="storm from the west"' in answer.content.decode() and 'value="99"' in answer.content.decode()


def test_a_boat_leaves_the_line_by_its_slip_and_may_come_back(event: Event, clock: Clock) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    press(client, event, Said.BAG_ISSUED, 1)
    assert "at the scales since 3:00 pm" in text_of(press(client, event, Said.AT_SCALES, 1)).lower()
    now = clock("2026-06-20T15:04:00-05:00")
    slip = weighed(event, 1, now)
    page = text_of(client.get(at("line", event)))
    assert "Bags out" not in page and "the middle one 4 min, the longest 4 min, none over 10" in page
    assert f"Boat 1 is weighed already, on slip {slip.number}" in text_of(press(client, event, Said.BAG_ISSUED, 1))
    clock("2026-06-20T15:05:00-05:00")
    from weighin.slips.services.slips import void_slip

    void_slip(slip, "wrong boat", "anna")
    assert "Call boat 1: give it a bag." in text_of(client.get(at("line", event)))


def test_out_of_the_line_and_back(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    assert "Call boat 2" in text_of(press(client, event, Said.LEFT, 1))
    assert "return it to the line first" in text_of(press(client, event, Said.BAG_ISSUED, 1))
    assert "Call boat 1" in text_of(press(client, event, Said.RETURNED, 1))


def test_sentences_for_what_cannot_be(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    for word, boat, sentence in (
        (Said.BAG_ISSUED, 4, "Boat 4 is not checked in for day 1"),
        (Said.BAG_ISSUED, 77, "There is no boat 77"),
        (Said.BAG_ISSUED, None, "There is no boat None"),
        (Said.BAG_BACK, 1, "Boat 1 has no bag anymore"),
        (Said.RETURNED, 1, "Boat 1 is in the line already"),
        (Said.OXYGEN, None, "The line is not held anymore"),
    ):
        page = text_of(press(client, event, word, boat))
        assert sentence in page, (word, boat)
    assert client.post(at("line_say", event), {"said": "sing", "day": "x"}).status_code == 200
    assert not LineWord.objects.exists()


def test_the_bag_time_is_offered_to_the_slip(event: Event, clock: Clock) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    clock("2026-06-20T15:03:10-05:00")
    press(client, event, Said.BAG_ISSUED, 2)
    page = client.get(reverse("slips:slips_new", args=[event.slug]), {"boat": "2", "day": "1"}).content.decode()
    assert re.search(r'name="boat" value="2"', page) and re.search(r'name="bag_issued" value="3:03:10 PM"', page)
    assert (
        'value="15:03:10"'
        not in client.get(reverse("slips:slips_new", args=[event.slug]), {"boat": "3", "day": "1"}).content.decode()
    )


@pytest.mark.parametrize(
    ("role", "bags", "hold"),
    [
        (Role.DIRECTOR, True, True),
        (Role.WEIGH_OFFICIAL, True, True),
        (Role.FISH_CARE_OFFICIAL, False, True),
        (Role.CLUB_REVIEWER, False, False),
    ],
)
def test_roles(event: Event, role: Role, bags: bool, hold: bool) -> None:
    client = world.member(event.club, role)
    page = client.get(at("line", event)).content.decode()
    assert ("give a bag" in page) is bags and ("Hold the line" in page) is hold
    assert (press(client, event, Said.BAG_ISSUED, 1).status_code == 200) is bags
    assert (press(client, event, Said.HOLD, oxygen_minutes="10").status_code == 200) is hold
    figures = {"scales": "2", "bags": "6", "walk_seconds": "90", "boat_seconds": "200"}
    assert (client.post(at("line_plan", event), figures, follow=True).status_code == 200) is bags


def test_the_part_is_not_told_again_while_nothing_changed(event: Event, clock: Clock) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    first = client.get(at("line_part", event))
    known = {"If-None-Match": first["ETag"]}
    with CaptureQueriesContext(connection) as few:
        assert client.get(at("line_part", event), headers=known).status_code == 304
    assert len(few) <= 5
    press(client, event, Said.BAG_ISSUED, 1)
    second = client.get(at("line_part", event), headers=known)
    assert second.status_code == 200 and "no-cache" in second["Cache-Control"]
    clock("2026-06-20T15:00:31-05:00")
    assert client.get(at("line_part", event), headers={"If-None-Match": second["ETag"]}).status_code == 200
    other = world.member(event.club, Role.CLUB_REVIEWER)
    assert other.get(at("line_part", event), headers={"If-None-Match": second["ETag"]}).status_code == 200


def test_the_same_queries_for_one_boat_and_for_a_hundred(clock: Clock) -> None:
    now = clock("2026-06-20T15:00:00-05:00")
    counts = []
    for boats in (1, 100):
        event = world.event(f"Of {boats}", boats)
        for boat in range(1, boats + 1):
            checked_in(event, boat, now - timedelta(minutes=1))
        for boat in range(1, boats // 2 + 1):
            said(event, Said.BAG_ISSUED, boat)
        client = world.member(event.club, Role.DIRECTOR)
        with CaptureQueriesContext(connection) as found:
            assert client.get(at("line", event)).status_code == 200
        counts.append(len(found))
    assert counts[0] == counts[1] <= 20, counts


def test_a_closed_event_takes_nothing(event: Event, clock: Clock) -> None:
    Event.objects.filter(pk=event.pk).update(closed_at=clock("2026-06-20T18:00:00-05:00"))
    client = world.member(event.club, Role.DIRECTOR)
    page = text_of(client.get(at("line", event)))
    assert "The event is closed, and the line with it." in page and "Hold the line" not in page
    assert "is closed: a director must reopen it" in text_of(press(client, event, Said.BAG_ISSUED, 1))


def test_days_that_are_not_there(event: Event) -> None:
    client = world.member(event.club, Role.DIRECTOR)
    for day in ("2", "x", "-1", "01", "9" * 400):
        assert client.get(at("line", event), {"day": day}).status_code == 404
        assert client.get(at("line_part", event), {"day": day}).status_code == 404


def test_what_the_line_is_run_by(event: Event) -> None:
    client = world.member(event.club, Role.WEIGH_OFFICIAL)
    figures = {"scales": "2", "bags": "6", "walk_seconds": "90", "boat_seconds": "200"}
    for _ in range(2):
        page = text_of(client.post(at("line_plan", event), figures, follow=True))
    assert "2 scales, 6 bags at once, 90 s from the bag" in page and LineTerms.objects.count() == 1
    wrong = client.post(at("line_plan", event), {**figures, "scales": "0"})
    assert "Write a whole number, 1 to 10." in text_of(wrong) and LineTerms.objects.count() == 1


def test_the_plan(event: Event) -> None:
    client = world.member(event.club, Role.CLUB_REVIEWER)
    page = text_of(client.get(at("line_plan", event), {"boats": "40", "over": "45"}))
    assert "Two scales are enough for 40 boats" in page and "Not known" in page
    wrong = client.get(at("line_plan", event), {"boats": "many", "over": "1e999", "shape": "wild"})
    assert "Not worked out." in text_of(wrong) and 'value="many"' in wrong.content.decode()


def test_the_page_needs_no_script(event: Event) -> None:
    """Every act is a form of its own, with the token; nothing inline."""
    page = world.member(event.club, Role.DIRECTOR).get(at("line", event)).content.decode()
    forms = re.findall(r"<form[^>]*method=\"post\".*?</form>", page, re.S)
    assert len(forms) >= 6 and all("csrfmiddlewaretoken" in form and "<button" in form for form in forms)
    assert "style=" not in page and not re.search(r"<script(?![^>]*src=)", page)


def test_how_fast_a_full_bag_runs_out_of_oxygen(clock: Clock) -> None:
    clock("2026-06-20T15:00:00-05:00")
    warm = world.event("Warm", 5, lake_temp="82.4 F")
    page = text_of(world.member(warm.club, Role.DIRECTOR).get(at("line", warm)))
    # livewell.bag at 28 °C; the check values have 3.4 minutes for 300 g white crappie
    assert "at the lake’s 82.4 °F, water full of oxygen falls to 5 mg/L in 1.3 to 3.4 minutes" in page
    unknown = world.event("Unknown", 5, lake_temp="")
    assert "Worked out" not in text_of(world.member(unknown.club, Role.DIRECTOR).get(at("line", unknown)))

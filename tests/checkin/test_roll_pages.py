"""The pages of the roll: what they say and when, who may write, and how many queries they take."""

import html
import re
from typing import Any

import pytest
import world
from checkin.clock import Clock, clock
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from slips.table import record
from stations.speaking import Speaker, new_id

from weighin.accounts.domain.roles import Role
from weighin.checkin.models import CheckIn, DueNotice
from weighin.events.models import Event
from weighin.events.services.revision import raise_revision
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.services.contacts import keep_contact
from weighin.slips.queries.slips import current_slips
from weighin.standings.services import publish_result, set_closed

__all__ = ["clock"]


@pytest.fixture
def event(db: None, clock: Clock) -> Event:
    found = world.event()
    clock("2026-06-20T14:00:00-05:00")
    return found


@pytest.fixture
def official(event: Event) -> Client:
    return world.member(event.club, Role.WEIGH_OFFICIAL, "quill")


def roll(client: Client, event: Event, query: str = "") -> str:
    answer = client.get(f"/events/{event.slug}/roll/{query}")
    assert answer.status_code == 200
    return words(answer)


def words(answer: Any) -> str:
    spaced = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.content.decode()))
    return re.sub(r" ([,.;:])", r"\1", spaced)


def post(client: Client, event: Event, path: str, follow: bool = True, **said: Any) -> Any:
    return client.post(f"/events/{event.slug}/roll/{path}", said, follow=follow)


def test_it_is_the_louder_the_nearer_the_due_time_comes(event: Event, official: Client, clock: Clock) -> None:
    said = roll(official, event)
    assert "4 of 4 boats are out." in said and "due 3:00 PM in 60 minutes" in said
    assert 'class="stop"' not in official.get(f"/events/{event.slug}/roll/").content.decode()
    clock("2026-06-20T14:49:59-05:00")
    assert "is due in" not in roll(official, event)
    clock("2026-06-20T14:50:00-05:00")
    assert "The field is due in 10 minutes." in roll(official, event)
    clock("2026-06-20T15:00:00-05:00")
    said = roll(official, event)
    assert "was due at 3:00 PM. Boats 1, 2, 3 and 4 are out." in said and "Nobody hurries" in said
    assert "Call the team" not in said
    clock("2026-06-20T15:15:00-05:00")
    said = roll(official, event)
    assert "Call the team now: boats 1, 2, 3 and 4. Due at 3:00 PM, 15 minutes ago." in said
    assert "the club’s own plan" in said and "common practice, no source" in said


def test_one_tap_without_script(event: Event, official: Client, clock: Clock) -> None:
    clock("2026-06-20T15:02:10-05:00")
    key = new_id()
    answer = post(official, event, "in/", day="1", boat="2", id=key)
    assert "Boat 2, Open table pair 2, is in at 3:02:10 PM, 2 min 10 s late, counts 3 min." in words(answer)
    post(official, event, "in/", day="1", boat="2", id=key)
    assert CheckIn.objects.count() == 1
    assert "In already" not in words(answer)
    said = roll(official, event)
    assert "3 of 4 boats are out." in said and "3:02:10 PM 2 min 10 s late, counts 3 min In by water" in said
    assert "Boat 2 is in already at 3:02:10 PM" in words(post(official, event, "in/", day="1", boat="2", id=new_id()))
    assert "no boat 99" in words(post(official, event, "in/", day="1", boat="99")).lower()
    assert "Write the number" in words(post(official, event, "in/", day="1", boat="x"))
    assert CheckIn.objects.count() == 1


def test_a_boat_that_launched_by_its_check_is_out_and_needs_no_other_word(event: Event, official: Client) -> None:
    sent = {"id": new_id(), "day": 1, "boat": 2, "pump_ok": True, "launched": "2026-06-20T06:12:00-05:00"}
    assert Speaker(event).one(sent, what="care")["state"] == "kept"
    page = roll(official, event)
    assert "Launched, by its boat check, 6:12 AM" in page and "3 boats not heard from." in page
    assert "3 boats noted as launched." in words(post(official, event, "launched/", day="1", flight=""))
    assert sorted(CheckIn.objects.values_list("entry__boat", flat=True)) == [1, 3, 4]


def test_who_only_reads_the_roll_is_told_why_and_led_nowhere_else(event: Event, official: Client) -> None:
    post(official, event, "in/", day="1", boat="1", id=new_id())
    record(event, boat="1", weighed="15:20", checked_in="15:10:30")
    reader = world.member(event.club, Role.FISH_CARE_OFFICIAL, "carla")
    for where in ("", "1/1/"):
        page = reader.get(f"/events/{event.slug}/roll/{where}").content.decode()
        assert "Directors and weigh officials check boats in; your role can read this page." in page
        assert "<form" not in page.split("<main", 1)[1].split("</main", 1)[0]
        for link in set(re.findall(r'href="(/events/[^"#]+)"', page)):
            assert reader.get(html.unescape(link)).status_code in (200, 302), link
    assert "your role reads it" not in roll(official, event)


def test_the_headline_comes_with_the_part(event: Event, official: Client) -> None:
    post(official, event, "in/", day="1", boat="1", id=new_id())
    part = official.get(f"/events/{event.slug}/roll/part/?day=1").content.decode()
    told = part.split("<template", 1)[1]
    assert 'data-out="3"' in told and "of 4 boats out" in told and "<h1>3 of 4 boats are out.</h1>" in told
    assert "A weigh slip does not prove that a boat is in. See it, or note who reported it." in told


def test_the_second_step_keeps_words_and_times(event: Event, official: Client) -> None:
    said = {
        "whereabouts": "unaccounted",
        "word": "not seen since noon, P. Reed",
        "time": "13:50",
        "official": "R. Quill",
    }
    answer = post(official, event, "1/3/", id=new_id(), **said)
    assert "Boat 3: unaccounted for." in words(answer)
    page = roll(official, event)
    assert page.index("Unaccounted for: “not seen since noon, P. Reed”, R. Quill, 1:50 PM") < page.index(
        "Not heard from"
    )
    wrong = post(official, event, "1/3/", id=new_id(), whereabouts="in_by_road", time="15:40", word="kept as written")
    assert "3:40 PM has not come yet" in words(wrong) and "kept as written" in wrong.content.decode()
    assert CheckIn.objects.count() == 1


def test_a_line_is_corrected_and_taken_out_with_its_reason(event: Event, official: Client) -> None:
    post(official, event, "in/", day="1", boat="1", id=new_id())
    said = {"whereabouts": "in_by_water", "time": "13:58:30", "official": "R. Quill", "id": new_id()}
    assert "needs a reason" in words(post(official, event, "lines/1/correct/", **said))
    assert "Entry 1 of boat 1 is corrected" in words(
        post(official, event, "lines/1/correct/", reason="other watch", **said)
    )
    page = words(official.get(f"/events/{event.slug}/roll/1/1/"))
    assert "1:58:30 PM" in page and "Corrects entry 1: other watch" in page
    post(official, event, "lines/2/void/", reason="it was boat 4")
    assert "4 of 4 boats are out." in roll(official, event)
    assert "Voids entry 2: it was boat 4" in words(official.get(f"/events/{event.slug}/roll/1/1/"))
    assert official.get(f"/events/{event.slug}/roll/lines/9/void/").status_code == 404


def test_a_launch_a_tow_and_what_the_slip_does_not_know(event: Event, official: Client, clock: Clock) -> None:
    assert "4 boats noted as launched." in words(post(official, event, "launched/", day="1", flight=""))
    clock("2026-06-20T15:10:30-05:00")
    post(official, event, "in/", day="1", boat="1", id=new_id())
    record(event, boat="1", weighed="15:20", checked_in="15:10:30")
    said = {"towing": "1", "towed": "2", "excuse": "towing", "minutes": "20", "reason": "dead motor", "official": "q"}
    answer = words(post(official, event, "tow/", day="1", id=new_id(), **said))
    assert "Boat 1 excused 20 minutes." in answer
    assert "Slip 1 of boat 1 counts other minutes: correct it." in answer
    assert "Slip 1 counts other minutes." in roll(official, event)
    refused = post(official, event, "tow/", day="1", id=new_id(), **{**said, "towed": "1"})
    assert "A boat cannot tow itself in" in words(refused)


def test_a_slip_written_on_the_page_counts_the_rolls_time(event: Event, official: Client, clock: Clock) -> None:
    clock("2026-06-20T15:02:10-05:00")
    post(official, event, "in/", day="1", boat="1", id=new_id())
    posted = {"day": "1", "alive": "7", "dead": "0", "gross": "8.50", "official": "q", "weighed": "15:10"}
    so_far = official.get(f"/events/{event.slug}/slips/new/so-far/", {**posted, "boat": "1"}).content.decode()
    assert "3 minutes late, 1.00 lb each, by the check-in table" in so_far
    official.post(f"/events/{event.slug}/slips/new/", {**posted, "boat": "1"})
    (slip,) = current_slips(event)
    assert slip.checked_in is None  # said once, on the roll
    page = official.get(f"/events/{event.slug}/slips/{slip.number}/").content.decode()
    assert "3 minutes late, 1.00 lb each, by the check-in table" in page


def test_a_notice_moves_the_times_and_stands_on_the_roll(event: Event, clock: Clock) -> None:
    director = world.member(event.club, Role.DIRECTOR, "dora")
    page = director.get(f"/events/{event.slug}/roll/notice/").content.decode()
    hidden = dict(re.findall(r'name="(id|seen)" value="([^"]+)"', page))
    assert "30 minutes after the last thunder" in page and "Life jackets" in page
    said = {**hidden, "day": "1", "minutes": "45", "how": "horn", "given_by": "D. Dora", "reason": "thunder"}
    answer = words(post(director, event, "notice/", **said))
    assert "Every due time of day 1 is moved." in answer
    assert "The due times were moved. Due 3:00 PM is now 3:45 PM. Told by horn, D. Dora: thunder" in answer
    post(director, event, "notice/", **said)
    assert DueNotice.objects.count() == 1
    assert "due 3:45 PM" in roll(director, event)
    assert "write by how many minutes" in words(post(director, event, "notice/", day="1", seen="x")).lower()


def test_who_may_do_what(event: Event, official: Client) -> None:
    reviewer = world.member(event.club, Role.CLUB_REVIEWER)
    page = reviewer.get(f"/events/{event.slug}/roll/")
    assert page.status_code == 200 and b"In now" not in page.content
    for path in ("in/", "launched/", "1/1/", "tow/"):
        assert post(reviewer, event, path, follow=False, day="1", boat="1").status_code == 403, path
    assert post(official, event, "notice/", follow=False, day="1").status_code == 403
    assert b"notice/" not in official.get(f"/events/{event.slug}/roll/").content
    assert world.stranger().get(f"/events/{event.slug}/roll/").status_code == 404
    assert Client().get(f"/events/{event.slug}/roll/").status_code == 302
    assert not CheckIn.objects.exists()


def test_a_closed_event_is_read_only_and_quiet(event: Event, official: Client, clock: Clock) -> None:
    clock("2026-06-20T16:00:00-05:00")
    set_closed(event, True, "dora", accounted=True)
    answer = official.get(f"/events/{event.slug}/roll/")
    assert b'class="stop"' not in answer.content and b"In now" not in answer.content
    assert "closed" in words(post(official, event, "in/", day="1", boat="1"))


def test_a_day_that_is_called_off_is_as_loud_while_boats_are_out(event: Event, official: Client, clock: Clock) -> None:
    event.event_days.update(status="cancelled")
    clock("2026-06-20T15:20:00-05:00")
    assert "Nobody checked boats in that day." in roll(official, event)
    event.event_days.update(status="fished")
    post(official, event, "launched/", day="1", flight="")
    event.event_days.update(status="cancelled")
    raise_revision(event)
    assert "Call the team now: boats 1, 2, 3 and 4." in roll(official, event)
    assert "Boat 1, Open table pair 1, is in" in words(post(official, event, "in/", day="1", boat="1", id=new_id()))


def test_unchanged_it_answers_304_until_the_minute_is_over(event: Event, official: Client, clock: Clock) -> None:
    address = f"/events/{event.slug}/roll/part/?day=1"
    first = official.get(address)
    asked = {"If-None-Match": first["ETag"]}
    assert first.status_code == 200 and official.get(address, headers=asked).status_code == 304
    clock("2026-06-20T14:00:59-05:00")
    assert official.get(address, headers=asked).status_code == 304
    clock("2026-06-20T14:01:00-05:00")
    assert official.get(address, headers=asked).status_code == 200
    clock("2026-06-20T14:00:30-05:00")
    Speaker(event).one(
        {"id": new_id(), "day": 1, "boat": 3, "whereabouts": "phoned", "word": "from the dam", "official": "A. Sedge"},
        "checkins",
    )
    fresh = official.get(address, headers=asked)
    assert fresh.status_code == 200 and "Phoned: “from the dam”" in words(fresh)


def test_days_that_there_are_not(event: Event, official: Client) -> None:
    for query in ("?day=2", "?day=0", "?day=x", "?day=99999999999", "?day=%C2%B2"):
        assert official.get(f"/events/{event.slug}/roll/{query}").status_code == 404, query
    assert official.get(f"/events/{event.slug}/roll/1/99/").status_code == 404
    assert official.get(f"/events/{event.slug}/roll/7/1/").status_code == 404


def test_the_same_number_of_queries_for_a_boat_and_a_hundred(event: Event, official: Client, clock: Clock) -> None:
    many = world.large(100, "Hundred")
    reader = world.member(many.club, Role.WEIGH_OFFICIAL, "sedge")
    for boat in range(1, 60):
        said = {"id": new_id(), "day": 1, "boat": boat, "whereabouts": "launched", "official": "A. Sedge"}
        assert Speaker(many, f"T{boat}").one(said, "checkins")["state"] == "kept"
    counts = []
    for client, one in ((official, event), (reader, many)):
        client.get(f"/events/{one.slug}/roll/")
        with CaptureQueriesContext(
            connection,
        ) as found:
            roll(client, one)
        counts.append(len(found))
    assert counts[0] == counts[1], counts


def test_nothing_of_the_roll_is_public(event: Event, official: Client) -> None:
    record(event, boat="1", weighed="15:10")
    for boat in (1, 2, 3, 4):
        said = {"whereabouts": "in_by_road", "word": "wife of P. Reed phoned", "official": "R. Quill"}
        post(official, event, f"1/{boat}/", id=new_id(), **said)
    publish_result(event, "dora")
    for address in (f"/results/{event.slug}/", f"/results/{event.slug}/standings/", f"/api/events/{event.slug}"):
        answer = Client().get(address)
        assert answer.status_code == 200 and b"P. Reed" not in answer.content


@pytest.mark.parametrize(
    ("role", "sees"),
    [
        (Role.DIRECTOR, True),
        (Role.DESK_OFFICIAL, True),
        (Role.WEIGH_OFFICIAL, True),
        (Role.FISH_CARE_OFFICIAL, False),
        (Role.CLUB_REVIEWER, False),
    ],
)
def test_those_who_may_see_how_boats_that_are_out_are_reached(
    role: Role, sees: bool, event: Event, official: Client
) -> None:
    for boat in (1, 2):
        keep_contact(event.entries.get(boat=boat), ContactValues(f"555-018{boat}", "Kay Quillon", ""), "mara")
    post(official, event, "in/", day=1, boat=1)
    client = world.member(event.club, role)
    for page in ("", "part/", "1/2/", "1/1/"):
        said = client.get(f"/events/{event.slug}/roll/{page}").content.decode()
        assert ("tel:555-0182" in said) == (sees and page != "1/1/") and "555-0181" not in said

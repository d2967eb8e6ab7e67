"""Releases, counts of floating fish and kept fish: written, changed, set against the slips, and in no rate."""

from datetime import UTC, datetime, timedelta

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from slips.table import record
from tanks.shore import acts, again, faults, page, send, text

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.care.services.notes import write_care_note
from weighin.events.models import Event
from weighin.mortality.queries.event import event_mortality
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.tanks.models import FloaterWalk, KeptFish, Release
from weighin.tanks.queries.releases import releases_of

RELEASE = {
    "day": "1", "by": "boat", "place": "Old Bridge Arm", "fish": "20", "dead": "1", "time": "15:20", "depth_ft": "12",
    "distance_mi": "1.4", "water_temp": "82", "tank_temp": "77", "shows": "F",
}  # fmt: skip
WALK = {"hours": "24", "shore": "Ramp to point", "dead": "3", "walked_date": "2026-06-21", "walked_time": "08:00"}
KEPT = {"day": "1", "went": "given", "fish": "4", "alive": "yes", "receiver": "Food kitchen"}


@pytest.fixture
def carer(event: Event) -> Client:
    return world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")


def write(carer: Client, event: Event, **changed: str) -> None:
    answer = send(carer, event, "tanks:releases_new", **{**RELEASE, **changed})
    assert answer.status_code == 302, faults(answer)


def said(carer: Client, event: Event) -> str:
    return text(page(carer, event, "care:releases"))


def test_a_release_is_kept_and_the_page_says_where_fish_went(event: Event, carer: Client) -> None:
    assert "No release yet." in said(carer, event)
    write(carer, event)
    write(carer, event, place="old bridge  arm", fish="10", dead="0", by="batch", time="15:40")
    write(carer, event, place="Ramp dock", fish="5", dead="", distance_mi="0", depth_ft="3")
    shown = said(carer, event)
    assert "34 fish let go alive at two places." in shown and "1 fish of 35 was found dead when let go." in shown
    assert "86 % of 35 fish were brought to one place, Old Bridge Arm." in shown
    row = Release.objects.get(fish=20)
    assert (row.water_temp, row.tank_temp, row.depth_ft) == ("82 F", "77 F", "12")
    assert row.time == datetime(2026, 6, 20, 20, 20, tzinfo=UTC)
    entry = HistoryEntry.objects.filter(act="release.written").earliest("id")
    assert entry.sentence == "Release written: 20 fish at Old Bridge Arm, day 1" and entry.event_id == event.pk


@pytest.mark.parametrize(
    ("wrong", "field", "words"),
    [
        ({"dead": "21"}, "dead", "more than the 20 fish"),
        ({"fish": ""}, "fish", "missing"),
        ({"fish": "0"}, "fish", "1 or more"),
        ({"place": " "}, "place", "missing"),
        ({"by": ""}, "by", "missing"),
        ({"time": "later"}, "time", "is not a time"),
        ({"depth_ft": "-3"}, "depth_ft", "too small"),
        ({"distance_mi": "a mile"}, "distance_mi", "is not a number"),
        ({"water_temp": "200"}, "water_temp", "outside the range of water"),
        ({"tank_temp": "77", "shows": ""}, "tank_temp", "has no unit"),
    ],
)
def test_bad_input_gets_a_sentence_at_its_field(
    event: Event, carer: Client, wrong: dict[str, str], field: str, words: str
) -> None:
    sent = {**RELEASE, **wrong}
    answer = send(carer, event, "tanks:releases_new", **sent)
    found = faults(answer)
    assert field in found and words in found[field] and not Release.objects.exists()
    if field == "tank_temp":
        assert set(found) == {"water_temp", "tank_temp"}
    else:
        assert set(found) == {field}
    form = answer.context["form"]
    assert all(form[name].value() == value for name, value in sent.items())


def test_water_too_far_from_the_lakes_is_said(event: Event, carer: Client) -> None:
    write(carer, event)
    assert "than the lake" not in said(carer, event)
    write(carer, event, tank_temp="74")
    assert "fish’s water 8 °F colder than the lake" in said(carer, event)
    write(carer, event, water_temp="20", tank_temp="25", shows="C", place="Cold cove")
    assert "fish’s water 5 °C warmer than the lake" in said(carer, event)


def test_no_fish_is_counted_twice(event: Event, carer: Client) -> None:
    """Boat 1 brings 7, 6 alive, one more dies at release; the release boat counts two dead of the same fish."""
    record(event, alive="6", dead="1", dead_at_release="1", kept="1")
    assert event_mortality(event).dead == 2
    write(carer, event, fish="5", dead="2")
    send(carer, event, "tanks:walks_new", **WALK)
    send(carer, event, "tanks:kept_new", **{**KEPT, "fish": "1"})
    send(carer, event, "tanks:kept_new", **{**KEPT, "fish": "3", "alive": "no", "went": "disposed"})
    event.refresh_from_db()
    assert event_mortality(event).dead == event_document(whole_event(event))["mortality"]["dead"] == 3
    shown = said(carer, event)
    for words in (
        "Each fish counts once.",
        "By the slips 4 fish went back alive; by the releases 3, 1 fewer.",
        "2 fish were found dead when let go; the slips have 1 dead at release. One of them is on no slip: it counts in the mortality too.",
        "By the slips 1 fish was kept alive from the lake; what became of 1 is recorded here, the same.",
        "By the slips 2 fish were dead; where 3 of them went is recorded here, 1 more.",
        "those on a slip already are not added again",
    ):
        assert words in shown, words


def test_dead_on_both_are_the_same_fish(event: Event, carer: Client) -> None:
    record(event, alive="6", dead="1", dead_at_release="2")
    write(carer, event, fish="6", dead="2")
    assert "They are the same fish and count once." in said(carer, event)


def test_doubled_days_are_in_neither_sum(event: Event, carer: Client) -> None:
    for _ in range(2):
        record(event, alive="6", dead="1")
    record(event, boat="2", alive="7")
    assert releases_of(event).slips.alive == 7


def test_floaters_stay_out_of_every_estimate_and_may_be_counted_after_closing(event: Event, carer: Client) -> None:
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    assert send(carer, event, "tanks:walks_new", **WALK).status_code == 302
    assert (
        send(
            carer, event, "tanks:walks_new", **{**WALK, "hours": "72", "dead": "0", "walked_date": "2026-06-23"}
        ).status_code
        == 302
    )
    shown = said(carer, event)
    assert "3 dead fish found on 2 walks." in shown and "enters no estimate" in shown and "Count floating fish" in shown
    assert "Add a release" not in shown
    assert "is closed" in text(send(carer, event, "tanks:releases_new", **RELEASE)) and not Release.objects.exists()
    for wrong, field in (
        ({"hours": "36"}, "hours"),
        ({"dead": ""}, "dead"),
        ({"walked_date": "2027-06-21"}, "walked_date"),
        ({"walked_date": "2026-06-01"}, "walked_date"),
        ({"walked_date": "21 June"}, "walked_date"),
        ({"walked_time": "8"}, "walked_time"),
    ):
        assert set(faults(send(carer, event, "tanks:walks_new", **{**WALK, **wrong}))) == {field}, wrong
    row = FloaterWalk.objects.get(hours=24)
    assert (
        send(
            carer, event, "tanks:walk", row.pk, **again(page(carer, event, "tanks:walk", row.pk), dead="4")
        ).status_code
        == 302
    )
    row.refresh_from_db()
    assert row.dead == 4 and row.walked == datetime(2026, 6, 21, 13, tzinfo=UTC)


def test_kept_and_given_away_fish_are_written_down(event: Event, carer: Client) -> None:
    for wrong, field in (
        ({"boat": "99"}, "boat"),
        ({"fish": "0"}, "fish"),
        ({"alive": ""}, "alive"),
        ({"came_back": "1"}, "came_back"),
        ({"went": "lent", "came_back": "5"}, "came_back"),
        ({"receiver": "x" * 121}, "receiver"),
    ):
        assert set(faults(send(carer, event, "tanks:kept_new", **{**KEPT, **wrong}))) == {field}, wrong
    assert send(carer, event, "tanks:kept_new", **{**KEPT, "boat": "2"}).status_code == 302
    assert (
        send(
            carer, event, "tanks:kept_new", **{**KEPT, "went": "lent", "fish": "2", "receiver": "Show tank"}
        ).status_code
        == 302
    )
    shown = said(carer, event)
    assert "Given away" in shown and "Food kitchen" in shown and "may not be fit to eat" in shown
    assert "2 fish lent to a display or a photo have not come back." in shown
    row = KeptFish.objects.get(went="lent")
    assert (
        send(
            carer,
            event,
            "tanks:kept_fish",
            row.pk,
            **again(page(carer, event, "tanks:kept_fish", row.pk), came_back="2"),
        ).status_code
        == 302
    )
    shown = said(carer, event)
    assert "have not come back" not in shown and releases_of(event).kept_alive == 4


def test_a_release_is_changed_and_taken_out(event: Event, carer: Client) -> None:
    write(carer, event)
    row = Release.objects.get()
    assert (
        send(
            carer, event, "tanks:release", row.pk, **again(page(carer, event, "tanks:release", row.pk), fish="22")
        ).status_code
        == 302
    )
    assert Release.objects.get().fish == 22
    assert (
        send(carer, event, "tanks:release", row.pk, act="take_out", **{"out-reason": "written twice"}).status_code
        == 302
    )
    assert (
        acts(event)[-3:] == ["release.written", "release.changed", "release.taken_out"] and not Release.objects.exists()
    )


def test_a_form_sent_twice_is_kept_once(event: Event, carer: Client) -> None:
    sent = again(page(carer, event, "tanks:releases_new"), **RELEASE)
    for _ in range(2):
        assert send(carer, event, "tanks:releases_new", **sent).status_code == 302
    assert Release.objects.count() == 1


def test_deep_fish_and_the_rule_that_they_be_kept(event: Event, carer: Client) -> None:
    shown = said(carer, event)
    for words in (
        "Texas Parks and Wildlife",
        "must be kept, up to the daily bag of 25",
        "28 to 32 ft",
        "Do not vent crappie.",
    ):
        assert words in shown, words
    assert "had signs of depth" not in shown
    write_care_note(event, {"day": "1", "boat": "1", "barotrauma": "3"}, "lunt")
    assert "3 fish of 1 boat had signs of depth" in said(carer, event)
    Event.objects.filter(pk=event.pk).update(handling="harvest")
    assert "This event keeps its fish." in said(carer, event)


def test_black_and_white_crappie_are_told_apart(event: Event, carer: Client) -> None:
    shown = text(page(carer, event, "tanks:crappie"))
    assert "Spines of the back fin 7 or 8 5 or 6" in shown and "Spots" in shown and "Bars" in shown
    assert "Handbook knowledge" in shown


def test_places_are_offered_again_on_the_same_water(event: Event, carer: Client) -> None:
    write(carer, event)
    write(carer, event, place="OLD bridge arm", time="15:40")
    assert page(carer, event, "tanks:releases_new").context["places"] == ["OLD bridge arm"]


def test_a_seasons_places_add_up_over_its_events(event: Event, carer: Client) -> None:
    other = world.event("Second")
    url = reverse("tanks:release_sites", args=[event.club.slug, event.season.slug])
    assert "No release is recorded this season." in text(carer.get(url))
    write(carer, event)
    write(carer, other, fish="60", dead="3", place="OLD BRIDGE ARM", depth_ft="9", time="15:40")
    write(carer, other, fish="40", dead="0", place="Ramp dock", by="batch")
    answer = carer.get(url)
    assert "67 % of 120 fish were brought to one place, Old Bridge Arm." in text(answer)
    first = answer.context["table"].rows[0].record
    assert (first.fish, first.dead, first.trips, first.batches, len(first.events), first.depths) == (
        80,
        4,
        2,
        0,
        2,
        [12.0, 9.0],
    )
    assert "9 to 12 ft" in text(answer) and "Wilde 2003" in text(answer)


def test_other_members_read_releases_and_write_none(event: Event, carer: Client) -> None:
    write(carer, event)
    reader = world.member(event.club, Role.WEIGH_OFFICIAL, "scales")
    shown = page(reader, event, "care:releases")
    assert "Old Bridge Arm" in text(shown) and "/new/" not in shown.content.decode()
    for name in ("releases_new", "walks_new", "kept_new"):
        assert send(reader, event, f"tanks:{name}", **RELEASE).status_code == 403


def test_the_page_asks_the_same_number_of_questions_for_1_row_and_for_300(event: Event, carer: Client) -> None:
    counts = []
    at = datetime(2026, 6, 20, 20, tzinfo=UTC)
    for number in (1, 300):
        Release.objects.all().delete()
        rows = range(number)
        Release.objects.bulk_create(
            Release(event=event, day=1, time=at, by="boat", place=f"P{n % 9}", fish=3) for n in rows
        )
        FloaterWalk.objects.bulk_create(
            FloaterWalk(event=event, hours=24, walked=at + timedelta(days=1), shore="S", dead=n) for n in rows
        )
        KeptFish.objects.bulk_create(KeptFish(event=event, day=1, went="given", fish=1, alive=True) for n in rows)
        page(carer, event, "care:releases")
        with CaptureQueriesContext(connection) as asked:
            assert page(carer, event, "care:releases").status_code == 200
        counts.append(len(asked))
        url = reverse("tanks:release_sites", args=[event.club.slug, event.season.slug])
        with CaptureQueriesContext(connection) as asked:
            assert carer.get(url).status_code == 200
        counts.append(len(asked))
    assert counts[:2] == counts[2:] and max(counts) <= 13, counts

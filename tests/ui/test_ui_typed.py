"""What people type is understood by the forms, and a sign before money is refused with a word."""

import doctest
from typing import Any

import pytest
import world
from django.test import Client
from django.urls import reverse
from slips.table import posted

from weighin.accounts.domain.roles import Role
from weighin.events.models import Event
from weighin.slips.models import WeighSlip
from weighin.ui.parsing import typed


def test_the_examples_hold() -> None:
    assert doctest.testmod(typed).failed == 0


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("3pm", "15:00"), ("3 PM", "15:00"), ("7:49 pm", "19:49"), ("7:49:30 p.m.", "19:49:30"), ("12 am", "00:00"),
        ("12:10pm", "12:10"), ("15:00", "15:00"), ("0730", "07:30"), ("730a", "07:30"), ("13 pm", "13 pm"),
        ("3", "3"), ("later", "later"), ("", ""),
    ],
)  # fmt: skip
def test_times(written: str, read: str) -> None:
    assert typed.clock(written) == read


@pytest.mark.parametrize(
    ("written", "said"), [("-5", "negative"), ("$-5", "negative"), ("(5)", "negative"), ("+5", "has a sign")]
)
def test_money_with_a_sign_is_refused(written: str, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        typed.money(written)


@pytest.mark.parametrize(
    ("written", "read"),
    [("$120", "120"), ("120 $", "120"), ("$1,250.50", "1250.50"), ("12,5", "12,5"), ("free", "free")],
)
def test_money(written: str, read: str) -> None:
    assert typed.money(written) == read


def said(event: Event, **more: str) -> dict[str, str]:
    return {
        "name": event.name, "season": str(event.season_id), "water": str(event.water_id), "date": event.date.isoformat(),
        "days": "1", "start_time": "6 am", "due_time": "3:05 PM", "time_zone": event.time_zone, "weight_unit": "lb",
        "handling": event.handling, "entry_fee": "$120", "added_money": "$1,250", "lake_temp": "76", "elevation_ft": "620 ft",
        "permit": "", "note": "", **more,
    }  # fmt: skip


@pytest.mark.django_db
def test_an_event_takes_them_and_shows_back_what_it_took() -> None:
    event = world.event()
    director, where = world.member(event.club), reverse("events:edit", args=[event.slug])
    assert director.post(where, said(event)).status_code == 302
    event.refresh_from_db()
    assert (str(event.entry_fee), str(event.added_money), event.lake_temp) == ("120.00", "1250.00", "76 F")
    assert (f"{event.start_time:%H:%M}", f"{event.due_time:%H:%M}", event.elevation_ft) == ("06:00", "15:05", "620")
    assert "76 F" in director.get(where).content.decode()
    assert director.post(where, said(event, lake_temp="24.5 celsius")).status_code == 302
    event.refresh_from_db()
    assert event.lake_temp == "24.5 C"
    day = reverse("events:day", args=[event.slug, 1])
    assert director.post(day, {"status": "fished", "date": "2026-06-20", "lake_temp": "25", "due_time": "3pm"}).status_code == 302  # fmt: skip
    assert event.event_days.get().lake_temp == "25 C"


@pytest.mark.django_db
def test_all_faults_of_an_event_come_at_once_and_nothing_typed_is_lost() -> None:
    event = world.event()
    page = (
        world.member(event.club)
        .post(
            reverse("events:edit", args=[event.slug]),
            said(
                event, entry_fee="-$120", lake_temp="warm", due_time="sunset", time_zone="Lakeside", elevation_ft="high"
            ),
        )
        .content.decode()
    )
    for words in ("is negative: write an amount of 0 or more", "&#x27;warm&#x27; is not a temperature", "Write a time", "is not a time zone", "is not a number"):  # fmt: skip
        assert words in page, words
    # A zone is chosen from a list, so no other word can stand there
    for typed_words in ("-$120", "warm", "sunset", "high"):
        assert f'value="{typed_words}"' in page


@pytest.mark.django_db
def test_the_rule_sheet_takes_them() -> None:
    event = world.event()
    director, where = world.member(event.club), reverse("events:rules_edit", args=[event.slug])
    sheet: dict[str, Any] = {
        "payback_percent": "80%", "big_fish_pot_fee": "$10", "late_grace_minutes": "15 min", "ties": "big fish, coin flip",
    }  # fmt: skip
    answer = director.post(where, sheet)
    assert answer.status_code == 302, answer.content.decode()
    event.rule_sheet.refresh_from_db()
    kept = event.rule_sheet.written
    assert (kept["payback_percent"], kept["late_grace_minutes"], kept["ties"]) == ("80", "15", "big_fish, lot")
    assert kept["big_fish_pot_fee"].startswith("10")
    assert "is negative" in director.post(where, {"big_fish_pot_fee": "-10"}).content.decode()


@pytest.mark.django_db
def test_a_slip_takes_them() -> None:
    event = world.event()
    client: Client = world.member(event.club, Role.WEIGH_OFFICIAL)
    sent = posted(checked_in="2:55 pm", weighed="3:10pm", gross="8.50 lb", excused_minutes="5 min")
    assert client.post(reverse("slips:slips_new", args=[event.slug]), sent).status_code == 302
    slip = WeighSlip.objects.get()
    assert (slip.gross, slip.excused_minutes) == ("8.50 lb", "5")
    assert slip.weighed is not None and slip.weighed.isoformat() == "2026-06-20T20:10:00+00:00"

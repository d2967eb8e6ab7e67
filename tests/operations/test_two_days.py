"""An empty site through a two-day event over its pages: made, weighed, refused, overruled, published, closed."""

import io
import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from checkin.clock import Clock, clock
from django.core.management import call_command
from django.test import Client
from pypdf import PdfReader

from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.standings.models import OfficialResult

__all__ = ["clock"]
WORD = "kelu-ramo-vitu"
AT = "/events/evening-pair-2026"
FIRST_EVENING, NEXT_NOON = "2026-11-28T21:30:00-06:00", "2026-11-29T12:00:00-06:00"
SECOND_EVENING = "2026-11-29T21:30:00-06:00"


@pytest.fixture
def director(db: None, settings: Any, tmp_path: Path, clock: Clock) -> Client:
    """The first director of an empty site, with a club, a season, a water and an event of two evenings."""
    settings.DATA = tmp_path
    (tmp_path / "first-word").write_text(WORD)
    clock("2026-11-28T12:00:00-06:00")
    client = Client()
    sent(
        client, "/begin/", word=WORD, club="Alder Crappie Club", name="Mara Lindell", username="mara",
        password="four words on paper", again="four words on paper",
    )  # fmt: skip
    club = "/clubs/alder-crappie-club"
    sent(client, f"{club}/seasons/new/", name="2026")
    sent(client, f"{club}/waters/new/", name="Cutbank Lake")
    page = client.get(f"{club}/events/new/").content.decode()
    season, water = (re.search(rf'name="{name}".*?value="(\d+)"', page, re.S) for name in ("season", "water"))
    assert season and water
    sent(
        client, f"{club}/events/new/", name="Evening Pair", season=season[1], water=water[1], date="2026-11-28", days="2",
        start_time="17:00", due_time="21:00", time_zone="America/Chicago", weight_unit="lb", handling="hold_release",
        entry_fee="60", added_money="0",
    )  # fmt: skip
    for boat in "123":
        sent(client, f"{AT}/teams/new/", boat=boat, name=f"Pair {boat}", angler_1=f"Angler {boat}", status="entered", **({"paid": "on"} if boat != "1" else {}))  # fmt: skip
    return client


def sent(client: Client, where: str, **said: str) -> None:
    """Send a form that must be taken."""
    answer = client.post(where, said)
    assert answer.status_code == 302, text(answer)


def later(client: Client, clock: Clock, moment: str) -> None:
    """Some hours on: a director who asked for no page meanwhile signs in again."""
    clock(moment)
    client.logout()
    sent(client, "/sign-in/", username="mara", password="four words on paper")


def text(answer: Any) -> str:
    """What a page says, without its markup."""
    bare = re.sub(r"<(script|style)[^>]*>.*?</\1>", " ", answer.content.decode(), flags=re.S)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", bare)).split())


def said_at(client: Client, where: str) -> str:
    answer = client.get(where)
    assert answer.status_code == 200
    return text(answer)


def weigh(client: Client, day: int, boat: int, gross: str, **more: str) -> None:
    sent(
        client, f"{AT}/slips/new/", day=str(day), boat=str(boat), alive="7", dead="0", gross=gross, official="R. Quill",
        weighed="21:15", checked_in="20:45", **more,
    )  # fmt: skip


def fields(page: str) -> list[str]:
    """The names of the fields that take a reason."""
    return [name for name in re.findall(r'name="(\w+)"', page) if re.search(r"_\d$|money|missing", name)]


def reasons(client: Client, where: str, why: str) -> dict[str, str]:
    """Every open question of a page overruled with ``why``."""
    return dict.fromkeys(fields(client.get(where).content.decode()), why)


def test_the_two_days_over_the_pages(director: Client, clock: Clock) -> None:
    said = said_at(director, f"{AT}/")
    assert "Today is day 1 of 2." in said and "Day 1 starts 5:00 PM today." in said
    later(director, clock, FIRST_EVENING)
    for boat in (1, 2, 3):
        weigh(director, 1, boat, f"{8 + boat / 10:.2f}")
    later(director, clock, "2026-11-28T23:00:00-06:00")
    day = said_at(director, f"{AT}/")
    assert "Today is day 1 of 2. Day 1 is in: 3 of 3. Day 2 starts 5:00 PM tomorrow." in day
    assert "publish the official" not in day.lower()
    assert "Day 1 is in: 3 of 3. Day 2 starts 5:00 PM tomorrow." in said_at(director, f"{AT}/standings/")

    publish = f"{AT}/publish/"
    page = said_at(director, publish)
    for open_yet in (
        "Day 2 is not fished yet.",
        "Day 1: nobody recorded when the fish of boats 1, 2 and 3 went back.",
        "Day 1: no care note of boats 1, 2 and 3, 3 of 3 weighed boats.",
        "The result will say “after day 1 of 2” everywhere.",
    ):
        assert open_yet in page
    one_press = director.post(publish, {"sure": "on"})
    assert one_press.status_code == 200 and "Settle it, or give a reason here." in text(one_press)
    without_sure = director.post(publish, reasons(director, publish, "the storm took day 2"))
    assert "Check this box to go on." in text(without_sure)
    assert 'value="the storm took day 2"' in without_sure.content.decode()
    assert not OfficialResult.objects.exists() and not Event.objects.get().is_public

    later(director, clock, "2026-11-29T12:00:00-06:00")
    assert "Today is day 2 of 2. Day 1 is in: 3 of 3. Day 2 starts 5:00 PM today." in said_at(director, f"{AT}/")
    later(director, clock, "2026-11-29T20:00:00-06:00")
    weigh(director, 2, 1, "9.90")
    going = said_at(director, f"{AT}/")
    assert "Today is day 2 of 2. Day 1 is in: 3 of 3. Day 2: 1 of 3 weighed." in going
    assert "publish the official" not in going.lower()
    assert "Day 2 is not over: 1 of 3 boats weighed." in said_at(director, publish)
    later(director, clock, SECOND_EVENING)
    weigh(director, 2, 2, "9.30")
    assert "Day 2: boat 3 is not weighed, 1 of 3 boats." in said_at(director, publish)
    weigh(director, 2, 3, "9.30")
    day = said_at(director, f"{AT}/")
    assert "Every boat is weighed: 5 questions are open before the result can be published." in day
    assert "Boat 1 is in the money and has not paid: the prize goes to the next team." in said_at(director, publish)
    sent(director, publish, sure="on", **reasons(director, publish, "the crew saw to it"))

    result = OfficialResult.objects.get()
    assert result.stage == "" and {row["reason"] for row in result.overruled} == {"the crew saw to it"}
    assert {row["code"] for row in result.overruled} == {
        "unpaid_in_the_money", "release_not_recorded", "care_not_recorded",
    }  # fmt: skip
    assert "the crew saw to it" in HistoryEntry.objects.get(act="result.published").sentence
    assert "the crew saw to it" in said_at(Client(), "/results/evening-pair-2026/official/1/")

    close = f"{AT}/close/"
    assert "Check this box to go on." in text(director.post(close, reasons(director, close, "as above")))
    assert Event.objects.get().closed_at is None
    sent(director, close, sure="on", **reasons(director, close, "as above"))
    assert Event.objects.get().closed_at is not None
    assert "as above" in HistoryEntry.objects.get(act="event.closed").sentence


def test_a_result_after_day_1_says_so_wherever_it_stands(director: Client, clock: Clock) -> None:
    later(director, clock, FIRST_EVENING)
    for boat in (1, 2, 3):
        weigh(director, 1, boat, f"{8 + boat / 10:.2f}")
    publish = f"{AT}/publish/"
    sent(director, publish, sure="on", **reasons(director, publish, "the storm took day 2"))
    stranger, words = Client(), "after day 1 of 2"
    for where in (f"{AT}/", f"{AT}/results/", f"{AT}/results/1/", f"{AT}/standings/"):
        assert words in said_at(director, where), where
    results = "/results/evening-pair-2026"
    for where in ("/", f"{results}/", f"{results}/standings/", f"{results}/official/1/", f"{results}/crowd/", f"{results}/screen/"):  # fmt: skip
        assert words in said_at(stranger, where), where
    assert "won" not in said_at(stranger, f"{results}/")
    assert "Evening Pair is provisional" not in said_at(director, "/clubs/alder-crappie-club/seasons/2026/points/")
    assert words in said_at(director, "/clubs/alder-crappie-club/seasons/2026/points/")
    later(director, clock, NEXT_NOON)
    assert "nothing changed since version 1" in text(
        director.post(publish, {"sure": "on", "reason": "again", **reasons(director, publish, "the storm took day 2")})
    ).replace("Nothing", "nothing")
    for boat in (1, 2, 3):
        weigh(director, 2, boat, "9.40")
    sent(director, publish, sure="on", reason="day 2 was fished after all", **reasons(director, publish, "seen to"))
    assert [result.stage for result in OfficialResult.objects.order_by("version")] == [words, ""]
    assert words not in said_at(stranger, f"{results}/standings/")
    assert words in said_at(stranger, f"{results}/official/1/")


def test_no_word_of_the_printed_standings_is_broken_and_care_counts_boat_days(director: Client) -> None:
    for boat in (1, 2, 3):
        weigh(director, 1, boat, "9.25")
    assert "3 weighed boat-days have no care note." in said_at(director, f"{AT}/")
    printed = PdfReader(io.BytesIO(director.get(f"{AT}/files/pdf").content)).pages[0].extract_text()
    heads = printed.split()
    assert {"Boat", "Fish", "Dead", "Points"} <= set(heads), printed


def test_files_of_a_result_after_day_1_say_so(director: Client, clock: Clock, tmp_path: Path) -> None:
    from openpyxl import load_workbook

    later(director, clock, FIRST_EVENING)
    for boat in (1, 2, 3):
        weigh(director, 1, boat, f"{8 + boat / 10:.2f}")
    call_command("publish_result", "evening-pair-2026", overrule="the storm took day 2")
    for form in ("csv", "pdf", "xlsx"):
        call_command("export_event", "evening-pair-2026", format=form, out=tmp_path / f"event.{form}")
    assert "after day 1 of 2" in (tmp_path / "event.csv").read_text(encoding="utf-8-sig")
    assert "after day 1 of 2" in load_workbook(tmp_path / "event.xlsx").properties.description
    assert b"after day 1 of 2" in title_of(tmp_path / "event.pdf")


def title_of(file: Path) -> bytes:
    """A PDF's own title, in the clear; ReportLab writes it as plain text where it is ASCII."""
    found = re.search(rb"/Title \((.*?)\)\s", file.read_bytes(), re.S)
    assert found
    return found[1].replace(b"\\\n", b"").replace(b"\\\r\n", b"")


def test_cancelling_the_last_day_makes_what_stands_final(director: Client, clock: Clock) -> None:
    later(director, clock, FIRST_EVENING)
    for boat in (1, 2, 3):
        weigh(director, 1, boat, f"{8 + boat / 10:.2f}")
    call_command("publish_result", "evening-pair-2026", overrule="the storm took day 2")
    sent(director, f"{AT}/setup/days/2/", status="cancelled", date="2026-11-29")
    call_command("publish_result", "evening-pair-2026", overrule="seen to", reason="day 2 is cancelled")
    assert [result.stage for result in OfficialResult.objects.order_by("version")] == ["after day 1 of 2", ""]

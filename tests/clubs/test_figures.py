"""Dates, clocks, degrees and money: one form each, by the club's settings."""

import re
from collections.abc import Callable
from datetime import UTC, date, datetime, time
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from django.urls import reverse
from django.utils import translation

from tests import world
from weighin.accounts.models import User
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.ui import figures
from weighin.ui.figures import FILED, Writing, written_as
from weighin.ui.forms.fields import ClockInput, MomentInput
from weighin.ui.parsing import typed

BASE = Path(__file__).resolve().parents[2]
NB = "\u00a0"
AT = datetime(2026, 7, 18, 15, 5, 21, tzinfo=ZoneInfo("America/Chicago"))


def test_one_form_each() -> None:
    assert figures.day(date(2026, 7, 18)) == "Sat, July 18, 2026" and figures.short_day(AT) == "Jul 18"
    assert figures.clock(AT) == "3:05 PM" and figures.exact_clock(AT) == "3:05:21 PM"
    assert figures.clock(time(0, 30)) == "12:30 AM" and figures.moment(AT) == "Jul 18, 3:05 PM"
    assert figures.clock(AT, ZoneInfo("America/New_York")) == "4:05 PM"
    assert figures.zoned(AT) == f"Jul 18, 3:05 PM{NB}CDT"
    assert figures.degrees(86, "F") == f"86{NB}°F" and figures.written_degrees("79.60 F") == f"79.6{NB}°F"
    assert figures.money(Decimal("1396")) == "$1,396.00" and figures.money(Decimal("-7.505")) == "\u2212$7.51"
    for said in (figures.day, figures.clock, figures.moment, figures.zoned, figures.money):
        assert said(None) == ""


def test_a_club_writes_them_its_own_way() -> None:
    with written_as(Writing(24, "C", "€")):
        assert figures.clock(AT) == "15:05" and figures.exact_clock(AT) == "15:05:21"
        assert figures.written_degrees("86 F") == f"30{NB}°C" and figures.degrees(30, "C") == f"30{NB}°C"
        assert figures.money(3) == "€3.00" and ClockInput().format_value("06:00") == "06:00"
    assert ClockInput().format_value("15:05:30") == "3:05:30 PM" and ClockInput().format_value("soon") == "soon"


def test_a_day_of_any_year_is_shown_and_read_back_in_either_language() -> None:
    assert figures.dated_moment(AT.replace(second=0)) == "Jul 18, 2026, 3:05 PM" and figures.dated(AT) == "Jul 18, 2026"
    line = MomentInput()
    for language in ("en", "es"):
        with translation.override(language):
            for written in ("2026-07-18 15:05", "2026-12-01", "15:05"):
                shown = line.format_value(written)
                assert shown and shown != written and typed.moment(shown) == written, shown
    assert line.format_value("2026-07-18T15:05") == "Jul 18, 2026, 3:05 PM"
    assert line.format_value("Saturday") == "Saturday" and not line.format_value(None)


def test_files_have_iso_forms_whatever_the_club_has() -> None:
    with written_as(FILED):
        assert figures.day(AT) == figures.short_day(AT) == "2026-07-18" and figures.clock(AT) == "15:05"


@pytest.mark.django_db
def test_pages_of_a_club_have_the_one_form_before_its_first_event_too() -> None:
    club = Club.objects.create(name="Heron Bend Anglers", slug="heron")
    director = world.member(club)
    User.objects.update(last_login=datetime(2026, 11, 30, 3, 0, tzinfo=UTC))
    members = director.get(reverse("clubs:members", args=[club.slug])).content.decode()
    assert "Nov 29, 2026" in members
    history = director.get(reverse("operations:club_history", args=[club.slug])).content.decode()
    assert "UTC" not in history


@pytest.mark.django_db
def test_a_time_zone_is_chosen_from_all_there_are_those_of_the_country_first() -> None:
    event = world.event()
    html = world.member(event.club).get(reverse("events:edit", args=[event.slug])).content.decode()
    zones = re.findall(r'<option value="([A-Za-z_]+/[^"]+)"', html)
    assert zones[0] == "America/New_York" and "Europe/Berlin" in zones and len(zones) == len(set(zones)) > 300
    assert '<option value="America/Chicago" selected>' in html and "UTC" not in html
    Event.objects.update(time_zone="UTC")
    html = world.member(event.club).get(reverse("events:edit", args=[event.slug])).content.decode()
    assert '<option value="UTC" selected>' in html


@pytest.mark.django_db
def test_lines_for_a_day_and_a_time_take_what_people_type() -> None:
    event = world.event()
    director, terms = world.member(event.club), reverse("signup:terms", args=[event.slug])
    said = {"is_open": "yes", "approval": "by_hand", "show_teams": "no", "opens": "6/1/2026 6pm", "closes": "soon"}
    page = director.post(terms, said).content.decode()
    assert 'value="Jun 1, 2026, 6:00 PM"' in page and 'value="soon"' in page and "datetime-local" not in page
    assert director.post(terms, said | {"closes": "Jun 19, 2026, 8:00 PM"}).status_code == 302
    assert 'value="Jun 19, 2026, 8:00 PM"' in director.get(terms).content.decode()


@pytest.mark.django_db
def test_the_club_s_settings_change_its_pages() -> None:
    event = world.event()
    director, edit = world.member(event.club), reverse("clubs:edit", args=[event.club.slug])
    setup = reverse("events:setup", args=[event.slug])
    assert "6:00 AM to 3:00 PM" in director.get(setup).content.decode()
    said = {"act": "figures", "currency": "€", "hours": "24", "degrees": "C", "language": "es"}
    assert director.post(edit, said, follow=True).status_code == 200
    club = Club.objects.get()
    assert (club.currency, club.hours, club.degrees, club.language) == ("€", 24, "C", "es")
    page = director.get(setup).content.decode()
    assert "06:00 to 15:00" in page and "entry fee €" in page and '<html lang="en" data-hours="24">' in page
    assert "is not one of the available choices" in director.post(edit, said | {"hours": "13"}).content.decode()
    assert Club.objects.get().hours == 24


FILES = {  # what other programs read, or the database keeps, has its own forms
    "figures.py", "cells.py", "calendar.py", "notices.py", "scales.py", "rows.py", "typed.py", "backup_ages.py", "backups.py",
    "upgrading.py", "icalendar.py", "open_data_tables.py", "ending.py", "lines.py", "doctor.py", "trying.py", "serve.py",
    "kinds.py", "forms.py", "models.py", "figures.js", "times.js", "moments.js", "page.js", "events.py",
}  # fmt: skip
PRIVATE: dict[str, tuple[str, Callable[[str], bool]]] = {
    "weighin/**/*.py": (r"strftime|:%[HMSdBbYAI]|\bdate_format\(|\btime_format\(", FILES.__contains__),
    "templates/**/*.html": (r"\|(?:date|time):(?![\"'](?:c|Y-m-d)[\"'])|\{% now ", lambda name: False),
    "weighin/ui/static/weighin/js/**/*.js": (r"toLocale\w*\(|DateTimeFormat\(", FILES.__contains__),
}


@pytest.mark.parametrize("where", PRIVATE)
def test_no_page_has_a_form_of_its_own(where: str) -> None:
    form, exempt = PRIVATE[where]
    found = [
        f"{path.relative_to(BASE)}: {line.strip()}"
        for path in BASE.glob(where)
        if not exempt(path.name)
        for line in path.read_text().splitlines()
        if re.search(form, line)
    ]
    assert not found, "\n".join(found)

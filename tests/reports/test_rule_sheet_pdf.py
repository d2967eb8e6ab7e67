"""The rules to hand out: every sentence, on one page."""

import io

import pytest
import world
from django.urls import reverse
from pypdf import PdfReader

from weighin.events.models import Event
from weighin.events.services.club_sheets import make_sheet
from weighin.rules import rulebook
from weighin.rules.sheets.starting import STARTING
from weighin.rules.words.sheet import sheet_in_words

pytestmark = pytest.mark.django_db
# Nearly every rule at once: the longest words a sheet can have
MANY = {
    "boat_limit": "8", "minimum_length_in": "10", "dead_fish_penalty": "0, 0.25, 0.5, 1", "over_limit": "penalty",
    "late_grace_minutes": "5", "late_reduces_big_fish": "yes", "live_fish_bonus": "0.1", "cut_after_day": "1",
    "cut_keep": "10", "ties": "big_fish, live_fish, fish_count, fewest_deductions, first_day, last_day, lot, share",
    "place_shares": "40, 30, 20, 10", "big_fish_pot_fee": "10", "big_fish_shares": "60, 40",
    "points_table": ", ".join(str(n) for n in range(100, 60, -1)), "points_per_pound": "1", "points_big_fish": "5",
    "count_best": "8", "care_max_held_minutes": "480", "deep_fish_kept_ft": "25", "measured_lengths_above": "85",
}  # fmt: skip


def words(content: bytes) -> tuple[int, str]:
    found = PdfReader(io.BytesIO(content))
    return len(found.pages), "".join("".join(page.extract_text() for page in found.pages).split())


def test_a_club_s_sheet_is_one_page_with_every_sentence() -> None:
    season = world.season()
    reader = world.member(season.club)
    sheets = [("Many", MANY), *((one.name, one.written("lb")) for one in STARTING)]
    for name, written in sheets:
        version = make_sheet(season.club, name, "lb", written, "mara")
        answer = reader.get(reverse("reports:sheet_pdf", args=[season.club.slug, version.sheet.slug]))
        pages, text = words(answer.content)
        assert answer["Content-Type"] == "application/pdf" and pages == 1
        for _, sentences in sheet_in_words(rulebook.read(written, "lb")):
            for sentence in sentences:
                assert "".join(sentence.split()) in text, sentence
        assert "Stateandlocalfishinglaw" in text and f"{name},version1".replace(" ", "") in text


def test_an_event_s_rules_are_handed_out_with_its_permit() -> None:
    event = world.plain()
    Event.objects.filter(pk=event.pk).update(permit="Permit 12 of the agency")
    answer = world.member(event.club).get(reverse("reports:rules_pdf", args=[event.slug]))
    pages, text = words(answer.content)
    assert pages == 1 and "Permit:Permit12oftheagency" in text and "RulesofPlainevent" in text

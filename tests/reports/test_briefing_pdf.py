"""The briefing as a sheet of paper: one page whatever the rules, the same words as the page."""

import io

import pytest
import world
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from weighin.events.models import Event, EventDay
from weighin.planning.pages.briefing import briefing_of
from weighin.reports.writers.pdf.briefing_pdf import briefing_pdf


@pytest.fixture
def event(db: None) -> Event:
    found = world.plain()
    EventDay.objects.filter(event=found, number=1).update(lake_temp="86 F", air_temp="95 F")
    Event.objects.filter(pk=found.pk).update(permit="Permit 47-B", is_public=True)
    return Event.objects.get(pk=found.pk)


def read(content: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(content))


def text(content: bytes) -> str:
    return " ".join("\n".join(page.extract_text() for page in read(content).pages).split())


def test_it_says_what_the_page_says_on_one_sheet(event: Event) -> None:
    briefing = briefing_of(event)
    assert briefing is not None
    made = briefing_pdf(briefing, "Permit 47-B <&>")
    said = text(made)
    assert len(read(made).pages) == 1 and "page 1 of 1" in said and "■" not in said
    assert "Permit 47-B <&>" in said
    for line in (*briefing.times, *briefing.figures, *briefing.care, *briefing.rules):
        assert line.label in said and " ".join(line.words.split()) in said
    for bold, _ in briefing.cautions:
        assert bold in said
    assert read(made).metadata.title == "Briefing of Plain event, day 1"  # type: ignore[union-attr]


def test_it_stays_one_sheet_with_the_longest_of_rules(event: Event) -> None:
    event.rule_sheet.written |= {
        "species": "black crappie and white crappie of either lake, as the state counts them",
        "dead_fish_penalty": ", ".join(f"0.{n:02d}" for n in range(10, 40)),
        "care_max_held_minutes": "420",
        "boat_limit": "9",
    }
    event.rule_sheet.save()
    briefing = briefing_of(Event.objects.get(pk=event.pk))
    assert briefing is not None
    assert len(read(briefing_pdf(briefing, "Seen and signed. " * 29)).pages) == 1


def test_members_get_the_permit_and_the_public_does_not(event: Event) -> None:
    mine = world.member(event.club).get(reverse("reports:briefing", args=[event.slug]))
    anyones = Client().get(reverse("public:briefing_file", args=[event.slug]), {"day": "2"})
    assert mine["Content-Type"] == anyones["Content-Type"] == "application/pdf"
    assert mine["Content-Disposition"] == f'inline; filename="{event.slug}-briefing-1.pdf"'
    assert "Permit 47-B" in text(mine.content) and "Permit 47-B" not in text(anyones.content)
    assert "day 2" in text(anyones.content)
    assert world.member(event.club).get(reverse("reports:briefing", args=[event.slug]), {"day": "3"}).status_code == 404

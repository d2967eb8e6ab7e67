"""The season's summary as JSON, XLSX and PDF, from the page and from the command line."""

import io
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from mortality.seasons import fished, pen, season_of
from openpyxl import load_workbook
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.advice.pages.season_json import KEYS
from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.reports.files.season import FORMS, season_file
from weighin.survival.clusters import clustered
from weighin.survival.nested import SAME_DAY, nested

pytestmark = pytest.mark.django_db
DEAD = (1, 0, 2, 1, 4, 3, 6, 9)


@pytest.fixture
def season(db: None) -> Season:
    """Eight events of six livewells, one with a holding study, one named like a formula."""
    events = [
        fished(
            f"Event {n}",
            [(7, min(7, max(0, dead - 7 * well))) for well in range(6)],
            date=f"2026-0{n}-10",
            lake=f"{52 + 4 * n} F",
            notes=[{"boat": str(boat), "ice_lb": str(10 * (boat % 2))} for boat in range(1, 7)],
            holding=[pen("tournament", 50, 15), pen("reference", 53, 6)] if n == 3 else [],
        )
        for n, dead in enumerate(DEAD, start=1)
    ]
    Event.objects.filter(name="Event 2").update(name="=Open")
    return season_of(*events)


@pytest.fixture
def nothing(db: None) -> Season:
    club = Club.objects.create(name="Empty Creek", slug="empty-creek")
    return Season.objects.create(club=club, name="2026", slug="2026")


def document(season: Season) -> dict[str, Any]:
    return json.loads(season_file(season, "json")[0])


def keys_of(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from keys_of(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from keys_of(inner)


def pdf(season: Season) -> PdfReader:
    return PdfReader(io.BytesIO(season_file(season, "pdf")[0]))


def pdf_text(season: Season) -> str:
    text = " ".join(page.extract_text() for page in pdf(season).pages)
    return re.sub(r"\s+", " ", text.replace("\u00a0", " "))


def test_every_key_of_the_json_has_its_meaning(season, nothing):
    assert set(keys_of(document(season))) == set(KEYS)
    assert set(keys_of(document(nothing))) <= set(KEYS)
    assert all(KEYS.values())


def test_the_json_holds_the_figures(season):
    found = document(season)
    rate = clustered(DEAD, [42] * 8, correlation=SAME_DAY)
    assert (found["presented"], found["dead"], found["clusters"], found["livewells"]) == (336, 26, 8, 48)
    assert (found["initial"], found["low"], found["high"]) == (rate.rate, rate.low, rate.high)
    assert found["design_effect"] == rate.design_effect and found["range_of"] == "such_events"
    assert [event["dead"] for event in found["events"]] == list(DEAD)
    assert [event["lake_temp_f"] for event in found["events"]] == [52.0 + 4 * n for n in range(1, 9)]
    studied = found["events"][2]
    assert studied["delayed"] == pytest.approx(0.2106, abs=5e-5) and studied["delayed_basis"] == "reference"
    assert (studied["holding"]["held"], studied["holding"]["reference_dead"]) == (50, 6)
    assert found["events"][0]["delayed"] is None and found["events"][0]["total"] is None
    assert len(found["by_temperature"]["points"]) == 8 and len(found["by_temperature"]["curve"]) == 49
    assert found["by_temperature"]["why_no_curve"] == ""


def test_the_json_of_an_empty_season_has_no_rate(nothing):
    found = document(nothing)
    assert found["events"] == [] and found["initial"] is None and found["such_events"] is None
    assert found["presented"] == 0 and found["range_of"] is None


def test_the_workbook_holds_the_rows_behind_each_figure(season):
    content, content_type = season_file(season, "xlsx")
    assert content_type.endswith("spreadsheetml.sheet")
    book = load_workbook(io.BytesIO(content))
    assert {"Season", "Events", "Livewells", "Temperature", "Holding studies"} <= set(book.sheetnames)
    for sheet in book:
        for head in sheet[1]:
            if head.value in ("Rate", "Low", "High", "Delayed", "Stop level"):
                cells = [cell for cell in sheet[head.column_letter][1:] if isinstance(cell.value, (int, float))]
                assert {cell.number_format for cell in cells} <= {"0.0%"}
                assert all(isinstance(cell.value, (int, float, type(None))) for cell in sheet[head.column_letter][1:])
    events = list(book["Events"].iter_rows(values_only=True))
    head = {name: place for place, name in enumerate(events[0])}
    assert [row[head["Fish"]] for row in events[1:9]] == [42] * 8
    assert [row[head["Rate"]] for row in events[1:9]] == pytest.approx([dead / 42 for dead in DEAD])
    wells = [row for row in book["Livewells"].iter_rows(min_row=2, values_only=True) if row[1] is not None]
    assert len(wells) == 48 and sum(row[4] for row in wells) == sum(DEAD)
    named = [row[0] for row in book["Events"].iter_rows(min_row=2)]
    formula = next(cell for cell in named if cell.value == "=Open")
    assert formula.data_type == "s"


def test_every_font_of_the_paper_is_embedded(season, nothing):
    for found in (season, nothing):
        reader = pdf(found)
        fonts = [font.get_object() for page in reader.pages for font in page["/Resources"]["/Font"].values()]
        assert fonts
        for font in fonts:
            inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
            descriptor = inner["/FontDescriptor"].get_object()
            assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor), font["/BaseFont"]
            assert "DejaVu" in font["/BaseFont"]


def test_the_paper_says_the_figures(season):
    reader, text = pdf(season), pdf_text(season)
    assert 2 <= len(reader.pages) <= 8
    assert reader.metadata.title == "Mortality, Reed Valley Crappie Club, season 2026"
    assert "■" not in text and "\ufffd" not in text
    rate = clustered(DEAD, [42] * 8, correlation=SAME_DAY)
    assert "About one fish in thirteen was dead by release." in text
    assert "26 of 336 fish were dead by release: 7.7 % seen." in text
    assert f"{100 * rate.low:.1f} to {100 * rate.high:.1f} % (95 % range)" in text
    assert "our stop level, 10 %" in text
    for n, dead in enumerate(DEAD, start=1):
        assert f"{dead} of 42" in text
        assert ("=Open" if n == 2 else f"Event {n}") in text
    assert "15 of 50 fish held were dead after 72 hours, 6 of 53 reference fish" in text
    assert "No published study of crappie tournaments was found." in text
    assert "Rao & Scott" in text


def test_no_dead_fish_on_paper_is_not_no_mortality(db):
    season = season_of(fished("Cool", [(7, 0)] * 5), fished("Cooler", [(5, 0)], date="2026-07-01"))
    text = pdf_text(season)
    assert "None of 40 fish brought to the scales was dead." in text
    assert "That is not the same as no mortality" in text
    assert f"up to {100 * nested([0] * 6, [7] * 5 + [5], [1] * 5 + [2]).these_events.high:.1f} %" in text
    assert "0.0 %" not in text


def test_an_empty_season_on_paper(nothing):
    text = pdf_text(nothing)
    assert "No fish has been brought to the scales this season." in text
    assert "there is no rate to give and none is made up" in text


def test_the_files_are_for_members(season):
    for form in FORMS:
        address = f"/clubs/{season.club.slug}/seasons/{season.slug}/files/{form}"
        for role in Role.values:
            assert world.member(season.club, role).get(address).status_code == 200
        assert world.stranger().get(address).status_code == 404
    assert world.member(season.club).get(address.replace("pdf", "exe")).status_code == 404


@pytest.mark.parametrize(
    "club,name",
    [("reed-valley-crappie-club", "2026"), ("Reed Valley Crappie Club", "2026"), ("REED VALLEY crappie club", "2026")],
)
def test_the_command_finds_club_and_season_by_slug_and_name(season, capsys, club, name):
    call_command("season_summary", club, name, format="json")
    assert json.loads(capsys.readouterr().out)["presented"] == 336


@pytest.mark.parametrize("form", FORMS)
def test_the_command_writes_a_file(season, tmp_path: Path, capsys, form):
    out = tmp_path / f"summary.{form}"
    call_command("season_summary", season.club.slug, season.slug, format=form, out=out)
    assert out.read_bytes()[:2] in (b"{\n", b"PK", b"%P")
    assert "Wrote" in capsys.readouterr().out


def test_the_command_says_what_is_wrong(season, tmp_path):
    with pytest.raises(CommandError, match="There is no club called Nobody"):
        call_command("season_summary", "Nobody", "2026", format="json")
    with pytest.raises(CommandError, match=r"no season of Reed Valley Crappie Club called 1999. Known are: 2026"):
        call_command("season_summary", season.club.slug, "1999", format="json")
    with pytest.raises(CommandError, match="cannot be written"):
        call_command(
            "season_summary", season.club.slug, "2026", format="pdf", out=tmp_path / "no" / "such" / "folder.pdf"
        )

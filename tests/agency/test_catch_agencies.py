"""Each agency's fields and due days, as the project's trade notes list them; species, success and the fate of dead fish."""

import io
from datetime import date
from decimal import Decimal

import pytest
import world
from django.test import Client
from django.urls import reverse
from mortality.test_dead_at_release import released, untimed
from openpyxl import load_workbook
from pypdf import PdfReader

from weighin.accounts.domain.roles import Role
from weighin.agency.domain.species import Bag, by_species
from weighin.agency.files.catch import catch_file
from weighin.agency.pages.layouts import BY_KEY, report_lines
from weighin.agency.queries.catch import event_catch, season_catch
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event

# What each agency asks for after an event (the project's trade notes, "What agencies ask for after an event"), as the
# beginnings of the report's lines; due days: 7 Connecticut, 30 Minnesota and Kansas (the same notes, "The day", 8).
ASKED = {
    "connecticut": (
        7,
        ["Participants", "Total hours", "Number registered, ", "Weight registered, lb, ", "Released alive", "Kept"],
    ),
    "vermont": (None, ["Participants", "Participants with a fish", "Number registered, ", "Released alive"]),
    "wisconsin": (
        None,
        ["Participants", "Boats", "Prize value", "Start and stop", "Fish registered", "Kept, ", "Released alive, "],
    ),
    "north-dakota": (None, ["Participants", "Fish registered", "Number registered, "]),
    "alabama": (
        None,
        [
            "Percent success",
            "Mean weight",
            "Fish registered per angler-day",
            "Pounds per angler-day",
            "Hours per fish of",
        ],
    ),
    "minnesota": (30, ["Participants"]),
    "kansas": (30, ["Participants"]),
}
WHO = ["Organizer", "Contact", "Water", "County", "Ramp", "Dates"]


def bag(fish: int, pounds: str, *, dead: int = 0, kept: int = 0, **told: int) -> Bag:
    return Bag({name.replace("_", " "): count for name, count in told.items()}, fish, dead, kept, Decimal(pounds))


@pytest.mark.django_db
@pytest.mark.parametrize("key", ASKED)
def test_every_field_an_agency_asks_for_is_in_its_layout(key: str) -> None:
    due, asked = ASKED[key]
    layout = BY_KEY[key]
    labels = [label for label, _ in report_lines(event_catch(world.plain()), layout)]
    for start in (*WHO, *asked):
        assert any(label.startswith(start) for label in labels), start
    assert layout.due_days == due
    assert layout.due(date(2026, 6, 28)) == {7: date(2026, 7, 5), 30: date(2026, 7, 28), None: None}[due]


def test_a_bag_of_one_species_tells_its_weight_its_dead_and_its_kept() -> None:
    (black,) = by_species([bag(5, "6.00", dead=1, kept=2, black_crappie=5)], "crappie")
    assert (black.name, black.fish, black.pounds, black.dead, black.kept, black.released) == (
        "black crappie", 5, 6, 1, 2, 2,
    )  # fmt: skip


def test_a_mixed_bag_tells_numbers_and_no_weights() -> None:
    black, white, rest = by_species([bag(5, "6.00", dead=1, black_crappie=3, white_crappie=2)], "crappie")
    assert (black.fish, white.fish, rest.fish) == (3, 2, 0)
    assert (black.pounds, white.pounds, rest.pounds) == (0, 0, 6)
    assert (black.released, white.released, rest.released, rest.dead) == (0, 0, 4, 1)
    every_fish_back = by_species([bag(5, "6.00", black_crappie=3, white_crappie=2)], "crappie")
    assert [one.released for one in every_fish_back] == [3, 2, 0]


def test_the_sums_over_species_are_those_over_the_bags() -> None:
    bags = [
        bag(5, "6.00", dead=1, black_crappie=3, white_crappie=2),
        bag(4, "4.10", kept=1, white_crappie=4),
        bag(7, "8.20", dead=2, kept=3, black_crappie=2),
        bag(6, "7.00"),
        bag(0, "0.00"),
    ]
    found = by_species(bags, "crappie", unnamed_dead=2)
    assert sum(one.fish for one in found) == 22 and sum(one.pounds for one in found) == Decimal("25.30")
    assert (sum(one.dead for one in found), sum(one.kept for one in found)) == (3 + 2, 4)
    assert sum(one.released for one in found) == 22 - 5 - 4


def test_fish_that_nobody_told_apart_stand_under_the_rule_sheet_s_species() -> None:
    (one,) = by_species([bag(6, "7.00", dead=1)], "walleye")
    assert (one.name, one.fish, one.pounds, one.released) == ("walleye", 6, 7, 5)


def event(anglers: int, **more: str) -> Event:
    """Three boats on one day: fish weighed, fish that were all dead and not weighed, no fish."""
    team = {f"angler_{n}": "Angler {} " + str(n) for n in range(1, anglers + 1)}
    teams = [
        {"boat": str(n), "team": f"Team {n}", **{key: name.format(n) for key, name in team.items()}} for n in (1, 2, 3)
    ]
    slips = [
        {"day": "1", "boat": "1", "fish": "4", "alive": "3", "dead": "1", "gross": "3.60", "dead_at_release": "1", "kept": "1"},
        {"day": "1", "boat": "2", "fish": "2", "alive": "0", "dead": "2", "gross": ""},
        {"day": "1", "boat": "3", "fish": "0", "alive": "0", "dead": "0"},
    ]  # fmt: skip
    said = {"date": "2026-06-06", "due_time": "14:00", "entry_fee": "", "lake_temp": "", **more}
    return world.event("Report", teams, slips, rules={"dead_fish": "not_weighed"}, **said)


def test_dead_of_a_mixed_batch_are_off_the_released_fish_and_named_where_one_species_was_caught() -> None:
    (black,) = by_species([bag(5, "6.00", black_crappie=5)], "crappie", unnamed_dead=2)
    assert (black.released, black.dead) == (3, 2)
    *_, rest = by_species([bag(5, "6.00", black_crappie=5), bag(4, "4.00", white_crappie=4)], "crappie", unnamed_dead=2)
    assert (rest.released, rest.dead) == (-2, 2)


@pytest.mark.django_db
def test_dead_found_at_the_release_reach_the_report() -> None:
    found = untimed("Mixed", [(7, 0), (6, 1), (6, 0)])
    released(found, [1, 2], dead=2)
    figures = event_catch(found)
    assert (figures.dead, figures.dead_at_table, figures.released_alive) == (3, 1, 16)
    assert sum(one.released for one in figures.species) == 16
    (dead,) = [value for label, value in report_lines(figures, BY_KEY["full"]) if label == "Dead by release"]
    assert dead == "3 of 19: 1 at the table, 2 by the release"


@pytest.mark.django_db
def test_mean_weight_divides_by_the_fish_that_were_weighed() -> None:
    figures = event_catch(event(2))
    assert (figures.fish, figures.weighed, figures.pounds) == (6, 3, Decimal("3.60"))
    assert figures.indicators.mean_weight == Decimal("1.20")
    assert (figures.dead, figures.dead_at_table, figures.kept, figures.released_alive) == (4, 3, 1, 1)


@pytest.mark.django_db
def test_success_is_by_angler_only_where_every_boat_holds_one() -> None:
    lines = dict(report_lines(event_catch(event(2)), BY_KEY["full"]))
    assert lines["Percent success (boats with a fish weighed; by angler it is not known)"] == "33.3 % (1 of 3 boats)"
    assert lines["Boats with a fish registered"] == "2 of 3 boats"
    assert str(lines["Participants with a fish registered"]).startswith("not known")
    alone = dict(report_lines(event_catch(event(1, event="Alone")), BY_KEY["full"]))
    assert alone["Percent success (anglers with a fish weighed)"] == "33.3 % (1 of 3 anglers)"
    assert alone["Participants with a fish registered"] == 2


@pytest.mark.django_db
def test_the_director_writes_contact_county_ramp_and_the_fate_of_dead_fish_and_only_members_read_it() -> None:
    found = event(2)
    client = world.member(found.club)
    where = reverse("agency:catch_details", args=[found.slug])
    page = reverse("agency:event_catch", args=[found.slug])
    assert "not recorded" in client.get(page).content.decode() and where in client.get(page).content.decode()
    said = {
        "contact": "Rae Quill, 555-0100", "county": "Marsh", "ramp": "North ramp", "dead_fish": "given",
        "dead_fish_words": "to the food bank",
    }  # fmt: skip
    assert client.post(where, said).status_code == 302
    html = client.get(page).content.decode()
    for word in ("Rae Quill, 555-0100", "Marsh", "North ramp", "Given away to eat: to the food bank"):
        assert word in html, word
    # In the agency's file, whatever its form
    figures = event_catch(Event.objects.select_related("season__club", "water").get(pk=found.pk))
    text = catch_file(figures, BY_KEY["connecticut"], "csv").decode("utf-8-sig")
    sheet = load_workbook(io.BytesIO(catch_file(figures, BY_KEY["connecticut"], "xlsx"))).active
    assert sheet is not None
    cells = [str(cell.value) for row in sheet.iter_rows() for cell in row]
    pdf = " ".join(
        leaf.extract_text() for leaf in PdfReader(io.BytesIO(catch_file(figures, BY_KEY["connecticut"], "pdf"))).pages
    )
    for word in ("Rae Quill, 555-0100", "Marsh", "North ramp", "food bank"):
        assert word in text and any(word in cell for cell in cells) and word in pdf
    assert "Hours are each boat’s own" in text and any("Hours are each boat’s own" in cell for cell in cells)
    assert "Signature" in pdf and "Date" in pdf and "Due within 7 days, by Sat, June 13, 2026" in " ".join(pdf.split())
    # The season's report says whose fate it is; the history never holds the telephone
    season = season_catch(found.season)
    assert season is not None and season.fate == "Report: Given away to eat: to the food bank"
    history = "".join(f"{one.sentence} {one.details}" for one in HistoryEntry.objects.all())
    assert "555-0100" not in history and "North ramp" in history
    # Nothing public holds the contact
    Event.objects.filter(pk=found.pk).update(is_public=True)
    for address in ("results:event", "results:crowd", "results:screen"):
        assert "555-0100" not in _public(address, found)
    assert "555-0100" not in Client().get(f"/api/events/{found.slug}").content.decode()


def _public(name: str, found: Event) -> str:
    answer = Client().get(
        {"event": "/results/{}/", "crowd": "/results/{}/crowd/", "screen": "/results/{}/screen/"}[
            name.split(":")[1]
        ].format(found.slug)
    )
    assert answer.status_code == 200
    return answer.content.decode()


@pytest.mark.django_db
def test_details_are_taken_after_closing_and_faults_are_said_at_once() -> None:
    found = event(2)
    Event.objects.filter(pk=found.pk).update(closed_at="2026-06-07T00:00:00Z")
    client = world.member(found.club)
    where = reverse("agency:catch_details", args=[found.slug])
    bad = client.post(where, {"county": "Marsh\u202e", "dead_fish": "other", "ramp": "North"}).content.decode()
    assert "control characters" in bad and "write what became" in bad.lower() and 'value="North"' in bad
    assert client.post(where, {"ramp": "North"}).status_code == 302
    assert Event.objects.get(pk=found.pk).ramp == "North"
    assert world.member(found.club, Role.CLUB_REVIEWER).get(where).status_code == 403
    assert world.stranger().get(where).status_code == 404

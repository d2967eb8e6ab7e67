"""Season after season, events against luck alone, and clubs put together without their names."""

import json
import re
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest
import world
from django.core.management import CommandError, call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from mortality.seasons import fished, season_of
from mortality.test_season_mortality import six_events, six_of_seven, warm_events
from openpyxl import load_workbook

from weighin.agency.files.federation import KEYS, federation_document
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.mortality.queries.event_sums import EventSum, event_sums
from weighin.mortality.queries.funnel_plot import funnel_plot_of
from weighin.mortality.queries.season import season_mortality
from weighin.mortality.queries.trend import club_trend
from weighin.mortality.services.federation import TOGETHER, Federation, edition, summary
from weighin.slips.services.slips import record_slip
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.comparing.change import change
from weighin.survival.comparing.standardisation import standardise
from weighin.survival.nested import SAME_DAY

CAUSAL = re.compile(r"\b(caus\w+|because of|due to|led to|kill\w*|prov\w+)\b", re.IGNORECASE)
db = pytest.mark.django_db


def season(name: str, days: Sequence[tuple[int, str]]) -> list[Event]:
    """Events of 42 fish with so many dead at such a lake."""
    return [
        fished(f"{name}, {n}", six_of_seven(dead), season=name, date=f"{name}-0{n}-10", lake=lake)
        for n, (dead, lake) in enumerate(days, start=1)
    ]


def page(club: Club, role: str = "club_reviewer") -> str:
    answer = world.member(club, role).get(reverse("mortality:trend", args=[club.slug]))
    assert answer.status_code == 200
    return answer.content.decode().replace("\u00a0", " ")


@db
def test_the_sums_are_those_of_the_season() -> None:
    events = six_events()
    record_slip(events[2], {"boat": "1", "day": "1", "fish": "0", "alive": "0", "dead": "0"}, "test")
    cancelled = fished("Called off", [(7, 7)], date="2026-09-09")
    cancelled.event_days.update(status="cancelled")
    found = season_mortality(season_of(*events))
    sums = event_sums(Event.objects.all())
    assert [(one.event, one.presented, one.dead, one.kept) for one in sums] == [
        (line.event.pk, line.found.presented, line.found.dead, line.found.kept) for line in found.fished
    ]
    assert [one.lake_f for one in sums] == [line.lake.mean for line in found.fished if line.lake]
    assert {one.species for one in sums} == {"crappie"}


@db
def test_a_change_between_seasons_has_its_range() -> None:
    def rate(dead: list[int]) -> Clustered:
        return clustered(dead, [42] * len(dead), correlation=SAME_DAY)

    events = season("2025", [(1, "62 F"), (2, "66 F"), (9, "82 F"), (7, "84 F")])
    season("2026", [(1, "63 F"), (1, "67 F"), (3, "81 F"), (2, "85 F")])
    found = club_trend(events[0].club)
    before, after = rate([1, 2, 9, 7]), rate([1, 1, 3, 2])
    assert found.steps[0].whole == change(before, after)
    mix = {"cooler": 168.0, "warmer": 168.0}
    cooler = rate([1, 2]), rate([1, 1])
    warmer = rate([9, 7]), rate([3, 2])
    expected = [standardise({"cooler": cooler[i], "warmer": warmer[i]}, mix) for i in (0, 1)]
    assert found.steps[0].alike == change(*expected)
    text = page(events[0].club)
    assert "No change shows from 2025 to 2026." in text
    assert "Two seasons are too few to tell a direction." in text
    assert "no clear difference: " in text


@db
def test_a_clear_change_is_said_and_no_more() -> None:
    events = season("2025", [(14, "80 F"), (15, "81 F"), (13, "82 F"), (14, "83 F")])
    season("2026", [(1, "80 F"), (0, "81 F"), (1, "82 F"), (1, "83 F")])
    text = page(events[0].club)
    assert "Fewer of the fish were dead in 2026 than in 2025." in text
    assert "the rate went down by 31.5 points" in text
    assert "A change seen is not a change made" in text
    assert not CAUSAL.search(re.sub(r"<[^>]+>", " ", text.partition("<main")[2]))


@db
def test_one_season_and_none() -> None:
    events = season("2026", [(1, "62 F"), (2, "66 F")])
    assert "One season is no trend." in page(events[0].club)
    empty = Club.objects.create(name="No Fish Yet", slug="no-fish-yet")
    assert "No season with fish yet." in page(empty, "director")


@db
def test_a_season_of_one_event_is_not_compared() -> None:
    events = season("2025", [(1, "62 F")]) + season("2026", [(1, "62 F"), (5, "66 F")])
    text = page(events[0].club)
    assert "From 2025 to 2026 nothing can be said: 2025 had one event with fish" in text
    assert "Among days alike they cannot be compared" in text


@db
def test_the_trend_costs_the_same_for_two_seasons_and_six() -> None:
    def queries(club: Club) -> int:
        with CaptureQueriesContext(connection) as found:
            club_trend(club)
        return len(found)

    few = season("2021", [(1, "62 F")])[0].club
    once = queries(few)
    for year in range(2022, 2027):
        season(str(year), [(1, "62 F"), (2, "70 F")])
    assert queries(few) == once


@db
def test_an_event_far_out_is_named_and_no_reason_given() -> None:
    """15 of 210 fish: at 42 fish luck alone reaches 7.1 +- 7.8 %, so 12 of 42 is outside and 0 of 42 is not."""
    calm = [fished(f"Calm {n}", six_of_seven(min(n, 1)), date=f"2026-0{n + 1}-10") for n in range(4)]
    found = season_mortality(season_of(*calm, fished("Far out", [(7, 2)] * 6, date="2026-08-10")))
    drawn = funnel_plot_of(found)
    assert drawn is not None and found.pooled is not None
    assert (drawn.rate, drawn.design_effect) == (15 / 210, found.pooled.these_events.design_effect)
    half = 1.959964 * (drawn.rate * (1 - drawn.rate) * drawn.design_effect / 42) ** 0.5
    assert drawn.events[0][1].high == pytest.approx(drawn.rate + half)
    assert [line.event.name for line in drawn.outside] == ["Far out"]
    address = reverse("advice:season", args=[found.season.club.slug, found.season.slug])
    text = world.member(found.season.club).get(address).content.decode().replace("\u00a0", " ")
    assert "Far out lost more fish than chance explains." in text
    assert "about one event in twenty would still lie outside the shaded part" in text


@db
def test_events_within_the_funnel_are_not_told_apart() -> None:
    drawn = funnel_plot_of(season_mortality(season_of(*warm_events())))
    assert drawn is not None and drawn.outside == []
    assert drawn.title == "All eight events lie where chance alone might put them."


@db
def test_few_events_or_none_dead_draw_no_funnel() -> None:
    few = [fished(f"E{n}", six_of_seven(n), date=f"2026-0{n}-10") for n in (1, 2, 3)]
    assert funnel_plot_of(season_mortality(season_of(*few))) is None
    none = [fished(f"N{n}", six_of_seven(0), date=f"2025-0{n}-10", season="2025") for n in range(1, 6)]
    assert funnel_plot_of(season_mortality(season_of(*none))) is None


def one(club: int, year: int = 2026, fish: int = 100, dead: int = 5, **more: object) -> EventSum:
    known = {"season": club, "event": club * 10_000 + year, "species": "crappie", "kept": 0, "lake_f": 72.0}
    return EventSum(club=club, date=date(year, 6, 1), presented=fish, dead=dead, **{**known, **more})  # type: ignore[arg-type]


def summed(sums: Sequence[EventSum]) -> Federation:
    """One edition of event sums."""
    return summary(edition(2026, sums, []), 2026)


def names(found: Federation) -> list[str]:
    return [
        row.name.replace("\u00a0", " ")
        for summary in found.species
        for row in (summary.total, *summary.by_year, *summary.by_lake)
    ]


def test_clubs_are_the_clusters() -> None:
    sums = [one(1, dead=3), one(2, dead=9), one(3, dead=4), one(3, 2025, dead=1)]
    (crappie,) = summed(sums).species
    exact = clustered([3, 9, 5], [100, 100, 200])
    assert (crappie.total.rate.rate, crappie.total.rate.clusters) == (exact.rate, 3)
    assert 0 <= exact.low - crappie.total.rate.low < 0.01 > crappie.total.rate.high - exact.high >= 0
    assert (crappie.total.clubs, crappie.total.events) == (3, 4)


def test_two_clubs_are_not_shown() -> None:
    found = summed([one(1), one(2)])
    assert not found.is_told and found.species == []
    assert found.says.startswith("Nothing is shown of the years to 2026: a figure takes fish of 3 clubs at least")


def test_a_club_with_nearly_all_the_fish_is_not_shown() -> None:
    assert not summed([one(1, fish=2000), one(2, fish=50), one(3, fish=50)]).is_told


def test_a_kind_of_fish_of_few_clubs_is_left_out_and_never_mixed_in() -> None:
    found = summed(
        [*(one(club) for club in (1, 2, 3)), one(1, 2025, species="walleye"), one(2, 2025, species="walleye")]
    )
    assert [summary.total.name for summary in found.species] == ["crappie"]
    assert found.species[0].total.events == 3


def test_small_years_are_put_together_so_that_none_can_be_found_by_subtraction() -> None:
    """2024 rests on one club: alone with the total it would be the difference, so the smallest other year goes with it."""
    sums = [one(1, 2024), *(one(club, 2025, fish=60) for club in (1, 2, 3)), *(one(club, 2026) for club in (1, 2, 3))]
    (crappie,) = summed(sums).species
    assert [row.name for row in crappie.by_year] == ["2026", TOGETHER]
    assert sum(row.rate.n for row in crappie.by_year) == crappie.total.rate.n
    assert all(row.clubs >= 3 for row in crappie.by_year)


def test_when_nothing_is_large_enough_no_year_is_shown() -> None:
    (crappie,) = summed([one(1, 2024), one(2, 2025), one(3, 2026)]).species
    assert [row.name for row in crappie.by_year] == [TOGETHER]
    assert crappie.by_year[0].rate.n == crappie.total.rate.n


def test_lakes_stand_from_cool_to_warm() -> None:
    sums = [one(club, 2000 + n, lake_f=f) for club in (1, 2, 3) for n, f in enumerate((88.0, 55.0, 75.0, 61.0, None))]
    (crappie,) = summed(sums).species
    assert [row.name.replace("\u00a0", " ") for row in crappie.by_lake] == [
        "under 60 °F", "60 to under 65 °F", "75 to under 80 °F", "85 °F and more", "not written",
    ]  # fmt: skip


@db
def test_the_command_names_no_club_event_or_person(tmp_path: Path) -> None:
    for number, club in enumerate(("Long Reach Club", "Otter Bend Club", "Sallow Pond Club"), start=1):
        for day in (1, 2):
            fished(f"{club} cup {day}", six_of_seven(number), club=club, water=f"{club} water", date=f"2025-0{day}-10")
    out = tmp_path / "all.json"
    call_command("federation_summary", "--out", str(out))
    text = out.read_text(encoding="utf-8")
    document = json.loads(text)
    assert document["species"][0]["presented"] == 252 and document["species"][0]["clubs"] == 3
    for name in ("Long Reach", "Otter", "Sallow", "cup", "Pair", "Angler"):
        assert name not in text
    assert document["says"].replace("\u00a0", " ").startswith("Crappie: 12 of 252 fish (4.8 %, range ")
    sheets = tmp_path / "all.xlsx"
    call_command("federation_summary", "--format", "xlsx", "--out", str(sheets))
    book = load_workbook(sheets)
    assert book.sheetnames == ["All clubs", "crappie by year", "crappie by lake", "Columns"]
    with pytest.raises(CommandError, match="cannot be written"):
        call_command("federation_summary", "--out", str(tmp_path / "none" / "all.json"))


def test_every_key_of_the_summary_is_explained() -> None:
    def keys(value: object) -> set[str]:
        if isinstance(value, dict):
            return set(value) | {key for part in value.values() for key in keys(part)}
        return {key for part in value for key in keys(part)} if isinstance(value, list) else set()

    document = federation_document(summed([one(1), one(2), one(3)]))
    assert keys(document) == set(KEYS)

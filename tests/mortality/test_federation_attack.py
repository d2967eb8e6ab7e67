"""No club can be found in the federation's figures: not by dominance, not by its fellows, not by two runs.

The p% rule is that of the statistical handbooks (Statistical Policy Working Paper 22, Federal Committee on Statistical
Methodology; ESSnet handbook on statistical disclosure control; from memory): nobody who knows one club's figure may
reckon another's to within p per cent.
"""

import json
from datetime import date
from itertools import combinations
from random import Random
from typing import Any

import pytest
from mortality.seasons import fished
from mortality.test_between_seasons import one

from weighin.agency.files.federation import federation_document
from weighin.mortality.models import PublishedOnce
from weighin.mortality.queries.event_sums import EventSum
from weighin.mortality.services.federation import FEWEST_CLUBS, PROTECTION, Edition, edition, federation, summary
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import void_slip

db = pytest.mark.django_db


def drawn(rng: Random, clubs: int, years: range) -> list[EventSum]:
    """Events of clubs of very unequal size."""
    found = []
    for year in years:
        for club in range(1, clubs + 1):
            for number in range(rng.randrange(4)):
                fish = rng.randrange(30, 40 * club + 60)
                found.append(
                    one(
                        club, year, fish=fish, dead=rng.randrange(fish // 8 + 1), event=year * 1000 + club * 10 + number
                    )
                    if club % 2
                    else one(
                        club,
                        year,
                        fish=fish,
                        dead=rng.randrange(6),
                        event=year * 1000 + club * 10 + number,
                        lake_f=84.0,
                    )
                )
    return found


def told(editions: list[Edition]) -> list[dict[str, list[int]]]:
    """The clubs behind every sum that is given out: each edition's total and its rows."""
    return [clubs for one in editions for clubs in (one.clubs, *(row for _, row in (*one.by_year, *one.by_lake)))]


@pytest.mark.parametrize("seed", range(20))
def test_a_fellow_cannot_reckon_a_club_from_any_figure(seed: int) -> None:
    """Every club takes its own fish, and its own dead, off every figure: what is left is no estimate of another's."""
    editions: list[Edition] = []
    sums = drawn(Random(seed), 6, range(2021, 2026))
    for year in range(2021, 2026):
        editions += edition(year, [event for event in sums if event.date.year <= year], editions)
    for clubs in told(editions):
        assert len(clubs) >= FEWEST_CLUBS
        for place in (0, 1):
            counts = [figures[place] for figures in clubs.values()]
            for mine, other in ((a, b) for pair in combinations(range(len(counts)), 2) for a, b in (pair, pair[::-1])):
                guess = sum(counts) - counts[mine]
                assert guess - counts[other] >= PROTECTION * counts[other]


def test_a_club_with_eighty_nine_per_cent_is_not_shown() -> None:
    """The former rule, none over nine in ten, let it stand."""
    shares = [one(1, fish=890, dead=50), one(2, fish=60, dead=40), one(3, fish=50, dead=40)]
    assert edition(2026, shares, []) == []
    assert edition(2026, [one(1, fish=100, dead=50), one(2, fish=100, dead=1), one(3, fish=100, dead=1)], []) == []


def test_the_range_is_too_coarse_to_solve_for_a_club() -> None:
    """Of three clubs the first knows itself, hence the sums of the other two; exact limits would split them."""
    clubs = [one(1, fish=100, dead=6), one(2, fish=100, dead=9), one(3, fish=120, dead=7)]
    shown = json.loads(json.dumps(federation_document(summary(edition(2026, clubs, []), 2026))))["species"][0]
    fits = set()
    for fish in range(1, 220):
        for dead in range(min(16, fish) + 1):
            if fish <= 219 and 16 - dead <= 220 - fish:
                others = [one(2, fish=fish, dead=dead), one(3, fish=220 - fish, dead=16 - dead)]
                guessed = summary(_unprotected([clubs[0], *others]), 2026)
                row = json.loads(json.dumps(federation_document(guessed)))["species"][0]
                if all(row[name] == shown[name] for name in ("low", "high")):
                    fits.add((fish, dead))
    for fish, dead in ((100, 9), (120, 7)):
        assert min(of for of, _ in fits) <= fish * (1 - PROTECTION) and max(of for of, _ in fits) >= fish * (
            1 + PROTECTION
        )
        assert min(of for _, of in fits) <= dead * (1 - PROTECTION) and max(of for _, of in fits) >= dead * (
            1 + PROTECTION
        )


def _unprotected(sums: list[EventSum]) -> list[Edition]:
    clubs = {str(event.club): [event.dead, event.presented, event.kept, 1] for event in sums}
    return [Edition(2026, "crappie", [], clubs, [], [])]


def flat(document: dict[str, Any]) -> dict[tuple[str, str, Any, Any], tuple[int, int]]:
    return {
        (kind["name"], table, row["edition"], row["name"]): (row["presented"], row["dead"])
        for kind in document["species"]
        for table, rows in (("total", [kind]), ("by_year", kind["by_year"]), ("by_lake", kind["by_lake"]))
        for row in rows
    }


def clubs_of_2025() -> None:
    for number, club in enumerate(("Long Reach", "Otter Bend", "Sallow Pond"), start=4):
        fished(f"{club} cup", [(7, 1)] * number + [(6, 0)] * 6, club=club, water=f"{club} water", date="2025-05-10")


@db
def test_an_event_that_comes_in_between_two_runs_is_not_their_difference() -> None:
    clubs_of_2025()
    before = federation_document(federation(date(2026, 7, 1)))
    assert before["species"][0]["presented"] > 0
    for day, club in (("2025-08-01", "Otter Bend"), ("2026-06-20", "Sallow Pond")):
        fished(f"Late {day}", [(7, 2)] * 9, club=club, water=f"{club} water", date=day)
    assert federation_document(federation(date(2026, 7, 2))) == before
    # The next year: one club's late event and another's of 2026 are too few, so nothing is added
    after = flat(federation_document(federation(date(2027, 2, 1))))
    assert after == flat(before)
    # Once a third club has fished, they come together
    fished("Third", [(7, 1)] * 8, club="Long Reach", water="Long Reach water", date="2027-04-04")
    grown = flat(federation_document(federation(date(2028, 2, 1))))
    added = {key: sums for key, sums in grown.items() if key not in after}
    fish, dead = (
        grown["crappie", "total", None, "crappie"][place] - after["crappie", "total", None, "crappie"][place]
        for place in (0, 1)
    )
    assert (fish, dead) == (63 + 63 + 56, 18 + 18 + 8)
    assert {(table, edition) for _, table, edition, _ in added} == {("by_year", 2027), ("by_lake", 2027)}
    assert sum(sums[0] for (_, table, *_), sums in added.items() if table == "by_year") == fish


@db
def test_an_event_taken_out_or_corrected_changes_no_figure() -> None:
    clubs_of_2025()
    before = federation_document(federation(date(2026, 7, 1)))
    assert PublishedOnce.objects.count() == 1
    slip = WeighSlip.objects.filter(event__name="Otter Bend cup").first()
    assert slip is not None
    void_slip(slip, "misread", "test")
    assert federation_document(federation(date(2026, 8, 1))) == before


@db
def test_the_year_that_is_going_on_is_in_no_figure() -> None:
    clubs_of_2025()
    assert not federation(date(2025, 12, 31)).is_told
    assert federation(date(2026, 1, 1)).is_told


@db
def test_an_edition_missed_is_made_up_for_by_the_next() -> None:
    """Nobody ran it in 2026: what is there at the next run counts, and an old year asked for later stays as it was."""
    clubs_of_2025()
    found = federation(date(2028, 3, 1))
    assert found.through == 2027 and [row.edition for row in found.species[0].by_year] == [2027]

"""No care practice of a named boat can be found from open data and published results by adding up subsets.

The attack knows what anybody may know: every boat's fish and dead from the published results, and the CSV files. It asks
of each published sum of a practice which choices of boats add up to it (``subset_sums``). Against the former rule (sums of
each event, none of fewer than five boats) it names boats on every generated season; against this one it names none.
"""

import csv
import io
import json
import zipfile
from collections import Counter, defaultdict
from collections.abc import Iterator
from datetime import timedelta
from random import Random

import pytest
from agency.subset_sums import Well, decided
from django.test import Client
from django.utils import timezone
from mortality.seasons import fished, season_of

from weighin.agency.files.open_data import season_open_data
from weighin.agency.services.open_practices import FEWEST_WELLS, exchangeable, may_be_told, sides_of
from weighin.care.models import CareNote
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.mortality.models import PublishedOnce
from weighin.mortality.queries.practices import PRACTICES, wells_by
from weighin.mortality.queries.season import season_mortality
from weighin.slips.services.slips import correct_slip
from weighin.standings.models import OfficialResult

pytestmark = pytest.mark.django_db
FORMER_FEWEST = 5
Sums = tuple[int, int, int]


def catches(rng: Random, boats: int) -> list[tuple[int, int, int, int]]:
    """Fish, dead at the table, dead at the release and kept of so many boats: mostly a limit of seven, few dead."""
    found = []
    for _ in range(boats):
        fish = rng.choice([2, 4, 5, 6, 7, 7, 7, 7])
        dead = min(fish, rng.choice([0, 0, 0, 0, 0, 1, 1, 2, 3]))
        found.append((fish, dead, min(fish - dead, rng.choice([0] * 9 + [1])), 0))
    return found


def generated(seed: int, events: int = 4, boats: int = 16, publish: bool = True) -> Season:
    rng = Random(seed)
    made = []
    for number in range(1, events + 1):
        notes = [
            {
                "boat": str(boat),
                "ice_lb": rng.choice(["0", "10", "20", ""]),
                "most_on_board": rng.choice(["6", "7", "9", "12"]),
            }
            | {"aeration": rng.choice(["recirculated", "pumped"])}
            for boat in range(1, boats + 1)
        ]
        event = fished(
            f"Event {number}", catches(rng, boats), date=f"2026-0{number + 2}-14", notes=notes, season=f"20{seed:02}"
        )
        made.append(event)
    if publish:
        for event in made:
            make_official(event)
    return season_of(*made)


def make_official(event: Event) -> None:
    OfficialResult.objects.create(
        event=event, version=1, document={}, ledger_length=1, ledger_head="0" * 64, published_by="test"
    )
    Event.objects.filter(pk=event.pk).update(is_public=True)


def published(event: Event) -> dict[str, Well]:
    """What anybody may read of every team with fish: its fish and its dead at the table."""
    answer = Client().get(f"/api/events/{event.slug}")
    rows = json.loads(answer.content)["standings"]
    return {row["team"]: (row["fish"], row["dead"]) for row in rows if row["fish"]}


def files(content: bytes) -> dict[str, list[dict[str, str]]]:
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        names = [name for name in packed.namelist() if name.endswith(".csv")]
        return {name: list(csv.DictReader(io.StringIO(packed.read(name).decode(), newline=""))) for name in names}


def former_sums(season: Season) -> Iterator[tuple[Event, str, Sums]]:
    """The sums as the former rule gave them out: each event's, blank when a side or the rest is under five boats."""
    for line in season_mortality(season).fished:
        for practice in PRACTICES:
            wells, untold = wells_by(practice, line)
            unknown = len(line.wells) - len(wells[True]) - len(wells[False])
            if min(len(wells[True]), len(wells[False])) < FORMER_FEWEST or (untold and unknown < FORMER_FEWEST):
                continue
            for side in (True, False):
                pairs = wells[side]
                yield line.event, f"{practice.name} {side}", (
                    len(pairs), sum(fish for _, fish in pairs), sum(dead for dead, _ in pairs),
                )  # fmt: skip


def practice_sums(season: Season) -> dict[str, Sums]:
    rows = files(season_open_data(season))["practices.csv"]
    return {
        f"{row['practice']} {row['side']}": (int(row["livewells"]), int(row["fish"]), int(row["dead"]))
        for row in rows
        if row["suppressed"] == "false"
    }


def named_by_former(season: Season) -> set[tuple[str, str]]:
    """(event and team, practice) that the attack is certain of under the former rule.

    Of the dead after the table it knows the former livewells.csv, which told each boat's: fish and dead by release.
    """
    found = set()
    wells = {line.event.pk: line for line in season_mortality(season).fished}
    for event, practice, sums in former_sums(season):
        line = wells[event.pk]
        told = [(well.fish, well.dead) for well in line.wells]
        teams = published(event)
        for (fish, dead), inside in decided(told, sums).items():
            # A livewell is a named boat's where only one team can be meant: its fish the same, its dead no fewer
            mine = [team for team, (of, at_table) in teams.items() if of == fish and at_table <= dead]
            if len(mine) == 1 or told.count((fish, dead)) == len(mine):
                found |= {(f"{event.name}, {team}", f"{practice} {inside}") for team in mine}
    return found


def of_side(season: Season) -> dict[str, list[Well]]:
    """The livewells that each published sum may count, as one knows them who knows even the dead after the table."""
    found: dict[str, list[Well]] = defaultdict(list)
    for line in season_mortality(season).fished:
        for well in line.wells:
            found["all"].append((well.fish, well.dead))
    return found


@pytest.mark.parametrize("seed", range(30, 36))
def test_the_former_rule_gave_boats_away_and_this_one_gives_none(seed: int) -> None:
    season = generated(seed)
    assert named_by_former(season), "the attack is too weak to say anything"
    told = practice_sums(season)
    wells = of_side(season)["all"]
    for practice, sums in told.items():
        assert decided(wells, sums) == {}, practice


def test_practices_are_still_given_out() -> None:
    """Safe by saying nothing would be no open data: on most generated seasons there are practices to read."""
    told = [len(practice_sums(generated(seed, events=6, boats=20))) for seed in range(40, 44)]
    assert sum(1 for count in told if count) >= 3, told


def test_with_fewer_livewells_a_side_the_attack_names_boats() -> None:
    """How large a side must be: drawn sides of half that size are decided for somebody in most draws, at ``FEWEST_WELLS``
    in few, and there the exchange has the last word."""

    def share(size: int) -> float:
        named = 0
        for seed in range(60):
            rng = Random(seed)
            wells = [(fish, dead + later) for fish, dead, later, _ in catches(rng, 3 * size)]
            inside = rng.sample(wells, size)
            sums = (size, sum(fish for fish, _ in inside), sum(dead for _, dead in inside))
            named += bool(decided(wells, sums))
        return named / 60

    assert share(FEWEST_WELLS // 4) > 0.5 > share(FEWEST_WELLS)


@pytest.mark.parametrize("seed", range(25))
def test_where_an_exchange_is_found_the_attack_finds_nothing(seed: int) -> None:
    rng = Random(seed)
    wells = [(fish, dead + later) for fish, dead, later, _ in catches(rng, 30)]
    one, other, neither = wells[:13], wells[13:26], wells[26:]
    if exchangeable(Counter(one), Counter(other)):
        for side in (one, other):
            sums = (len(side), sum(fish for fish, _ in side), sum(dead for _, dead in side))
            certain = decided([*one, *other, *neither], sums)
            assert not set(certain) & set(side)
    # The only livewell of its kind, and nothing to make up for it
    assert not exchangeable(Counter([*one, (40, 0)]), Counter(other))
    assert not may_be_told(one[: FEWEST_WELLS - 1], other)


def test_an_event_s_practices_are_not_the_difference_of_two_exports() -> None:
    """One export with the last event and one without it would give that event's sums."""
    season = generated(50, publish=False)
    events = list(season.events.order_by("date"))
    for event in events[:-1]:
        make_official(event)
    assert practice_sums(season) == {} and not PublishedOnce.objects.exists()
    make_official(events[-1])
    before = season_open_data(season)
    assert practice_sums(season)
    late = fished("Late", catches(Random(1), 16), date="2026-09-01", season=season.name)
    make_official(late)
    assert files(season_open_data(season))["practices.csv"] == files(before)["practices.csv"]


def test_a_corrected_note_or_slip_changes_no_practice() -> None:
    season = generated(51)
    before = files(season_open_data(season))["practices.csv"]
    assert before
    event = season.events.first()
    assert event is not None
    CareNote.objects.filter(event=event, entry__boat=1).update(ice_lb="0", most_on_board=20)
    slip = event.slips.get(entry__boat=2)
    fields = {"boat": "2", "day": "1", "fish": "1", "alive": "1", "dead": "0", "gross": "1.20", "weighed": "15:10"}
    correct_slip(slip, {**fields, "reason": "misread"}, "test")
    assert files(season_open_data(season))["practices.csv"] == before


def test_a_season_that_is_not_over_gives_no_practice() -> None:
    season = generated(52)
    event = season.events.first()
    assert event is not None
    event.event_days.update(date=timezone.now().date() + timedelta(days=1))
    assert practice_sums(season) == {}


def test_livewells_say_no_more_than_published_results() -> None:
    """Fish that died after the table would else tell whose they were: no published boat has that many dead."""
    season = generated(53)
    rows = files(season_open_data(season))["livewells.csv"]
    for number, event in enumerate(season.events.order_by("date"), start=1):
        mine = sorted((int(row["fish"]), int(row["dead_at_table"])) for row in rows if row["event_no"] == str(number))
        assert mine == sorted(published(event).values())
    assert any(well.dead > well.dead_at_table for line in season_mortality(season).fished for well in line.wells)


def test_one_event_alone_gives_no_practice() -> None:
    season = generated(54)
    event = season.events.first()
    assert event is not None
    assert files(season_open_data(season, event.pk))["practices.csv"] == []


def test_a_livewell_that_changed_sides_is_in_neither() -> None:
    notes = [{"boat": "1", "ice_lb": "10"}, {"boat": "2", "ice_lb": "10"}, {"day": "2", "boat": "2", "ice_lb": "0"}]
    second = {"day": "2", "boat": "2", "fish": "3", "alive": "3", "dead": "0", "gross": "3.00"}
    event = fished("Two days", [(7, 1), (5, 0), (4, 0)], notes=notes, slips=[second], days="2")
    (line,) = season_mortality(season_of(event)).fished
    ice = next(practice for practice in PRACTICES if practice.name.startswith("Ice"))
    assert list(sides_of(ice, line)) == [(True, (7, 1))]

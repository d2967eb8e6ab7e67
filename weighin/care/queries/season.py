"""A season of fish care by team: fish brought and alive, how long they were held, which checks were kept."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from math import sqrt

from weighin.care.domain.checks import Care, Observed, care
from weighin.care.domain.honours import Honours, Standing, honours
from weighin.care.models import CareNote
from weighin.care.queries.care import observed, times_of
from weighin.clubs.models import Season
from weighin.events.domain import temperatures
from weighin.events.domain.temperatures import Temperature
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, is_cancelled, rules_of
from weighin.rules.look_alikes import folded_name
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import doubled
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.quantiles import student
from weighin.tanks.queries.at_release import Batch, at_release, batches_of


@dataclass(frozen=True)
class TeamDay:
    """A team's day: ``fish`` it brought in its own livewell, ``lost`` of them by release, and how they were cared for.

    ``elsewhere`` are fish of its slip that another boat's livewell held: they are in nobody's care record.
    """

    event: Event
    day: int
    entry_pk: int
    team: str
    fish: int
    lost: int
    elsewhere: int
    care: Care
    seen: Observed


@dataclass(frozen=True)
class MeanTime:
    """Mean minutes over ``days`` days with 95 % limits (Student's t); None for them with a single day."""

    mean: float
    low: float | None
    high: float | None
    days: int


@dataclass(frozen=True)
class TeamRecord:
    """A team's season: its days in order, and where it stands by care (None: no fish). ``key`` is its folded name."""

    key: str
    days: Sequence[TeamDay]
    standing: Standing | None = None

    @property
    def team(self) -> str:
        return self.days[-1].team

    @property
    def entry_pk(self) -> int:
        return self.days[-1].entry_pk

    @property
    def fish(self) -> int:
        return sum(day.fish for day in self.days)

    @property
    def lost(self) -> int:
        return sum(day.lost for day in self.days)

    @property
    def elsewhere(self) -> int:
        return sum(day.elsewhere for day in self.days)

    @property
    def events(self) -> int:
        return len({day.event.pk for day in self.days})

    @cached_property
    def rate(self) -> Clustered | None:
        """The share of its fish dead by release, each day's livewell a cluster; None without fish."""
        if not self.fish:
            return None
        return clustered([day.lost for day in self.days], [day.fish for day in self.days])

    @cached_property
    def held(self) -> MeanTime | None:
        """Minutes its fish were held, at the longest."""
        return mean_time(day.care.minutes_held for day in self.days if day.fish)

    @property
    def held_is_upper_bound(self) -> bool:
        """Whether on some day no first fish was noted, so that the time may have been shorter."""
        return any(day.care.held_is_upper_bound for day in self.days if day.fish)

    @cached_property
    def in_bag(self) -> MeanTime | None:
        """Minutes its fish were in the bag."""
        return mean_time(day.care.minutes_in_bag for day in self.days)

    @property
    def checks(self) -> tuple[int, int]:
        """(kept, recorded) over all days."""
        kept = sum(len(day.care.passed) for day in self.days)
        return kept, kept + sum(len(day.care.failed) for day in self.days)


@dataclass(frozen=True)
class CareRecord:
    """A season's teams, each once, by name; and the honours among them."""

    season: Season
    teams: Sequence[TeamRecord]
    honours: Honours | None

    @property
    def fish(self) -> int:
        return sum(team.fish for team in self.teams)

    @property
    def lost(self) -> int:
        return sum(team.lost for team in self.teams)

    @property
    def elsewhere(self) -> int:
        return sum(team.elsewhere for team in self.teams)


def care_record(season: Season) -> CareRecord:
    """The season's care record, in seven queries whatever its size.

    Of a doubled day neither slip counts; cancelled events are left out; a team is the same by its name without regard
    to case and spacing.
    """
    events = [event for event in _events(season) if not is_cancelled(event)]
    slips: dict[int, list[WeighSlip]] = defaultdict(list)
    for slip in (
        WeighSlip.objects.current().filter(event__season=season, event__rehearsal_of=None).select_related("entry")
    ):
        slips[slip.event_id].append(slip)
    notes: dict[tuple[int, int], CareNote] = {
        (note.entry_id, note.day): note
        for note in CareNote.objects.filter(event__season=season, event__rehearsal_of=None)
    }
    batches = batches_of(events)
    days: dict[str, list[TeamDay]] = defaultdict(list)
    for event in events:
        for day in _team_days(event, slips[event.pk], notes, batches.get(event.pk, ())):
            days[folded_name(day.team)].append(day)
    found = honours([(key, day.lost, day.fish) for key, of_team in days.items() for day in of_team])
    standings = {one.team: one for one in found.standings} if found else {}
    teams = [TeamRecord(key, of_team, standings.get(key)) for key, of_team in days.items()]
    return CareRecord(season, sorted(teams, key=lambda team: team.team.casefold()), found)


def mean_time(minutes: Iterable[Decimal | None]) -> MeanTime | None:
    """The mean of the known minutes; None when none is known."""
    found = [float(one) for one in minutes if one is not None]
    if not found:
        return None
    mean, count = sum(found) / len(found), len(found)
    if count == 1:
        return MeanTime(mean, None, None, 1)
    half = student(count - 1) * sqrt(sum((one - mean) ** 2 for one in found) / (count - 1) / count)
    return MeanTime(mean, max(0.0, mean - half), mean + half, count)


def _events(season: Season) -> list[Event]:
    rows = season.events.select_related("rule_sheet", "water", "season").prefetch_related("event_days")
    return list(rows.order_by("date", "pk"))


def _team_days(
    event: Event, slips: Sequence[WeighSlip], notes: dict[tuple[int, int], CareNote], batches: Iterable[Batch]
) -> Iterable[TeamDay]:
    waiting = doubled(slips)
    back = at_release([slip for slip in slips if (slip.entry.boat, slip.day) not in waiting], batches)
    rules, calendar = rules_of(event), calendar_of(event, flights=())
    lakes = {day.number: _lake(day.lake_temp or event.lake_temp) for day in event.event_days.all()}
    for slip in sorted(slips, key=lambda one: (one.day, one.entry.boat)):
        boat = slip.entry.boat
        if (boat, slip.day) in waiting:
            continue
        note = notes.get((slip.entry_id, slip.day))
        own = slip.well_boat in (None, boat)
        of_batch, seen = back[slip.day, slip.entry_id], observed(note, lakes.get(slip.day))
        yield TeamDay(
            event=event,
            day=slip.day,
            entry_pk=slip.entry_id,
            team=slip.entry.name,
            fish=slip.fish if own else 0,
            lost=slip.dead + (slip.dead_at_release or 0) + of_batch.own if own else 0,
            elsewhere=0 if own else slip.fish,
            care=care(rules, times_of(calendar, slip.day, slip, note, of_batch.released), seen),
            seen=seen,
        )


def _lake(text: str) -> Temperature | None:
    return temperatures.water(text) if text else None


def failed_checks(days: Iterable[TeamDay]) -> list[tuple[str, int]]:
    """How many days each check was not kept, the most first."""
    found: Counter[str] = Counter(name for day in days for name in day.care.failed)
    return found.most_common()

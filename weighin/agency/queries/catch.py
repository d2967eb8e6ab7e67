"""What an event's or a season's catch report says, counted from its slips."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from zoneinfo import ZoneInfo

from weighin.agency.domain.indicators import Indicators, indicators
from weighin.agency.domain.species import KNOWN, Bag, SpeciesCatch, added, by_species
from weighin.agency.queries.hours import Schedule, boat_hours, by_boat
from weighin.clubs.models import Season
from weighin.events.models import Event, EventDay
from weighin.events.queries.events import is_cancelled
from weighin.mortality.queries.catches import event_catches
from weighin.mortality.queries.event import event_mortality
from weighin.roster.queries import crew_of, named_anglers
from weighin.rules import weights
from weighin.standings.queries.standings import Standings, standings_of

LARGE_LB = Decimal("1.50")  # a large crappie where the club sets no other size; common practice, no source


@dataclass(frozen=True)
class DayTimes:
    """When a day started and stopped by the event's clock: from and to, with the flights of which that holds."""

    date: date
    hours: dict[tuple[time, time], list[str]]


@dataclass(frozen=True)
class CatchFigures:
    """The counts of a catch report. Weights are pounds, hours those of ``catch.hours``.

    ``boats`` fished on at least one day; ``unnamed`` of them name no angler and count as ``roster.queries.crew_of`` says.
    ``successful`` boats had a fish weighed and ``registered`` boats brought one; ``per_angler`` says that every boat
    that fished holds one named angler, so that both are anglers too. ``weighed`` fish lay on the scale and make up
    ``pounds``. ``large`` counts the largest fish written down, so it is the least there were. ``dead`` and ``kept`` are
    those of the event's mortality. ``shortened`` days count half their hours for want of a time.
    """

    events: tuple[str, ...]
    club: str
    contact: str
    water: str
    county: str
    ramp: str
    permit: str
    first_day: date
    last_day: date
    times: tuple[DayTimes, ...]
    boats: int
    anglers: int
    unnamed: int
    angler_hours: Decimal
    shortened: int
    prize_value: Decimal
    fish: int
    weighed: int
    pounds: Decimal
    species: tuple[SpeciesCatch, ...]
    dead: int
    dead_at_table: int
    kept: int
    fate: str
    successful: int
    registered: int
    per_angler: bool
    large: int
    large_lb: Decimal
    winning_weight: Decimal | None
    big_fish: Decimal | None

    @property
    def released_alive(self) -> int:
        """Fish that went back alive: presented, less dead, less kept."""
        return self.fish - self.dead - self.kept

    @property
    def indicators(self) -> Indicators:
        return indicators(
            angler_hours=self.angler_hours,
            fished=self.boats,
            successful=self.successful,
            fish=self.fish,
            weighed=self.weighed,
            pounds=self.pounds,
            large=self.large,
        )


def event_catch(event: Event, large_lb: Decimal = LARGE_LB) -> CatchFigures:
    """The catch report's figures of one event."""
    standings = standings_of(event)
    days = {day.number: day for day in event.event_days.all()}
    fished = [day for day in days.values() if day.status != EventDay.Status.CANCELLED]
    schedule = Schedule(event, standings.table.calendar, days)
    spans = boat_hours(event, standings, schedule)
    hours, named = by_boat(spans), named_anglers(event)
    results = [row.result for row in standings.outcome.ranked]
    scores = [day.score for result in results for day in result.days]
    unit = event.weight_unit
    died = event_mortality(event, standings.current)
    species = _species(standings, died.dead)
    return CatchFigures(
        events=(event.name,),
        club=event.club.name,
        contact=event.club.contact,
        water=event.water.name,
        county=event.water.county,
        ramp=event.ramp,
        permit=event.permit,
        first_day=min((day.date for day in fished), default=event.date),
        last_day=max((day.date for day in fished), default=event.date),
        times=_times(standings, schedule, fished),
        boats=len(hours),
        anglers=sum(crew_of(named[boat]) for boat in hours),
        unnamed=sum(not named[boat] for boat in hours),
        angler_hours=sum((span * crew_of(named[boat]) for boat, span in hours.items()), Decimal(0)),
        shortened=sum(schedule.span(day.number).share < 1 for day in fished),
        prize_value=standings.outcome.purse.purse + standings.outcome.purse.big_fish_pot,
        fish=died.presented,
        weighed=sum(score.on_scale for score in scores),
        pounds=sum((weights.as_pounds(result.gross, unit) for result in results), Decimal(0)),
        species=species,
        dead=died.dead,
        dead_at_table=died.dead_at_table,
        kept=died.kept,
        fate=event.fate_of_dead,
        successful=sum(any(day.score.on_scale for day in result.days) for result in results),
        registered=sum(result.fish > 0 for result in results),
        per_angler=all(named[boat] == 1 for boat in hours),
        large=_large(standings, large_lb),
        large_lb=large_lb,
        winning_weight=_first(standings),
        big_fish=max((weights.as_pounds(r.big_fish, unit) for r in results if r.big_fish is not None), default=None),
    )


def season_catch(season: Season, large_lb: Decimal = LARGE_LB) -> CatchFigures | None:
    """The figures of a season's events added up; None when none has a slip. An angler counts once for each event."""
    found = season.events.select_related("season__club", "water", "rule_sheet").order_by("date", "pk")
    found = found.prefetch_related("event_days", "flights")
    events = [event_catch(event, large_lb) for event in found if event.slips.exists() and not is_cancelled(event)]
    if not events:
        return None
    return CatchFigures(
        events=tuple(event.events[0] for event in events),
        club=season.club.name,
        contact=season.club.contact,
        water=_each(event.water for event in events),
        county=_each(event.county for event in events),
        ramp=_each(event.ramp for event in events),
        permit="; ".join(filter(None, (event.permit for event in events))),
        first_day=min(event.first_day for event in events),
        last_day=max(event.last_day for event in events),
        times=(),
        species=added(event.species for event in events),
        large_lb=large_lb,
        winning_weight=_most(event.winning_weight for event in events),
        big_fish=_most(event.big_fish for event in events),
        boats=sum(event.boats for event in events),
        anglers=sum(event.anglers for event in events),
        unnamed=sum(event.unnamed for event in events),
        angler_hours=sum((event.angler_hours for event in events), Decimal(0)),
        shortened=sum(event.shortened for event in events),
        prize_value=sum((event.prize_value for event in events), Decimal(0)),
        fish=sum(event.fish for event in events),
        weighed=sum(event.weighed for event in events),
        pounds=sum((event.pounds for event in events), Decimal(0)),
        dead=sum(event.dead for event in events),
        dead_at_table=sum(event.dead_at_table for event in events),
        kept=sum(event.kept for event in events),
        fate="; ".join(f"{event.events[0]}: {event.fate}" for event in events if event.fate),
        successful=sum(event.successful for event in events),
        registered=sum(event.registered for event in events),
        per_angler=all(event.per_angler for event in events),
        large=sum(event.large for event in events),
    )


def _each(names: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(filter(None, names)))


def _most(figures: Iterable[Decimal | None]) -> Decimal | None:
    return max((figure for figure in figures if figure is not None), default=None)


def _times(standings: Standings, schedule: Schedule, days: Iterable[EventDay]) -> tuple[DayTimes, ...]:
    """When each day started and stopped, flight by flight where they differ, as moved."""
    zone: ZoneInfo = standings.table.calendar.zone
    flights = sorted({entry.flight_name for entry in standings.entries.values()}) or [""]
    found = []
    for day in days:
        hours: dict[tuple[time, time], list[str]] = {}
        for flight in flights:
            span = schedule.span(day.number, flight)
            hours.setdefault((_local(span.start, zone), _local(span.stop, zone)), []).append(flight)
        found.append(DayTimes(day.date, hours))
    return tuple(found)


def _local(moment: datetime, zone: ZoneInfo) -> time:
    return moment.astimezone(zone).time().replace(second=0, microsecond=0)


def _species(standings: Standings, dead: int) -> tuple[SpeciesCatch, ...]:
    """The catch by species; ``dead`` is the event's count, which may hold fish of mixed batches that no slip names."""
    unit = standings.event.weight_unit
    nets = {(r.result.team.boat, day.day): day.score.net for r in standings.outcome.ranked for day in r.result.days}
    own = {(catch.boat, catch.day): catch.named for catch in event_catches(standings.event, standings.counting)}
    bags = [
        Bag(
            told={words: getattr(slip, name) or 0 for name, words in KNOWN.items()},
            fish=slip.fish,
            dead=own[slip.entry.boat, slip.day],
            kept=slip.kept or 0,
            pounds=weights.as_pounds(nets[slip.entry.boat, slip.day], unit),
        )
        for slip in standings.counting
    ]
    return by_species(bags, standings.rules.species, dead - sum(bag.dead for bag in bags))


def _large(standings: Standings, large_lb: Decimal) -> int:
    unit = standings.event.weight_unit
    count = 0
    for slip in standings.counting:
        written = [weights.read(text, unit) for text in slip.largest_weights.split(",") if text.strip()]
        if slip.big_fish and not written:
            written = [weights.read(slip.big_fish, unit)]
        count += sum(weights.as_pounds(weight, unit) >= large_lb for weight in written)
    return count


def _first(standings: Standings) -> Decimal | None:
    first = next((row for row in standings.outcome.ranked if row.place == 1), None)
    return None if first is None else weights.as_pounds(first.result.total, standings.event.weight_unit)

"""What an event's or a season's catch report says, counted from its slips."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from weighin.clubs.models import Season
from weighin.events.models import Event, EventDay
from weighin.events.queries import is_cancelled
from weighin.reports.catch.indicators import Indicators, indicators
from weighin.roster.models import Angler
from weighin.rules import weights
from weighin.standings.queries import Standings, standings_of

SHORTENED = Decimal("0.5")  # common practice, no source: a shortened day counts half its hours
LARGE_LB = Decimal("1.50")  # a large crappie where the club sets no other size; common practice, no source
OUT = ("withdrawn", "absent")


@dataclass(frozen=True)
class CatchFigures:
    """The counts of a catch report. Weights are pounds; ``by_species`` has only what was told apart on the slips.

    ``large`` counts the largest fish written down, so it is the least there were.
    """

    events: tuple[str, ...]
    club: str
    water: str
    permit: str
    first_day: date
    last_day: date
    start: str
    stop: str
    boats: int
    anglers: int
    angler_hours: Decimal
    prize_value: Decimal
    fish: int
    pounds: Decimal
    by_species: tuple[tuple[str, int], ...]
    dead: int
    kept: int
    successful: int
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
            anglers=self.anglers,
            successful=self.successful,
            fish=self.fish,
            pounds=self.pounds,
            large=self.large,
        )


def event_catch(event: Event, large_lb: Decimal = LARGE_LB) -> CatchFigures:
    """The catch report's figures of one event."""
    standings = standings_of(event)
    days = list(event.event_days.all())
    fished = [day for day in days if day.status != EventDay.Status.CANCELLED]
    people = _anglers(event)
    boats = [entry.boat for entry in standings.entries.values() if entry.status not in OUT]
    anglers = sum(people.get(boat, 1) for boat in boats)
    results = [row.result for row in standings.outcome.ranked]
    slips = standings.counting
    unit = event.weight_unit
    return CatchFigures(
        events=(event.name,),
        club=event.club.name,
        water=event.water.name,
        permit=event.permit,
        first_day=min((day.date for day in fished), default=event.date),
        last_day=max((day.date for day in fished), default=event.date),
        start=f"{event.start_time:%H:%M}",
        stop=f"{event.due_time:%H:%M}",
        boats=len(boats),
        anglers=anglers,
        angler_hours=sum((_hours(standings, day) for day in fished), Decimal(0)) * anglers,
        prize_value=standings.outcome.purse.purse + standings.outcome.purse.big_fish_pot,
        fish=sum(slip.fish for slip in slips),
        pounds=sum((weights.as_pounds(result.gross, unit) for result in results), Decimal(0)),
        by_species=_species(standings),
        dead=sum(slip.dead + slip.dead_at_release for slip in slips),
        kept=sum(slip.kept for slip in slips),
        successful=sum(people.get(result.team.boat, 1) for result in results if result.weighed > 0),
        large=_large(standings, large_lb),
        large_lb=large_lb,
        winning_weight=_first(standings),
        big_fish=max((weights.as_pounds(r.big_fish, unit) for r in results if r.big_fish is not None), default=None),
    )


def season_catch(season: Season, large_lb: Decimal = LARGE_LB) -> CatchFigures | None:
    """The figures of a season's events added up; None when none has a slip. An angler counts once for each event."""
    found = season.events.select_related("season__club", "water", "rule_sheet").order_by("date", "pk")
    events = [event_catch(event, large_lb) for event in found if event.slips.exists() and not is_cancelled(event)]
    if not events:
        return None
    species: dict[str, int] = {}
    for event in events:
        for name, count in event.by_species:
            species[name] = species.get(name, 0) + count
    waters = list(dict.fromkeys(event.water for event in events))
    return CatchFigures(
        events=tuple(event.events[0] for event in events),
        club=season.club.name,
        water=", ".join(waters),
        permit="; ".join(filter(None, (event.permit for event in events))),
        first_day=min(event.first_day for event in events),
        last_day=max(event.last_day for event in events),
        start="",
        stop="",
        by_species=tuple(species.items()),
        large_lb=large_lb,
        winning_weight=_most(event.winning_weight for event in events),
        big_fish=_most(event.big_fish for event in events),
        boats=sum(event.boats for event in events),
        anglers=sum(event.anglers for event in events),
        angler_hours=sum((event.angler_hours for event in events), Decimal(0)),
        prize_value=sum((event.prize_value for event in events), Decimal(0)),
        fish=sum(event.fish for event in events),
        pounds=sum((event.pounds for event in events), Decimal(0)),
        dead=sum(event.dead for event in events),
        kept=sum(event.kept for event in events),
        successful=sum(event.successful for event in events),
        large=sum(event.large for event in events),
    )


def _most(figures: Iterable[Decimal | None]) -> Decimal | None:
    return max((figure for figure in figures if figure is not None), default=None)


def _anglers(event: Event) -> dict[int, int]:
    """How many anglers each boat names; a boat that names nobody counts as one."""
    counts: dict[int, int] = {}
    for boat in Angler.objects.filter(entry__event=event).values_list("entry__boat", flat=True):
        counts[boat] = counts.get(boat, 0) + 1
    return counts


def _hours(standings: Standings, day: EventDay) -> Decimal:
    calendar = standings.table.calendar
    span: timedelta = calendar.due(day.number) - calendar.start(day.number)
    hours = Decimal(int(span.total_seconds())) / 3600
    return hours * SHORTENED if day.status == EventDay.Status.SHORTENED else hours


def _species(standings: Standings) -> tuple[tuple[str, int], ...]:
    """Fish by species as the slips tell them apart; the rest stand under the rule sheet's species."""
    known = {"black crappie": "black_crappie", "white crappie": "white_crappie", "other species": "other_species"}
    counts = {words: sum(getattr(slip, name) or 0 for slip in standings.counting) for words, name in known.items()}
    rest = sum(slip.fish for slip in standings.counting) - sum(counts.values())
    told = [(words, count) for words, count in counts.items() if count]
    name = standings.rules.species + (", not told apart" if told else "")
    return tuple(told + ([(name, rest)] if rest or not told else []))


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

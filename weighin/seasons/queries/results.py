"""The events of a season with what came of them, worked out once a revision."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from weighin.clubs.models import Season
from weighin.events.domain.weighed import begun
from weighin.events.models import Event
from weighin.events.queries.events import is_cancelled, rules_of
from weighin.roster.models import Angler, Entry
from weighin.rules.points import for_place
from weighin.rules.weights import as_pounds
from weighin.seasons.domain.results import YOUTH, EventResults, TeamResult
from weighin.seasons.models import ClassMark
from weighin.standings.queries.many import standings_of_many
from weighin.standings.queries.standings import Standings
from weighin.ui.kept import KEEPER, State


def season_events(season: Season) -> list[Event]:
    """The season's events that were not cancelled, oldest first."""
    found = season.events.select_related("season__club", "water", "rule_sheet")
    rows = found.prefetch_related("event_days", "flights").order_by("date", "pk")
    return [event for event in rows if not is_cancelled(event)]


def results_of(events: Sequence[Event]) -> list[EventResults]:
    """What came of each event. What is kept of a revision is taken; of the others all is fetched in the same few queries."""
    found: dict[int, EventResults] = {}
    for event in events:
        kept = KEEPER.look(_key(event))
        if kept is not None and kept.state == _state(event):
            found[event.pk] = kept.made
    new = _worked_out([event for event in events if event.pk not in found])
    for event in events:
        if event.pk in new:
            made = new[event.pk]
            found[event.pk] = KEEPER.shown(_key(event), lambda event=event: _state(event), lambda made=made: made)  # type: ignore[misc]
    return [found[event.pk] for event in events]


def _key(event: Event) -> tuple[str, int]:
    return ("season results", event.pk)


def _state(event: Event) -> State:
    return State((event.revision, event.slug, event.name, event.date))


def _worked_out(events: Sequence[Event]) -> dict[int, EventResults]:
    if not events:
        return {}
    fished = begun(event.pk for event in events)
    standings = standings_of_many([event for event in events if event.pk in fished])
    beside = _beside([event.pk for event in events])
    entered: dict[int, list[Entry]] = defaultdict(list)
    for one in Entry.objects.filter(event__in=[e.pk for e in events if e.pk not in fished]).select_related("team"):
        entered[one.event_id].append(one)
    return {
        event.pk: EventResults(
            pk=event.pk,
            slug=event.slug,
            name=event.name,
            date=event.date,
            fished=event.pk in fished,
            win=_win(event),
            teams=_teams(standings[event.pk], beside)
            if event.pk in fished
            else [_entered(entry, beside) for entry in entered[event.pk]],
        )
        for event in events
    }


@dataclass(frozen=True)
class _Beside:
    """The anglers' names and the class marks of entries, by their keys."""

    anglers: Mapping[int, Sequence[str]]
    marks: Mapping[int, frozenset[str]]


def _beside(events: Sequence[int]) -> _Beside:
    anglers: dict[int, list[str]] = defaultdict(list)
    people = Angler.objects.filter(entry__event__in=events, erased_on=None)
    for entry, name in people.order_by("entry", "position").values_list("entry", "name"):
        anglers[entry].append(name)
    marks: dict[int, frozenset[str]] = defaultdict(frozenset)
    for entry, name in ClassMark.objects.filter(event__in=events).values_list("entry", "name"):
        marks[entry] |= {name}
    return _Beside(anglers, marks)


def _win(event: Event) -> Decimal | None:
    rules = rules_of(event)
    return None if rules.points_per_pound or rules.points_big_fish else for_place(rules, 1)


def _teams(standings: Standings, beside: _Beside) -> list[TeamResult]:
    unit = standings.event.weight_unit
    found = []
    for row in standings.outcome.ranked:
        entry, big = standings.entries[row.result.team.boat], row.result.big_fish
        found.append(
            replace(
                _entered(entry, beside),
                status=row.result.status,
                place=row.place,
                points=standings.outcome.points[entry.boat],
                total=as_pounds(row.result.total, unit),
                big_fish=None if big is None else as_pounds(big, unit),
            )
        )
    return found


def _entered(entry: Entry, beside: _Beside) -> TeamResult:
    team = entry.team
    classes = beside.marks.get(entry.pk, frozenset()) | ({YOUTH} if entry.youth else frozenset())
    return TeamResult(team.folded_name, team.name, team.pk, entry.pk, classes, tuple(beside.anglers.get(entry.pk, ())))

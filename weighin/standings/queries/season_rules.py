"""By which rules a season's points are added up: its own, else those of its latest event that counts."""

from collections.abc import Sequence

from weighin.clubs.models import Season
from weighin.events.domain import weighed
from weighin.events.models import Event
from weighin.events.queries.events import is_cancelled, rules_of
from weighin.rules import rulebook
from weighin.rules.rulebook import Rulebook


def counted_events(season: Season) -> list[Event]:
    """The season's events that count, oldest first: those that have a slip and were not cancelled."""
    events = season.events.select_related("season__club", "water", "rule_sheet").prefetch_related("event_days")
    found = list(events.order_by("date", "pk"))
    begun = weighed.begun(event.pk for event in found)
    return [event for event in found if event.pk in begun and not is_cancelled(event)]


def season_rules(season: Season, events: Sequence[Event] | None = None) -> Rulebook | None:
    """The rule sheet that adds up a season's points: its latest event's, with the season's own rules over it.

    ``events`` are those that count, where they are fetched already. None where neither says anything.
    """
    counted = counted_events(season) if events is None else events
    if not counted:
        return rulebook.read(season.rules, "lb") if season.rules else None
    latest = rules_of(max(counted, key=lambda event: (event.date, event.pk)))
    return rulebook.read({**latest.written(), **season.rules}, latest.unit) if season.rules else latest

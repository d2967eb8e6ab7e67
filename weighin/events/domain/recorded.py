"""What hangs on an event: the apps above say which of their rows stand under its days, and which go when it is removed."""

from typing import Any

from django.db.models import Max, Model

from weighin.events.models import Event, EventDay, Flight, RuleSheet
from weighin.rules.faults import Sentence

_of_days: list[tuple[Sentence, type[Model]]] = []
_goes_along: list[type[Model]] = [EventDay, Flight, RuleSheet]
_goes_with_others: dict[type[Model], dict[str, Any]] = {}


def stands_under_days(what: Sentence, model: type[Model]) -> None:
    """A day with rows of this model (with ``event`` and ``day``) cannot go; ``what`` is their name in words."""
    _of_days.append((what, model))


def goes_along(model: type[Model]) -> None:
    """Rows of this model are part of an event's setting up, and go when it is removed."""
    _goes_along.append(model)


def goes_with_others(model: type[Model], **which: Any) -> None:
    """Rows of this model that have these values go with what they hang on; all others hold the event."""
    _goes_with_others[model] = which


def held_by(event: Event, model: type[Model], name: str) -> int:
    """How many rows of this model hold the event; it stands in their field ``name``."""
    rows = model._base_manager.filter(**{name: event})
    which = _goes_with_others.get(model)
    return (rows.exclude(**which) if which else rows).count()


def last_days(event: Event, days: int) -> list[tuple[Sentence, int]]:
    """What stands under days after ``days``, with the last day of each."""
    found = []
    for what, model in _of_days:
        rows = model._default_manager.filter(event=event, day__gt=days)
        last = rows.aggregate(last=Max("day"))["last"]
        if last is not None:
            found.append((what, last))
    return found


def parts_of_an_event() -> tuple[type[Model], ...]:
    """The models whose rows go when an event is removed, in the order in which they were told."""
    return tuple(_goes_along)

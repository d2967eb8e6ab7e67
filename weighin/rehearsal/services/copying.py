"""Make the copy of an event that is rehearsed: its days, flights, rules and teams, marked, with rows and a chain of its own.

Nothing of the event itself is written. The first day that is fished is laid on today, the others keep their distance from
it, so that tablets and officials can write in the rehearsal by their own clocks.
"""

from collections.abc import Sequence
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import Model
from django.utils import timezone
from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.events.domain import weighed
from weighin.events.domain.rehearsal_mark import marked
from weighin.events.models import Event, EventDay, Flight, RuleSheet
from weighin.events.queries.events import calendar_of
from weighin.events.queries.faults import clock_faults
from weighin.events.queries.seals import event_seals
from weighin.events.queries.slugs import free_slug
from weighin.events.services.revision import lock_open_event
from weighin.line.queries import terms_of
from weighin.line.services.words import set_terms
from weighin.registration.models import SidePot
from weighin.rehearsal.domain.faults import (
    EVENT_HAS_BEGUN,
    IS_A_REHEARSAL,
    NO_BOAT_TO_REHEARSE,
    NO_DAY_TO_REHEARSE,
    NOT_A_SEED,
    NOT_A_SPEED,
    NOT_BOATS,
    REHEARSED_ALREADY,
)
from weighin.rehearsal.models import Rehearsal
from weighin.roster.domain import payments
from weighin.roster.models import Angler, Entry, Team
from weighin.roster.queries import roster_seals
from weighin.rules.faults import Fault, Faults
from weighin.rules.look_alikes import folded_name

MOST_SPEED, MOST_BOATS, MOST_SEED, MOST_BAGS = 1_000_000, 5000, 10**15, 500


def make_rehearsal(event: Event, by: str, *, seed: int = 1, speed: float = 60.0, boats: int | None = None) -> Rehearsal:
    """Copy the event for ``boats`` of its teams to come in; all that are entered when left out.

    Teams without a boat number get one in the copy; boats that the event has no team for are invented. Raises Faults,
    all at once, where the event cannot be rehearsed.
    """
    with writing():
        held = lock_open_event(event)
        faults = _hindrances(held) + _asked_faults(seed, speed, boats)
        days = list(held.event_days.order_by("number"))
        fished = [day for day in days if day.status != EventDay.Status.CANCELLED]
        entered = list(Entry.everyone.filter(event=held).order_by("number").prefetch_related("anglers"))
        coming = sum(entry.status == Entry.Status.ENTERED for entry in entered)
        if not fished:
            faults.append(NO_DAY_TO_REHEARSE.at("", event=held.name))
        if not coming and boats is None:
            faults.append(NO_BOAT_TO_REHEARSE.at("boats"))
        if faults:
            raise Faults(faults)
        copy = _copied(held, days, fished[0])
        teams = _entered(copy, entered, max(0, (boats or 0) - coming))
        payments.said_of_new(copy, teams, by)
        terms = terms_of(held)
        log_history(
            by,
            "rehearsal.made",
            gettext("%(copy)s made from %(event)s to be rehearsed") % {"copy": copy.name, "event": held.name},
            club_id=held.season.club_id,
            event_id=copy.pk,
            subject=copy.slug,
            bound={**event_seals(copy.pk), **roster_seals(copy.pk)},
        )
        # Set, since what nobody set would be that of events before another date
        bags = terms.bags if terms.chosen else min(MOST_BAGS, terms_of(copy).bags)
        walk, boat = terms.walk_seconds, terms.boat_seconds
        set_terms(copy, by, scales=terms.scales, bags=bags, walk_seconds=walk, boat_seconds=boat)
        log_history(
            by,
            "rehearsal.begun",
            gettext("Rehearsal of %(event)s begun") % {"event": held.name},
            club_id=held.season.club_id,
            subject=held.slug,
        )
        return Rehearsal.objects.create(
            event=copy, day=fished[0].number, seed=seed, speed=speed, boats=boats or coming, begun_by=by
        )


def _hindrances(event: Event) -> list[Fault]:
    if event.rehearsal_of_id is not None:
        return [IS_A_REHEARSAL.at("", event=event.name)]
    found = []
    if weighed.first(event) is not None:
        found.append(EVENT_HAS_BEGUN.at("", event=event.name))
    if Event.everyone.filter(rehearsal_of=event).exists():
        found.append(REHEARSED_ALREADY.at("", event=event.name))
    return found


def _asked_faults(seed: int, speed: float, boats: int | None) -> list[Fault]:
    found = []
    if not 1 <= speed <= MOST_SPEED:
        found.append(NOT_A_SPEED.at("speed", most=MOST_SPEED))
    if not 0 <= seed <= MOST_SEED:
        found.append(NOT_A_SEED.at("seed", most=MOST_SEED))
    if boats is not None and not 1 <= boats <= MOST_BOATS:
        found.append(NOT_BOATS.at("boats", most=MOST_BOATS))
    return found


def _copied(event: Event, days: Sequence[EventDay], first: EventDay) -> Event:
    """The copy with its days, flights, rules and side pots."""
    moved = timezone.now().astimezone(ZoneInfo(event.time_zone)).date() - first.date
    name = marked(event.name)
    copy: Event = _another(
        event, rehearsal_of=event, name=name, slug=free_slug(name, event.date), date=event.date + moved,
        is_public=False, revision=1,
    )  # fmt: skip
    for day in days:
        _another(day, event=copy, date=day.date + moved)
    for model in (Flight, RuleSheet, SidePot):
        for row in model._default_manager.filter(event=event).order_by("pk"):
            _another(row, event=copy)
    wrong = clock_faults(copy, copy.event_days.all(), copy.flights.all())
    if wrong:
        raise Faults(wrong)
    calendar_of(copy)
    return copy


def _another(row: Any, **said: Any) -> Any:
    """A new row that says what this one says, but for what is said otherwise."""
    values = {
        field.attname: getattr(row, field.attname) for field in row._meta.concrete_fields if not field.primary_key
    }
    given = {key: value.pk if isinstance(value, Model) else value for key, value in said.items()}
    keyed = {row._meta.get_field(key).attname: value for key, value in given.items()}
    made = type(row)(**{**values, **keyed})
    made.save(force_insert=True)
    return made


def _entered(copy: Event, entered: Sequence[Entry], invented: int) -> list[Entry]:
    """The teams of the copy with their anglers; how they are reached stays with the event."""
    taken = {entry.boat for entry in entered if not entry.waits}
    free = (boat for boat in range(1, len(entered) + len(taken) + invented + 2) if boat not in taken)
    made, anglers = [], []
    for entry in entered:
        boat = next(free) if entry.waits else entry.boat
        own = Entry(
            event=copy, team_id=entry.team_id, number=entry.number, boat=boat, name=entry.name, youth=entry.youth,
            flight_name=entry.flight_name, paid=entry.paid, big_fish_pot=entry.big_fish_pot, status=entry.status,
            lot=entry.lot, note=entry.note,
        )  # fmt: skip
        made.append(own)
        anglers += [
            Angler(entry=own, position=each.position, name=each.name, erased_on=each.erased_on)
            for each in entry.anglers.all()
        ]
    number = max((entry.number for entry in entered), default=0)
    for place in range(1, invented + 1):
        name = f"Practice boat {place}"
        team, _ = Team.objects.get_or_create(season=copy.season, folded_name=folded_name(name), defaults={"name": name})
        made.append(Entry(event=copy, team=team, number=number + place, boat=next(free), name=name))
        anglers.append(Angler(entry=made[-1], position=1, name=f"Practice angler {place}"))
    Entry.objects.bulk_create(made, batch_size=500)
    Angler.objects.bulk_create(anglers, batch_size=500)
    return made

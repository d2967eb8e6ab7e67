"""Make and change events and their days."""

from collections.abc import Iterable, Mapping
from datetime import timedelta
from typing import Any

from weighin.audit.domain.changes import changes, in_words
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Club, Season
from weighin.events.domain import fees, recorded, weighed
from weighin.events.domain.faults import (
    BEFORE_FIRST_DAY,
    DATE_STAYS,
    DAY_HAS_RECORDS,
    EVENT_TAKEN,
    FIRST_DAY_STAYS,
    NAME_OF_REHEARSALS,
    NOT_OF_CLUB,
    OWN_WEIGHTS,
    SLIPS_COUNT,
    TIME_ZONE_STAYS,
    UNIT_STAYS,
)
from weighin.events.domain.rehearsal_mark import MARK, is_marked, marked
from weighin.events.models import Event, EventDay, RuleSheet
from weighin.events.queries.club_sheets import NamedSheet, event_sheet
from weighin.events.queries.faults import clock_faults, day_faults, event_faults, start_faults
from weighin.events.queries.seals import event_seals
from weighin.events.queries.slugs import free_slug
from weighin.events.services.revision import lock_open_event, raise_revision_of_due_times
from weighin.events.services.rule_sheet import fee_reason, in_unit
from weighin.rules import rulebook
from weighin.rules.faults import Fault, Faults, FieldName, Listed
from weighin.ui import figures

FIELDS = (
    "season", "water", "name", "date", "weight_unit", "start_time", "due_time", "time_zone", "handling",
    "elevation_ft", "lake_temp", "entry_fee", "added_money", "permit", "note",
)  # fmt: skip
DAY_FIELDS = ("date", "start_time", "due_time", "lake_temp", "air_temp", "weather", "status", "note")
HELD_BY_SLIPS = {"weight_unit": UNIT_STAYS, "date": FIRST_DAY_STAYS, "time_zone": TIME_ZONE_STAYS}


def make_event(club: Club, said: Mapping[str, Any], by: str, rules_from: Event | NamedSheet | None = None) -> Event:
    """Make an event with its days and rule sheet: the defaults of its unit, or a copy of ``rules_from``; with the points
    rules of its season where that has its own.

    ``said`` holds ``FIELDS`` and ``days``. Raises Faults with field names.
    """
    with writing():
        event = Event(**{name: _value(said, name) for name in FIELDS})
        faults = event_faults(said) + _place_faults(club, said) + _name_taken(event)
        source = event_sheet(rules_from) if isinstance(rules_from, Event) else rules_from
        sheet = source.rules if source else rulebook.defaults(event.weight_unit)
        rules = sheet.written()
        if sheet.unit != event.weight_unit:
            rules, stay = in_unit(rules, sheet.unit, event.weight_unit)
            faults += _own_weights("rules_from", stay, sheet.unit)
        days = [_day(event, number) for number in range(1, said["days"] + 1)] if not faults else []
        _refuse(faults or clock_faults(event, days, ()))
        if not event.elevation_ft and event.water.elevation_ft is not None:
            event.elevation_ft = str(event.water.elevation_ft)
        event.slug = free_slug(event.name, event.date)
        event.revision = 1
        event.save()
        for day in days:
            day.event = event
        EventDay.objects.bulk_create(days)
        RuleSheet.objects.create(
            event=event, written=rules | event.season.rules, copied_from=source.version if source else None
        )
        sentence = f"{event.name} on {event.water} added, {figures.day(event.date)}, {_counted(len(days))}"
        log_history(
            by, "event.made", sentence, club_id=club.pk, event_id=event.pk, subject=event.slug,
            bound=event_seals(event.pk),
        )  # fmt: skip
    return event


def change_event(event: Event, said: Mapping[str, Any], by: str) -> None:
    """Change an event's own fields and its number of days; ``said`` may hold ``fee_reason``, which a fee needs once a
    team has paid it. Raises Faults with field names."""
    with writing():
        held = lock_open_event(event)
        before = {name: getattr(held, name) for name in FIELDS}
        days = list(held.event_days.all())
        shift = said["date"] - held.date
        for name in FIELDS:
            setattr(held, name, _value(said, name))
        if held.rehearsal_of_id is not None and held.name:
            held.name = marked(held.name)
        faults = event_faults(said) + _place_faults(held.club, said) + _name_taken(held)
        faults += _slips_faults(held, before) + _days_faults(held, said["days"])
        rules, stay = held.rule_sheet.written, list[str]()
        if before["weight_unit"] != held.weight_unit:
            rules, stay = in_unit(rules, before["weight_unit"], held.weight_unit)
        faults += _own_weights("weight_unit", stay, before["weight_unit"])
        of_fee = fee_reason(held, "entry_fee", before["entry_fee"] != held.entry_fee, said, faults)
        _refuse(faults)
        kept = days[: said["days"]]
        for day in kept:
            day.date += shift
        for number in range(len(days) + 1, said["days"] + 1):
            kept.append(EventDay(event=held, number=number, date=kept[-1].date + timedelta(days=1)))
        _refuse(clock_faults(held, kept, held.flights.all()) or start_faults(held, kept))
        held.save(update_fields=FIELDS)
        held.event_days.filter(number__gt=said["days"]).delete()
        _keep_days(kept)
        if rules is not held.rule_sheet.written:
            RuleSheet.objects.filter(event=held).update(written=rules)
        found = changes(
            {**before, "days": len(days)}, {name: getattr(held, name) for name in FIELDS} | {"days": said["days"]}
        )
        owing = fees.follow(held) if before["entry_fee"] != held.entry_fee else {}
        _noted(held, "event.changed", held.name, found, by, of_fee, owing)


def change_day(event: Event, number: int, said: Mapping[str, Any], by: str) -> None:
    """Change one day; ``said`` holds ``DAY_FIELDS``. Raises Faults with field names."""
    with writing():
        held = lock_open_event(event)
        days = list(held.event_days.all())
        day = next(day for day in days if day.number == number)
        before = {name: getattr(day, name) for name in DAY_FIELDS}
        for name in DAY_FIELDS:
            setattr(day, name, said[name].strip() if isinstance(said[name], str) else said[name])
        faults = day_faults(said)
        if number > 1 and day.date < held.date:
            faults.append(BEFORE_FIRST_DAY.at("date", first=held.date))
        slips = weighed.count(held, number)
        if slips and day.date != before["date"]:
            faults.append(DATE_STAYS.at("date", n=slips))
        current = weighed.count(held, number, current=True)
        if current and day.status == EventDay.Status.CANCELLED:
            faults.append(SLIPS_COUNT.at("status", n=current))
        _refuse(faults or clock_faults(held, days, held.flights.all()) or start_faults(held, days))
        day.save()
        if number == 1 and held.date != day.date:
            Event.everyone.filter(pk=held.pk).update(date=day.date)
        _noted(held, "event.day", f"Day {number}", changes(before, {n: getattr(day, n) for n in DAY_FIELDS}), by)


def _value(said: Mapping[str, Any], name: str) -> Any:
    found = said[name]
    if name == "name":
        return " ".join(found.split())
    return found.strip() if isinstance(found, str) else found


def _day(event: Event, number: int) -> EventDay:
    return EventDay(number=number, date=event.date + timedelta(days=number - 1))


def _keep_days(days: Iterable[EventDay]) -> None:
    for day in days:
        day.save()


def _place_faults(club: Club, said: Mapping[str, Any]) -> list[Fault]:
    """Season and water must be the club's own."""
    return [
        NOT_OF_CLUB.at(name, place=str(said[name]), club=str(club))
        for name in ("season", "water")
        if said[name].club_id != club.pk
    ]


def _name_taken(event: Event) -> list[Fault]:
    season: Season = event.season
    if is_marked(event.name) and event.rehearsal_of_id is None:
        return [NAME_OF_REHEARSALS.at("name", mark=MARK)]
    others = Event.everyone.filter(season=season, name__iexact=event.name).exclude(pk=event.pk)
    if others.exists():
        return [EVENT_TAKEN.at("name", event=event.name, season=str(season))]
    return []


def _slips_faults(event: Event, before: Mapping[str, Any]) -> list[Fault]:
    """Slips hold weights in the event's unit and moments of its days: those stay once there is one."""
    changed = [name for name in HELD_BY_SLIPS if getattr(event, name) != before[name]]
    kept = weighed.count(event) if changed else 0
    return [HELD_BY_SLIPS[name].at(name, n=kept) for name in changed if kept]


def _days_faults(event: Event, days: int) -> list[Fault]:
    """A day on which something is written cannot go."""
    last = recorded.last_days(event, days)
    return [DAY_HAS_RECORDS.at("days", what=what.says(), day=day) for what, day in last]


def _own_weights(field: str, names: list[str], unit: str) -> list[Fault]:
    keys = Listed(tuple(FieldName(name) for name in names))
    return [OWN_WEIGHTS.at(field, unit=unit, keys=keys)] if names else []


def _noted(
    event: Event,
    act: str,
    subject: str,
    found: Mapping[str, list[Any]],
    by: str,
    why: str = "",
    also: Mapping[str, str | None] | None = None,
) -> None:
    if not found:
        return
    raise_revision_of_due_times(event)
    log_history(
        by, act, f"{subject}: {in_words(dict(found))}{why}", club_id=event.season.club_id, event_id=event.pk, subject=subject,
        details={"changed": dict(found)}, bound={**event_seals(event.pk), **(also or {})},
    )  # fmt: skip


def _counted(days: int) -> str:
    return "1 day" if days == 1 else f"{days} days"


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise Faults(faults)

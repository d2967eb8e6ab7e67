"""The tanks of an event: how they stand, their readings, and what was put in."""

import uuid
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in
from weighin.events.access import allow
from weighin.events.domain.care_context import CareContext
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.events.views.rows import edit_row, new_row
from weighin.rules.look_alikes import folded_name
from weighin.tanks.forms.tanks import ReadingForm, TreatmentForm
from weighin.tanks.pages.chart import day_charts
from weighin.tanks.pages.tank_words import facts, headline, limits
from weighin.tanks.queries.tanks import known_readings, tank_names, tanks_of
from weighin.tanks.tables.tanks import ReadingsTable, TreatmentsTable, newest_first

PER_PAGE = 20
LONGEST = 80
ACTS = ("GET", "HEAD", "POST")


@require_safe
@allow(Can.VIEW_EVENT)
def tanks(request: HttpRequest, event: Event) -> HttpResponse:
    """How each tank stands by its last reading, the day's chart, every reading, and what was put in."""
    care_context = care_context_of(event)
    readings, treatments = list(event.tank_readings.all()), list(event.treatments.all())
    days = sorted({reading.day for reading in readings})
    day = _day_asked(request, care_context, days)
    found = tanks_of(care_context, day, readings, treatments)
    may_write = can_in(request.user, event.club, Can.RECORD_CARE) and not event.closed_at
    table = ReadingsTable(newest_first(readings, care_context.calendar), care_context, may_write)
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(table)
    put_in = TreatmentsTable(reversed(treatments), care_context, may_write)
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(put_in)
    context = {
        "event": event,
        "scene": care_context,
        "rules": care_context.rules,
        "day": day,
        "days": days,
        "lake": care_context.lake(day),
        "headline": headline(found),
        "tanks": [(tank, facts(tank)) for tank in found],
        "charts": day_charts(found, care_context, day),
        "readings": readings,
        "table": table,
        "put_in": put_in,
        "limits": limits(care_context.rules),
        "may_write": may_write,
    }
    return render(request, "tanks/tanks.html", context)


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def reading_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a reading; ``tank`` in the address brings its name and volume along."""
    readings = known_readings(event)
    return new_row(request, event, ReadingForm, initial=_of_tank(request, readings, event.pk), context=_names(readings))


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def reading(request: HttpRequest, event: Event, reading_pk: int) -> HttpResponse:
    """Change a reading or take it out."""
    pk = reading_pk if reading_pk < 2**63 else 0
    return edit_row(request, event, ReadingForm, pk, context=_names(event.tank_readings.all()))


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def treatment_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write down what was put into a tank."""
    initial = {name: request.GET[name][:LONGEST] for name in ("tank", "what") if name in request.GET}
    return new_row(request, event, TreatmentForm, initial=initial, context=_names(known_readings(event)))


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def treatment(request: HttpRequest, event: Event, treatment_pk: uuid.UUID) -> HttpResponse:
    """Change a treatment or take it out."""
    return edit_row(request, event, TreatmentForm, treatment_pk, context=_names(event.tank_readings.all()))


def _day_asked(request: HttpRequest, care_context: CareContext, days: list[int]) -> int:
    """The day asked for, else the one going on, else the last with a reading."""
    asked = request.GET.get("day", "")
    if asked in map(str, days):
        return int(asked)
    if care_context.going is not None and (care_context.going in days or not days):
        return care_context.going
    return max(days, default=care_context.likely_day)


def _of_tank(request: HttpRequest, readings: list[Any], event_pk: int) -> dict[str, str]:
    """The tank's name, volume and (in this event) load as last written, so that only the meters are left to read."""
    name = request.GET.get("tank", "")[:LONGEST]
    last = [row for row in readings if folded_name(row.tank) == folded_name(name)]
    found = {"tank": last[-1].tank if last else name}
    for field in ("volume_gal", "fish_lb"):
        own = last if field == "volume_gal" or (last and last[-1].event_id == event_pk) else []
        found[field] = next((value for row in reversed(own) if (value := getattr(row, field))), "")
    return found


def _names(readings: Any) -> dict[str, Any]:
    return {"tank_names": tank_names(readings)}

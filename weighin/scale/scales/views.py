"""The page of the event's scales: their tests before, during and after, what failed, and how each speaks."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.roles import Can
from weighin.clubs.access import can_in
from weighin.events.access import allow
from weighin.events.calendar import Calendar
from weighin.events.models import Event
from weighin.events.queries import calendar_of
from weighin.scale.indicator.layouts import LAYOUTS
from weighin.scale.models import Scale, ScaleCheck
from weighin.scale.queries import current_slips
from weighin.scale.scales import services
from weighin.scale.scales.forms import CheckForm, ScaleForm, TakeOutForm
from weighin.scale.scales.judging import verdict_of
from weighin.scale.scales.queries import checks_of, doubts_of, due_today, scales_of
from weighin.scale.scales.words import error_in_words, failure_in_words, size_in_words


@dataclass(frozen=True)
class Row:
    """A check as the record shows it."""

    check: ScaleCheck
    when: str
    verdict: str
    passed: bool
    out: str


@require_safe
@allow(Can.VIEW_EVENT)
def scales(request: HttpRequest, event: Event) -> HttpResponse:
    """Every scale with its record, what failed and which slips that marks."""
    calendar = calendar_of(event)
    found, checks, slips = scales_of(event), checks_of(event), current_slips(event)
    doubts = doubts_of(event, slips)
    marked = sorted((slip for slip in slips if slip.pk in doubts.marks), key=lambda slip: slip.number)
    records = [(scale, _rows([one for one in checks if one.scale_id == scale.pk], calendar)) for scale in found]
    context = {
        "event": event,
        "records": records,
        "checks": sum(len([row for row in rows if not row.out]) for _, rows in records),
        "failures": [failure_in_words(one, event.weight_unit, calendar.zone) for one in doubts.failures],
        "marked": marked,
        "unsure": [slip for slip in marked if not doubts.marks[slip.pk].sure],
        "due": due_today(event, calendar, found, checks),
        "slips": len(slips),
        **_mays(request, event),
    }
    return render(request, "scale/scales/scales.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
def scales_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a scale down."""
    return _scale_page(request, event, None)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
def scale_edit(request: HttpRequest, event: Event, pk: int) -> HttpResponse:
    """Change what is written of a scale; the checks made before keep what they were made with."""
    return _scale_page(request, event, _scale(event, pk))


def _scale_page(request: HttpRequest, event: Event, old: Scale | None) -> HttpResponse:
    form = ScaleForm(request.POST or None, unit=event.weight_unit, scale=old)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: services.write_scale(event, form.written(data), by, old)):
        messages.info(request, f"Scale {form.kept.name} is written down.")
        return redirect("scale:scales", event.slug)
    context = {"event": event, "form": form, "old": old, "layouts": LAYOUTS.values()}
    return render(request, "scale/scales/scale.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.RECORD_SLIP)
def scale_test(request: HttpRequest, event: Event, pk: int) -> HttpResponse:
    """Lay a test weight on, and write what the scale shows."""
    scale, calendar = _scale(event, pk), calendar_of(event)
    asked = request.GET.get("moment", "")
    moment = asked if asked in ScaleCheck.Moment.values else ""
    form = CheckForm(request.POST or None, scale=scale, calendar=calendar, by=str(request.user), moment=moment)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: services.write_check(scale, {name: str(data[name]) for name in form.fields}, by, form.sender_key)
    ):
        check: ScaleCheck = form.kept
        verdict = verdict_of(check)
        said = f"Scale {scale.name} with {check.test_weight} {check.unit}: {error_in_words(verdict, check.unit)}."
        if verdict.passed:
            messages.info(request, said)
        else:
            stop = (
                "Stop weighing on it, level and zero it, test it again; the slips since its last good check are marked."
            )
            messages.warning(request, f"{said} {stop}")
        return redirect("scale:scales", event.slug)
    context = {"event": event, "form": form, "scale": scale}
    return render(request, "scale/scales/test.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.CORRECT_SLIP)
def scale_test_out(request: HttpRequest, event: Event, check_id: UUID) -> HttpResponse:
    """Take a check out that was written wrong."""
    found = ScaleCheck.objects.current().filter(pk=check_id, scale__event=event).select_related("scale").first()
    if found is None:
        raise Http404("There is no such check in this event, or it is taken out already.")
    found.scale.event = event
    form = TakeOutForm(request.POST or None)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: services.take_out_check(found, data["reason"], by)):
        messages.info(request, "The check is taken out. It stays in the record, with the reason.")
        return redirect("scale:scales", event.slug)
    (row,) = _rows([found], calendar_of(event))
    return render(request, "scale/scales/test_out.html", {"event": event, "form": form, "row": row})


def _scale(event: Event, pk: int) -> Scale:
    found = Scale.objects.filter(event=event, pk=pk).first() if pk < 2**31 else None
    if found is None:
        raise Http404("There is no such scale in this event.")
    found.event = event
    return found


def _mays(request: HttpRequest, event: Event) -> dict[str, Any]:
    is_open = not event.closed_at
    return {
        "may_test": is_open and can_in(request.user, event.club, Can.RECORD_SLIP),
        "may_take_out": is_open and can_in(request.user, event.club, Can.CORRECT_SLIP),
        "may_write": is_open and can_in(request.user, event.club, Can.MANAGE_EVENT),
    }


def _rows(checks: Sequence[ScaleCheck], calendar: Calendar) -> list[Row]:
    rows = []
    for check in checks:
        verdict = verdict_of(check)
        void = getattr(check, "replaced_by", None)
        rows.append(
            Row(
                check,
                _when(check.at, calendar),
                f"{error_in_words(verdict, check.unit)} ({size_in_words(verdict.divisions, 'd')})",
                verdict.passed,
                f"Taken out by {void.recorded_by}: {void.reason}" if void else "",
            )
        )
    return rows


def _when(moment: datetime, calendar: Calendar) -> str:
    local = moment.astimezone(calendar.zone)
    return (
        f"{local:%H:%M}"
        if len(calendar.days) == 1 and local.date() in _dates(calendar)
        else f"{local:%b} {local.day}, {local:%H:%M}"
    )


def _dates(calendar: Calendar) -> set[Any]:
    return {day.date for day in calendar.days.values()}

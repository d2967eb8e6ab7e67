"""The page of the event's scales: their tests before, during and after, what failed, and which slips that marks."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.scales.pages import failure_in_words, rows_of
from weighin.scales.queries import checks_of, due_today, scales_of
from weighin.slips.queries.scale_doubts import doubts_of
from weighin.slips.queries.slips import current_slips


@require_safe
@allow(Can.VIEW_EVENT)
def scales(request: HttpRequest, event: Event) -> HttpResponse:
    """Every scale with its record, what failed and which slips that marks."""
    calendar = calendar_of(event)
    found, checks, slips = scales_of(event), checks_of(event), current_slips(event)
    doubts = doubts_of(event, slips)
    marked = sorted((slip for slip in slips if slip.pk in doubts.marks), key=lambda slip: slip.number)
    records = [(scale, rows_of([one for one in checks if one.scale_id == scale.pk], calendar)) for scale in found]
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
    return render(request, "slips/scales.html", context)


def _mays(request: HttpRequest, event: Event) -> dict[str, Any]:
    is_open = not event.closed_at
    return {
        "may_test": is_open and can_in(request.user, event.club, Can.RECORD_SLIP),
        "may_take_out": is_open and can_in(request.user, event.club, Can.CORRECT_SLIP),
        "may_write": is_open and can_in(request.user, event.club, Can.MANAGE_EVENT),
    }

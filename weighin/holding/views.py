"""A holding study: its protocol, its pens and their checks, and what it shows."""

import secrets
import uuid
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.events.views.rows import edit_row, new_row
from weighin.holding import tables
from weighin.holding.domain.draw import draw
from weighin.holding.forms import BACK, MOST_DRAWN, CheckForm, EndForm, FinishedForm, PenForm, SizeForm
from weighin.holding.models import PenCheck, StudyPen
from weighin.holding.pages import words
from weighin.holding.queries import LEAST_PENS, pen_so_far, study_of
from weighin.holding.services.ending import end_pen
from weighin.holding.tables import ChecksTable, RecordsTable, UnderWayTable
from weighin.roster.models import Entry

PER_PAGE = 50
ACTS = ("GET", "HEAD", "POST")


@require_safe
@allow(Can.VIEW_EVENT)
def holding(request: HttpRequest, event: Event) -> HttpResponse:
    """The protocol step by step, with the numbers needed, the draw, the pens and the result."""
    care_context, study = care_context_of(event), study_of(event)
    may_write = can_in(request.user, event.club, Can.RECORD_CARE)
    asked = {name: request.GET.get(name, first)[:20] for name, first in SizeForm.FIRST.items()}
    size = SizeForm(asked)
    sized = size.sized()
    under_way = UnderWayTable(study.under_way, care_context, exclude=() if may_write else ("do_it",))
    records = RecordsTable(study.records, care_context, may_write)
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(records)
    context = {
        "event": event,
        "scene": care_context,
        "study": study,
        "headline": words.headline(study),
        "figure": words.figure(study),
        "range": words.range_said(study),
        "counts": words.counts_said(study),
        "hours": words.hours_said(study),
        "cautions": words.cautions(study),
        "late": words.late_said(list(study.under_way), care_context.now),
        "size": size,
        "sized": sized,
        "under_way": under_way,
        "records": records,
        "may_write": may_write,
        **_drawn(request, event, sized, asked),
    }
    return render(request, "holding/holding.html", context)


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def pen_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Put fish into a pen."""
    last = event.study_pens.order_by("-started").first()
    like = (
        {} if last is None else {"group": last.group, "species": last.species, "planned_hours": str(last.planned_hours)}
    )
    return new_row(request, event, PenForm, initial=like)


@require_safe
@allow(Can.VIEW_EVENT)
def pen(request: HttpRequest, event: Event, pen_pk: uuid.UUID) -> HttpResponse:
    """A pen: what was found in it, look by look."""
    return _pen_page(request, event, _pen(event, pen_pk), EndForm())


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def pen_change(request: HttpRequest, event: Event, pen_pk: uuid.UUID) -> HttpResponse:
    """Change a pen or take it out."""
    return edit_row(request, event, PenForm, pen_pk)


@allow(Can.RECORD_CARE)
@require_POST
def pen_end(request: HttpRequest, event: Event, pen_pk: uuid.UUID) -> HttpResponse:
    """End a pen: its finished row enters the mortality figures."""
    row, form = _pen(event, pen_pk), EndForm(request.POST)
    if form.attempt(lambda data: end_pen(event, row.pk, request.user.get_username())):
        messages.info(
            request,
            gettext("Pen %(pen)s is ended. Its finished row is what the mortality pages and the workbook count.")
            % {"pen": row.pen},
        )
        return redirect(BACK, event.slug)
    return _pen_page(request, event, row, form)


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def check_new(request: HttpRequest, event: Event, pen_pk: uuid.UUID) -> HttpResponse:
    """Write a look into a pen."""
    row = _pen(event, pen_pk)
    return new_row(request, event, CheckForm, said={"pen": str(row.pk)}, context=_of_pen(row))


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def check(request: HttpRequest, event: Event, check_pk: uuid.UUID) -> HttpResponse:
    """Change a look into a pen or take it out."""
    found = PenCheck.objects.filter(pk=check_pk, pen__event=event).select_related("pen").first()
    if found is None:
        raise Http404(gettext("There is no such check in this event: it may be void."))
    back, said = ("holding:pen", [event.slug, found.pen_id]), {"pen": str(found.pen_id)}
    return edit_row(request, event, CheckForm, check_pk, said=said, context=_of_pen(found.pen), back=back)


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def record_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a finished pen down as a whole."""
    return new_row(request, event, FinishedForm)


@require_http_methods(ACTS)
@allow(Can.RECORD_CARE)
def record(request: HttpRequest, event: Event, record_pk: int) -> HttpResponse:
    """Change a finished pen or take it out; one that was added up from checks is changed by its checks."""
    pk = record_pk if record_pk < 2**63 else 0
    row = StudyPen.objects.filter(record=pk, event=event).first()
    if row is not None and request.method == "POST" and request.POST.get("act") != "take_out":
        messages.warning(request, gettext("This row adds up its checks: void it first, then edit the checks."))
        return redirect("holding:holding_record", event.slug, pk)
    return edit_row(request, event, FinishedForm, pk, context={"study_pen": row})


def _pen(event: Event, pk: uuid.UUID) -> StudyPen:
    row = event.study_pens.filter(pk=pk).first()
    if row is None:
        raise Http404(gettext("There is no such pen in this event: it may be void."))
    return row


def _pen_page(request: HttpRequest, event: Event, row: StudyPen, form: EndForm) -> HttpResponse:
    care_context, found = care_context_of(event), pen_so_far(row)
    may_write = can_in(request.user, event.club, Can.RECORD_CARE)
    context = {
        "event": event,
        "pen": found,
        "form": form,
        "started": tables.moment_said(row.started, care_context),
        "ends": tables.moment_said(found.ends, care_context),
        "next_check": tables.moment_said(found.next_check, care_context),
        "is_late": found.is_late(care_context.now),
        "table": ChecksTable(found.checks, care_context, may_write and not row.record_id),
        "may_write": may_write,
    }
    return render(request, "holding/pen.html", context)


def _of_pen(row: StudyPen) -> dict[str, Any]:
    return {"pen": row, "left": pen_so_far(row).left}


def _drawn(request: HttpRequest, event: Event, sized: dict[str, Any] | None, asked: dict[str, str]) -> dict[str, Any]:
    """The draw of boats by the number in the address; without one, a number to draw with."""
    text = request.GET.get("number", "").strip()[:12]
    if sized is None:
        return {}
    boats = list(event.entries.filter(status=Entry.Status.ENTERED).values_list("boat", flat=True))
    pens, fish = max(sized["pens"], LEAST_PENS), int(float(asked["fish"]))
    more = {"number": text or str(secrets.randbelow(9000) + 1000), "boats": len(boats), "draw_pens": pens}
    if not (text.isascii() and text.isdigit()) or not boats or pens * fish > MOST_DRAWN:
        return more
    return {**more, "drawn": draw(boats, pens=pens, fish_per_pen=fish, number=int(text))}

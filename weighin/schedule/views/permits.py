"""The permit checklist of an event."""

from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.schedule.forms import PermitLineForm
from weighin.schedule.models import PermitLine
from weighin.schedule.queries.permits import checklist_of, next_due
from weighin.schedule.services.permits import begin_checklist, keep_line, remove_line, tick
from weighin.ui.forms.service import ServiceForm, sentence

form_page = require_http_methods(["GET", "HEAD", "POST"])


@allow(Can.VIEW_EVENT)
@require_safe
def permits(request: HttpRequest, event: Event) -> HttpResponse:
    """What is to be settled before the event, by when, and what is done."""
    lines = checklist_of(event)
    still = sum(one.line.done_on is None for one in lines)
    context = {"event": event, "lines": lines, "still": still, "late": sum(one.is_late for one in lines)}
    return render(request, "schedule/permits.html", {**context, "next": next_due(event)})


@allow(Can.MANAGE_EVENT)
@require_POST
def permits_begin(request: HttpRequest, event: Event) -> HttpResponse:
    """Begin the checklist with what most events need."""
    try:
        begin_checklist(event, request.user.get_username())
    except Faults as faults:
        messages.error(request, sentence(faults.faults[0].message))
    return redirect("schedule:permits", event.slug)


@allow(Can.MANAGE_EVENT)
@require_POST
def permit_tick(request: HttpRequest, event: Event, line_pk: int) -> HttpResponse:
    """Mark a line as done today, or open it again."""
    line = _line(event, line_pk)
    today = timezone.now().astimezone(ZoneInfo(event.time_zone)).date()
    try:
        tick(line, None if "open" in request.POST else today, request.user.get_username()[:120])
    except Faults as faults:
        messages.error(request, sentence(faults.faults[0].message))
    return redirect("schedule:permits", event.slug)


@allow(Can.MANAGE_EVENT)
@form_page
def permit_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Add a line."""
    form = PermitLineForm(request.POST or None)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: keep_line(event, form.texts(data), by)):
        messages.info(request, gettext("%(what)s is added.") % {"what": form.kept.what})
        return redirect("schedule:permits", event.slug)
    return render(request, "schedule/permit.html", {"event": event, "form": form})


@allow(Can.MANAGE_EVENT)
@form_page
def permit(request: HttpRequest, event: Event, line_pk: int) -> HttpResponse:
    """Change a line, or remove it."""
    old = _line(event, line_pk)
    by, act = request.user.get_username(), request.POST.get("act", "")
    form = PermitLineForm(request.POST if act == "change" else None, old=old)
    remove = ServiceForm(request.POST if act == "remove" else None)
    if act == "change" and form.attempt(lambda data: keep_line(event, form.texts(data), by, old)):
        messages.info(request, gettext("%(what)s is saved.") % {"what": form.kept.what})
        return redirect("schedule:permits", event.slug)
    if act == "remove" and remove.attempt(lambda data: remove_line(old, by)):
        messages.info(request, gettext("%(what)s is removed.") % {"what": old.what})
        return redirect("schedule:permits", event.slug)
    return render(request, "schedule/permit.html", {"event": event, "form": form, "remove": remove, "old": old})


def _line(event: Event, pk: int) -> PermitLine:
    found = PermitLine.objects.filter(event=event, pk=pk).select_related("event").first()
    if found is None:
        raise Http404(gettext("There is no such line in the checklist of this event."))
    return found

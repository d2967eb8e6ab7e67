"""Write a scale down, test it, and take a check out."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.scales.domain.judging import verdict_of
from weighin.scales.domain.words import error_in_words
from weighin.scales.forms import CheckForm, ScaleForm, TakeOutForm
from weighin.scales.models import Scale, ScaleCheck
from weighin.scales.pages import rows_of
from weighin.scales.services import scales as services


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
        messages.info(request, gettext("Scale %(name)s is saved.") % {"name": form.kept.name})
        return redirect("slips:scales", event.slug)
    context = {"event": event, "form": form, "old": old}
    return render(request, "scales/scale.html", context)


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
        said = gettext("Scale %(name)s with %(test_weight)s %(unit)s: %(verdict)s.") % {
            "name": scale.name,
            "test_weight": check.test_weight,
            "unit": check.unit,
            "verdict": error_in_words(verdict, check.unit),
        }
        if verdict.passed:
            messages.info(request, said)
        else:
            stop = gettext(
                "Stop weighing on it, level and zero it, test it again; the slips since its last good check are marked."
            )
            messages.warning(request, f"{said} {stop}")
        return redirect("slips:scales", event.slug)
    context = {"event": event, "form": form, "scale": scale}
    return render(request, "scales/test.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.CORRECT_SLIP)
def scale_test_out(request: HttpRequest, event: Event, check_id: UUID) -> HttpResponse:
    """Take a check out that was written wrong."""
    found = ScaleCheck.objects.current().filter(pk=check_id, scale__event=event).select_related("scale").first()
    if found is None:
        raise Http404(gettext("There is no such check in this event, or it is void already."))
    found.scale.event = event
    form = TakeOutForm(request.POST or None)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: services.take_out_check(found, data["reason"], by)):
        messages.info(request, gettext("The check is void. It stays in the record, with the reason."))
        return redirect("slips:scales", event.slug)
    (row,) = rows_of([found], calendar_of(event))
    return render(request, "scales/test_out.html", {"event": event, "form": form, "row": row})


def _scale(event: Event, pk: int) -> Scale:
    found = Scale.objects.filter(event=event, pk=pk).first() if pk < 2**31 else None
    if found is None:
        raise Http404(gettext("There is no such scale in this event."))
    found.event = event
    return found

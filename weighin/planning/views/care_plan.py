"""The care plan of an event as a page for members."""

from urllib.parse import urlencode

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event, EventDay
from weighin.planning.forms.care_plan import CarePlanForm
from weighin.planning.pages.care_plan import CarePlanPage, care_form, care_page, law


@require_safe
@allow(Can.VIEW_EVENT)
def care_plan(request: HttpRequest, event: Event) -> HttpResponse:
    """Bags, tanks, helpers, ice, oxygen, salt and the line of the day in ``?day=``, else of the first."""
    day, form, page = care_plan_asked(request, event)
    asked = urlencode({"day": day.number, **{name: form.data[name] for name in form.fields}})
    days = [each.number for each in _days(event)]
    return render(
        request,
        "planning/care_plan.html",
        {"event": event, "day": day, "days": days, "form": form, "plan": page, "law": law(), "asked": asked},
    )


def care_plan_asked(request: HttpRequest, event: Event) -> tuple[EventDay, CarePlanForm, CarePlanPage | None]:
    """The day, the form and its plan as the address asks. Raises Http404 when there is no such day to plan for."""
    asked, days = request.GET.get("day", ""), _days(event)
    day = next((each for each in days if asked in ("", str(each.number))), None)
    if day is None:
        raise Http404(
            gettext("There is no such day to plan for: it was cancelled, or the event has none of that number.")
        )
    form = care_form(event, day, {name: request.GET[name][:40] for name in request.GET})
    return day, form, care_page(event, day, form)


def _days(event: Event) -> list[EventDay]:
    return [day for day in event.event_days.all() if day.status != EventDay.Status.CANCELLED]

"""The planner's two pages: anyone's, and an event's with its water and tanks."""

import re
from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.utils.cache import patch_vary_headers
from django.utils.translation import gettext
from django.views.decorators.http import require_safe
from django_htmx.http import HttpResponseClientRedirect
from django_htmx.middleware import HtmxDetails

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow, find_public
from weighin.events.models import Event
from weighin.livewell.temperature.cooling import STRICTEST_STEP_C
from weighin.planning import queries as for_event
from weighin.planning.domain.blanks import MEASURED
from weighin.planning.domain.degrees import strictest_step
from weighin.planning.domain.limits import passed, within
from weighin.planning.domain.plan import Answer
from weighin.planning.domain.quantities import ICE, METRIC, SYSTEMS, TEMPERATURE, US, read
from weighin.planning.domain.species import FISH
from weighin.planning.domain.tanks import tank_volumes
from weighin.planning.domain.what_if import alternatives
from weighin.planning.forms.planner import PlannerForm
from weighin.planning.pages import hours, pictures, words
from weighin.planning.pages.limit_words import changed_in_words, heat_cautions, passed_in_words, refusal

SLUG = re.compile(r"[-a-zA-Z0-9_]{1,140}\Z")


@require_safe
def planner(request: HttpRequest) -> HttpResponse:
    """The planner for anyone; ``event`` names a published event whose water and times it starts from."""
    slug = request.GET.get("event", "")
    event = find_public(slug) if SLUG.match(slug) else None
    return _page(request, "planning/planner/public.html", event, {})


@require_safe
@allow(Can.VIEW_EVENT)
def event_planner(request: HttpRequest, event: Event) -> HttpResponse:
    """The planner for the event's water, with its tanks."""
    lake = for_event.planner_values(event).get("lake")
    anglers, unnamed = for_event.contestants(event)
    lake_c = read(lake, TEMPERATURE, US).si if lake else None
    tanks = {
        "tanks": for_event.tank_lines(event, _units(request, event), lake_c),
        "step": strictest_step(_units(request, event)),
        "anglers": anglers,
        "unnamed": unnamed,
        "tanks_asked": for_event.tanks_asked(anglers),
        "tanks_recorded": bool(tank_volumes(event)),
    }
    return _page(request, "planning/planner/event.html", event, tanks)


def _units(request: HttpRequest, event: Event | None) -> str:
    """The units somebody chose, else the event's, else pounds and gallons."""
    chosen = request.GET.get("units")
    if chosen in SYSTEMS:
        return str(chosen)
    return for_event.units_of(event) if event else US


def _page(request: HttpRequest, template: str, event: Event | None, more: dict[str, Any]) -> HttpResponse:
    units = _units(request, event)
    form = PlannerForm(
        {name: request.GET[name] for name in request.GET},
        first=for_event.planner_values(event) if event else None,
        units=units,
        chosen=request.GET.get("units") in SYSTEMS,
        step_c=for_event.step_of(event) if event else STRICTEST_STEP_C,
    )
    other = METRIC if units == US else US
    by_script = HtmxDetails(request)
    live = by_script and not by_script.history_restore_request
    context: dict[str, Any] = {
        "event": event,
        "form": form,
        "units": units,
        "other": other,
        "event_slug": event.slug if event and template.endswith("public.html") else "",
    }
    if form.is_valid():
        if request.GET.get("to") == other:
            address = f"{request.path}?{form.query(other, event=context['event_slug'])}"
            return HttpResponseClientRedirect(address) if live else HttpResponseRedirect(address)
        if form.answer is not None:
            context.update(_answer(form, form.answer, context["event_slug"]))
        elif form.refused is not None:
            context["finding"], context["reasons"] = refusal(form.refused.question, units)
            context["address"] = form.query(units, event=context["event_slug"])
        form.data = form.written_again(units)
    context["measured"] = any(form.data.get(name) or name in form.errors for name in MEASURED)
    response = render(request, "planning/planner/part.html" if live else template, {**context, **more})
    patch_vary_headers(response, ["HX-Request"])
    return response


def _answer(form: PlannerForm, answer: Answer, event_slug: str) -> dict[str, Any]:
    """Everything the answer's part of the page shows."""
    units, kind = form.units, FISH[form.cleaned_data["kind"]]
    better = within(answer.question) if passed(answer) else None
    return {
        "answer": answer,
        "finding": words.finding(answer, units),
        "facts": words.facts(answer, units),
        "ice_lines": hours.ice_lines(answer, units),
        "hours": hours.hour_lines(answer, units),
        "stops": [(words.stop_name(stop), [words.between(m) for m in stop.minutes]) for stop in answer.stops],
        "kind": {"one": gettext(kind.one), "curve_words": gettext(kind.curve_words)},
        "heat": heat_cautions(answer.question, kind, units),
        "passed": passed_in_words(answer, units)[2:],
        "better": better and (changed_in_words(better.blanks), form.query(units, event=event_slug, **better.blanks)),
        "shock": words.shock(answer, units),
        "unknown": words.unknown(answer),
        "oxygen_finding": words.oxygen_finding(answer),
        "carbon_finding": words.carbon_finding(answer),
        "oxygen_chart": pictures.oxygen_chart(answer, units),
        "carbon_chart": pictures.carbon_chart(answer),
        "compared": [
            (
                alternative,
                words.in_a_row(alternative.answer, units),
                form.query(units, event=event_slug, **alternative.blanks),
            )
            for alternative in alternatives(answer.question)
        ],
        "planned": words.in_a_row(answer, units),
        "degrees": TEMPERATURE.unit(units).word,
        "ice_unit": ICE.unit(units).word,
        "weighs": words.weight_of_water(answer, units),
        "address": form.query(units, event=event_slug),
    }

"""Pages and the address for programs that anyone may read once an event is published."""

import json
from functools import lru_cache
from hashlib import sha256
from typing import Any

from django.core.cache import cache
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.cache import patch_cache_control
from django.views.decorators.http import condition, require_safe

from weighin.accounts.models import User
from weighin.events.access import find_public, public
from weighin.events.models import Event
from weighin.events.queries.events import public_events, rules_of
from weighin.mortality.pages.event_report import panel
from weighin.planning.views.briefing import briefing_asked
from weighin.public.pages.openapi import document
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.reports.views.briefing import briefing_file as write_briefing_file
from weighin.rules.words.sheet import sheet_in_words
from weighin.standings.queries.days import days_of, stage_of
from weighin.standings.queries.document import stands
from weighin.standings.queries.embargo import embargo_start
from weighin.standings.queries.standings import official_results, result_days, result_rows, stages_of
from weighin.standings.views import KEPT_SECONDS, ledger, why_lines

FORM = "3"  # goes up when pages or the public JSON change their form, so that old copies are asked for anew


def revision_tag(event: Event, *also: object) -> str:
    """An entity tag that changes with every write that concerns the event, and with the names it shows."""
    held = embargo_start(event)
    parts = (
        FORM,
        held,
        event.pk,
        event.revision,
        event.name,
        event.club.name,
        event.season.name,
        event.water.name,
        event.water.elevation_ft,
        *also,
    )
    return '"' + sha256("\n".join(map(str, parts)).encode()).hexdigest()[:24] + '"'


def _tag(request: HttpRequest, event_slug: str, **kwargs: Any) -> str | None:
    event = find_public(event_slug)
    return None if event is None else revision_tag(event, request.get_full_path())


def _api_tag(request: HttpRequest, event_slug: str) -> str | None:
    event = find_public(event_slug)
    return None if event is None else revision_tag(event)


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """What is published, newest first; members go on to their clubs, an empty site to its first director."""
    if request.user.is_authenticated:
        return redirect("events:mine")
    events = list(public_events()[:100])
    if not events and not User.objects.exists():
        return redirect("clubs:begin")
    stages = stages_of(events)
    rows = [(event, stages.get(event.pk, "")) for event in events]
    return render(request, "public/home.html", {"events": events, "rows": rows})


@require_safe
@condition(etag_func=_tag)
@public
def event(request: HttpRequest, event: Event) -> HttpResponse:
    """What the event is, who leads, and where to read on."""
    held = embargo_start(event)
    whole = whole_event(event, held)
    ranked = [row for row in whole.standings.outcome.ranked if row.place is not None]
    versions = official_results(event)
    official = versions[0] if versions else None
    changed = official is not None and not stands(official, whole.standings, whole.ledger)
    context = {
        "event": event,
        "leaders": ranked[:5],
        "weighed": len(whole.standings.weighed),
        "boats": len(whole.standings.entered),
        "days": list(event.event_days.all()),
        "official": official,
        "changed": changed,
        "stage": official.stage if official is not None and not changed else stage_of(days_of(whole.standings)),
        "versions": versions,
        "mortality": whole.mortality,
        "unit": event.weight_unit,
        "held": held,
    }
    return _revalidate(render(request, "public/event.html", context))


@require_safe
@condition(etag_func=_tag)
@public
def standings(request: HttpRequest, event: Event) -> HttpResponse:
    """The standings as they are now."""
    context = {"event": event, "ledger": ledger(request, event, "public")}
    return _revalidate(render(request, "public/standings.html", context))


@require_safe
@condition(etag_func=_tag)
@public
def result(request: HttpRequest, event: Event, version: int) -> HttpResponse:
    """One version of the official result, as it was frozen."""
    found = next((r for r in official_results(event) if r.version == version), None)
    if found is None:
        raise Http404(f"There is no version {version} of this result.")
    context = {"event": event, "result": found, "unit": event.weight_unit, "rows": result_rows(found)}
    context["days"] = result_days(found)
    return _revalidate(render(request, "public/result.html", context))


@require_safe
@public
def why(request: HttpRequest, event: Event, boat: int) -> HttpResponse:
    """The lines that made one boat's total."""
    return why_lines(request, event, boat, "public", embargo_start(event))


@require_safe
@condition(etag_func=_tag)
@public
def rules(request: HttpRequest, event: Event) -> HttpResponse:
    """The rule sheet in words."""
    context = {"event": event, "sections": sheet_in_words(rules_of(event))}
    return _revalidate(render(request, "public/rules.html", context))


@require_safe
@condition(etag_func=_tag)
@public
def fish(request: HttpRequest, event: Event) -> HttpResponse:
    """How many fish died, how sure that is, and of what it is said."""
    held = embargo_start(event)
    return _revalidate(render(request, "public/fish.html", {"event": event, "held": held, **panel(event, held)}))


@require_safe
@condition(etag_func=_tag)
@public
def briefing(request: HttpRequest, event: Event) -> HttpResponse:
    """What every boat should know of the day, without the permit."""
    context = {"event": event, "briefing": briefing_asked(request, event)}
    return _revalidate(render(request, "public/briefing.html", context))


@require_safe
@public
def briefing_file(request: HttpRequest, event: Event) -> HttpResponse:
    """The same as PDF."""
    return write_briefing_file(request, event)


@require_safe
@condition(etag_func=_api_tag)
@public
def api_event(request: HttpRequest, event: Event) -> HttpResponse:
    """The public JSON of the event without its care notes, made once a revision; the entity tag is the revision's."""
    key = f"api:{revision_tag(event)}"
    body: bytes | None = cache.get(key)
    if body is None:
        told = event_document(whole_event(event, embargo_start(event)))
        del told["fish_care"]  # what each boat did with its fish is for the club
        body = json.dumps(told, ensure_ascii=False).encode()
        cache.set(key, body, KEPT_SECONDS)
    return _revalidate(HttpResponse(body, content_type="application/json"))


@lru_cache(maxsize=1)
def _openapi() -> tuple[bytes, str]:
    """The OpenAPI document and its entity tag."""
    text = json.dumps(document(), indent=2, ensure_ascii=False).encode()
    return text, f'"{sha256(text).hexdigest()[:24]}"'


@require_safe
@condition(etag_func=lambda request: _openapi()[1])
def openapi(request: HttpRequest) -> HttpResponse:
    """What programs may ask, for programs."""
    return _revalidate(HttpResponse(_openapi()[0], content_type="application/json"))


def _revalidate(response: HttpResponse) -> HttpResponse:
    """Ask readers' browsers to keep the page and to ask each time whether it is still the newest."""
    patch_cache_control(response, no_cache=True)
    return response

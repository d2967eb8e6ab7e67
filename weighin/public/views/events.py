"""Pages and the address for programs that anyone may read once an event is published."""

import json
from functools import partial
from zoneinfo import ZoneInfo

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_safe

from weighin.accounts.queries.people import nobody_yet
from weighin.events.access import public
from weighin.events.models import Event
from weighin.events.queries.events import public_events, rules_said
from weighin.events.queries.states import BEFORE
from weighin.mortality.pages.event_report import panel
from weighin.planning.views.briefing import briefing_asked
from weighin.proof.domain.canonical import printed
from weighin.proof.queries.document import proof_document
from weighin.public.access import MINUTE, QUARTER, kept, shown
from weighin.public.pages.club_site import event_description, rows_of
from weighin.public.pages.openapi import document
from weighin.public.pages.picture import legible, picture
from weighin.public.pages.structured import data_block
from weighin.public.queries.club_site import published, with_results
from weighin.registration.pages.draws import public_sheet
from weighin.registration.queries.draws import are_shown
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.reports.views.briefing import briefing_file as write_briefing_file
from weighin.reports.views.launch_sheet import launch_file
from weighin.rules.results import Team
from weighin.rules.sheets.changes import changes_in
from weighin.rules.words.sheet import sheet_in_words
from weighin.schedule.pages.calendar import about
from weighin.schedule.queries.calendar import dated, open_clubs
from weighin.signup.domain.opening import Door
from weighin.signup.queries.opening import opening_of, terms_of
from weighin.standings.pages.state_words import state_said
from weighin.standings.queries.days import days_of, stage_of
from weighin.standings.queries.document import stands
from weighin.standings.queries.embargo import embargo_start
from weighin.standings.queries.protests import result_state, state_part
from weighin.standings.queries.shown import standings_shown, state_of_site
from weighin.standings.queries.standings import official_results
from weighin.standings.tables import is_order
from weighin.standings.views import ledger, result_context, why_lines
from weighin.ui import figures
from weighin.ui.kept import State
from weighin.ui.templatetags.ui import weight

MOST_ON_HOME = 100  # events


def _is_day(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) < 4


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """What is published, newest first; members go on to their clubs, an empty site to its first director."""
    if request.user.is_authenticated:
        return redirect("events:mine")
    if nobody_yet() and not public_events().exists():
        return redirect("clubs:begin")
    if settings.SESSION_COOKIE_NAME in request.COOKIES:
        return _published(request)  # who has just signed out is told so
    return shown(request, partial(state_of_site, MINUTE), _published, request.build_absolute_uri("/"))


def _published(request: HttpRequest) -> HttpResponse:
    rows = rows_of(with_results(dated(published(MOST_ON_HOME))))
    return render(request, "public/home.html", {"rows": rows, "clubs": open_clubs()})


@require_safe
@kept(by_host=True)
@public
def event(request: HttpRequest, event: Event) -> HttpResponse:
    """What the event is, who leads, and where to read on."""
    held = embargo_start(event)
    whole = whole_event(event, held)
    ranked = [row for row in whole.standings.outcome.ranked if row.place is not None]
    versions = official_results(event)
    official = versions[0] if versions else None
    changed = official is not None and not stands(official, whole.standings, whole.ledger)
    one = dated([event])[0]
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
        "state": state_said(result_state(event), ZoneInfo(event.time_zone)),
        "draws": are_shown(event),
        "about": data_block(about(one)),
        "stands": one.state,
        "planned": not ranked or one.state.stage in BEFORE,
        "description": event_description(event, ranked[:1], one.state),
        "signs_up": opening_of(event, terms_of(event)).door is Door.OPEN,
    }
    return render(request, "public/event.html", context)


@require_safe
@kept(by_host=True, sort=is_order, q=None, why=None)
@public
def standings(request: HttpRequest, event: Event) -> HttpResponse:
    """The standings as they are now."""
    context = {"event": event, "ledger": ledger(request, event, "public")}
    return render(request, "public/standings.html", context)


@require_safe
@kept(by_host=True)
@public
def result(request: HttpRequest, event: Event, version: int) -> HttpResponse:
    """One version of the official result, as it was frozen."""
    context = {**result_context(event, version), "of_public": True}
    if embargo_start(event) is None:
        whole = proof_document(event)
        if whole["result"]["version"] == version:  # what the code on paper opens checks this version
            context["digest"] = printed(whole["digest"])
    return render(request, "public/result.html", context)


@require_safe
@kept()
@public
def why(request: HttpRequest, event: Event, boat: int) -> HttpResponse:
    """The lines that made one boat's total."""
    return why_lines(request, event, boat, "public", embargo_start(event))


@require_safe
@kept(by_host=True)
@public
def rules(request: HttpRequest, event: Event) -> HttpResponse:
    """The rule sheet in words."""
    context = {"event": event, "sections": sheet_in_words(rules_said(event))}
    context |= {"rule_changes": changes_in(event.rule_sheet.versions), "of_public": True}
    return render(request, "public/rules.html", context)


@require_safe
@kept(by_host=True)
@public
def fish(request: HttpRequest, event: Event) -> HttpResponse:
    """How many fish died, how sure that is, and of what it is said."""
    held = embargo_start(event)
    return render(request, "public/fish.html", {"event": event, "held": held, **panel(event, held)})


@require_safe
@kept(by_host=True, day=_is_day)
@public
def briefing(request: HttpRequest, event: Event) -> HttpResponse:
    """What every boat should know of the day, without the permit."""
    context = {"event": event, "briefing": briefing_asked(request, event)}
    return render(request, "public/briefing.html", context)


@require_safe
@kept(QUARTER, day=_is_day)
@public
def briefing_file(request: HttpRequest, event: Event) -> HttpResponse:
    """The same as PDF."""
    return write_briefing_file(request, event)


@require_safe
@kept(by_host=True)
@public
def draws(request: HttpRequest, event: Event) -> HttpResponse:
    """The launch order, and every draw with its seed and recipe, where the director shows them."""
    return render(request, "public/draws.html", {"event": event, "sheet": public_sheet(event)})


@require_safe
@kept(QUARTER)
@public
def launch_sheet(request: HttpRequest, event: Event) -> HttpResponse:
    """The same as PDF."""
    return launch_file(event, public_sheet(event), crowd=True)


def _drawable(team: Team) -> str:
    """A team's name, or its boat where no font of the picture has the letters of it."""
    return team.name if legible(team.name) else gettext("Boat %(boat)s") % {"boat": team.boat}


@require_safe
@kept()
@public
def drawn(request: HttpRequest, event: Event) -> HttpResponse:
    """The first places as a picture, for links to the event."""
    held = embargo_start(event)
    standings = standings_shown(event, held)
    rows = [
        (
            str(row.place),
            _drawable(row.result.team),
            f"{weight(row.result.total, event.weight_unit)} {event.weight_unit}",
        )
        for row in standings.outcome.ranked
        if row.place is not None
    ]
    where = f"{event.club.name} · {event.water.name} · {figures.day(event.date)}"
    body = picture(event.name, where, rows[:5], dated([event])[0].state.words)
    return HttpResponse(body, content_type="image/png")


@require_safe
@kept(QUARTER)
@public
def api_event(request: HttpRequest, event: Event) -> HttpResponse:
    """The public JSON of the event without its care notes."""
    held = embargo_start(event)
    told = event_document(whole_event(event, held, standings_shown(event, held)))
    del told["fish_care"]  # what each boat did with its fish is for the club
    told["result"] = state_part(result_state(event))
    return HttpResponse(json.dumps(told, ensure_ascii=False).encode(), content_type="application/json")


@require_safe
def openapi(request: HttpRequest) -> HttpResponse:
    """What programs may ask, for programs."""
    return shown(request, lambda: State("this version"), _openapi)


def _openapi(request: HttpRequest) -> HttpResponse:
    text = json.dumps(document(), indent=2, ensure_ascii=False).encode()
    return HttpResponse(text, content_type="application/json")

"""Standings as they are now, and official results."""

from datetime import datetime
from typing import Any
from urllib.parse import urlencode
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.safestring import SafeString
from django.utils.translation import get_language, gettext
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.audit.domain.reading_out import read_out
from weighin.clubs.access import can_in, require
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.records.forms.written import ReasonForm
from weighin.rules.faults import Faults
from weighin.rules.sheets.changes import changes_in
from weighin.slips.queries.slips import last_number, ledger_head
from weighin.standings import services
from weighin.standings.forms import EmbargoForm, ProtestForm, ProtestTimeForm, ReopenForm, RulingForm
from weighin.standings.models import Protest, Ruling
from weighin.standings.pages.changes import changes_said, frozen
from weighin.standings.pages.pictures import bags_of, lead_of
from weighin.standings.pages.places import live_places, official_places
from weighin.standings.pages.state_words import state_said
from weighin.standings.queries.days import days_of, stage_of
from weighin.standings.queries.document import stands
from weighin.standings.queries.embargo import embargo_start, latest_embargo, moment_of
from weighin.standings.queries.ledger_lines import Prizes, ledger_lines, team_notes
from weighin.standings.queries.proof import Proof, proof_of
from weighin.standings.queries.protests import Case, cases_of, minutes_of, result_state
from weighin.standings.queries.scale_error import within_error
from weighin.standings.queries.shown import standings_shown
from weighin.standings.queries.standings import (
    Standings,
    official_results,
    standings_of,
)
from weighin.standings.services import protests as protest_services
from weighin.standings.tables import (
    MOST_DAY_COLUMNS,
    StandingsTable,
    day_columns,
    is_order,
    standing_rows,
    standings_table,
)
from weighin.ui.forms.service import sentence
from weighin.ui.kept import KEEPER, State


@require_safe
@allow(Can.VIEW_EVENT)
def live(request: HttpRequest, event: Event) -> HttpResponse:
    """The standings as they are now, rendered once for a language, a revision and an order."""
    order = request.GET.get("sort", "")
    key = ("ledger", get_language(), event.pk, order)
    # The ledger's links carry on what was asked, and whoever asks writes it: only what this page offers is kept
    plain = request.GET.urlencode() == urlencode({"sort": order} if is_order(order) else {})
    state = State((event.revision, embargo_start(event))) if plain else None
    shown = KEEPER.shown(key, lambda: state, lambda: ledger(request, event, "member"))
    return render(request, "standings/live.html", {"event": event, "ledger": shown})


def ledger(request: HttpRequest, event: Event, reader: str) -> str:
    """The headline and the ledger; the public reads it as of the moment since which places are held back."""
    held = embargo_start(event)
    search, why = request.GET.get("q", "")[:60], request.GET.get("why", "")[:9]
    as_of = held if reader == "public" else None
    standings = standings_shown(event, as_of) if reader == "public" else standings_of(event, as_of)
    official = next(iter(official_results(event)), None)
    end = ledger_head(event, as_of)
    changed = official is not None and not stands(official, standings, end)
    form = _form(standings, reader, official is not None and not changed)
    rows = standing_rows(standings, search, by_angler=reader == "member")
    for row in rows:
        if str(row.boat) == why:
            row.lines = ledger_lines(standings, row.boat)
            row.notes = team_notes(standings, row.boat, form["prize"], officials=reader != "public")
    table = standings_table(rows, form["days"], form["prize"])
    RequestConfig(request, paginate=False).configure(table)
    days = days_of(standings)
    counted = next((day for day in reversed(days) if day.begun), None) if len(days) > 1 else None
    lines_at = reverse("public:why" if reader == "public" else "standings:why", args=[event.slug, 0])
    context: dict[str, Any] = {
        "event": event,
        "places": live_places(table, event, request.GET, form["days"], lines_at, _empty(table, search, reader)),
        "sign": event.club.currency,
        "lead": None if search else lead_of(standings),
        "bags": None if search else bags_of(standings),
        "unit": event.weight_unit,
        "search": search,
        "weighed": len(counted.weighed) if counted else len(standings.weighed),
        "boats": len(counted.boats) if counted else len(standings.entered),
        "of_day": counted.number if counted else None,
        "teams": len(standings.entries),
        "last_slip": last_number(event, as_of),
        "purse": standings.outcome.purse,
        "waiting": standings.waiting,
        "official": official,
        "changed": changed,
        "stage": official.stage if official is not None and not changed else stage_of(days),
        **form,
        "held": held,
        "reader": reader,
        "proof": Proof(end[0], read_out(end[1])) if end[0] else None,
        "within": within_error(standings) if reader == "member" else None,
    }
    return SafeString(render_to_string("standings/ledger.html", context, request=request))


def _empty(table: StandingsTable, search: str, reader: str) -> str:
    """What stands in the list where it has no row."""
    if not search:
        return str(table.empty_text)
    said = (
        gettext("No team, angler or boat matches “%(search)s”.")
        if reader == "member"
        else gettext("No team or boat matches “%(search)s”.")
    )
    return said % {"search": search}


def _form(standings: Standings, reader: str, official: bool) -> dict[str, Any]:
    """Which days have a column, and the head over prizes: none for the public before the result is official."""
    days = day_columns(standings)
    prizes = Prizes.OFFICIAL if official else None if reader == "public" else Prizes.NOW
    return {"days": days if len(days) <= MOST_DAY_COLUMNS else [], "prize": prizes}


@require_safe
@allow(Can.VIEW_EVENT)
def why(request: HttpRequest, event: Event, boat: int) -> HttpResponse:
    """The lines that made one boat's total, for the open row."""
    return why_lines(request, event, boat, "member")


def why_lines(
    request: HttpRequest, event: Event, boat: int, reader: str, as_of: datetime | None = None
) -> HttpResponse:
    """The explaining rows of one boat, by the slips ``as_of`` then. Raises Http404 for a boat that is not entered."""
    standings = standings_of(event, as_of)
    if boat not in standings.entries:
        raise Http404(gettext("There is no boat %(boat)s in this event.") % {"boat": boat})
    official = next(iter(official_results(event)), None)
    form = _form(standings, reader, official is not None and stands(official, standings, ledger_head(event, as_of)))
    context = {
        **form,
        "lines": ledger_lines(standings, boat),
        "notes": team_notes(standings, boat, form["prize"], officials=reader != "public"),
        "boat": boat,
        "unit": event.weight_unit,
    }
    return render(request, "standings/why.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.VIEW_EVENT)
def results(request: HttpRequest, event: Event) -> HttpResponse:
    """The official results, and (for directors) the ways to publish and to close, and what the public sees."""
    may_publish = can_in(request.user, event.club, Can.PUBLISH)
    forms: dict[str, Any] = {"reopen": ReopenForm(), "hold": EmbargoForm()}
    if request.method == "POST":
        require(request.user, event.club, Can.PUBLISH)
        if _act(request, event, forms):
            return redirect("standings:results", event.slug)
    versions = official_results(event)
    context = {"event": event, "versions": versions, "may_publish": may_publish, **forms}
    context["proof"] = proof_of(versions[0]) if versions else None
    context |= {"told": latest_embargo(event), "held": embargo_start(event)}
    stands_now = result_state(event)
    more = stands_now.state != "official" or stands_now.open or stands_now.ruled  # the headline says the rest
    context["state"] = state_said(stands_now, ZoneInfo(event.time_zone)) if more else ""
    return render(request, "standings/results.html", context)


def _act(request: HttpRequest, event: Event, forms: dict[str, Any]) -> bool:
    act, by = request.POST.get("act", ""), request.user.get_username()
    if act in ("open", "take-back"):
        try:
            services.set_public(event, act == "open", by)
        except Faults as faults:
            messages.error(request, sentence(faults.faults[0].message))
        return True
    if act == "hold-back":
        forms["hold"] = hold = EmbargoForm(request.POST)
        return hold.attempt(lambda data: services.start_embargo(event, moment_of(event, data["since"]), by))
    if act == "lift":
        services.lift_embargo(event, by)
        return True
    forms["reopen"] = reopen = ReopenForm(request.POST)
    return act == "reopen" and reopen.attempt(lambda data: services.set_closed(event, False, by, data["reopen_reason"]))


@require_safe
@allow(Can.VIEW_EVENT)
def result(request: HttpRequest, event: Event, version: int) -> HttpResponse:
    """One version of the official result, as it was frozen."""
    return render(request, "standings/result.html", result_context(event, version))


def result_context(event: Event, version: int) -> dict[str, Any]:
    """What a page shows of one version, and what changed since the one before. Raises Http404."""
    versions = {one.version: one for one in official_results(event)}
    found = versions.get(version)
    if found is None:
        raise Http404(gettext("There is no version %(version)s of this result.") % {"version": version})
    before = versions.get(version - 1)
    return {
        "event": event,
        "result": found,
        "unit": event.weight_unit,
        "places": official_places(event, found),
        "proof": proof_of(found),
        "rule_changes": changes_in(event.rule_sheet.versions, found.published_at),
        "before": before,
        "changes": changes_said(frozen(before), frozen(found), event.weight_unit, event.club.currency)
        if before
        else [],
    }


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.HEAR_PROTESTS)
def protests(request: HttpRequest, event: Event) -> HttpResponse:
    """Every protest with what was ruled, a form for the next one, and for how long they are taken."""
    by, act = request.user.get_username(), request.POST.get("act", "")
    form = ProtestForm(request.POST if act == "hand-in" else None)
    minutes = ProtestTimeForm(request.POST if act == "minutes" else None, initial={"minutes": minutes_of(event)})
    if act == "hand-in" and form.attempt(
        lambda data: protest_services.hand_in(event, form.texts(data), by, form.sender_key)
    ):
        messages.info(request, gettext("Protest %(number)s is saved.") % {"number": form.kept.case})
        return redirect("standings:protests", event.slug)
    if act == "minutes" and minutes.attempt(lambda data: protest_services.set_protest_time(event, data["minutes"], by)):
        messages.info(request, gettext("The time for protests is saved. It counts from the next posting."))
        return redirect("standings:protests", event.slug)
    cases = cases_of(event)
    state = result_state(event, cases)
    context = {
        "event": event,
        "form": form,
        "minutes": minutes,
        "cases": [(case, state.until is not None and case.protest.handed_in > state.until) for case in cases],
        "open": [case for case in cases if case.ruling is None],
        "state": state_said(state, ZoneInfo(event.time_zone)),
    }
    return render(request, "standings/protests.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.HEAR_PROTESTS)
def protest(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """One protest: write or correct the ruling, correct or void the protest."""
    case = next((one for one in cases_of(event) if one.number == number), None)
    if case is None:
        raise Http404(gettext("There is no such protest. It may have been voided."))
    act = request.POST.get("act", "")
    ruling = RulingForm(request.POST if act == "rule" else None, said=_said(case.ruling))
    form = ProtestForm(request.POST if act == "correct" else None, said=_said(case.protest))
    void = ReasonForm(request.POST if act == "void" else None, prefix="void")
    said = _written(request, event, case, ruling, form, void)
    if said:
        messages.info(request, said % {"number": number})
        return redirect("standings:protests", event.slug)
    context = {"event": event, "case": case, "ruling": ruling, "form": form, "void": void}
    return render(request, "standings/protest.html", context)


def _written(
    request: HttpRequest, event: Event, case: Case, ruling: RulingForm, form: ProtestForm, void: ReasonForm
) -> str:
    """Do what was asked of a protest; what was done in words, empty where nothing was."""
    by, act = request.user.get_username(), request.POST.get("act", "")
    if act == "rule" and ruling.attempt(
        lambda data: protest_services.rule_on(
            event, case.number, ruling.texts(data), by, ruling.sender_key, case.ruling
        )
    ):
        return gettext("The ruling on protest %(number)s is saved.")
    if act == "correct" and form.attempt(
        lambda data: protest_services.hand_in(event, form.texts(data), by, form.sender_key, case.protest)
    ):
        return gettext("Protest %(number)s is corrected.")
    if act == "void" and void.attempt(lambda data: protest_services.void_protest(case.protest, data["reason"], by)):
        return gettext("Protest %(number)s is voided.")
    return ""


def _said(row: Protest | Ruling | None) -> dict[str, str] | None:
    """What a row says, for the form that corrects it; None where there is none yet."""
    if isinstance(row, Protest):
        return protest_services.PROTESTS.texts(row)
    return None if row is None else protest_services.RULINGS.texts(row)

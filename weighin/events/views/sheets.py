"""A club's rule sheets: listed, read in words, written, compared, copied into an event."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import allow_in_club, require
from weighin.clubs.models import Club
from weighin.events.access import allow
from weighin.events.domain.fees import is_paid
from weighin.events.forms.sheets import CompareForm, CopyForm, NewSheetForm, SheetForm
from weighin.events.models import Event, SheetVersion
from weighin.events.queries.club_sheets import (
    DEFAULTS,
    NamedSheet,
    named_sheet,
    newest,
    read_version,
    sheets_of,
    titled,
    usual_unit,
)
from weighin.events.queries.events import first_slip, rules_of
from weighin.events.services.club_sheets import change_sheet, make_sheet, retire_sheet
from weighin.events.services.rule_sheet import copy_rules, locked_sentence
from weighin.rules import rulebook
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet.keys import KEYS
from weighin.rules.sheets.compared import compared, differing_sections
from weighin.rules.sheets.starting import STARTING
from weighin.rules.weights import UNITS
from weighin.rules.words.sheet import sheet_in_words

form_page = require_http_methods(["GET", "HEAD", "POST"])


@allow_in_club(Can.VIEW_EVENT)
@require_safe
def sheets(request: HttpRequest, club: Club) -> HttpResponse:
    """The club's sheets, and those to start from."""
    unit = usual_unit(club)
    kept = [(sheet, newest(sheet), changed(read_version(newest(sheet)))) for sheet in sheets_of(club)]
    context = {
        "club": club,
        "sheets": [row for row in kept if row[0].retired_at is None],
        "retired": [row for row in kept if row[0].retired_at is not None],
        "starting": STARTING,
        "unit": unit,
        "begin": NewSheetForm(club=club, initial={"unit": unit}),
        "compare": CompareForm(club=club, initial={"other": DEFAULTS}),
    }
    return render(request, "events/sheets/list.html", context)


@allow_in_club(Can.VIEW_EVENT)
@form_page
def sheet(request: HttpRequest, club: Club, sheet_slug: str) -> HttpResponse:
    """One sheet in words, with its versions; ``?version=`` reads an earlier one. A director retires and restores it."""
    version = version_asked(request, club, sheet_slug)
    if request.method == "POST":
        require(request.user, club, Can.MANAGE_EVENT)
        retire_sheet(version.sheet, request.user.get_username(), request.POST.get("act") == "retire")
        return redirect("events:sheet", club.slug, sheet_slug)
    context = {
        "club": club,
        "sheet": version.sheet,
        "version": version,
        "versions": list(version.sheet.versions.all()),
        "words": sheet_in_words(read_version(version)),
        "changed": changed(read_version(version)),
        "total": len(KEYS),
    }
    return render(request, "events/sheets/sheet.html", context)


@allow_in_club(Can.MANAGE_EVENT)
@form_page
def sheets_new(request: HttpRequest, club: Club) -> HttpResponse:
    """Write a sheet, beginning with another one: ``?source=`` and ``?unit=``."""
    unit = request.GET.get("unit", "")
    found = _asked(club, request.GET.get("source", DEFAULTS), unit if unit in UNITS else usual_unit(club))
    rules = found.rules
    by = request.user.get_username()
    form = SheetForm(request.POST or None, written=rules.written(), unit=rules.unit)
    if request.method == "POST" and form.attempt(
        lambda data: make_sheet(club, data["name"], rules.unit, form.rules(), by, data["reason"])
    ):
        messages.info(request, gettext("%(sheet)s is saved.") % {"sheet": form.kept.sheet.name})
        return redirect("events:sheet", club.slug, form.kept.sheet.slug)
    return render(request, "events/sheets/write.html", {"club": club, "form": form, "found": found, "unit": rules.unit})


@allow_in_club(Can.MANAGE_EVENT)
@form_page
def sheet_edit(request: HttpRequest, club: Club, sheet_slug: str) -> HttpResponse:
    """Edit the sheet of a sheet."""
    version = _version(club, sheet_slug)
    found = version.sheet
    by = request.user.get_username()
    form = SheetForm(
        request.POST or None,
        written=version.written,
        unit=found.weight_unit,
        initial={"name": found.name, "seen": version.number},
    )
    if request.method == "POST" and form.attempt(
        lambda data: change_sheet(found, data["name"], form.rules(), by, data["seen"] or 0, data["reason"])
    ):
        messages.info(request, gettext("%(version)s is what stands now.") % {"version": titled(form.kept)})
        return redirect("events:sheet", club.slug, found.slug)
    context = {"club": club, "form": form, "sheet": found, "version": version, "unit": found.weight_unit}
    return render(request, "events/sheets/write.html", context)


@allow_in_club(Can.VIEW_EVENT)
@require_safe
def sheets_compare(request: HttpRequest, club: Club) -> HttpResponse:
    """Two sheets side by side: ``?one=`` and ``?other=``, each of the club, its events, or to start from."""
    asked = [request.GET.get(name, "") for name in ("one", "other")]
    context: dict[str, Any] = {
        "club": club,
        "form": CompareForm(club=club, initial=dict(zip(("one", "other"), asked, strict=True))),
    }
    if any(asked):
        one, other = _pair(club, *asked)
        pairs = compared(one.rules, other.rules)
        context |= {
            "one": one,
            "other": other,
            "sections": differing_sections(one.rules, other.rules),
            "differ": sum(pair.differs for pair in pairs),
            "total": len(pairs),
        }
    return render(request, "events/sheets/compare.html", context)


@allow(Can.MANAGE_EVENT)
@form_page
def rules_copy(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a sheet over the event's: shown beside it first, until the first slip."""
    source = request.POST.get("source") or request.GET.get("source") or ""
    found = _asked(event.club, source, event.weight_unit) if source else None
    paid = is_paid(event, "big_fish_pot")
    form = CopyForm(request.POST or None, club=event.club, initial={"source": source}, pot_is_paid=paid)
    by = request.user.get_username()
    if request.method == "POST" and found and form.attempt(lambda data: copy_rules(event, found, by, data)):
        messages.info(request, gettext("The rules are those of %(sheet)s now.") % {"sheet": found.title})
        return redirect("events:rules", event.slug)
    slip = first_slip(event)
    context = {
        "event": event,
        "locked": None if slip is None else locked_sentence(slip),
        "form": form,
        "found": found,
        "sections": differing_sections(rules_of(event), found.rules) if found else [],
    }
    return render(request, "events/sheets/copy.html", context)


def version_asked(request: HttpRequest, club: Club, slug: str) -> SheetVersion:
    """The version in ``?version=`` of the club's sheet, else the newest. Raises Http404."""
    return _version(club, slug, request.GET.get("version", ""))


def changed(rules: Rulebook) -> int:
    """How many rules differ from the defaults of their unit."""
    return sum(pair.differs for pair in compared(rules, rulebook.defaults(rules.unit)))


def _version(club: Club, slug: str, number: str = "") -> SheetVersion:
    version = _asked(club, f"sheet:{slug}:{number}" if number else f"sheet:{slug}", "lb").version
    assert version is not None
    return version


def _pair(club: Club, one: str, other: str) -> tuple[NamedSheet, NamedSheet]:
    """Two sheets; those without a unit of their own are written in the other's."""
    first = _asked(club, one, usual_unit(club))
    second = _asked(club, other, first.rules.unit)
    return _asked(club, one, second.rules.unit), second


def _asked(club: Club, source: str, unit: str) -> NamedSheet:
    found = named_sheet(club, source, unit)
    if found is None:
        raise Http404(gettext("%(club)s has no such rule sheet.") % {"club": club})
    return found

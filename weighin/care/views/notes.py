"""Fish care: the list of what was noted and measured, and a boat's note of a day."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.care.forms import NoteForm, SettleForm, as_written
from weighin.care.pages.record import note_record
from weighin.care.queries.care import CareRow, care_rows, deep_boats, fingerprint, note_of, waiting_notes, without_note
from weighin.care.services import notes as services
from weighin.care.services.settling import as_note, settle_note
from weighin.care.tables.notes import WHICH, CareTable, chosen, failures
from weighin.care.tables.words import NAMES, bounds_in_words, failed_in_words, held_in_words, passed_in_words
from weighin.checkin.queries.arrivals import table_of
from weighin.clubs.access import can_in, require
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.events.queries.events import lake_temperatures
from weighin.holding.tables import PensTable
from weighin.planning.domain.species import fish_of
from weighin.tanks.tables.tanks import TanksTable

PER_PAGE = 50
LONGEST = 60


@require_safe
@allow(Can.VIEW_EVENT)
def notes(request: HttpRequest, event: Event) -> HttpResponse:
    """A row for every boat and day, who still lacks a note, the tanks and the holding study."""
    entries = list(event.entries.all())
    table = table_of(event, entries)
    lakes = lake_temperatures(event)
    rows = care_rows(event, table, lakes=lakes)
    may_write = can_in(request.user, event.club, Can.RECORD_CARE) and not event.closed_at
    asked = {name: request.GET.get(name, "")[:LONGEST] for name in ("q", "day", "boat", "which")}
    kept = chosen(rows, asked["q"], asked["day"], asked["boat"], asked["which"])
    shown = CareTable(kept, slug=event.slug, days=len(table.calendar.days), may_write=may_write)
    if rows and not kept:
        shown.empty_text = gettext("No boat fits the search. Show all boats, or search for less.")
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(shown)
    checked = [row for row in rows if row.care.passed or row.care.failed]
    lacking = without_note(event, rows, entries, table)
    context = {
        "event": event,
        "table": shown,
        "lines": rows,
        "checked": len(checked),
        "kept_all": len([row for row in checked if not row.care.failed]),
        "failures": [(gettext(NAMES[name]), number) for name, number in failures(checked)],
        "lacking": {day: boats for day, boats in lacking.items() if boats},
        "unit": "boat-day" if len(table.calendar.fished) > 1 else "boat",
        "lack": sum(len(boats) for boats in lacking.values()),
        "noted": len([row for row in rows if row.note is not None]),
        "asked": asked,
        "days": table.calendar.fished,
        "which": WHICH,
        "lakes": [(day, lakes[day]) for day in table.calendar.fished if lakes.get(day)],
        "rules": table.rules,
        "bounds": bounds_in_words(table.rules),
        "deep": deep_boats(event, table.rules),
        "fish": fish_of(table.rules.species),
        "tanks": TanksTable(event.tank_readings.all(), table.calendar),
        "pens": PensTable(event.holding_pens.all()),
        "may_write": may_write,
        "waiting": waiting_notes(event.pk),
    }
    return render(request, "care/notes.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.VIEW_EVENT)
def note(request: HttpRequest, event: Event, day: int, boat: int) -> HttpResponse:
    """A boat's care note of a day: read by every member, written by those who may."""
    table = table_of(event)
    entry = event.entries.filter(boat=boat).first() if boat < 2**31 else None
    if entry is None or day not in table.calendar.days:
        raise Http404(gettext("There is no boat %(boat)s on a day %(day)s in this event.") % {"boat": boat, "day": day})
    lake = lake_temperatures(event).get(day)
    found = note_of(event, day, boat)
    first = {**as_written(found, table.calendar), "seen": fingerprint(found)}
    form = NoteForm(request.POST or None, rules=table.rules, lake=lake, initial=first)
    by = request.user.get_username()
    if request.method == "POST":
        require(request.user, event.club, Can.RECORD_CARE)
        if form.attempt(
            lambda data: services.write_care_note(event, form.written(data, day, boat), by, seen=data["seen"])
        ):
            messages.info(
                request, gettext("The care note of boat %(boat)s, day %(day)s, is saved.") % {"boat": boat, "day": day}
            )
            return redirect("care:notes", event.slug)
        if "seen" in form.errors:
            found = note_of(event, day, boat)
            form.data = {**{name: form.data.get(name, "") for name in form.data}, "seen": fingerprint(found)}
    row = next((r for r in care_rows(event, table) if (r.day, r.entry.boat) == (day, boat)), None)
    context = {
        "event": event,
        "entry": entry,
        "day": day,
        "days": len(table.calendar.days),
        "form": form,
        "lake": lake,
        "rules": table.rules,
        "note": found,
        "fish": fish_of(table.rules.species),
        "deep": [one for one in deep_boats(event, table.rules) if (one.day, one.boat) == (day, boat)],
        "record": note_record(found, table.calendar) if found else [],
        "may_write": can_in(request.user, event.club, Can.RECORD_CARE) and not event.closed_at,
        "waiting": waiting_notes(event.pk).filter(entry=entry, day=day),
        **_care_of(row, table.rules, lake),
    }
    return render(request, "care/note.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.RECORD_CARE)
def note_settle(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """A care note of a phone beside the one it contradicts: an official says which holds."""
    sent = waiting_notes(event.pk).filter(number=number).first() if number < 2**31 else None
    if sent is None:
        raise Http404(gettext("No care note of this number is open: it may be settled already."))
    form, by = SettleForm(request.POST or None), request.user.get_username()
    choice = request.POST.get("holds", "")
    if request.method == "POST" and form.attempt(
        lambda data: settle_note(event, number, choice, data["reason"], by),
    ):
        messages.info(
            request,
            gettext("The care note of boat %(boat)s, day %(day)s, is settled.")
            % {"boat": sent.entry.boat, "day": sent.day},
        )
        return redirect("care:note", event.slug, sent.day, sent.entry.boat)
    calendar = table_of(event).calendar
    standing = note_of(event, sent.day, sent.entry.boat)
    context = {
        "event": event,
        "sent": sent,
        "days": len(calendar.days),
        "standing": note_record(standing, calendar) if standing else [],
        "said": note_record(as_note(sent), calendar),
        "form": form,
    }
    return render(request, "care/note_settle.html", context)


def _care_of(row: CareRow | None, rules: Any, lake: Any) -> dict[str, Any]:
    if row is None:
        return {}
    return {
        "row": row,
        "held": held_in_words(row),
        "passed": passed_in_words(row.care.passed),
        "failed": failed_in_words(row, rules, lake),
    }

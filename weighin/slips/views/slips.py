"""Weigh slips: the list, writing one, its page with the score and its history, and putting one right."""

from collections import Counter
from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe
from django_tables2 import RequestConfig

from weighin.accounts.domain.roles import Can
from weighin.checkin.queries.arrivals import table_of
from weighin.clubs.access import can_in, require
from weighin.events.access import allow
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.records.forms.written import ReasonForm
from weighin.records.parsing.reader import boat_and_day
from weighin.rules.faults import Faults, Together
from weighin.slips.domain.doubts import doubts, usual_per_fish
from weighin.slips.domain.faults import HARD_TO_BELIEVE, OFFICIAL_IS_NO_NAME
from weighin.slips.domain.hints import clock_rules, table_rules
from weighin.slips.domain.known_before import known_before
from weighin.slips.domain.values import rules_slip
from weighin.slips.forms.slips import PARTS, CorrectionForm, SettleForm, SlipForm, SwapForm, fields_of, work_out
from weighin.slips.models import WeighSlip
from weighin.slips.pages.record import slip_record
from weighin.slips.pages.so_far import SoFar, so_far
from weighin.slips.queries.comparing import comparison
from weighin.slips.queries.scale_doubts import doubts_of
from weighin.slips.queries.slips import beside, current_of, current_slips, replaced_by
from weighin.slips.queries.slips import slips as slips_of
from weighin.slips.services import slips as services
from weighin.slips.services.pads import enter_paper
from weighin.slips.tables import STATES, SlipsTable, chosen, slip_rows

PER_PAGE = 50
LONGEST = 60


@require_safe
@allow(Can.VIEW_EVENT)
def slips(request: HttpRequest, event: Event) -> HttpResponse:
    """Every slip of the event, newest first."""
    entries = list(event.entries.all())
    table = table_of(event, entries)
    found = list(slips_of(event))
    doubts = doubts_of(event, found)
    rows = slip_rows(found, table, doubts.marks)
    asked = {name: request.GET.get(name, "")[:LONGEST] for name in ("q", "day", "boat", "state")}
    kept = chosen(rows, asked["q"], asked["day"], asked["boat"], asked["state"])
    fished = table.calendar.fished
    shown = SlipsTable(kept, slug=event.slug, unit=event.weight_unit, days=len(table.calendar.days))
    if rows and not kept:
        shown.empty_text = gettext("No slip fits what you asked for. Show all slips, or ask for less.")
    RequestConfig(request, paginate={"per_page": PER_PAGE}).configure(shown)
    counted = [row for row in rows if row.kind != "replaced"]
    entered = {entry.boat for entry in entries if entry.status == entry.Status.ENTERED}
    written = [row for row in rows if not row.void]
    waiting = [row for row in rows if row.kind == "waiting"]
    doubled = {(row.day, row.boat): row for row in waiting}
    times = Counter((row.day, row.boat) for row in waiting)
    context = {
        "event": event,
        "table": shown,
        "rows": rows,
        "asked": asked,
        "days": fished,
        "states": STATES,
        "boats": len(entered),
        "weighed": len(entered & {row.boat for row in counted}),
        "slips": len(written),
        "replaced": len(written) - len(counted),
        "doubts": doubts,
        "printable": [day for day in fished if any(row.day == day and row.kind == "current" for row in rows)],
        "waiting": [(doubled[key], times[key]) for key in sorted(doubled)],
        "may_write": can_in(request.user, event.club, Can.RECORD_SLIP) and not event.closed_at,
        "may_settle": can_in(request.user, event.club, Can.MANAGE_EVENT),
    }
    return render(request, "slips/slips.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.RECORD_SLIP)
def slips_new(request: HttpRequest, event: Event) -> HttpResponse:
    """Write a slip, in the order of the work."""
    entries = list(event.entries.all())
    table = table_of(event, entries)
    first = {
        "official": str(request.user),
        **({"day": request.GET["day"]} if request.GET.get("day", "").isdigit() else {}),
        **_from_the_line(request, event, table),
    }
    pads = event.paper_pads.exists()
    form = SlipForm(request.POST or None, table=table, entries=entries, now=timezone.now(), pads=pads, initial=first)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: enter_paper(
            event,
            _believed(event, form, form.written(data)),
            data.get("paper_number", ""),
            by,
            form.slip_id,
        )
    ):
        _say_kept(request, form.kept_slip)
        _say_doubts(request, form.kept_slip, table)
        return redirect("slips:slip", event.slug, form.kept_slip.number)
    context = {"event": event, "form": form, **_form_context(request, event, form)}
    return render(request, "slips/slips_new.html", context)


@require_safe
@allow(Can.RECORD_SLIP)
def slip_so_far(request: HttpRequest, event: Event) -> HttpResponse:
    """How the slip that is being written comes out so far; ``corrects`` names the slip it would replace."""
    entries = list(event.entries.all())
    table = table_of(event, entries)
    written = {name: str(value)[:500] for name, value in request.GET.items()}
    found = _so_far(event, written, table, entries, without=request.GET.get("corrects", ""))
    return render(
        request, "slips/so_far.html", {"event": event, "so_far": found, "unit": event.weight_unit, "asked": True}
    )


@require_safe
@allow(Can.VIEW_EVENT)
def slip(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """One slip: what it counts, every value, its history and its place in the ledger."""
    record = slip_record(event, _slip(event, number))
    context = {
        "event": event,
        "record": record,
        "unit": event.weight_unit,
        "may_write": can_in(request.user, event.club, Can.RECORD_SLIP) and not event.closed_at,
        "may_correct": can_in(request.user, event.club, Can.MANAGE_EVENT if record.rivals else Can.CORRECT_SLIP)
        and not event.closed_at,
        "may_settle": can_in(request.user, event.club, Can.MANAGE_EVENT) and not event.closed_at,
    }
    return render(request, "slips/slip.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.CORRECT_SLIP)
def slip_correct(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Write a slip again, with the reason; for another boat it is taken out and kept there."""
    found = _slip(event, number)
    _settled_or_director(request, event, found)
    if request.method != "POST" and _gone(request, found):
        return redirect("slips:slip", event.slug, number)
    entries = list(event.entries.all())
    table = table_of(event, entries)
    form = CorrectionForm(request.POST or None, slip=found, table=table, entries=entries)
    by = request.user.get_username()

    ruling = can_in(request.user, event.club, Can.MANAGE_EVENT)

    def correct(data: dict[str, Any]) -> WeighSlip:
        written = _believed(event, form, form.written(data), found)
        moved = written["boat"].strip() not in ("", str(found.entry.boat))
        return (services.move_slip if moved else services.correct_slip)(found, written, by, ruling, form.slip_id)

    if request.method == "POST" and form.attempt(correct):
        _say_kept(request, form.kept_slip, instead_of=found)
        _say_doubts(request, form.kept_slip, table)
        return redirect("slips:slip", event.slug, form.kept_slip.number)
    context = {"event": event, "form": form, "slip": found, **_form_context(request, event, form, found)}
    return render(request, "slips/slip_correct.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.CORRECT_SLIP)
def slip_void(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Take a slip out, with the reason."""
    found = _slip(event, number)
    _settled_or_director(request, event, found)
    if request.method != "POST" and _gone(request, found):
        return redirect("slips:slip", event.slug, number)
    form = ReasonForm(request.POST or None)
    by = request.user.get_username()
    ruling = can_in(request.user, event.club, Can.MANAGE_EVENT)
    if request.method == "POST" and form.attempt(lambda data: services.void_slip(found, data["reason"], by, ruling)):
        messages.info(
            request,
            gettext(
                "Slip %(number)s is void. It stays readable here; boat %(boat)s may have a new slip for day %(day)s."
            )
            % {"number": number, "boat": found.entry.boat, "day": found.day},
        )
        return redirect("slips:slip", event.slug, number)
    context = {
        "event": event,
        "form": form,
        "slip": found,
        "record": slip_record(event, found),
        "unit": event.weight_unit,
    }
    return render(request, "slips/slip_void.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.CORRECT_SLIP)
def slip_swap(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Two slips keyed for each other's boats, side by side; swapped in one act. ``with`` is the other slip's number."""
    found = _slip(event, number)
    _settled_or_director(request, event, found)
    if request.method != "POST" and _gone(request, found):
        return redirect("slips:slip", event.slug, number)
    asked = request.GET.get("with", "")
    other = _slip(event, int(asked)) if asked.isascii() and asked.isdigit() and len(asked) < 10 else None
    form = SwapForm(request.POST or None)
    if other is not None:
        _settled_or_director(request, event, other)
        by, ruling = request.user.get_username(), can_in(request.user, event.club, Can.MANAGE_EVENT)
        swap = lambda data: services.swap_slips(found, other, data["reason"], by, ruling)  # noqa: E731
        if request.method == "POST" and form.attempt(swap) and form.kept:
            kept, its = form.kept
            messages.info(
                request,
                gettext(
                    "Swapped: slip %(number)s is boat %(boat)s’s, slip %(number2)s is boat %(boat2)s’s. The two before stay readable."
                )
                % {"number": kept.number, "boat": kept.entry.boat, "number2": its.number, "boat2": its.entry.boat},
            )
            return redirect("slips:slip", event.slug, kept.number)
    context = {
        "event": event,
        "form": form,
        "slip": found,
        "other": other,
        "others": [one for one in current_slips(event) if one.day == found.day and one.entry_id != found.entry_id],
        "comparison": comparison(event, [found, other]) if other else None,
    }
    return render(request, "slips/slip_swap.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.MANAGE_EVENT)
def slip_counts(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Two slips of one boat and day beside each other; sent to a slip's address, that one counts."""
    found = _slip(event, number)
    form = SettleForm(request.POST or None)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: services.settle(found, data["reason"], by)) and form.kept:
        messages.info(
            request,
            gettext("Slip %(number)s counts for boat %(boat)s, day %(day)s. The other is void and stays readable.")
            % {"number": number, "boat": found.entry.boat, "day": found.day},
        )
        return redirect("slips:slip", event.slug, number)
    rivals = beside(found)
    if len(rivals) < 2:
        messages.info(
            request,
            gettext("Nothing to settle: boat %(boat)s has no second slip for day %(day)s.")
            % {"boat": found.entry.boat, "day": found.day},
        )
        return redirect("slips:slip", event.slug, number)
    context = {
        "event": event,
        "form": form,
        "slip": found,
        "slips": rivals,
        "comparison": comparison(event, rivals),
        "unit": event.weight_unit,
    }
    return render(request, "slips/slip_counts.html", context)


def _from_the_line(request: HttpRequest, event: Event, table: Table) -> dict[str, str]:
    """The boat that the address names, with the time of its bag when the line gave it one, and when it came in."""
    boat = next((boat for boat in table.boats if str(boat) == request.GET.get("boat")), None)
    day = next((day for day in table.calendar.days if str(day) == request.GET.get("day")), None)
    if boat is None or day is None:
        return {}
    return {"boat": str(boat), **known_before(event, boat, table.calendar, day)}


def _slip(event: Event, number: int) -> WeighSlip:
    found: WeighSlip | None = slips_of(event).filter(number=number).first() if number < 2**31 else None
    if found is None:
        raise Http404(gettext("There is no slip %(number)s in this event.") % {"number": number})
    found.event = event
    return found


def _gone(request: HttpRequest, slip: WeighSlip) -> bool:
    """Whether the slip cannot be corrected any more; says why."""
    after = replaced_by(slip)
    if slip.void:
        messages.warning(
            request,
            gettext("Slip %(number)s voided another slip: add a new slip for boat %(boat)s instead.")
            % {"number": slip.number, "boat": slip.entry.boat},
        )
    elif after is not None:
        messages.warning(
            request,
            gettext("Slip %(number)s was replaced by slip %(number2)s: correct that one.")
            % {"number": slip.number, "number2": after.number},
        )
    return slip.void or after is not None


def _say_kept(request: HttpRequest, slip: WeighSlip, instead_of: WeighSlip | None = None) -> None:
    others = [other.number for other in beside(slip) if other.pk != slip.pk]
    if instead_of is not None and slip.replaces_id is None:
        kept = gettext("Slip %(number)s is saved for boat %(boat)s; slip %(number2)s of boat %(boat2)s is void.") % {
            "number": slip.number,
            "boat": slip.entry.boat,
            "number2": instead_of.number,
            "boat2": instead_of.entry.boat,
        }
    elif instead_of is not None:
        kept = gettext("Slip %(number)s is saved and replaces slip %(number2)s. Both stay readable.") % {
            "number": slip.number,
            "number2": instead_of.number,
        }
    else:
        kept = gettext("Slip %(number)s is saved.") % {"number": slip.number}
    if others:
        named = Together(tuple(others)).shown()
        messages.warning(
            request,
            gettext(
                "%(kept)s Boat %(boat)s has slip %(named)s for day %(day)s already: both stay, and neither counts until a director decides which one does."
            )
            % {"kept": kept, "boat": slip.entry.boat, "named": named, "day": slip.day},
        )
    else:
        messages.info(request, kept)


def _believed(
    event: Event, form: SlipForm, written: dict[str, str], without: WeighSlip | None = None
) -> dict[str, str]:
    """The texts again. Raises Faults as the tablet asks: with the question where figures are hard to
    believe and nobody confirmed them, and where a figure stands for the official’s name."""
    entries = {entry.boat: entry for entry in form.entries}
    others = [one for one in current_slips(event) if without is None or one.pk != without.pk]
    found = so_far(written, form.table, entries, (), usual_per_fish(others, form.table)).doubts
    asked = [] if form.is_believed else [HARD_TO_BELIEVE.at("believed", doubt=doubt.message) for doubt in found]
    official = written.get("official", "").strip()
    if official and not any(sign.isalpha() for sign in official):
        asked.append(OFFICIAL_IS_NO_NAME.at("official", official=official))
    if asked:
        raise Faults(asked)
    return written


def _say_doubts(request: HttpRequest, slip: WeighSlip, table: Table) -> None:
    others = [one for one in current_slips(slip.event) if one.pk != slip.pk]
    for doubt in doubts(table.rules, rules_slip(slip, table), usual_per_fish(others, table)):
        messages.warning(
            request,
            gettext("%(message)s To change it, correct slip %(number)s.")
            % {"message": doubt.message, "number": slip.number},
        )


def _form_context(request: HttpRequest, event: Event, form: SlipForm, slip: WeighSlip | None = None) -> dict[str, Any]:
    written = {name: str(form[name].value() or "") for name in form.fields}
    parts = {name: fields_of(form, names) for name, names in PARTS.items()}
    return {
        "so_far": _so_far(event, written, form.table, form.entries, without=str(slip.number) if slip else ""),
        "asked": form.is_bound or slip is not None,
        "parts": parts,
        "table_rules": table_rules(form.table.rules),
        "clock_rules": clock_rules(form.table.rules),
        "open": {
            name for name, fields in parts.items() if any(field.errors or _filled(field.value()) for field in fields)
        },
        "unit": event.weight_unit,
    }


def _filled(value: Any) -> bool:
    return str(value or "") not in ("", "0")


def _so_far(event: Event, written: Mapping[str, str], table: Any, entries: list[Any], without: str) -> SoFar:
    wanted = boat_and_day(written)
    found = current_of(event, *wanted) if wanted else []
    others = [slip for slip in found if str(slip.number) != without]
    return so_far(work_out(dict(written)), table, {entry.boat: entry for entry in entries}, others)


def _settled_or_director(request: HttpRequest, event: Event, slip: WeighSlip) -> None:
    """Of two slips of one boat and day only a director may take one out or correct it: that would settle them."""
    if len(beside(slip)) > 1:
        require(request.user, event.club, Can.MANAGE_EVENT)

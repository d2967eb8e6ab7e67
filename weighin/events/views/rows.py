"""Write a new row, change one or take it out, on a page of its own."""

from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.text import capfirst
from django.utils.translation import gettext

from weighin.events.forms.rows import RowForm, TakeOutForm
from weighin.events.models import Event
from weighin.events.queries.care_context import care_context_of
from weighin.records.domain.messages import Draft, Sender
from weighin.records.domain.rows import fingerprint
from weighin.records.services.door import write

Address = tuple[str, list[Any]]


def new_row(
    request: HttpRequest,
    event: Event,
    page: type[RowForm],
    *,
    said: Mapping[str, str] = {},
    initial: Mapping[str, str] = {},
    context: Mapping[str, Any] = {},
) -> HttpResponse:
    """Write a new row; what was typed stays when it cannot be kept. ``said`` is what the page knows without asking."""
    form = page(request.POST or None, care_context=care_context_of(event), initial=initial)
    by = Sender(request.user.get_username(), asked=True)
    if request.method == "POST" and form.attempt(
        lambda data: write(form.record, event.pk, form.draft(data, said), by).kept()
    ):
        return _kept(
            request, form, form.__dict__["kept"], gettext("%(what)s is saved: %(row)s."), (form.back, [event.slug])
        )
    return render(request, form.page, {**_context(event, form, (form.back, [event.slug])), **context})


def edit_row(
    request: HttpRequest,
    event: Event,
    page: type[RowForm],
    pk: Any,
    *,
    said: Mapping[str, str] = {},
    context: Mapping[str, Any] = {},
    back: Address | None = None,
) -> HttpResponse:
    """Change a row or take it out."""
    record, way = page.record, back or (page.back, [event.slug])
    rows: Any = record.rows().filter(**{record.holder: event.pk})
    row = rows.filter(pk=pk).first()
    if row is None:
        raise Http404(gettext("There is no such row in this event: it may have been voided."))
    by = Sender(request.user.get_username(), asked=True)
    leaving = request.method == "POST" and request.POST.get("act") == "take_out"
    form = page(
        request.POST if request.method == "POST" and not leaving else None,
        care_context=care_context_of(event),
        row=row,
        initial={"seen": fingerprint(record.fields, row)},
    )
    out = TakeOutForm(request.POST if leaving else None, prefix="out")
    if leaving and out.attempt(
        lambda data: write(record, event.pk, Draft(data, replaces=row.pk, void=True), by).kept()
    ):
        return _kept(request, form, row, gettext("%(what)s is voided: %(row)s."), way)
    if form.is_bound and form.attempt(lambda data: write(record, event.pk, form.draft(data, said), by).kept()):
        return _kept(request, form, row, gettext("%(what)s is saved: %(row)s."), way)
    if "seen" in form.errors:
        row = rows.get(pk=row.pk)
        form.data = {
            **{name: form.data.get(name, "") for name in form.data},
            "seen": fingerprint(record.fields, row),
        }
    shown = {"row": row, "out": out, "record": _record(form, row) if form.errors else []}
    return render(request, form.page, {**_context(event, form, way), **shown, **context})


def _kept(request: HttpRequest, form: RowForm, row: Any, said: str, way: Address) -> HttpResponse:
    messages.info(request, said % {"what": capfirst(form.record.noun), "row": row})
    name, args = way
    return redirect(name, *args)


def _context(event: Event, form: RowForm, way: Address) -> dict[str, Any]:
    name, args = way
    return {
        "event": event,
        "scene": form.care_context,
        "rules": form.care_context.rules,
        "form": form,
        "what": capfirst(form.record.noun),
        "closed": event.closed_at is not None and not form.record.after_closing,
        "back": reverse(name, args=args),
    }


def _record(form: RowForm, row: Any) -> list[tuple[str, str]]:
    """What a row says now, in the form's labels."""
    shown = form.as_written(row, form.care_context)
    return [
        (str(field.label), f"{_named(field, shown[name])} {getattr(field, 'unit', '')}".strip())
        for name, field in form.fields.items()
        if shown.get(name) and field.label
    ]


def _named(field: Any, written: str) -> str:
    """What a page calls it: of a choice its label, not the name that is kept."""
    return next((str(label) for value, label in getattr(field.widget, "choices", ()) if str(value) == written), written)

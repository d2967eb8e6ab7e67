"""Write a new row, change one or take it out, on a page of its own."""

from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from weighin.events.domain.care_context import CareContext
from weighin.events.forms.rows import RowForm, TakeOutForm
from weighin.events.models import Event
from weighin.events.pages import Address, Desk
from weighin.events.queries.care_context import care_context_of
from weighin.events.services.rows import add, change, fingerprint, take_out


def new_row(
    request: HttpRequest,
    event: Event,
    desk: Desk,
    *,
    initial: Mapping[str, str] = {},
    context: Mapping[str, Any] = {},
    back: Address | None = None,
) -> HttpResponse:
    """Write a new row; what was typed stays when it cannot be kept."""
    care_context = care_context_of(event)
    form = desk.form(request.POST or None, care_context=care_context, initial=initial)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: add(desk.book, event, lambda held: desk.read(held, form.written(data)), by, key=form.sender_key)
    ):
        return _kept(request, event, desk, form.__dict__["kept"], "is kept", back)
    return render(request, desk.template, {**_context(event, care_context, desk, form, back), **context})


def edit_row(
    request: HttpRequest,
    event: Event,
    desk: Desk,
    pk: Any,
    *,
    context: Mapping[str, Any] = {},
    back: Address | None = None,
) -> HttpResponse:
    """Change a row or take it out."""
    care_context, book = care_context_of(event), desk.book
    row = book.model._default_manager.filter(pk=pk, **{book.event: event}).first()
    if row is None:
        raise Http404("There is no such row in this event: it may have been taken out.")
    by = request.user.get_username()
    leaving = request.method == "POST" and request.POST.get("act") == "take_out"
    first = {"seen": fingerprint(book, row)}
    form = desk.form(
        request.POST if request.method == "POST" and not leaving else None,
        care_context=care_context,
        row=row,
        initial=first,
    )
    out = TakeOutForm(request.POST if leaving else None, prefix="out")
    if leaving and out.attempt(lambda data: take_out(book, event, row.pk, data["reason"], by)):
        return _kept(request, event, desk, row, "is taken out", back)
    if form.is_bound and form.attempt(
        lambda data: change(
            book, event, row.pk, lambda held: desk.read(held, form.written(data)), by, seen=data["seen"]
        )
    ):
        return _kept(request, event, desk, row, "is kept", back)
    if "seen" in form.errors:
        row = book.model._default_manager.get(pk=row.pk)
        form.data = {**{name: form.data.get(name, "") for name in form.data}, "seen": fingerprint(book, row)}
    shown = {"row": row, "out": out, "record": _record(form, row, care_context) if form.errors else []}
    return render(request, desk.template, {**_context(event, care_context, desk, form, back), **shown, **context})


def _kept(request: HttpRequest, event: Event, desk: Desk, row: Any, done: str, back: Address | None) -> HttpResponse:
    messages.info(request, f"{desk.book.words} {done}: {row}.")
    name, args = back or (desk.back, [event.slug])
    return redirect(name, *args)


def _context(
    event: Event, care_context: CareContext, desk: Desk, form: RowForm, back: Address | None
) -> dict[str, Any]:
    name, args = back or (desk.back, [event.slug])
    return {
        "event": event,
        "scene": care_context,
        "rules": care_context.rules,
        "form": form,
        "what": desk.book.words,
        "closed": event.closed_at is not None and not desk.book.after_closing,
        "back": reverse(name, args=args),
    }


def _record(form: RowForm, row: Any, care_context: CareContext) -> list[tuple[str, str]]:
    """What a row says now, in the form's labels."""
    shown = form.as_written(row, care_context)
    return [
        (str(field.label), f"{shown[name]} {getattr(field, 'unit', '')}".strip())
        for name, field in form.fields.items()
        if shown.get(name) and field.label
    ]

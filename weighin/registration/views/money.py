"""The money of an event: what teams pay, what they owe, and every row that was written."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.records.forms.written import ReasonForm
from weighin.registration.domain.cash import FEE
from weighin.registration.domain.words import called
from weighin.registration.forms.money import DeskForm, PaymentForm
from weighin.registration.models import Payment, SidePot
from weighin.registration.pages.money import owed_rows, payment_rows, pot_rows, received_in_all
from weighin.registration.queries.remembered import last_taken
from weighin.registration.queries.till import teams_of, till_of
from weighin.registration.services.desk import pay_fees
from weighin.registration.services.payments import take_payment, void_payment
from weighin.roster.domain.kinds import named_in_forms
from weighin.ui import figures

form_page = require_http_methods(["GET", "HEAD", "POST"])

OPEN = 12  # newest payments that stand open; those before them are folded


@allow(Can.TAKE_MONEY)
@form_page
def money(request: HttpRequest, event: Event) -> HttpResponse:
    """Take what a team pays; below it what is owed, the side pots and every row."""
    till = till_of(event)
    by = request.user.get_username()
    means = last_taken(event, by)[1]
    form = DeskForm(
        request.POST or None, till=till, initial={"entry": request.GET.get("team", "")[:12], "means": means}
    )
    if request.method == "POST" and form.attempt(
        lambda data: pay_fees(event, data["entry"], form.ticked(data), data["means"], by, form.sender_key)
    ):
        saved: list[Payment] = form.kept
        said = {"team": called(saved[0].entry), "amount": figures.money(sum(row.amount for row in saved))}
        messages.info(request, gettext("%(team)s has paid %(amount)s.") % said)
        return redirect("registration:money", event.slug)
    owed, rows = owed_rows(till), payment_rows(event)
    context = {
        "event": event,
        "form": form,
        "cash": till.cash,
        "received": received_in_all(till) - till.cash.back,
        "owed": owed,
        "owing": len({row.entry.pk for row in owed if row.amount > 0}),
        "newest": rows[:OPEN],
        "older": rows[OPEN:],
        "pots": pot_rows(till, list(SidePot.objects.filter(event=event))),
        "teams": len(till.entries),
        "paid": len(till.cash.in_on[FEE]),
        "sign": event.club.currency,
    }
    return render(request, "registration/money.html", context)


@allow(Can.TAKE_MONEY)
@form_page
def other(request: HttpRequest, event: Event) -> HttpResponse:
    """Another amount than a whole fee, or money given back."""
    form = PaymentForm(request.POST or None, till=till_of(event), entry=request.GET.get("team", "")[:12])
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(
        lambda data: take_payment(event, form.texts(data), by, id=form.sender_key)
    ):
        messages.info(request, gettext("Payment %(number)s is saved.") % {"number": form.kept.number})
        return redirect("registration:money", event.slug)
    return render(request, "registration/other.html", {"event": event, "form": form})


@allow(Can.TAKE_MONEY)
@form_page
def payment(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Correct a row by another one, or void it; both stay in the list."""
    old = Payment.objects.current().filter(event=event, number=number).select_related("entry").first()
    if old is None:
        raise Http404(gettext("There is no such payment that counts: it may have been corrected or voided."))
    by, act = request.user.get_username(), request.POST.get("act", "")
    form = PaymentForm(request.POST if act == "correct" else None, till=till_of(event), old=old)
    void = ReasonForm(request.POST if act == "void" else None, prefix="void")
    if act == "correct" and form.attempt(
        lambda data: take_payment(event, form.texts(data), by, corrects=number, id=form.sender_key)
    ):
        messages.info(request, gettext("Payment %(number)s is corrected.") % {"number": number})
        return redirect("registration:money", event.slug)
    if act == "void" and void.attempt(lambda data: void_payment(old, data["reason"], by)):
        messages.info(request, gettext("Payment %(number)s is voided.") % {"number": number})
        return redirect("registration:money", event.slug)
    context = {
        "event": event,
        "form": form,
        "void": void,
        "old": old,
        "team": called(old.entry),
        "sign": event.club.currency,
    }
    return render(request, "registration/payment.html", context)


@allow(Can.TAKE_MONEY)
@require_safe
def receipt(request: HttpRequest, event: Event, team: str) -> HttpResponse:
    """What a team has paid, to print."""
    entry = next((one for one in teams_of(event) if named_in_forms(one) == team), None)
    if entry is None:
        raise Http404(gettext("There is no such team in this event."))
    rows = [row for row in payment_rows(event) if row.payment.entry_id == entry.pk and not row.out]
    context = {
        "event": event,
        "team": called(entry),
        "rows": rows[::-1],
        "total": sum(row.payment.amount for row in rows),
        "sign": event.club.currency,
    }
    return render(request, "registration/receipt.html", context)

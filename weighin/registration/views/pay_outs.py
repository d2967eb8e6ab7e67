"""The cash-up sheet, and prizes handed over."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext
from django.views.decorators.http import require_http_methods, require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import require
from weighin.events.access import allow
from weighin.events.models import Event
from weighin.records.forms.written import ReasonForm
from weighin.registration.domain.words import called
from weighin.registration.forms.money import PayeesForm, PayOutForm
from weighin.registration.models import PayOut
from weighin.registration.pages.money import (
    expected_lines,
    owed_rows,
    purse_lines,
    received_in_all,
    received_lines,
)
from weighin.registration.pages.pay_outs import payee_limit, payees_said, prize_places, prize_rows, too_much_said
from weighin.registration.queries.cash_up import cash_up_of
from weighin.registration.services.pay_outs import list_payees_above, pay_out, void_pay_out
from weighin.ui import figures

form_page = require_http_methods(["GET", "HEAD", "POST"])


@allow(Can.TAKE_MONEY)
@require_safe
def cash_up(request: HttpRequest, event: Event) -> HttpResponse:
    """The whole sheet, to count the box by and to print."""
    found = cash_up_of(event)
    context = {
        "event": event,
        "cash": found.till.cash,
        "difference": found.difference,
        "expected": expected_lines(found.till),
        "expected_in_all": sum(found.till.cash.expected.values()),
        "received": received_lines(found.till),
        "received_in_all": received_in_all(found.till),
        "owed": owed_rows(found.till),
        "purse": purse_lines(found),
        "sign": event.club.currency,
    }
    return render(request, "registration/cash_up.html", context)


@allow(Can.TAKE_MONEY)
@form_page
def pay_outs(request: HttpRequest, event: Event) -> HttpResponse:
    """Every prize by the standings as they are, and to whom it was handed over."""
    found = cash_up_of(event)
    sign, act = event.club.currency, request.POST.get("act", "")
    form = PayOutForm(None if act == "payees" else request.POST or None, due=found.due, sign=sign)
    limit = payee_limit(event)
    payees = PayeesForm(
        request.POST if act == "payees" else None, initial={"above": "" if limit is None else f"{limit:.2f}"}
    )
    by = request.user.get_username()
    if act == "payees":
        require(request.user, event.club, Can.MANAGE_CLUB)
        if payees.attempt(lambda data: list_payees_above(event.club, data["above"], by)):
            messages.info(request, gettext("The sum is saved for the club."))
            return redirect("registration:pay_outs", event.slug)
    elif request.method == "POST" and form.attempt(lambda data: pay_out(event, form.texts(data), by, form.sender_key)):
        row: PayOut = form.kept
        said = {"team": called(row.entry), "amount": figures.money(row.amount), "who": row.received_by}
        messages.info(request, gettext("%(team)s: %(amount)s is paid out to %(who)s.") % said)
        return redirect("registration:pay_outs", event.slug)
    paid = PayOut.objects.current().filter(event=event).select_related("entry")
    context = {
        "event": event,
        "form": form if form.due else None,
        "state": found.state,
        "prizes": prize_places(prize_rows(found)),
        "waits": sum(due.left for due in found.due if due.waits and due.left > 0),
        "too_much": too_much_said(found),
        "limit": limit,
        "payees": payees,
        "above": payees_said(found),
        "left": sum(due.left for due in found.due if due.left > 0),
        "total": sum(due.amount for due in found.due),
        "unclaimed": found.unclaimed,
        "rows": [(row, called(row.entry)) for row in paid],
        "sign": sign,
    }
    return render(request, "registration/pay_outs.html", context)


@allow(Can.TAKE_MONEY)
@form_page
def pay_out_void(request: HttpRequest, event: Event, number: int) -> HttpResponse:
    """Void a pay-out that was written wrong."""
    row = PayOut.objects.current().filter(event=event, number=number).select_related("entry").first()
    if row is None:
        raise Http404(gettext("There is no such pay-out that counts: it may have been voided."))
    form = ReasonForm(request.POST or None)
    by = request.user.get_username()
    if request.method == "POST" and form.attempt(lambda data: void_pay_out(row, data["reason"], by)):
        messages.info(request, gettext("Pay-out %(number)s is voided.") % {"number": number})
        return redirect("registration:pay_outs", event.slug)
    context = {"event": event, "form": form, "row": row, "team": called(row.entry), "sign": event.club.currency}
    return render(request, "registration/pay_out_void.html", context)
